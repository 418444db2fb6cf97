package main

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/messages/text"
)

// grade is the Flesch-Kincaid grade.
//
//	0.39 W/S + 11.8 Syl/W - 15.59
//
// Source: Kincaid et al. 1975, from memory; the scores of a public text library
// (testdata/worked/words) confirm it.
func grade(words, sentences, syllables int) float64 {
	w := float64(words)
	return 0.39*w/float64(sentences) + 11.8*float64(syllables)/w - 15.59
}

func rows(t *testing.T, name string) [][]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "worked", "words", name))
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	all, err := r.ReadAll()
	require.NoError(t, err)
	require.Greater(t, len(all), 3)
	return all[1:]
}

func TestGradeAgainstPublishedScores(t *testing.T) {
	n := 0
	for _, r := range rows(t, "readability.csv") {
		if r[6] != "flesch_kincaid_grade" {
			continue
		}
		w, _ := strconv.Atoi(r[1])
		s, _ := strconv.Atoi(r[2])
		syl, _ := strconv.Atoi(r[3])
		want, err := strconv.ParseFloat(r[7], 64)
		require.NoError(t, err)
		assert.InDelta(t, want, grade(w, s, syl), 0.0006, r[0])
		n++
	}
	require.Equal(t, 3, n)
}

// syllables counts groups of vowels, less a silent e. It is a test's ruler, good
// to one syllable on odd words.
func syllables(word string) int {
	word = strings.ToLower(strings.TrimFunc(word, func(r rune) bool { return !unicode.IsLetter(r) }))
	word, possessive := strings.CutSuffix(word, "'s")
	_ = possessive
	n, in := 0, false
	for _, r := range word {
		vowel := strings.ContainsRune("aeiouy", r)
		if vowel && !in {
			n++
		}
		in = vowel
	}
	silent := strings.HasSuffix(word, "e") && !strings.HasSuffix(word, "le") || strings.HasSuffix(word, "es") && !regexp.MustCompile(`(s|x|z|ch|sh|g|c)es$`).MatchString(word) || strings.HasSuffix(word, "ed") && !regexp.MustCompile(`[td]ed$`).MatchString(word)
	if silent && n > 1 {
		n--
	}
	return max(n, 1)
}

func TestSyllablesAgainstPublishedCounts(t *testing.T) {
	for _, r := range rows(t, "syllables.csv") {
		want, err := strconv.Atoi(r[1])
		require.NoError(t, err)
		margin, err := strconv.Atoi(r[2])
		require.NoError(t, err)
		assert.InDelta(t, want, syllables(r[0]), float64(margin)+0.5, r[0])
	}
}

// tradeWords are the trade's own and have no plainer twin; they are left out of
// the grade, as numbers are.
var tradeWords = regexp.MustCompile(`(?i)^(membrane|adhesive|fascia|parapet|coping|copings|upstand|upstands|gutter|asbestos|diagonal|diagonals|strutting|noggin|noggins|flashing|rooflight|rooflights|eurocode|engineer|anchor|anchors|ladder|moisture|primer|solvent|temperature|building|control|batten|battens|overlap|overlaps|material|materials)$`)

// TestPlainWords holds the English to plain sentences: at most 12 words each on
// average far fewer, and a grade of 6 for the whole.
func TestPlainWords(t *testing.T) {
	slot := regexp.MustCompile(`\{[^}]*\}`)
	end := regexp.MustCompile(`[.?!:;]+(\s|$)`)
	words, sentences, syl := 0, 0, 0
	var long []string
	for _, k := range text.For("en").Keys() {
		if k == "help" || strings.HasPrefix(k, "eg.") || strings.HasPrefix(k, "hear.example") || strings.HasPrefix(k, "pick.") || strings.HasPrefix(k, "item.") {
			continue // lists and labels are no sentences
		}
		for _, s := range end.Split(slot.ReplaceAllString(text.For("en").Template(k), "9"), -1) {
			n := 0
			for _, w := range strings.Fields(s) {
				w = strings.TrimFunc(w, func(r rune) bool { return !unicode.IsLetter(r) })
				if w == "" {
					continue
				}
				n++
				if !tradeWords.MatchString(w) {
					words++
					syl += syllables(w)
				}
			}
			if n > 0 {
				sentences++
			}
			if n > 12 {
				long = append(long, k+": "+s)
			}
		}
	}
	g := grade(words, sentences, syl)
	t.Logf("%d words in %d sentences, %.1f a sentence, grade %.1f", words, sentences, float64(words)/float64(sentences), g)
	assert.LessOrEqual(t, g, 6.0)
	assert.Empty(t, long, "sentences of more than 12 words")
}

package hear

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

type tokenKind uint8

const (
	digits tokenKind = iota // 0-9 only
	word                    // letters, lower case, without accents and apostrophes
	mark                    // one sign
	vulgar                  // ½ and its like
)

// token is the smallest piece of an answer. Decimal points and groups of
// thousands are not settled here: their meaning depends on the reading tried.
type token struct {
	kind     tokenKind
	text     string
	num      float64 // vulgar: its value
	space    bool    // a space or line end before it
	line     bool    // a line end before it
	from, to int     // bytes of the cleaned text
}

var fractions = map[rune]float64{
	'½': 1. / 2, '¼': 1. / 4, '¾': 3. / 4, '⅓': 1. / 3, '⅔': 2. / 3,
	'⅛': 1. / 8, '⅜': 3. / 8, '⅝': 5. / 8, '⅞': 7. / 8,
	'⅕': 1. / 5, '⅖': 2. / 5, '⅗': 3. / 5, '⅘': 4. / 5, '⅙': 1. / 6, '⅚': 5. / 6, '⅒': 1. / 10,
}

// marks maps the many spellings of a sign to one.
var marks = map[rune]string{
	'’': "'", '‘': "'", '′': "'", '`': "'", '´': "'", 'ʹ': "'", '‛': "'",
	'”': `"`, '“': `"`, '″': `"`, '˝': `"`, '‟': `"`, 'ʺ': `"`, '„': `"`, '«': `"`, '»': `"`,
	'×': "x", '✕': "x", '✖': "x", '*': "x", '⨯': "x", '╳': "x",
	'−': "-", '–': "-", '—': "-", '‐': "-", '‑': "-", '‒': "-", '﹣': "-",
	'⁄': "/", '∕': "/", '÷': "/", 'º': "°", '˚': "°", '∶': ":",
	'،': ",", '、': ",", '٫': ",", '·': ".", '…': "...",
}

// composed are single characters that stand for a whole unit.
var composed = map[rune]string{
	'℃': "°c", '℉': "°f", '㎜': "mm", '㎝': "cm", '㎡': "m2", '㎏': "kg", '㎖': "ml", 'ℓ': "l",
}

// scan cuts cleaned text into tokens, in one pass.
func scan(text string) []token {
	var out []token
	space, line := false, false
	add := func(k tokenKind, s string, from, to int) {
		out = append(out, token{kind: k, text: s, space: space, line: line, from: from, to: to})
		space, line = false, false
	}
	for i := 0; i < len(text); {
		r, n := utf8.DecodeRuneInString(text[i:])
		switch {
		case r == ' ' || r == '\n':
			space = true
			line = line || r == '\n'
		case r >= '0' && r <= '9':
			j := i
			for j < len(text) && text[j] >= '0' && text[j] <= '9' {
				j++
			}
			add(digits, text[i:j], i, j)
			n = j - i
		case fractions[r] != 0:
			add(vulgar, string(r), i, i+n)
			out[len(out)-1].num = fractions[r]
		case composed[r] != "":
			s := composed[r]
			if rest, ok := strings.CutPrefix(s, "°"); ok {
				add(mark, "°", i, i+n)
				s = rest
			}
			add(word, s, i, i+n)
		case unicode.IsLetter(r) && r != 'º':
			s, j := scanWord(text, i)
			if cut, ok := strings.CutSuffix(s, "x"); ok && cut != "" && j < len(text) && text[j] >= '0' && text[j] <= '9' &&
				len(out) > 0 && out[len(out)-1].kind != word && len(cut) <= 4 {
				add(word, cut, i, j-1) // 2440mmx1220
				add(mark, "x", j-1, j)
			} else {
				add(word, s, i, j)
			}
			n = j - i
		default:
			s := marks[r]
			if s == "" {
				s = string(r)
			}
			last := len(out) - 1
			if s == "'" && !space && last >= 0 && out[last].text == "'" && out[last].kind == mark {
				out[last].text, out[last].to = `"`, i+n
				break
			}
			add(mark, s, i, i+n)
		}
		i += n
	}
	return timesMarks(out)
}

// scanWord folds the word that begins at text[i] and returns where it ends. An
// apostrophe between letters belongs to it; a small 2 or 3 above does too.
func scanWord(text string, i int) (string, int) {
	var b strings.Builder
	for i < len(text) {
		r, n := utf8.DecodeRuneInString(text[i:])
		switch {
		case r == '²':
			b.WriteByte('2')
			return b.String(), i + n
		case r == '³':
			b.WriteByte('3')
			return b.String(), i + n
		case unicode.IsLetter(r) && composed[r] == "":
			fold(&b, r)
		case unicode.Is(unicode.Mn, r): // an accent sent apart from its letter
		case marks[r] == "'" || r == '\'':
			next, _ := utf8.DecodeRuneInString(text[i+n:])
			if !unicode.IsLetter(next) {
				return b.String(), i
			}
		default:
			return b.String(), i
		}
		i += n
	}
	return b.String(), i
}

// plainLetters are letters with an accent, each run after the letter it folds to.
var plainLetters = func() map[rune]string {
	m := map[rune]string{'ß': "ss", 'æ': "ae", 'œ': "oe"}
	for _, row := range []string{"aàáâãäåāăą", "cçćč", "dďđ", "eèéêëēęě", "gğ", "iìíîïīı", "lłľ", "nñńň",
		"oòóôõöøōő", "rŕř", "sśšşș", "tťţț", "uùúûüūůű", "yýÿ", "zźżž"} {
		letters := []rune(row)
		for _, r := range letters[1:] {
			m[r] = string(letters[0])
		}
	}
	return m
}()

func fold(b *strings.Builder, r rune) {
	r = unicode.ToLower(r)
	if s, ok := plainLetters[r]; ok {
		b.WriteString(s)
		return
	}
	b.WriteRune(r)
}

// folded folds a table entry the way scan folds what a person writes.
func folded(s string) string {
	toks := scan(s)
	words := make([]string, len(toks))
	for i, t := range toks {
		words[i] = t.text
	}
	return strings.Join(words, " ")
}

// timesMarks turns a lone letter x between two measures into the sign ×.
func timesMarks(toks []token) []token {
	for i := range toks {
		t := &toks[i]
		if t.kind == word && t.text == "x" && i > 0 && i+1 < len(toks) {
			t.kind = mark
		}
	}
	return toks
}

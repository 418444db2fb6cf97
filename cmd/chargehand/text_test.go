package main

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/hear"
	"chargehand/messages/text"
)

// Every key the conversation can say has words in every language, and every
// language has words for the same keys with the same arguments.
func TestEveryKeyHasWordsInEveryLanguage(t *testing.T) {
	keys := append(flow.Keys(), hear.Keys()...)
	require.Greater(t, len(keys), 300)
	for _, lang := range text.Languages() {
		for _, k := range keys {
			assert.True(t, text.For(lang).Has(k), "%s has no words for %s", lang, k)
		}
		for _, k := range text.For("en").Keys() {
			assert.True(t, text.For(lang).Has(k), "%s has no words for %s", lang, k)
		}
	}
}

// Every string in flow's sources that looks like a key, and is handed to a
// phrase, has words: this catches the keys that no list knows.
func TestKeysInTheSourcesHaveWords(t *testing.T) {
	looksLikeKey := regexp.MustCompile(`^(ask|why|name|pick|told|choice|choose|against|wind|caution|doubt|refuse|already|rang|tap|clock|rest|where|list|word|reason|risk|face|exit|load|cond|method|change|rain|stop|paused|reopened|timers|snag|noted|put-off|came|priced|solved|outlet|run|label|picture)[.][a-z0-9.-]*[a-z0-9]$`)
	seen := 0
	for _, room := range []string{"flow", "flow/draw"} {
		dir := filepath.Join("..", "..", filepath.FromSlash(room))
		entries, err := os.ReadDir(dir)
		require.NoError(t, err)
		for _, e := range entries {
			if e.IsDir() || !strings.HasSuffix(e.Name(), ".go") || strings.HasSuffix(e.Name(), "_test.go") {
				continue
			}
			f, err := parser.ParseFile(token.NewFileSet(), filepath.Join(dir, e.Name()), nil, 0)
			require.NoError(t, err)
			ast.Inspect(f, func(n ast.Node) bool {
				lit, ok := n.(*ast.BasicLit)
				if !ok || lit.Kind != token.STRING {
					return true
				}
				s, err := strconv.Unquote(lit.Value)
				if err == nil && looksLikeKey.MatchString(s) {
					seen++
					assert.True(t, text.For("en").Has(s), "%s: no words for %q", e.Name(), s)
				}
				return true
			})
		}
	}
	require.Greater(t, seen, 100, "the search found hardly any keys")
}

// Every figure that a change can move has a name.
func TestFiguresHaveNames(t *testing.T) {
	src, err := os.ReadFile(filepath.Join("..", "..", "calc", "plan", "diff.go"))
	require.NoError(t, err)
	keys := regexp.MustCompile(`put\("[a-z-]+", "([a-z-]+)"`).FindAllStringSubmatch(string(src), -1)
	require.Greater(t, len(keys), 30)
	for _, lang := range text.Languages() {
		for _, k := range keys {
			assert.True(t, text.For(lang).Has("fig."+k[1]), "%s: fig.%s", lang, k[1])
		}
	}
}

// What this program never says: it gives the number, the limit and whom to ask.
func TestNeverSaysSafe(t *testing.T) {
	never := regexp.MustCompile(`(?i)\b(safe|safely|compliant|compliance|ok to build|exempt|guaranteed)\b`)
	for _, lang := range text.Languages() {
		for _, k := range text.For(lang).Keys() {
			assert.NotRegexp(t, never, text.For(lang).Template(k), "%s %s", lang, k)
		}
	}
}

package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// room is a folder and what its code may import beside the standard library.
type room struct {
	path   string
	may    []string // our own packages, a trailing /... takes those below
	others []string // other modules, by prefix
	not    []string // packages of the standard library it may not import
}

// pure is what arithmetic and conversation have no business with.
var pure = []string{"os", "os/...", "net", "net/...", "math/rand", "math/rand/...", "crypto/rand", "log", "log/...", "io/fs", "time/tzdata"}

// rooms, the narrower path first: the first that fits a file holds for it.
var rooms = []room{
	{path: "calc/unit", not: append([]string{"time", "context", "encoding/json"}, pure...)},
	{path: "calc", may: []string{"calc", "calc/..."}, not: append([]string{"time", "context", "encoding/json"}, pure...)},
	{path: "flow/event", may: []string{"calc/unit", "calc/geom"}, not: pure},
	{path: "flow/talk", may: []string{"calc/unit", "calc/geom"}, not: pure},
	{path: "flow/hear", may: []string{"calc/unit", "calc/weather", "flow/hear", "flow/hear/..."}, not: pure},
	{path: "flow/runner", may: []string{"flow", "flow/event", "flow/talk"}, not: []string{"os", "net", "net/..."}},
	// Pictures are pure like the rest of the conversation, but most of it has no
	// business with them: a room of its own keeps their arithmetic apart.
	{path: "flow/draw/drawtest", may: []string{"calc", "calc/...", "flow/talk", "flow/draw"}, not: []string{"os", "os/...", "net", "net/..."}}, // roofs for tests, random ones too
	{path: "flow/draw", may: []string{"calc", "calc/...", "flow/talk"}, not: pure},
	{path: "flow", may: []string{"calc", "calc/...", "flow/event", "flow/talk", "flow/draw", "flow/hear", "flow/hear/..."}, others: []string{"github.com/looplab/fsm"}, not: pure},
	{path: "store/storetest", may: []string{"flow/event", "store"}, others: []string{"github.com/stretchr/testify"}},
	{path: "store", may: []string{"flow/event", "calc/unit", "store", "store/..."}, others: []string{"go.etcd.io/bbolt"}, not: []string{"net/http"}},
	{path: "messages/text", may: []string{"flow/talk", "calc/unit", "calc/geom"}, others: []string{"golang.org/x/text"}},
	{path: "messages/picture", may: []string{"flow/talk", "calc/unit", "calc/geom", "messages/text"}, others: []string{"gonum.org/v1/plot", "golang.org/x/image", "golang.org/x/text"}},
	{path: "messages/term", may: []string{"flow/talk", "calc/unit", "messages/text"}, others: []string{"golang.org/x/term"}},
	{path: "messages/record", may: []string{"flow/talk", "flow/event", "calc/unit", "messages/text"}},
	{path: "cmd", may: []string{"calc", "calc/...", "flow", "flow/...", "store", "store/...", "messages/..."}, others: []string{"github.com/", "golang.org/x/", "gonum.org/"}},
}

// TestImportDirections reads the imports of every file: calc knows nobody, the
// conversation knows no store and no channel, and nobody imports cmd. It parses
// in-process, because asking the go command would pass stale from its cache.
func TestImportDirections(t *testing.T) {
	root := filepath.Join("..", "..")
	files := 0
	require.NoError(t, filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, path)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		if d.IsDir() && rel != "." && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata") {
			return filepath.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(rel, ".go") || strings.HasSuffix(rel, "_test.go") {
			return nil
		}
		files++
		i := slices.IndexFunc(rooms, func(r room) bool { return rel == r.path || strings.HasPrefix(rel, r.path+"/") })
		if !assert.GreaterOrEqual(t, i, 0, "%s stands in no room", rel) {
			return nil
		}
		r := rooms[i]
		src, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, src, parser.ImportsOnly)
		if err != nil {
			return err
		}
		for _, spec := range f.Imports {
			name, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			assert.True(t, r.allows(name), "%s imports %s", rel, name)
		}
		return nil
	}))
	require.Greater(t, files, 100, "the walk found hardly any files: it looks in the wrong place")
}

func (r room) allows(name string) bool {
	own, isOwn := strings.CutPrefix(name, "chargehand/")
	switch {
	case isOwn:
		return matches(own, r.may)
	case strings.Contains(strings.Split(name, "/")[0], "."):
		return slices.ContainsFunc(r.others, func(o string) bool { return strings.HasPrefix(name, o) })
	}
	return !matches(name, r.not)
}

func matches(name string, patterns []string) bool {
	for _, p := range patterns {
		if below, ok := strings.CutSuffix(p, "/..."); ok {
			if strings.HasPrefix(name, below+"/") {
				return true
			}
		} else if name == p {
			return true
		}
	}
	return false
}

// The top level holds what the layout names, and nothing else.
func TestTopLevel(t *testing.T) {
	entries, err := os.ReadDir(filepath.Join("..", ".."))
	require.NoError(t, err)
	want := []string{"cmd", "flow", "calc", "store", "messages", "testdata", "go.mod", "go.sum", "README.md", "DEVELOPERS.md"}
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), ".") && e.Name() != "LICENSE" {
			assert.Contains(t, want, e.Name())
		}
	}
}

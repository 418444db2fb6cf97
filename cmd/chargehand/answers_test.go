package main

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/stretchr/testify/require"
)

var answers = flag.Bool("answers", false, "write the answers of the long stories anew, after a question was added; then run with -update")

// script is what was typed, a line with its time each.
func (w *walker) script() string { return strings.Join(w.typed, "") }

// stamp is a line of a script: when it is sent, and what is said.
func (w *walker) stamp(text string) string {
	return "@" + w.now.Format(time.RFC3339) + " " + text + "\n"
}

// TestAnswersOfTheStories holds the answers of the stories that walk far
// against the walker's: they are its lines, so that a new question shows up as
// one changed line and not as a story that answers the wrong questions.
func TestAnswersOfTheStories(t *testing.T) {
	whole := func(a map[string]string) string {
		w := newWalker(t)
		w.to("", a)
		return w.script()
	}
	until := func(step string, then ...string) string {
		w := newWalker(t)
		w.to(step, leanTo)
		for _, s := range then {
			w.say(s)
		}
		return w.script()
	}
	hotWalk, hotDay := hotDayStory(t)
	rainWalk, rainAtHalf := rainStory(t)
	searched := func() string {
		w := newWalker(t)
		w.to("deck-cut", with(leanTo, "length", "3000 3600", "edges", "1 3 3 3", "clear-span", "3300", "board", "2440 1220", "bed-joint", "38"))
		w.say("change upstand cut no")
		w.say("change upstand cut yes")
		w.say("change board top 176")
		return w.script()
	}
	oldJoists := func() string {
		w := newWalker(t)
		w.to("deck-fixed", with(leanTo, "joists-stay", "the old ones stay", "joist", "47 195", "board", "2440 1220", "joist-centres", "24 600 1200 1800 2400 3000 3600 4177",
			"joist-falls", "0 0 0 7 0 0 0 0", "joist-falls#2", "0 0 0 0 0 0 0 0"))
		return w.script()
	}
	for _, story := range []struct{ file, section, want string }{
		{"hot-day", "before", hotWalk}, {"hot-day", "day", hotDay},
		{"rain-at-half", "before", rainWalk}, {"rain-at-half", "day", rainAtHalf},
		{"lean-to", "answers", whole(leanTo)},
		{"four-free-edges", "answers", whole(fourFree)},
		{"l-shape", "answers", whole(lShape)},
		{"u-round-a-chimney", "answers", whole(uShape)},
		{"out-of-square", "answers", whole(outOfSquare)},
		{"centres-changed", "answers", until("deck-fixed", "change centres 600", "n", "change centres 600", "yes", ".")},
		{"put-off", "first", until("lead", "put off spring", "where", "t")},
		{"searched-on", "answers", searched()},
		{"old-joists", "answers", oldJoists()},
		{"sheet-short", "answers", until("sheet-got", "4500 3138", "?", "another sheet", "4.5 3.35", "yes")},
		{"short-delivery", "answers", until("deck-cut", "came boards 3", "list", "yes", "no", "came 2 boards", "came battens 1", "came 1 batten 4.8 m", "came marble 2")},
		{"prices", "answers", until("board-thick", "price boards £18.50", "price joists 3.3 11", "price joists 4800 15.9", "price deck adhesive 5 l 42", "price marble 4", "price joists", "list")},
		{"prices", "second", until("board-thick", "list", "price joists 3.3 none", "list")},
		{"stopped", "first", until("chase", "p", "deck covered with a tarp")},
	} {
		name := filepath.Join("..", "..", "testdata", "script", story.file+".txtar")
		a, err := txtar.ParseFile(name)
		require.NoError(t, err)
		found := false
		for i, f := range a.Files {
			if f.Name != story.section {
				continue
			}
			found = true
			if *answers {
				a.Files[i].Data = []byte(story.want)
				require.NoError(t, os.WriteFile(name, txtar.Format(a), 0o644))
				continue
			}
			require.Equal(t, story.want, string(f.Data), "%s: run with -answers, then with -update, and read the difference", story.file)
		}
		require.True(t, found, "%s has no section %s", name, story.section)
	}
}

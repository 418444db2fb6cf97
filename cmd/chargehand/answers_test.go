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

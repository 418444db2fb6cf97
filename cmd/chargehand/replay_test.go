package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/runner"
	"chargehand/flow/talk"
	"chargehand/messages/record"
	"chargehand/store/bolt"
)

// manyEntries is a job of n events: a lean-to to the hand-over, then years of
// notes, questions and changes of mind.
func manyEntries(t testing.TB, n int) []event.Entry {
	w := &walker{t: &testing.T{}, now: time.Date(2026, 5, 11, 8, 0, 0, 0, time.UTC), asked: map[string]int{}}
	w.input(talk.Begun{Name: "Garage", Zone: "Europe/London"})
	w.to("lead", leanTo)
	for i := 0; len(w.entries) < n; i++ {
		w.out.Reset()
		w.now = w.now.Add(7 * time.Minute)
		switch i % 8 {
		case 0:
			w.input(talk.Said{Text: fmt.Sprintf("note number %d", i)})
		case 3:
			w.input(talk.Said{Text: "change lead-code " + []string{"4", "5"}[i/8%2]})
		case 5:
			w.input(talk.Said{Text: "?"})
		default:
			w.input(talk.Said{Text: "where"})
		}
	}
	require.GreaterOrEqual(t, len(w.entries), n)
	return w.entries[:n]
}

// stored puts entries into a store as a job, chained and with its clocks.
func stored(t testing.TB, entries []event.Entry) (db string) {
	t.Helper()
	db = filepath.Join(t.TempDir(), "jobs.db")
	b, err := bolt.Open(db, bolt.Options{NoSync: true})
	require.NoError(t, err)
	s := flow.Fold(flow.State{}, entries...)
	line, err := json.Marshal(runner.Summarize(s))
	require.NoError(t, err)
	part := event.Part{Stream: "job-1", Records: sealAll(t, entries), Clocks: flow.Clocks(s), Summary: line}
	require.NoError(t, b.Commit(t.Context(), event.Commit{Parts: []event.Part{part}}))
	require.NoError(t, b.Close())
	return db
}

// Every telling of the stories is told the same today: nothing in a telling
// depends on when it is told, and nothing is told that can't be told again.
func TestTellingsAreTheSameToday(t *testing.T) {
	for name, a := range map[string]map[string]string{"lean-to": leanTo, "l-shape": lShape, "u-shape": uShape, "out of square": outOfSquare, "four free edges": fourFree} {
		w := newWalker(t)
		w.to("", a)
		w.say("list")
		var s flow.State
		told := 0
		for i, e := range w.entries {
			if was, ok := e.Event.(event.Told); ok {
				told++
				now, ok := flow.Retell(s, was)
				require.True(t, ok, "%s, event %d: %s can't be told again", name, i+1, was.What)
				require.False(t, flow.Differ(was, now), "%s, event %d: %+v, now %+v", name, i+1, was, now)
				require.Equal(t, was.Formulas, now.Formulas)
			}
			s = flow.Apply(s, e)
		}
		require.Greater(t, told, 20)
	}
}

// A record that was told with other formulas shows them against today's.
func TestDiffShowsOldAgainstNew(t *testing.T) {
	w := newWalker(t)
	w.to("joist-set", leanTo)
	w.say("list")
	n := map[string]int{}
	for i, e := range w.entries {
		told, ok := e.Event.(event.Told)
		if !ok {
			continue
		}
		n[told.What] = i + 1
		switch told.What {
		case "marks":
			told.Formulas = []string{"setout.centres/0"}
			told.Lines[0].Args["centres"] = event.Of("mm", 402)
		case "joist-order":
			told.Lines = append(told.Lines, told.Lines[0])
		case "list":
			for _, l := range told.Lines {
				if l.Key == "item.joists" {
					l.Args["needed"] = event.Of("number", 99)
				}
			}
		case "roof":
			told.Lines = told.Lines[:1]
		case "straps":
			told.What = "ropes" // a step that is gone
		}
		w.entries[i].Event = told
	}
	out := good(t, "replay", "job-1", "--diff", "--db", stored(t, w.entries))
	assert.Regexp(t, `^Today's formulas say something else at 5 events of \d+:`, out)
	assert.Regexp(t, fmt.Sprintf(`(?m)^%d  11 May 2026 09:\d\d  marks \(setout.centres/0 -> .*\)\n  402 mm centres, .* -> 40\d.* mm centres, `, n["marks"]), out)
	assert.Regexp(t, fmt.Sprintf(`(?m)^%d .*joist-order .*\n  14 joists .* -> nothing$`, n["joist-order"]), out)
	assert.Regexp(t, fmt.Sprintf(`(?m)^%d .*list .*\n  joists, 99 m, .* -> joists, .* m, `, n["list"]), out)
	assert.Regexp(t, fmt.Sprintf(`(?m)^%d .*roof .*\n  nothing -> Snow`, n["roof"]), out)
	assert.Regexp(t, fmt.Sprintf(`(?m)^%d .*ropes .*\n  .*straps.* -> nothing$`, n["straps"]), out)

	out = good(t, "replay", "job-1", "--diff", "--until", "3", "--db", stored(t, w.entries))
	assert.Contains(t, out, "say the same")
}

// At a speed, the time between events passes that much faster.
func TestReplaySpeed(t *testing.T) {
	w := newWalker(t)
	w.say("full")
	w.now = w.now.Add(time.Hour)
	w.say("attached")
	w.now = w.now.Add(-2 * time.Hour) // a clock that was set back makes nobody wait
	w.say("2000 or later")
	db := stored(t, w.entries)
	var slept []time.Duration
	p := start(t, func(w *world) {
		w.Sleep = func(_ context.Context, d time.Duration) error { slept = append(slept, d); return nil }
	}, "replay", "job-1", "--speed", "60", "--db", db)
	require.Zero(t, p.end())
	assert.Equal(t, []time.Duration{time.Second, 61 * time.Second}, slept)
	assert.Contains(t, p.out.String(), "... 61 min ...")
	assert.Contains(t, p.out.String(), "... back by 119 min ...")

	p = start(t, func(w *world) {
		w.Sleep = func(context.Context, time.Duration) error { return context.Canceled } // Ctrl-C
	}, "replay", "job-1", "--speed", "60", "--db", db)
	assert.Zero(t, p.end())
	assert.NotContains(t, p.out.String(), "Way of asking")
}

// Two hands, one of whom has been erased.
func TestReplaySaysWho(t *testing.T) {
	at := time.Date(2026, 10, 25, 0, 30, 0, 0, time.UTC) // the night the clock goes back
	ann, bo := event.Actor{ID: "a", Name: "Ann", Role: "builder"}, event.Actor{ID: "b", Name: "Bo", Role: "second"}
	entries := []event.Entry{
		{At: at, By: ann, From: "x", Event: event.Opened{Name: "Ann's shed", Zone: "Europe/London", Way: "full"}},
		{At: at.Add(time.Hour), By: bo, From: "y", Event: event.Answered{Step: "way", Said: "full\x1b[31m", Value: event.Word("pick", "full")}},
		{At: at.Add(time.Hour + time.Minute), By: ann, From: "x", Event: event.Noted{Text: "Bo was late"}},
	}
	db := stored(t, entries)
	out := good(t, "replay", "job-1", "--db", db)
	assert.Contains(t, out, "01:30 (+01:00)  Ann  begins the job")
	assert.Contains(t, out, "01:30 (+00:00)  Bo, second hand  > full")
	assert.NotContains(t, out, "\x1b")
	assert.Contains(t, out, "... 60 min ...")

	assert.Contains(t, good(t, "erase", "bo", "--job", "job-1", "--db", db), "4 values erased")
	out = good(t, "replay", "job-1", "--db", db)
	assert.NotContains(t, out, "Bo")
	assert.Contains(t, out, "(erased)  > full")
	assert.Contains(t, out, "Ann  > (erased)")
	out = good(t, "erase", "Ann", "--job", "job-1", "--db", db)
	assert.Contains(t, out, "chargehand rename job-1 NAME")
	assert.NotContains(t, good(t, "jobs", "--db", db), "Ann")
	assert.Contains(t, good(t, "replay", "job-1", "--db", db), "(erased) (job-1): 3 events")
	assert.Contains(t, good(t, "check", "--db", db), "Sound")
}

func BenchmarkReplay10000(b *testing.B) {
	entries := manyEntries(b, 10_000)
	db := stored(b, entries)
	b.Run("whole", func(b *testing.B) {
		for b.Loop() {
			w := scriptWorld()
			w.In, w.Out = strings.NewReader(""), io.Discard
			if code := run([]string{"replay", "job-1", "--db", db}, w); code != 0 {
				b.Fatal(code)
			}
		}
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(entries)), "ns/event")
	})
	b.Run("diff", func(b *testing.B) {
		for b.Loop() {
			w := scriptWorld()
			w.In, w.Out = strings.NewReader(""), io.Discard
			if code := run([]string{"replay", "job-1", "--diff", "--db", db}, w); code != 0 {
				b.Fatal(code)
			}
		}
	})
	b.Run("fold", func(b *testing.B) {
		for b.Loop() {
			flow.Fold(flow.State{}, entries...)
		}
	})
	b.Run("print", func(b *testing.B) {
		t := taken{job: jobInfo{ID: "job-1"}, records: sealAll(b, entries), entries: entries, state: flow.Fold(flow.State{}, entries...)}
		w := scriptWorld()
		w.In = strings.NewReader("")
		for b.Loop() {
			show := record.NewPrinter(io.Discard, "", setLines)
			if err := t.play(b.Context(), w, show, pace{}, func(int) bool { return false }); err != nil {
				b.Fatal(err)
			}
		}
	})
}

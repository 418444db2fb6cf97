package main

import (
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
	"chargehand/messages/term"
)

// walker talks to the engine directly, answering each question by its step, so
// that a story does not break when a question is added before it.
type walker struct {
	t       *testing.T
	now     time.Time
	s       flow.State
	entries []event.Entry
	out     bytes.Buffer
	lang    string
	asked   map[string]int
	typed   []string
}

func newWalker(t *testing.T) *walker {
	w := &walker{t: t, now: time.Date(2026, 5, 11, 8, 0, 0, 0, time.UTC), asked: map[string]int{}}
	t.Cleanup(func() {
		if testing.Verbose() {
			t.Log("\n" + w.out.String())
		}
	})
	w.input(talk.Begun{Name: "Garage", Zone: "Europe/London"})
	return w
}

var builder = talk.Person{ID: "local", Role: "builder"}

func (w *walker) input(what talk.What) {
	w.t.Helper()
	out := flow.Step(w.s, talk.Input{At: w.now, By: builder, Reader: "term:local", Asked: flow.Question(w.s), What: what})
	var replies []talk.Reply
	for _, e := range out.Events {
		replies = append(replies, flow.Say(w.s, e, builder)...)
		w.s = flow.Apply(w.s, e)
		w.entries = append(w.entries, e)
	}
	replies = append(replies, flow.Prompt(w.s, builder)...)
	before := w.out.Len()
	require.NoError(w.t, term.Print(&w.out, w.lang, replies, false))
	said := w.out.String()[before:]
	require.NotContains(w.t, said, "‹", "unsaid words")
	w.out.WriteByte('\n')
}

// say types a line a minute after the last one.
func (w *walker) say(text string) {
	w.t.Helper()
	w.now = w.now.Add(time.Minute)
	w.typed = append(w.typed, w.stamp(text))
	fmt.Fprintf(&w.out, "> %s\n", text)
	w.input(talk.Said{Text: text})
}

// ring lets every clock due by now ring.
func (w *walker) ring() {
	w.t.Helper()
	for _, c := range flow.Clocks(w.s) {
		if !c.Due.After(w.now) {
			w.input(talk.Rang{Clock: c.Name, Due: c.Due})
		}
	}
}

// answer answers the open step from the table; "yes" or "." where the table is
// silent.
func (w *walker) answer(answers map[string]string) {
	w.t.Helper()
	id := flow.StepNow(w.s)
	w.asked[id]++
	require.Less(w.t, w.asked[id], 150, "asked again and again: %s\n%s", id, tail(w.out.String()))
	if a, ok := answers[fmt.Sprintf("%s#%d", id, w.asked[id])]; ok {
		w.say(a)
		return
	}
	if a, ok := answers[id]; ok {
		w.say(a)
		return
	}
	switch id {
	case "relax":
		if !w.s.Works["relax"].Done("begun") {
			w.say("laid")
			return
		}
		w.now = w.now.Add(time.Hour)
		w.ring()
		w.say("relaxed")
	case "batches", "contact":
		w.now = w.now.Add(pauses[w.last()])
		w.ring()
		w.say("1")
	case "hose":
		w.say("1")
	case "learn":
		w.say("2")
	default:
		spec, _ := flow.Lookup(id)
		if spec.Offer != nil {
			w.say(".")
			return
		}
		w.say("yes")
	}
}

// pauses are how long the glue takes after each tap, beside the minute of typing.
var pauses = map[string]time.Duration{"begun": 3 * time.Minute, "last": 3 * time.Minute, "coated-rubber": 17 * time.Minute}

// last is the mark that was tapped last.
func (w *walker) last() string {
	for i := len(w.entries) - 1; i >= 0; i-- {
		if tap, ok := w.entries[i].Event.(event.Tapped); ok {
			return tap.Mark
		}
	}
	return ""
}

// to walks until the step is asked, or until nothing is open.
func (w *walker) to(step string, answers map[string]string) {
	w.t.Helper()
	for range 400 {
		now := flow.StepNow(w.s)
		if now == step || now == "" {
			return
		}
		w.answer(answers)
	}
	w.t.Fatalf("never came to %q; at %q\n%s", step, flow.StepNow(w.s), tail(w.out.String()))
}

func tail(s string) string {
	lines := strings.Split(s, "\n")
	return strings.Join(lines[max(0, len(lines)-30):], "\n")
}

// leanTo is a roof against a house wall.
var leanTo = map[string]string{
	"built": "2000 or later", "covering": "felt", "attached": "attached", "guarded": "yes", "length": "4200 3000", "edges": "1 2 3 2", "clear-span": "2850",
	"wall-above": "2400", "upper-depth": "8000", "site": "80", "snow-zone": "2", "plate": "ledger", "anchor-size": "12 150 47", "board": "2400 1200", "grade": "C24", "joist-damp": "16",
	"deck-damp": "14", "upstand": "150", "bed-joint": "188", "dust-left": "no", "label": "15 20", "deck-temp": "18", "air-temp": "15", "night": "9", "damp": "normal", "wind": "calm",
	"face-temps": "16 24", "laps": "1", "papers": "none kept", "overlaps": "210 160 260 160", "way-off": "gutter",
}

func TestLeanToFromSurveyToAftercare(t *testing.T) {
	w := newWalker(t)
	w.to("", leanTo)
	require.Equal(t, flow.JobHanded, w.s.Status, tail(w.out.String()))
}

// with returns the answers with some changed.
func with(base map[string]string, pairs ...string) map[string]string {
	out := map[string]string{}
	for k, v := range base {
		out[k] = v
	}
	for i := 0; i+1 < len(pairs); i += 2 {
		out[pairs[i]] = pairs[i+1]
	}
	return out
}

// lShape is 5000 by 3000 with a leg of 2200 by 1800, a pipe in its corner.
var lShape = with(leanTo, "shape", "walked",
	"edge-1", "5000 right gutter", "edge-2", "4800 right verge", "edge-3", "2200 right wall", "edge-4", "1800 left verge", "edge-5", "2800 right verge", "edge-6", "3000 right verge",
	"pipes", "110 95 4700", "pipes#2", "yes", "overlaps", "210 160 260 160 160 160", "pipe-backed", "yes", "anchor-size", "12 150 50")

// uShape goes round a chimney at the back.
var uShape = with(leanTo, "shape", "walked",
	"edge-1", "5400 right gutter", "edge-2", "2900 right verge", "edge-3", "2000 right verge", "edge-4", "900 left wall", "edge-5", "1100 left wall", "edge-6", "900 right wall", "edge-7", "2300 right verge", "edge-8", "2900 right verge",
	"clear-span", "2600", "overlaps", "160 160 160 260 260 260 160 160", "anchor-size", "12 150 50")

// outOfSquare is 35 mm out over its depth.
var outOfSquare = with(leanTo, "shape", "four sides", "sides", "5500 2900 5500 2900", "diagonals", "6249 6187", "clear-span", "2600", "overlaps", "210 180 260 180")

// fourFree is a detached garage with four free edges and a pipe.
var fourFree = with(leanTo, "length", "5500 2900", "edges", "1 2 2 2", "clear-span", "2600", "wall-above", "0", "pipes", "110 1200 900", "plate", "1", "plate-size", "100 50",
	"anchor-size", "10 130 40", "anchor-size#2", "10 180 60", "overlaps", "160 150 155 140", "attached", "1", "pipe-backed", "yes")

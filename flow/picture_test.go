package flow_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/unit"
	"chargehand/flow"
	"chargehand/flow/draw"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// pictured is a job with these answers, as they would stand in its record.
func pictured(answers ...event.Answered) flow.State {
	s := flow.Apply(flow.State{}, entry(event.Opened{Name: "Garage", Zone: "Europe/London", Way: "full"}))
	for _, a := range answers {
		s = flow.Apply(s, entry(a))
	}
	return s
}

func entry(e event.Event) event.Entry {
	return event.Entry{At: time.Date(2026, 5, 11, 8, 0, 0, 0, time.UTC), By: event.Actor{ID: "a", Role: "builder"}, Event: e}
}

// setOut is a roof as far as its joist marks.
func setOut() flow.State {
	mm := func(step string, nums ...float64) event.Answered {
		return event.Answered{Step: step, Value: event.Of("mm", nums...)}
	}
	pick := func(step, key string) event.Answered {
		return event.Answered{Step: step, Value: event.Word("pick", key)}
	}
	return pictured(pick("shape", "rectangle"), mm("length", 4200), mm("depth", 3000), pick("edges", "gutter verge wall verge"),
		mm("drop", 75), mm("clear-span", 2850), mm("board", 2400, 1200), pick("centres", "400"), mm("joist", 47, 170))
}

func pictures(replies []talk.Reply) []talk.Picture {
	var out []talk.Picture
	for _, r := range replies {
		if p, ok := r.(talk.Picture); ok {
			out = append(out, p)
		}
	}
	return out
}

// marksIn are the figures along the rod.
func marksIn(pic talk.Picture) map[unit.Length]bool {
	out := map[unit.Length]bool{}
	for _, panel := range pic.Sketch.Panels {
		for _, s := range panel.Shapes {
			if w, ok := s.(talk.Word); ok && w.Text.Key == "label.figure" {
				out[w.Text.Args["n"].(unit.Length)] = true
			}
		}
	}
	return out
}

var anybody = talk.Person{Role: "builder"}

// The rod comes with the marks, and shows the marks that were told: what is
// drawn again later is what was said then, not what today's formulas make of it.
func TestPictureOfWhatWasTold(t *testing.T) {
	t.Parallel()
	s := setOut()
	told := event.Told{What: "marks", Lines: []event.Line{{Key: "told.marks", Args: map[string]event.Value{
		"centres": event.Of("mm", 400.5), "n": event.Of("count", 12), "marks": event.Of("mm", 24, 399, 800, 1200, 1601, 2001, 2402, 2802, 3203, 3603, 4004, 4177)}}}}
	pics := pictures(flow.Say(s, entry(told), anybody))
	require.Len(t, pics, 1)
	assert.Equal(t, draw.Rod, pics[0].Kind)
	for _, m := range []unit.Length{24, 399, 800, 4177} {
		assert.True(t, marksIn(pics[0])[m], "no mark at %v", m)
	}
	live, ok := flow.Picture(s, draw.Rod)
	require.True(t, ok)
	assert.Equal(t, live, pics[0], "told the plan's own numbers, it is the plan's own picture")

	// The formulas of that day said otherwise.
	then := told
	then.Lines = []event.Line{{Key: "told.marks", Args: map[string]event.Value{
		"centres": event.Of("mm", 349), "n": event.Of("count", 4), "marks": event.Of("mm", 24, 351, 700, 4177)}}}
	pics = pictures(flow.Say(s, entry(then), anybody))
	require.Len(t, pics, 1)
	have := marksIn(pics[0])
	assert.True(t, have[351] && have[700])
	assert.False(t, have[399] || have[800], "today's marks in yesterday's picture")
	assert.Equal(t, unit.Length(349), pics[0].Caption.Args["centres"])
	again, _ := flow.Picture(s, draw.Rod)
	assert.Equal(t, live, again, "the plan itself was touched")
}

// Every number that a telling carries is drawn as it was told.
func TestOtherNumbersAsTold(t *testing.T) {
	t.Parallel()
	s := setOut()
	say := func(what string, lines ...event.Line) talk.Picture {
		t.Helper()
		pics := pictures(flow.Say(s, entry(event.Told{What: what, Lines: lines}), anybody))
		require.Len(t, pics, 1, what)
		return pics[0]
	}
	mm := func(n ...float64) event.Value { return event.Of("mm", n...) }
	roof := say("roof", event.Line{Key: "told.roof", Args: map[string]event.Value{"area": event.Of("m2", 12.6), "drop": mm(90), "fall": event.Of("ratio", 0.03)}})
	assert.Equal(t, unit.Length(90), roof.Caption.Args["drop"])
	assert.Equal(t, unit.Fall(0.03), roof.Caption.Args["fall"])
	sheet := say("draw.sheet", event.Line{Key: "told.sheet", Args: map[string]event.Value{"length": mm(4700), "width": mm(3600)}},
		event.Line{Key: "told.allow", Args: map[string]event.Value{"allow": mm(200, 150, 260, 150)}})
	assert.Equal(t, unit.Length(4700), sheet.Caption.Args["length"])
	deck := say("deck", event.Line{Key: "told.deck.row", Args: map[string]event.Value{"n": event.Of("count", 1), "width": mm(1190),
		"lengths": {Unit: "pieces", Text: "X Y", Nums: []float64{2200, 1997}}}})
	letters := map[string]bool{}
	for _, shape := range deck.Sketch.Panels[0].Shapes {
		if w, ok := shape.(talk.Word); ok && w.Text.Key == "label.letter" {
			letters[w.Text.Args["letter"].(string)] = true
		}
	}
	assert.True(t, letters["X"] && letters["Y"])
	assert.Len(t, deck.Sketch.Panels, 1, "how today's boards are sawn is not how those were")
}

// A picture that was asked for is in the record with its numbers, and is told
// again from there.
func TestAskedPictureIsRecorded(t *testing.T) {
	t.Parallel()
	s := setOut()
	ask := func(text string) flow.Outcome {
		return flow.Step(s, talk.Input{At: time.Date(2026, 5, 11, 9, 0, 0, 0, time.UTC), By: talk.Person{ID: "a", Role: "builder"}, What: talk.Said{Text: text}})
	}
	for text, kind := range map[string]string{"draw rod": draw.Rod, "picture of the roof": draw.Roof, "draw the deck": draw.Deck, "draw": draw.Rod, "sketch rubber": draw.Sheet} {
		out := ask(text)
		require.NotEmpty(t, out.Events, text)
		told, ok := out.Events[0].Event.(event.Told)
		require.True(t, ok, "%s: %#v", text, out.Events[0].Event)
		assert.Equal(t, "draw."+kind, told.What, text)
		assert.NotEmpty(t, told.Lines, text)
		rec, err := event.Seal(event.Head{}, out.Events[0], func(salt []byte) { clear(salt) })
		require.NoError(t, err)
		back, err := rec.Open()
		require.NoError(t, err)
		assert.Equal(t, flow.Say(s, out.Events[0], anybody), flow.Say(s, back, anybody), text)
		now, ok := flow.Retell(s, told)
		assert.True(t, ok)
		assert.False(t, flow.Differ(told, now), text)
	}
	for text, key := range map[string]string{"draw banana": "refuse.picture-which", "draw pipe": "refuse.picture-yet"} {
		heard, ok := ask(text).Events[0].Event.(event.Heard)
		require.True(t, ok, text)
		assert.Equal(t, key, heard.Key, text)
	}
}

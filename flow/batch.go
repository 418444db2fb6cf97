package flow

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"chargehand/flow/event"
)

// closing are the marks that end a batch: it is down, or it is not to be laid.
var closing = []string{"down", "gone", "rained", "wrong-tin"}

func batchName(n int) string { return fmt.Sprintf("batch/%d", n) }

// ended says how a batch ended.
func ended(w Work) (mark string, ok bool) {
	for _, mark := range closing {
		if w.Done(mark) {
			return mark, true
		}
	}
	return "", false
}

// batch returns the number of the batch in hand, from 1, and its work.
func batch(s State) (int, Work) {
	for n := 1; ; n++ {
		w, ok := s.Works[batchName(n)]
		if _, over := ended(w); !ok || !over {
			return n, w
		}
	}
}

// batches are the batches so far, in order.
func batches(s State) []Work {
	var out []Work
	for n := 1; ; n++ {
		w, ok := s.Works[batchName(n)]
		if !ok {
			return out
		}
		out = append(out, w)
	}
}

// laid is the area bonded so far, in m².
func laid(s State) float64 {
	var sum float64
	for _, w := range batches(s) {
		if end, _ := ended(w); end == "down" {
			sum += w.Has["area"].Num()
		}
	}
	return sum
}

// fieldDone says whether the batches laid so far cover the field.
func fieldDone(v View) bool {
	p := v.Plan()
	switch {
	case p.Left != nil:
		return p.Left.In(m2) < 0.1
	case p.Field != nil:
		return laid(v.S) >= p.Field.In(m2)-0.1
	}
	return false
}

func batchTaps(v View) []tap {
	n, w := batch(v.S)
	name := batchName(n)
	if w.Done("begun") {
		return liveTaps(v, name, w)
	}
	start := tap{action: "start", work: name, mark: "begun"}
	all := tap{action: "all-down", work: "field", mark: "down", ends: true}
	if fieldDone(v) {
		return []tap{all, start}
	}
	if n > 1 {
		return []tap{start, all}
	}
	return []tap{start}
}

// liveTaps are the taps while glue is wet, the likeliest first. The touch is asked
// for once the clock has called: before that it is heard, but not shown.
func liveTaps(v View, name string, w Work) []tap {
	mark := func(action string, hidden bool) tap {
		return tap{action: action, work: name, mark: action, hidden: hidden}
	}
	_, called := v.S.Rung[name+"/soon"]
	rain := w.Done("rain")
	taps := []tap{mark("down", false)}
	if !w.Done("last") {
		taps = []tap{mark("last", rain), mark("down", false)}
	}
	return append(taps, mark("rained", !rain), mark("still-wet", !called), mark("tacky", !called), mark("gone", false), mark("wrong-tin", true),
		tap{action: "all-down", work: name, mark: "down", hidden: true}) // all of this batch, whatever is left of the field
}

// alarms of a batch, on its oldest uncovered film, whose age counts from the first
// spread: at 0.6 U, at U, and at the window itself. A touch overrules the clock: a
// film seen white and wet lives on and is touched again after two minutes, a tacky
// one after one; a film that is tacky early is called in at once. The minutes are
// common practice, no source.
func alarms(w Work) (soon, cover, dead time.Time) {
	begun := w.Marks["begun"]
	usable, window := after(w, "usable"), after(w, "window")
	soon, cover, dead = begun.Add(usable*6/10), begun.Add(usable), begun.Add(window)
	if again := w.Marks["still-wet"].Add(2 * time.Minute); w.Done("still-wet") && again.After(dead) {
		dead = again
	}
	if tacky := w.Marks["tacky"]; w.Done("tacky") && tacky.After(w.Marks["still-wet"]) {
		cover = earlier(cover, tacky)
		dead = tacky.Add(time.Minute)
	}
	return soon, cover, dead
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// batchHas are the numbers a batch begins with.
func batchHas(v View) map[string]event.Value {
	p := v.Plan()
	if p.Window == nil || p.Batch == nil {
		return nil
	}
	area := p.Batch.Area.In(m2)
	if p.Batch.Half == "" && p.Field != nil {
		area = math.Min(area, math.Max(p.Field.In(m2)-laid(v.S), 0))
	}
	has := map[string]event.Value{
		"window": event.Of("min", p.Window.Minutes()),
		"usable": event.Of("min", p.Batch.UsableMin),
		"model":  event.Of("min", math.Floor(float64(p.Window.Model())*10)/10),
		"area":   event.Of("m2", math.Floor(area*100)/100),
		"strip":  event.Of("mm", math.Floor(float64(p.Batch.Strip))),
		"turn":   event.Of("min", float64(p.Batch.Turn)),
		"deck":   event.Of("celsius", v.num(stepDeck)),
	}
	if p.Batch.Half != "" {
		has["half"] = event.Word("text", string(p.Batch.Half))
	}
	return conditions(v, has)
}

// afterBatch asks the weather again before the next batch. After rain the deck is
// measured and checked again; after the wrong tin, the tin.
func (t *turn) afterBatch(tp tap) {
	var again []string
	switch {
	case tp.mark == "rained":
		again = []string{"deck-damp", "deck-hold", stepDeck, stepAir, stepDamp, stepWind, stepRain}
	case tp.mark == "wrong-tin":
		again = []string{"tin", stepLabel, stepDeck, stepWind, stepRain}
	case !fieldDone(t.view()):
		again = []string{stepDeck, stepWind, stepRain}
	}
	again = slices.DeleteFunc(again, func(id string) bool { return !t.s.Settled[id].Answer() })
	if len(again) > 0 {
		t.emit(event.Reopened{Steps: again, Because: stepBatches})
	}
}

// rain is one tap in the wet: the shortest line that keeps people on the roof. The
// weather answer follows it.
func (t *turn) rain(text string) {
	if n, w := batch(t.s); w.Done("begun") {
		t.emit(event.Tapped{Work: batchName(n), Mark: "rain", At: t.in.When().UTC()})
		return
	}
	key := "rain.dry"
	if _, w := run(t.s); coated(w) {
		key = "rain.contact"
	}
	t.emit(event.Heard{Step: t.openStep(), Said: cut(text), Key: key})
	if set := t.s.Settled[stepRain]; set.Answer() && !t.s.Settled[stepBatches].Answer() {
		again := []string{stepRain, "deck-damp"}
		again = slices.DeleteFunc(again, func(id string) bool { return !t.s.Settled[id].Answer() })
		t.emit(event.Reopened{Steps: again, Because: stepBatches})
	}
}

// numberOf is the number at the end of a work's name.
func numberOf(work string) (stem string, n int) {
	stem, num, _ := strings.Cut(work, "/")
	fmt.Sscanf(num, "%d", &n)
	return stem, n
}

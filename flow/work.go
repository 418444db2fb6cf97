package flow

import (
	"fmt"
	"math"
	"strings"
	"time"

	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// Timed work is a loop of taps. Each tap is a mark with the time at which it
// was made; the clocks of a job follow from the marks alone, so that a dead
// phone or a restart changes nothing.

// tap is one thing a person may say in timed work. An empty mark ends the step.
type tap struct {
	action string
	work   string
	mark   string
	ends   bool
}

// tapsWant makes the choice of a timed step out of what may be tapped now.
func tapsWant(taps func(v View) []tap) func(v View) hear.Want {
	return func(v View) hear.Want {
		var keys []string
		for _, t := range taps(v) {
			keys = append(keys, t.action)
		}
		return choices(keys)
	}
}

func tapsOf(id string, v View) []tap {
	switch id {
	case stepRelax:
		return relaxTaps(v)
	case stepBatches:
		return batchTaps(v)
	case stepContact:
		return contactTaps(v)
	case stepHose:
		return hoseTaps(v)
	case stepLook:
		return lookTaps(v)
	}
	return nil
}

func relaxTaps(v View) []tap {
	if !v.S.Works["relax"].Done("begun") {
		return []tap{{action: "laid", work: "relax", mark: "begun"}}
	}
	return []tap{{action: "relaxed", work: "relax", mark: "down", ends: true}}
}

// relaxFor is how long a loose sheet lies before it is glued: 30 minutes, an
// hour below 10 °C. Common practice, no source.
func relaxFor(v View) time.Duration {
	if air, ok := v.Value("air-temp"); ok && air.Num() < 10 {
		return time.Hour
	}
	return 30 * time.Minute
}

// batch returns the number of the batch in hand, from 1, and its work.
func batch(s State) (int, Work) {
	for n := 1; ; n++ {
		w, ok := s.Works[fmt.Sprintf("batch/%d", n)]
		if !ok || !(w.Done("down") || w.Done("gone")) {
			return n, w
		}
	}
}

// laid is the area bonded so far, in m².
func laid(s State) float64 {
	var sum float64
	for k, w := range s.Works {
		if strings.HasPrefix(k, "batch/") && w.Done("down") {
			sum += w.Has["area"].Num()
		}
	}
	return sum
}

func batchTaps(v View) []tap {
	n, w := batch(v.S)
	name := fmt.Sprintf("batch/%d", n)
	if w.Done("begun") {
		taps := []tap{{action: "down", work: name, mark: "down"}}
		if !w.Done("last") {
			taps = append(taps, tap{action: "last", work: name, mark: "last"})
		}
		return append(taps, tap{action: "gone", work: name, mark: "gone"})
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

// fieldDone says whether the batches laid so far cover the field.
func fieldDone(v View) bool {
	p := v.Plan()
	return p.Field != nil && laid(v.S) >= p.Field.In(m2)-0.1
}

func contactTaps(v View) []tap {
	n := 1
	for v.S.Works[contactName(n)].Done("mated") {
		n++
	}
	name := contactName(n)
	w := v.S.Works[name]
	var taps []tap
	both := func(mark, a, b string) bool {
		if !w.Done(mark + "-wall") {
			taps = append(taps, tap{action: a, work: name, mark: mark + "-wall"})
		}
		if !w.Done(mark + "-rubber") {
			taps = append(taps, tap{action: b, work: name, mark: mark + "-rubber"})
		}
		return w.Done(mark+"-wall") && w.Done(mark+"-rubber")
	}
	switch {
	case !both("coated", "coat-wall", "coat-rubber"):
	case !both("dry", "dry-wall", "dry-rubber"):
	default:
		taps = append(taps, tap{action: "mated", work: name, mark: "mated"})
	}
	if n > 1 && !w.Done("coated-wall") && !w.Done("coated-rubber") {
		all := tap{action: "all-pressed", work: "contact", mark: "down", ends: true}
		if n > v.Plan().ContactRuns {
			return append([]tap{all}, taps...)
		}
		taps = append(taps, all)
	}
	return taps
}

func hoseTaps(v View) []tap {
	if !v.S.Works["hose"].Done("begun") {
		return []tap{{action: "water-on", work: "hose", mark: "begun"}}
	}
	return []tap{{action: "dry-below", work: "hose", mark: "dry", ends: true}, {action: "drips", work: "hose", mark: "drips"}}
}

func lookTaps(v View) []tap {
	due := inspectionDue(v)
	return []tap{{action: "sound", work: due, mark: "sound"}, {action: "found", work: due, mark: "found"}}
}

// tapped does what a tap of a timed step means.
func (t *turn) tapped(spec Spec, said string, val event.Value) {
	v := t.view()
	for _, tp := range tapsOf(spec.ID, v) {
		if tp.action != val.Text {
			continue
		}
		if d := t.tooSoon(tp); d != nil {
			t.emit(event.Heard{Step: spec.ID, Said: cut(said), Key: d.Key, Args: d.Args})
			return
		}
		t.emit(event.Tapped{Work: tp.work, Mark: tp.mark, At: t.in.When().UTC(), Has: t.has(tp)})
		t.follow(tp)
		if tp.ends {
			t.emit(event.Answered{Step: spec.ID, Said: cut(said), Value: event.Word("yes", "yes")})
		}
		return
	}
}

// tooSoon refuses what would ruin the work.
func (t *turn) tooSoon(tp tap) *Doubt {
	v := t.view()
	at := t.in.When()
	switch {
	case tp.action == "relaxed":
		begun := v.S.Works["relax"].Marks["begun"]
		if left := relaxFor(v) - at.Sub(begun); left > 0 {
			return &Doubt{Key: "refuse.relaxing", Args: args("left", minutes(left), "until", moment(begun.Add(relaxFor(v))))}
		}
	case tp.action == "start":
		w := v.Plan().Window
		if w == nil || v.Plan().Batch == nil {
			return &Doubt{Key: "refuse.no-window"}
		}
		if v.Plan().Batch.Area.In(m2) < 1 {
			return &Doubt{Key: "refuse.window-short", Args: args("window", event.Of("min", w.Minutes()))}
		}
	case tp.action == "mated":
		w := v.S.Works[tp.work]
		if !w.Done("dry-wall") || !w.Done("dry-rubber") {
			return &Doubt{Key: "refuse.mate-wet"}
		}
	case strings.HasPrefix(tp.mark, "dry-"):
		// The knuckle decides, not the clock: the tap is taken, however early.
	}
	return nil
}

// has keeps the numbers that hold for the work as it begins: a later change of
// plan must not move a clock that is running on wet glue.
func (t *turn) has(tp tap) map[string]event.Value {
	p := t.view().Plan()
	switch {
	case tp.mark == "begun" && strings.HasPrefix(tp.work, "batch/") && p.Window != nil && p.Batch != nil:
		area := p.Batch.Area.In(m2)
		if p.Field != nil {
			area = math.Min(area, math.Max(p.Field.In(m2)-laid(t.s), 0))
		}
		return map[string]event.Value{
			"window": event.Of("min", p.Window.Minutes()),
			"usable": event.Of("min", p.Batch.UsableMin),
			"area":   event.Of("m2", math.Floor(area*100)/100),
			"strip":  event.Of("mm", math.Floor(float64(p.Batch.Strip))),
		}
	case strings.HasPrefix(tp.mark, "coated-") && p.Contact != nil:
		face := p.Contact.Wall
		if tp.mark == "coated-rubber" {
			face = p.Contact.Rubber
		}
		return map[string]event.Value{
			"ready-" + tp.mark: event.Of("min", face.ReadyMin),
			"dead-" + tp.mark:  event.Of("min", face.DeadMin),
		}
	case tp.mark == "begun" && tp.work == "relax":
		return map[string]event.Value{"for": minutes(relaxFor(t.view()))}
	}
	return nil
}

// follow does what a tap brings with it: the weather is asked again before the
// next batch, a find opens a snag.
func (t *turn) follow(tp tap) {
	switch {
	case strings.HasPrefix(tp.work, "batch/") && (tp.mark == "down" || tp.mark == "gone") && !fieldDone(t.view()):
		t.emit(event.Reopened{Steps: []string{"deck-temp", "wind", "rain-in"}, Because: stepBatches})
	case tp.mark == "drips" || tp.mark == "found":
		t.emit(event.Snagged{Snag: fmt.Sprintf("s%d", len(t.s.Snags)+1), What: tp.work})
	}
}

// rain is one tap in the wet: the shortest line that keeps people on the roof.
func (t *turn) rain(text string) {
	key := "rain.dry"
	if busy(t.s) {
		key = "rain.wet-glue"
	}
	t.emit(event.Heard{Step: t.openStep(), Said: cut(text), Key: key})
}

// busy says whether glue is wet and uncovered: nothing but alarms is said then.
func busy(s State) bool {
	_, w := batch(s)
	return w.Done("begun")
}

func minutes(d time.Duration) event.Value {
	return event.Of("min", math.Round(d.Minutes()*10)/10)
}

func moment(at time.Time) event.Value { return event.Value{Unit: "time", At: at.UTC()} }

func contactName(n int) string { return fmt.Sprintf("contact/%d", n) }

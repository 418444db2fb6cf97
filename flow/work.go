package flow

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"chargehand/calc/plan"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// Timed work is a loop of taps. Each tap is a mark with the time at which it
// was made; the clocks of a job follow from the marks alone, so that a dead
// phone or a restart changes nothing.

// tap is one thing a person may say in timed work.
type tap struct {
	action string
	work   string
	mark   string
	ends   bool // the step is settled by it
	hidden bool // heard, but not among the answers that are shown
}

// timed lists every action of each timed step, likeliest first: what may be said
// at all, now or later.
var timed = map[string][]string{
	stepRelax:   {"laid", "relaxed"},
	stepSquare:  {"spread", "no-square", "still-wet", "gone"},
	stepLearn:   {"use", "pass"},
	stepBatches: {"start", "last", "down", "still-wet", "tacky", "gone", "rained", "wrong-tin", "all-down"},
	stepContact: {"coat-wall", "coat-rubber", "dry-wall", "dry-rubber", "mated", "all-pressed"},
	stepHose:    {"water-on", "dry-below", "drips"},
	stepLook:    {"sound", "found"},
}

// tapsWant makes the choice of a timed step out of what may be tapped now.
func tapsWant(id string) func(v View) hear.Want {
	return func(v View) hear.Want {
		var keys []string
		for _, t := range tapsOf(id, v) {
			if !t.hidden {
				keys = append(keys, t.action)
			}
		}
		return choices(keys)
	}
}

func tapsOf(id string, v View) []tap {
	switch id {
	case stepRelax:
		return relaxTaps(v)
	case stepSquare:
		return squareTaps(v)
	case stepLearn:
		return learnTaps(v)
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

// workNumber is which batch, run or square a timed step is at. It is part of the
// question's name: a tap meant for one batch must not act on the next.
func workNumber(id string, s State) int {
	switch id {
	case stepSquare:
		n, _ := square(s)
		return n
	case stepLearn:
		return lesson(View{s})
	case stepBatches:
		n, _ := batch(s)
		return n
	case stepContact:
		n, _ := run(s)
		return n
	}
	return 0
}

// workName is the work that a numbered timed step is at.
func workName(id string, n int) string {
	switch id {
	case stepBatches, stepLearn:
		return batchName(n)
	case stepContact:
		return contactName(n)
	case stepSquare:
		return squareName(n)
	}
	return id
}

func relaxTaps(v View) []tap {
	if !v.S.Works[stepRelax].Done("begun") {
		return []tap{{action: "laid", work: stepRelax, mark: "begun"}}
	}
	return []tap{{action: "relaxed", work: stepRelax, mark: "down", ends: true}}
}

// relaxFor is how long a loose sheet lies before it is glued: 30 minutes, an
// hour below 10 °C. Common practice, no source.
func relaxFor(v View) time.Duration {
	if air, ok := v.Value(stepAir); ok && air.Num() < 10 {
		return time.Hour
	}
	return 30 * time.Minute
}

func hoseTaps(v View) []tap {
	if !v.S.Works[stepHose].Done("begun") {
		return []tap{{action: "water-on", work: stepHose, mark: "begun"}}
	}
	return []tap{{action: "dry-below", work: stepHose, mark: "dry", ends: true}, {action: "drips", work: stepHose, mark: "drips"}}
}

func lookTaps(v View) []tap {
	due := inspectionDue(v)
	return []tap{{action: "sound", work: due, mark: "sound"}, {action: "found", work: due, mark: "found"}}
}

// marksOf are the marks that an action makes.
func marksOf(action string) []string {
	switch action {
	case "start", "spread", "laid", "water-on":
		return []string{"begun"}
	case "coat-wall", "coat-rubber":
		return []string{"coated-" + strings.TrimPrefix(action, "coat-")}
	case "relaxed", "all-down", "all-pressed":
		return []string{"down"}
	}
	return []string{action}
}

// tapped does what a tap of a timed step means.
func (t *turn) tapped(spec Spec, said string, val event.Value) {
	taps := tapsOf(spec.ID, t.view())
	i := slices.IndexFunc(taps, func(tp tap) bool { return tp.action == val.Text })
	if i < 0 {
		t.untimely(spec, said, val.Text)
		return
	}
	tp := taps[i]
	if d := t.hinders(tp); d != nil {
		t.emit(event.Heard{Step: spec.ID, Said: cut(said), Key: d.Key, Args: d.Args})
		t.lookAgain(tp)
		return
	}
	before := t.view()
	t.emit(event.Tapped{Work: tp.work, Mark: tp.mark, At: t.moment(tp), Has: t.has(tp)})
	if steps := restOn(t.view(), plan.Diff(before.Plan(), t.view().Plan()), spec.ID); len(steps) > 0 && !live(t.s) {
		t.emit(event.Reopened{Steps: steps, Because: spec.ID})
	}
	if tp.ends {
		t.emit(event.Answered{Step: spec.ID, Said: cut(said), Value: event.Word("yes", "yes")})
	}
	t.follow(tp)
}

// moment is when a tap was made: when it was sent, not when it came. A phone whose
// clock puts it before the beginning of its own work is not believed.
func (t *turn) moment(tp tap) time.Time {
	marks := t.s.Works[tp.work].Marks
	since := marks["begun"]
	switch face, dry := strings.CutPrefix(tp.mark, "dry-"); {
	case dry:
		since = marks["coated-"+face]
	case tp.mark == "mated":
		since = later(marks["coated-wall"], marks["coated-rubber"])
	case tp.mark == "begun", strings.HasPrefix(tp.mark, "coated-"):
		since = time.Time{}
	}
	if at := t.in.When(); !at.Before(since) {
		return at.UTC()
	}
	return t.in.At.UTC()
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

// hinders refuses what would ruin the work.
func (t *turn) hinders(tp tap) *Doubt {
	v := t.view()
	switch {
	case tp.action == "relaxed":
		begun := v.S.Works[stepRelax].Marks["begun"]
		if left := relaxFor(v) - t.in.When().Sub(begun); left > 0 {
			return &Doubt{Key: "refuse.relaxing", Args: args("left", minutes(left), "until", moment(begun.Add(relaxFor(v))))}
		}
	case tp.action == "start":
		return t.hindersStart()
	case tp.mark == "coated-wall", tp.mark == "coated-rubber":
		return t.hindersCoat()
	}
	return nil
}

// untimely answers a tap that is known but has no place now: it has been made
// already, or it comes too early.
func (t *turn) untimely(spec Spec, said, action string) {
	d := &Doubt{Key: "refuse.tap"}
	n := workNumber(spec.ID, t.s)
	made := func(n int) bool {
		w := t.s.Works[workName(spec.ID, n)]
		marks := marksOf(action)
		if end, over := ended(w); over && slices.Contains(closing, action) {
			marks = []string{end} // the other hand has said it in its own words
		}
		for _, mark := range marks {
			if w.Done(mark) {
				d = &Doubt{Key: "already.tapped", Args: args("when", moment(w.Marks[mark]))}
				return true
			}
		}
		return false
	}
	switch {
	case made(n), n > 1 && slices.Contains(closing, action) && made(n-1):
	case spec.ID == stepContact && action == "mated":
		d = t.tooWet()
	}
	t.emit(event.Heard{Step: spec.ID, Said: cut(said), Key: d.Key, Args: d.Args})
}

// otherTap hears what is no answer of this moment but a word of this work: a hand
// with glue on it says what it did, not what is on the screen. It comes first, or a
// "down" that comes too late would be taken for "all down". Numbers count the
// answers that are shown and are not looked at.
func (t *turn) otherTap(spec Spec, text string) (event.Value, bool) {
	actions, ok := timed[spec.ID]
	if !ok || strings.ContainsAny(text, "0123456789") {
		return event.Value{}, false
	}
	w := choices(actions)
	w.Lang = t.in.By.Lang
	h := hear.Answer(text, w)
	if len(h.Values) != 1 || h.Offered {
		return event.Value{}, false
	}
	key := h.Values[0].Key
	for _, shown := range t.want(spec).Choices {
		if shown.Key == key {
			return event.Value{}, false
		}
	}
	return event.Word("pick", key), true
}

// has keeps the numbers that hold for the work as it begins: a later change of
// plan must not move a clock that is running on wet glue.
func (t *turn) has(tp tap) map[string]event.Value {
	switch {
	case tp.mark == "begun" && strings.HasPrefix(tp.work, "batch/"):
		return batchHas(t.view())
	case strings.HasPrefix(tp.mark, "coated-"):
		return coatHas(t.view(), tp.mark)
	case tp.mark == "begun" && strings.HasPrefix(tp.work, "square/"):
		return squareHas(t.view())
	case tp.mark == "begun" && tp.work == stepRelax:
		return map[string]event.Value{"for": minutes(relaxFor(t.view()))}
	}
	return nil
}

// follow does what a tap brings with it: the weather is asked again before the
// next batch, a find opens a snag.
func (t *turn) follow(tp tap) {
	switch {
	case strings.HasPrefix(tp.work, "batch/") && slices.Contains(closing, tp.mark):
		t.afterBatch(tp)
	case tp.work == "field":
		if n, _ := batch(t.s); n > 2 && t.s.Settled[stepLitres].Answer() {
			t.emit(event.Reopened{Steps: []string{stepLitres}, Because: stepBatches})
		}
	case tp.mark == "mated":
		if again := t.olderThan(oldWeather, stepFaces); len(again) > 0 && nextRun(t.view()) != nil {
			t.emit(event.Reopened{Steps: again, Because: stepBatches})
		}
	case tp.mark == "drips" || tp.mark == "found":
		t.emit(event.Snagged{Snag: fmt.Sprintf("s%d", len(t.s.Snags)+1), What: tp.work})
	case tp.work != stepHose && (tp.mark == "begun" || strings.HasPrefix(tp.mark, "coated-")):
		t.goUp(t.in.When())
	}
}

func minutes(d time.Duration) event.Value {
	return event.Of("min", math.Round(d.Minutes()*10)/10)
}

func moment(at time.Time) event.Value { return event.Value{Unit: "time", At: at.UTC()} }

// age is how long after a mark another one was made.
func (w Work) age(from, to string) time.Duration { return w.Marks[to].Sub(w.Marks[from]) }

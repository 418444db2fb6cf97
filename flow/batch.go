package flow

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"chargehand/calc"
	"chargehand/calc/glue"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
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
	return has
}

// How long weather answers hold: for a start at most an hour, the air three. Those
// of the last minutes are not asked again after a refusal. Common practice, no
// source.
const (
	freshWeather = 10 * time.Minute
	oldWeather   = time.Hour
	oldAir       = 3 * time.Hour
)

// hindersStart refuses a batch without a window, with one too short to work in, or
// on weather answers that are too old.
func (t *turn) hindersStart() *Doubt {
	v := t.view()
	p := v.Plan()
	w := p.Window
	switch since := t.in.When().Sub(v.S.Settled[stepDeck].At); {
	case w == nil || p.Batch == nil:
		if id := faulty(v); id != "" {
			return &Doubt{Key: "refuse.window-fault", Args: args("step", event.Word("step", id))}
		}
		return &Doubt{Key: "refuse.no-window"}
	case since > oldWeather:
		return &Doubt{Key: "refuse.weather-old", Args: args("age", minutes(since))}
	case p.Go != nil && p.Go.Verdict == "stop" && p.Batch.NoGo == "" && w.Stop == "" && v.S.Settled[stepGo].Status != StepSkipped:
		return &Doubt{Key: "refuse.go-stop"}
	case w.Stop != "" || p.Batch.NoGo != "" || p.Batch.Area.In(m2) <= 0:
		return &Doubt{Key: "refuse.window-short", Args: args("window", event.Of("min", w.Minutes()))}
	}
	return nil
}

// lookAgain asks the weather again after a refusal that only new answers can lift.
func (t *turn) lookAgain(tp tap) {
	var again []string
	switch {
	case tp.action == "start":
		again = t.oldWeather(freshWeather)
		if id := faulty(t.view()); id != "" {
			again = []string{id}
		}
	case strings.HasPrefix(tp.action, "coat-"):
		again = t.olderThan(freshWeather, stepAir, stepDamp, stepWind, stepRain, stepFaces)
	}
	if len(again) > 0 {
		t.emit(event.Reopened{Steps: again, Because: stepBatches})
	}
}

// lookAgainBeforeGo asks again what a go rests on: the tin, where a film went off far
// too soon, weather answers that are not fresh where they forbid it, and old ones
// in any case. It says whether there was anything to look at.
func (t *turn) lookAgainBeforeGo(said string, refused *Doubt) bool {
	limit := oldWeather
	if refused != nil {
		limit = freshWeather
	}
	again := t.oldWeather(limit)
	why := &Doubt{Key: "refuse.weather-old", Args: args("age", minutes(t.in.When().Sub(t.s.Settled[stepDeck].At)))}
	if w := t.view().Plan().Window; refused != nil && w != nil && w.Stop == plan.SquareLow {
		again, why = []string{"tin", stepLabel, stepDeck}, refused
	}
	if len(again) == 0 {
		return false
	}
	t.emit(event.Heard{Step: stepGo, Said: cut(said), Key: why.Key, Args: why.Args})
	t.emit(event.Reopened{Steps: again, Because: stepBatches})
	return true
}

// faulty is the answer that keeps a window from being worked out; "" when it is
// none.
func faulty(v View) string {
	err, bad := v.Plan().Faults["window"]
	var d *calc.DomainError
	if !bad || !errors.As(err, &d) {
		return ""
	}
	return map[string]string{"label_min": stepLabel, "label_c": "label-temp", "label2_min": stepLabel2, "label2_c": stepLabel2, "max_min": "label-upper",
		"surface_c": stepDeck, "air_c": stepAir, "rh_pct": stepDamp, "wind_m_s": stepWind}[d.Field]
}

// olderThan lists those of the answers that were given so long ago.
func (t *turn) olderThan(limit time.Duration, steps ...string) []string {
	return slices.DeleteFunc(steps, func(id string) bool {
		set := t.s.Settled[id]
		return !set.Answer() || t.in.When().Sub(set.At) < limit
	})
}

// oldWeather lists the weather answers that are older than so long: the deck, the
// wind and the rain soon, the air later, the night with the day.
func (t *turn) oldWeather(limit time.Duration) []string {
	read := t.s.Settled[stepDeck]
	now := t.in.When()
	since := now.Sub(read.At)
	if !read.Answer() || since < limit {
		return nil
	}
	again := []string{stepDeck, stepWind, stepRain}
	if since > oldAir {
		again = append(again, stepAir, stepDamp)
	}
	if civil(now, t.s.Zone).Day != civil(read.At, t.s.Zone).Day || since > 24*time.Hour {
		again = append(again, stepNight)
		if t.s.Settled[stepSquare].Answer() {
			again = append(again, stepSquare)
		}
	}
	return slices.DeleteFunc(again, func(id string) bool { return !t.s.Settled[id].Answer() })
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

// watched is a batch as it happened, for what it teaches about rates. ok is false
// for one that was not tapped through or went badly.
func watched(w Work) (glue.Rates, bool) {
	if end, _ := ended(w); end != "down" || !w.Done("last") {
		return glue.Rates{}, false
	}
	r, err := glue.Learn(glue.Watched{
		Area:   unit.Area(w.Has["area"].Num()) * m2,
		Spread: unit.Minutes(w.age("begun", "last").Minutes()), Laid: unit.Minutes(w.age("last", "down").Minutes()), Turn: unit.Minutes(w.Has["turn"].Num()),
	})
	return r, err == nil
}

// good says whether a batch went down within its window.
func good(w Work) bool {
	end, _ := ended(w)
	return end == "down" && w.age("begun", "down") <= after(w, "window")
}

// gluedInto writes what the batches and squares so far say into the plan's inputs.
func gluedInto(in *plan.Inputs, s State) {
	read := s.Settled[stepDeck].At
	if !s.Settled["label-second-temp"].Answer() {
		in.Label2 = nil // minutes without a temperature
	}
	for _, w := range batches(s) {
		if end, _ := ended(w); end != "down" {
			continue
		}
		if half := w.Has["half"].Text; half != "" {
			in.Laid = append(in.Laid, plan.Strip{Half: glue.Half(half), Width: unit.Length(w.Has["strip"].Num())})
		}
		if begun := w.Marks["begun"]; good(w) && sameDay(begun, read, s.Zone) && begun.After(s.Settled["tin"].At) {
			in.GoodBatches++
		}
		if r, ok := watched(w); ok {
			if in.Rates != nil {
				r = r.Slower(*in.Rates)
			}
			in.Rates = &r
		}
	}
	in.Squares, in.SquareToday = squares(s, read)
}

func sameDay(a, b time.Time, zone string) bool {
	x, y := civil(a, zone), civil(b, zone)
	return x.Year == y.Year && x.Month == y.Month && x.Day == y.Day
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

// pace is how fast the last batch was rolled and laid, for the tap that ended
// it.
func pace(w Work) (glue.Rates, bool) {
	r, ok := watched(w)
	r.Roll, r.Lay = glue.Rate(math.Round(float64(r.Roll)*10)/10), glue.Rate(math.Round(float64(r.Lay)*10)/10)
	return r, ok
}

// numberOf is the number at the end of a work's name.
func numberOf(work string) (stem string, n int) {
	stem, num, _ := strings.Cut(work, "/")
	fmt.Sscanf(num, "%d", &n)
	return stem, n
}

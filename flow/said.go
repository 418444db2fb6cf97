package flow

import (
	"strings"
	"time"

	"chargehand/flow/event"
	"chargehand/flow/hear"
	"chargehand/flow/talk"
)

// said works out typed or dictated text.
func (t *turn) said(text string) {
	q, spec, isStep := open(t.s)
	switch {
	case status(t.s) == JobDraft:
		t.heard(text, "refuse.no-job", nil)
		return
	case q == questionResume:
		t.resume(text)
		return
	}
	// The answer belongs to the question its sender had last been shown.
	if shown, ok := Lookup(stepOf(t.in.Asked)); ok && t.in.Asked != q && t.s.Pending == nil && stepOf(q) != shown.ID {
		spec, isStep = shown, true
		t.late = t.s.Settled[shown.ID].By.ID != t.in.By.ID
	}
	want := yesNo(t.view())
	want.Lang = t.in.By.Lang
	if isStep && t.s.Pending == nil {
		want = t.want(spec)
		if t.pasted(spec, text) {
			return
		}
	}
	said := want
	if isStep && spec.Kind == Gate {
		// In a text a command must stand alone. A gate is no place for that: "s
		// looks fine" must not pass as a finding.
		said = yesNo(t.view())
		said.Lang = want.Lang
	}
	if cmd, rest, ok := hear.Command(text, said); ok && !(cmd == hear.Accept && rest == "" && (spec.None || t.takesOK(want))) {
		t.command(cmd, rest, text, spec, isStep)
		return
	}
	switch {
	case t.s.Pending != nil:
		t.saidToPending(text, want)
	case t.s.Unclear != nil && t.s.Unclear.Step == spec.ID:
		t.saidToUnclear(text)
	case !isStep:
		t.emit(event.Noted{Text: cut(text)})
	default:
		t.listen(spec, text, want)
	}
}

// takesOK says whether "ok" and "." are an answer of this question rather than
// a command: hear.Answer knows what they stand for.
func (t *turn) takesOK(want hear.Want) bool {
	return t.s.Pending != nil || t.s.Unclear != nil || len(want.Offered) > 0 || want.Kind == hear.YesNo
}

// listen hears an answer to a step.
func (t *turn) listen(spec Spec, text string, want hear.Want) {
	if spec.None && !strings.ContainsAny(text, "123456789") { // "2" is a number here, not the second of yes and no
		none := hear.Want{Kind: hear.YesNo, Lang: want.Lang, Offered: []hear.Value{{Kind: hear.YesNo, Key: hear.No}}}
		if h := hear.Answer(text, none); len(h.Values) == 1 && h.Values[0].Key == hear.No {
			t.answer(spec, text, event.Value{Unit: spec.unit(want.Kind)}, h.Offered)
			return
		}
	}
	if len(spec.More) > 0 && !strings.ContainsAny(strings.TrimSpace(text), " x×;/") {
		// One word is one number: in "5,4" the comma is a decimal, not a list.
		one := want.Parts[0]
		one.Lang, one.Now = want.Lang, want.Now
		if len(want.Offered) > 0 {
			one.Offered = want.Offered[:1]
		}
		want = one
	}
	if spec.ID == stepJoist || spec.ID == stepSpanGate {
		if row, ok := rowOf(t.s, text); ok {
			t.takeRow(row, text)
			return
		}
	}
	if spec.ID == stepSpanGate {
		// A deeper joist lifts the hold as well as a finding does.
		if joist, ok := Lookup(stepJoist); ok {
			if h := hear.Answer(text, t.want(joist)); len(h.Values) > 0 && !h.Offered {
				t.take(joist, text, h)
				return
			}
		}
	}
	if spec.Read != nil {
		t.read(spec, text)
		return
	}
	if val, ok := t.otherTap(spec, text); ok {
		t.answer(spec, text, val, false)
		return
	}
	h := hear.Answer(text, want)
	if h.Refused != nil {
		for _, other := range t.wants(spec)[1:] {
			if e := hear.Answer(text, other); e.Refused == nil || e.Refused.Why == hear.RefusedRange {
				h = e
				break
			}
		}
	}
	t.take(spec, text, h)
}

// read hears an answer of a form of its own.
func (t *turn) read(spec Spec, text string) {
	val, ok := spec.Read(text)
	if !ok {
		t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: hear.RefusedNumber, Args: args("heard", event.Word("text", cut(text)))})
		return
	}
	t.answer(spec, text, val, false)
}

// take does what an answer came to.
func (t *turn) take(spec Spec, text string, h hear.Heard) {
	switch {
	case h.Refused != nil:
		t.refuse(spec, text, h.Refused)
	case h.Ask != nil:
		t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: h.Ask.Why, Args: readings(spec, h.Ask, t.in.When(), t.s.Zone)})
	default:
		val := spec.record(h.Values, t.in.When(), t.s.Zone)
		if len(spec.More) > 0 && len(h.Values) > 1 {
			t.takeMore(spec, text, h)
			return
		}
		if h.Soft && !t.doubted(spec, val) {
			t.propose(event.Proposed{Step: spec.ID, Said: cut(text), Value: val, Doubt: "doubt.soft", Args: args("value", val)})
			return
		}
		t.answer(spec, text, val, h.Offered)
	}
}

// doubted says whether a soft doubt would only repeat the step's own.
func (t *turn) doubted(spec Spec, val event.Value) bool {
	return spec.Doubt != nil && spec.Doubt(t.view(), val) != nil
}

// takeMore gives the further numbers of a line to the steps they belong to.
// One that needs a word stops the rest: they are asked for again.
func (t *turn) takeMore(spec Spec, text string, h hear.Heard) {
	ids := append([]string{spec.ID}, spec.More...)
	for i, heardValue := range h.Values {
		if i >= len(ids) || t.s.Pending != nil {
			return
		}
		part, ok := Lookup(ids[i])
		if !ok || (i > 0 && !t.view().ready(part)) {
			return
		}
		one := hear.Heard{Values: []hear.Value{heardValue}, Soft: h.Soft}
		val := part.record(one.Values, t.in.When(), t.s.Zone)
		before := len(t.events)
		if h.Soft && soft(part, t, heardValue) {
			t.propose(event.Proposed{Step: part.ID, Said: cut(text), Value: val, Doubt: "doubt.soft", Args: args("value", val)})
			return
		}
		t.answer(part, text, val, h.Offered)
		if _, refused := t.events[before].Event.(event.Heard); refused {
			return
		}
	}
}

// soft says whether this one value lies outside the step's usual range.
func soft(spec Spec, t *turn, v hear.Value) bool {
	r := t.want(spec).Range
	if w := t.want(spec); len(w.Parts) > 0 {
		r = w.Parts[0].Range
	}
	return (r.SoftMin != 0 || r.SoftMax != 0) && (v.Num < r.SoftMin || v.Num > r.SoftMax)
}

func (t *turn) refuse(spec Spec, text string, r *hear.Refusal) {
	a := args("heard", event.Word("text", r.Heard), "example", event.Word("key", r.Example))
	w := t.want(spec)
	for _, other := range spec.Else {
		if r.Got != nil && other.Kind == r.Got.Kind {
			w = other
		}
	}
	if len(w.Parts) > r.Part {
		w = w.Parts[r.Part]
	}
	if r.Why == hear.RefusedRange && r.Got != nil {
		u := spec.unit(r.Got.Kind)
		scale := 1.0
		if r.Got.Kind == hear.SiteLength {
			scale = 1.0 / 1000
		}
		a["got"] = event.Of(u, r.Got.Num*scale)
		a["low"], a["high"] = event.Of(u, w.Range.HardMin*scale), event.Of(u, w.Range.HardMax*scale)
	}
	if r.Why == hear.RefusedFew || r.Why == hear.RefusedMany {
		n := max(w.Many.Min, 1)
		if r.Why == hear.RefusedMany {
			n = max(w.Many.Max, 1)
		}
		a["n"] = event.Of("count", float64(n))
	}
	t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: r.Why, Args: a})
}

// readings keeps the options of an ambiguity for the record: what each would
// mean, in order.
func readings(spec Spec, a *hear.Ambiguity, now time.Time, zone string) map[string]event.Value {
	out := args("heard", event.Word("text", a.Heard))
	for i, o := range a.Options {
		out["option"+numeral(i+1)] = spec.record(o.Values, now, zone)
	}
	return out
}

// saidToUnclear picks one of the readings that were offered, or hears a new
// answer.
func (t *turn) saidToUnclear(text string) {
	u := t.s.Unclear
	spec, ok := Lookup(u.Step)
	if !ok {
		return
	}
	want := t.want(spec)
	for _, w := range t.wants(spec) {
		if first := hear.Answer(u.Said, w); first.Ask != nil {
			h := hear.PickOption(text, *first.Ask, w)
			if plain := hear.Answer(text, want); h.Refused != nil && w.Kind != want.Kind && plain.Refused == nil {
				h = plain // a tap after all, where a measured value was unclear
			}
			t.take(spec, text, h)
			return
		}
	}
	t.listen(spec, text, want) // the moment has passed in which it was unclear
}

// saidToPending hears a yes or a no to what waits for one; anything else is
// heard as a new answer to the step.
func (t *turn) saidToPending(text string, yes hear.Want) {
	p := t.s.Pending
	yes.Offered = []hear.Value{{Kind: hear.YesNo, Key: hear.Yes}}
	if h := hear.Answer(text, yes); len(h.Values) == 1 {
		t.confirm(h.Values[0].Yes(), text)
		return
	}
	spec, ok := Lookup(p.Step)
	if !ok {
		t.emit(event.Dropped{})
		return
	}
	if h := hear.Answer(text, t.want(spec)); len(h.Values) > 0 {
		t.emit(event.Dropped{})
		t.take(spec, text, h)
		return
	}
	t.heard(text, "refuse.confirm", args("heard", event.Word("text", cut(text))))
}

// pressed works out a tap. A tap on a question that is not open any more
// changes nothing and says what already happened.
func (t *turn) pressed(p talk.Pressed) {
	q, _, _ := open(t.s)
	if p.Question != q {
		id := stepOf(p.Question)
		if t.pressedLate(p) {
			return
		}
		done := t.s.Settled[id]
		if done.Status == "" || done.Status == StepPending {
			t.heard(p.Action, "already.moved-on", nil)
			return
		}
		t.emit(event.Heard{Step: id, Said: cut(p.Action), Key: "already.done", Args: args(
			"who", event.Word("text", nameOf(done.By)), "when", event.Value{Unit: "time", At: done.At}, "value", done.Value)})
		return
	}
	asked := t.in.Asked
	t.in.Asked = q
	t.said(p.Action)
	t.in.Asked = asked
}

// pressedLate says when a tap of a batch or run that is closed was made: two hands
// may tap the same thing at once.
func (t *turn) pressedLate(p talk.Pressed) bool {
	id, n := stepOf(p.Question), workOf(p.Question)
	if n == 0 {
		return false
	}
	w := t.s.Works[workName(id, n)]
	for _, mark := range marksOf(p.Action) {
		if w.Done(mark) {
			t.emit(event.Heard{Step: id, Said: cut(p.Action), Key: "already.tapped", Args: args("when", moment(w.Marks[mark]))})
			return true
		}
	}
	if end, over := ended(w); over && id == stepBatches {
		t.emit(event.Heard{Step: id, Said: cut(p.Action), Key: "already.tapped", Args: args("when", moment(w.Marks[end]))})
		return true
	}
	return false
}

// resume hears what is said to a paused job.
func (t *turn) resume(text string) {
	cmd, rest, ok := hear.Command(text, hear.Want{Kind: hear.YesNo, Lang: t.in.By.Lang, Offered: []hear.Value{{Kind: hear.YesNo, Key: hear.Yes}}})
	h := hear.Answer(text, hear.Want{Kind: hear.YesNo, Lang: t.in.By.Lang, Offered: []hear.Value{{Kind: hear.YesNo, Key: hear.Yes}}})
	switch {
	case ok && (cmd == hear.Accept || cmd == hear.Go), len(h.Values) == 1 && h.Values[0].Yes(), strings.TrimSpace(text) == "continue":
		away := t.in.At.Sub(t.s.Paused)
		if again := t.stale(away); len(again) > 0 {
			t.emit(event.Reopened{Steps: again, Because: questionResume})
		}
		t.emit(event.Continued{})
	case ok && cmd == hear.List:
		t.list(text)
	case ok && cmd == hear.Draw:
		t.draw(rest, text)
	case ok && cmd == hear.Note:
		_, words, _ := hear.Command(text, hear.Want{Kind: hear.YesNo, Lang: t.in.By.Lang})
		t.emit(event.Noted{Text: cut(words)})
	case t.s.Protected == "" && strings.TrimSpace(text) != "" && !ok:
		t.emit(event.Paused{Protected: cut(strings.TrimSpace(text))})
	default:
		t.heard(text, "paused.still", nil)
	}
}

// stale lists the checks that do not outlast a break: a deck that was dry
// three weeks ago is not known to be dry now. The three days are common
// practice, no source.
func (t *turn) stale(away time.Duration) []string {
	if away < 72*time.Hour {
		return nil
	}
	var out []string
	for _, spec := range script() {
		if spec.Kind == Hold && spec.Weathers && t.s.Settled[spec.ID].Answer() {
			if later := spec.Covered; later == "" || !t.s.Settled[later].Answer() {
				out = append(out, spec.ID)
			}
		}
	}
	return out
}

package flow

import (
	"errors"
	"slices"
	"unicode"

	"chargehand/calc/plan"
	"chargehand/flow/event"
)

// answer puts a value that was understood to a step: refuse it, doubt it, ask
// before other numbers move, or settle it.
func (t *turn) answer(spec Spec, said string, val event.Value, offered bool) {
	v := t.view()
	if !val.Finite() {
		t.heard(said, "refuse.number", nil)
		return
	}
	switch {
	case spec.Kind == Timed:
		t.tapped(spec, said, val)
		return
	case spec.Kind == Hold && val.Unit == "yes" && !val.Yes():
		t.emit(event.Heard{Step: spec.ID, Said: cut(said), Key: "refuse.hold"})
		return
	case spec.Kind == Do && val.Unit == "yes" && !val.Yes():
		t.emit(event.Heard{Step: spec.ID, Said: cut(said), Key: "refuse.do"})
		return
	case spec.Kind == Gate && !finding(val.Text):
		t.emit(event.Heard{Step: spec.ID, Said: cut(said), Key: "refuse.finding-short"})
		return
	}
	now, had := t.s.Settled[spec.ID]
	if had && now.Answer() && now.Value.Equal(val) && stepOf(t.question()) != spec.ID {
		t.heard(said, "already.same", map[string]event.Value{"value": val})
		return
	}
	if t.late && had && now.Answer() {
		t.propose(event.Proposed{Step: spec.ID, Said: cut(said), Value: val, Doubt: "doubt.said-already",
			Args: args("who", event.Word("text", nameOf(now.By)), "value", now.Value, "when", moment(now.At), "new", val)})
		return
	}
	if spec.ID == stepGo && val.Yes() && t.lookAgainBeforeGo(said, spec.Doubt(v, val)) {
		return
	}
	if spec.Doubt != nil {
		if d := spec.Doubt(v, val); d != nil {
			if d.Refuse {
				t.emit(event.Heard{Step: spec.ID, Said: cut(said), Key: d.Key, Args: d.Args})
				return
			}
			t.propose(event.Proposed{Step: spec.ID, Said: cut(said), Value: val, Doubt: d.Key, Args: d.Args})
			return
		}
	}
	move := "answer"
	if had && now.Answer() {
		move = "change"
	}
	if !t.may(spec, said, move) {
		return
	}
	if move == "change" || now.Status == StepReopened {
		if moved, steps := consequences(v, spec, val); len(moved) > 0 && len(steps) > 0 && move == "change" {
			t.propose(event.Proposed{Step: spec.ID, Said: cut(said), Value: val})
			return
		}
	}
	t.settle(spec, said, val, offered)
}

// propose asks for a yes. While glue is wet nothing is asked: it is to be said
// again after.
func (t *turn) propose(p event.Proposed) {
	if live(t.s) {
		t.emit(event.Heard{Step: p.Step, Said: p.Said, Key: "refuse.busy"})
		return
	}
	t.emit(p)
}

// finding says whether a text can be one: who found what takes two words at
// least, and numbers alone are an answer to another question.
func finding(text string) bool {
	n := 0
	for _, w := range words(text) {
		letters := 0
		for _, r := range w {
			if unicode.IsLetter(r) {
				letters++
			}
		}
		if letters >= 2 {
			n++
		}
	}
	return n >= 2
}

// settle writes the answer and opens again what rested on the old one.
func (t *turn) settle(spec Spec, said string, val event.Value, offered bool) {
	_, steps := consequences(t.view(), spec, val)
	t.emit(event.Answered{Step: spec.ID, Said: cut(said), Value: val, Offered: offered})
	switch spec.ID {
	case stepShort:
		t.remedied(val)
	case stepCure:
		t.cured(val)
	}
	if len(steps) > 0 {
		t.emit(event.Reopened{Steps: steps, Because: spec.ID})
	}
}

// may asks the step's machine.
func (t *turn) may(spec Spec, said, move string) bool {
	from := t.s.Settled[spec.ID].Status
	if from == "" {
		from = StepPending
	}
	guard := func() *Refusal {
		if move != "answer" && move != "change" {
			return nil
		}
		v := t.view()
		if !v.relevant(spec) && !spec.Unasked {
			return &Refusal{Key: "refuse.not-here"}
		}
		if !v.ready(spec) {
			return &Refusal{Key: "refuse.not-ready"}
		}
		return nil
	}
	_, err := stepMachine.next(from, move, guard)
	var r *Refusal
	switch {
	case errors.As(err, &r):
		t.emit(event.Heard{Step: spec.ID, Said: cut(said), Key: r.Key})
	case err != nil:
		t.emit(event.Heard{Step: spec.ID, Said: cut(said), Key: "refuse.move"})
	default:
		return true
	}
	return false
}

// consequences works out what an answer moves in the plan, and which settled
// steps rest on what moved.
func consequences(v View, spec Spec, val event.Value) (moved []plan.Change, steps []string) {
	old, had := v.S.Settled[spec.ID]
	if !had || old.Status == StepPending || (old.Value.Equal(val) && old.Answer()) {
		return nil, nil // a first answer moves nothing that anyone was told
	}
	after := v.with(spec.ID, val)
	moved = plan.Diff(v.Plan(), after.Plan())
	return moved, restOn(after, moved, spec.ID)
}

// restOn lists the answered steps that rest on what moved, or on the step that
// moved it.
func restOn(v View, moved []plan.Change, because string) (steps []string) {
	parts := map[string]bool{because: true}
	for _, m := range moved {
		parts[m.Part] = true
	}
	for _, other := range script() {
		if other.ID == because || !v.S.Settled[other.ID].Answer() || !v.relevant(other) {
			continue
		}
		if slices.ContainsFunc(other.Rests, func(p string) bool { return parts[p] }) {
			steps = append(steps, other.ID)
		}
	}
	return steps
}

// confirm settles or drops what waits for a yes.
func (t *turn) confirm(yes bool, said string) {
	p := t.s.Pending
	spec, ok := Lookup(p.Step)
	if !yes || !ok {
		t.emit(event.Dropped{})
		return
	}
	move := "answer"
	if t.s.Settled[spec.ID].Answer() {
		move = "change"
	}
	if !t.may(spec, said, move) {
		t.emit(event.Dropped{})
		return
	}
	t.settle(spec, p.Said, p.Value, false)
}

func (t *turn) question() string {
	q, _, _ := open(t.s)
	return q
}

// nameOf is what a person is called where no name was given.
func nameOf(a event.Actor) string {
	if a.Name != "" {
		return a.Name
	}
	return a.Role
}

package flow

import (
	"strings"

	"chargehand/flow/event"
)

// Retell is what today's formulas would tell where ev was told: the same step,
// the same facts, the numbers worked out anew. before is the state the event
// met. ok is false where nothing would be told: the step is gone, or its numbers
// can't be worked out any more. A caution has no numbers and is told again as it
// was.
func Retell(before State, ev event.Told) (now event.Told, ok bool) {
	if len(ev.Lines) == 0 && len(ev.Formulas) == 0 {
		return ev, true
	}
	v := View{before}
	if ev.What == "list" {
		if told := listOf(v); told != nil {
			return *told, true
		}
		return event.Told{}, false
	}
	if thing, ok := strings.CutPrefix(ev.What, deliveryOf); ok {
		if told := tellDelivery(v, itemKey(thing)); told != nil {
			return *told, true
		}
		return event.Told{}, false
	}
	if _, spec, isStep := open(before); isStep {
		if now, ok := spec.tells(v, ev.What); ok {
			return now, true
		}
	}
	for _, spec := range script() { // the order of the steps has changed since
		if !v.relevant(spec) {
			continue
		}
		if now, ok := spec.tells(v, ev.What); ok {
			return now, true
		}
	}
	return event.Told{}, false
}

// tells is what the step tells of a thing now.
func (s Spec) tells(v View, what string) (event.Told, bool) {
	for _, tell := range []func(View) *event.Told{s.Tell, s.Also} {
		if tell == nil {
			continue
		}
		if told := tell(v); told != nil && told.What == what {
			return *told, true
		}
	}
	return event.Told{}, false
}

// Differ says whether two tellings differ in what they say, whatever formulas
// made them.
func Differ(a, b event.Told) bool { return a.Level != b.Level || !sameTold(a, b) }

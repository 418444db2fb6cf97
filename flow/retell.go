package flow

import "chargehand/flow/event"

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
	if _, spec, isStep := open(before); isStep && spec.Tell != nil {
		if told := spec.Tell(v); told != nil && told.What == ev.What {
			return *told, true
		}
	}
	for _, spec := range script() { // the order of the steps has changed since
		if spec.Tell == nil || !v.relevant(spec) {
			continue
		}
		if told := spec.Tell(v); told != nil && told.What == ev.What {
			return *told, true
		}
	}
	return event.Told{}, false
}

// Differ says whether two tellings differ in what they say, whatever formulas
// made them.
func Differ(a, b event.Told) bool { return a.Level != b.Level || !sameTold(a, b) }

package flow

import (
	"fmt"
	"strconv"
	"strings"
)

// Questions that belong to no step.
const (
	questionResume  = "resume"  // the job is paused
	questionConfirm = "confirm" // a change or a doubtful answer waits for a yes
	questionRest    = "rest"    // nothing is open: aftercare, or the job has ended
)

// open returns the name of the open question and its step, if it has one.
//
// Wet glue comes before everything: the batch in hand is the question until it is
// closed. Then a gate, whatever the phase: asbestos in doubt or a span over its
// limit hold the job. Then the step the person went to, then the first ready step
// of the phase, then of the first phase that has one.
func open(s State) (question string, spec Spec, ok bool) {
	switch s.Status {
	case JobPaused:
		return questionResume, Spec{}, false
	case JobActive, JobHanded:
	default:
		return questionRest, Spec{}, false
	}
	v := View{s}
	if live(s) {
		spec, ok = Lookup(stepBatches)
		return name(s, spec), spec, ok
	}
	if s.Pending != nil {
		spec, ok = Lookup(s.Pending.Step)
		return fmt.Sprintf("%s@%d", questionConfirm, s.Seq), spec, ok
	}
	if spec, ok = gate(v); ok {
		return name(s, spec), spec, true
	}
	if spec, ok = Lookup(s.At); ok && v.relevant(spec) && v.ready(spec) {
		return name(s, spec), spec, true
	}
	if spec, ok = first(v, s.Phase); ok {
		return name(s, spec), spec, true
	}
	for _, p := range phases {
		if spec, ok = first(v, p); ok {
			return name(s, spec), spec, true
		}
	}
	return questionRest, Spec{}, false
}

// name is a question's name: the step and how often it has been settled, and for
// timed work which batch or run it is, so that an old button is known as old.
func name(s State, spec Spec) string {
	if n := workNumber(spec.ID, s); n > 0 {
		return fmt.Sprintf("%s@%d.%d", spec.ID, s.Settled[spec.ID].Version, n)
	}
	return fmt.Sprintf("%s@%d", spec.ID, s.Settled[spec.ID].Version)
}

// stepOf cuts the version off a question's name.
func stepOf(question string) string {
	id, _, _ := strings.Cut(question, "@")
	return id
}

// workOf is the number of the work in a question's name; 0 where it has none.
func workOf(question string) int {
	_, version, _ := strings.Cut(question, "@")
	_, num, _ := strings.Cut(version, ".")
	n, _ := strconv.Atoi(num)
	return n
}

func gate(v View) (Spec, bool) {
	for _, spec := range script() {
		if spec.Kind == Gate && v.unsettled(spec) && v.relevant(spec) && v.ready(spec) {
			return spec, true
		}
	}
	return Spec{}, false
}

func first(v View, phase string) (Spec, bool) {
	for _, spec := range script() {
		if spec.Phase == phase && v.unsettled(spec) && v.relevant(spec) && v.ready(spec) {
			return spec, true
		}
	}
	return Spec{}, false
}

// unsettled says whether the step still wants something.
func (v View) unsettled(s Spec) bool {
	switch v.S.Settled[s.ID].Status {
	case "", StepPending, StepAsked, StepReopened:
		return true
	}
	return false
}

// ready says whether everything the step needs has been settled. What was put
// off is settled for a check, but not for work that goes on top of it.
func (v View) ready(s Spec) bool {
	_, blocked := v.waitsFor(s)
	return !blocked
}

func (v View) waitsFor(s Spec) (Spec, bool) {
	for _, id := range s.Needs {
		need, ok := Lookup(id)
		if !ok || !v.relevant(need) {
			continue
		}
		off := v.S.Settled[id].Status == StepPutOff && s.Kind == Do && need.Kind == Do
		if v.unsettled(need) || off {
			return need, true
		}
	}
	return Spec{}, false
}

// phaseState says where a phase stands.
func phaseState(v View, phase string) string {
	begun, left := false, false
	for _, spec := range script() {
		if spec.Phase != phase || !v.relevant(spec) {
			continue
		}
		if v.unsettled(spec) {
			left = true
		} else if v.S.Settled[spec.ID].Status != "" {
			begun = true
		}
	}
	switch {
	case !left:
		return PhaseComplete
	case begun || v.S.Phase == phase:
		return PhaseOpen
	}
	return PhaseWaiting
}

// missing returns the first step that keeps a phase from being entered: there
// is something to do in it, and all of it waits.
func missing(v View, phase string) (Spec, bool) {
	var first Spec
	found := false
	for _, spec := range script() {
		if spec.Phase != phase || !v.relevant(spec) || !v.unsettled(spec) {
			continue
		}
		need, waits := v.waitsFor(spec)
		if !waits {
			return Spec{}, false
		}
		if !found {
			first, found = need, true
		}
	}
	return first, found
}

// PhaseNow is the phase of the open question; "" when none is open.
func PhaseNow(s State) string {
	_, spec, _ := open(s)
	return spec.Phase
}

// StepNow is the step of the open question; "" when none is open.
func StepNow(s State) string {
	_, spec, _ := open(s)
	return spec.ID
}

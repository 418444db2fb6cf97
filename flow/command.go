package flow

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// command does what a person may ask for at any question.
func (t *turn) command(cmd hear.Cmd, rest, text string, spec Spec, isStep bool) {
	switch cmd {
	case hear.Accept:
		t.accept(text, spec, isStep)
	case hear.Back:
		t.back(text)
	case hear.Undo:
		t.undoLast(text)
	case hear.Skip:
		t.skip(rest, text, spec, isStep)
	case hear.PutOff:
		t.putOff(rest, text, spec, isStep)
	case hear.Pause:
		if _, err := jobMachine.next(t.s.Status, "pause", nil); err != nil {
			t.heard(text, "refuse.move", nil)
			return
		}
		if live(t.s) {
			t.heard(text, "refuse.busy", nil)
			return
		}
		t.emit(event.Paused{Protected: cut(rest)})
	case hear.Why:
		if !isStep {
			t.heard(text, "help", nil)
			return
		}
		t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: "why." + spec.voice()})
	case hear.Rain:
		t.rain(text)
	case hear.Up:
		t.climb(text)
	case hear.Off:
		t.comeOff()
	case hear.Stop:
		t.heard(text, "stop.now", nil)
	case hear.Timers:
		t.heard(text, "timers", nil)
	case hear.List:
		t.list(text)
	case hear.Where:
		t.heard(text, "where", nil)
	case hear.Change:
		t.change(rest, text)
	case hear.Go:
		t.jump(rest, text)
	case hear.Note:
		if strings.TrimSpace(rest) == "" {
			t.heard(text, "refuse.note", nil)
			return
		}
		t.emit(event.Noted{Text: cut(rest), Step: spec.ID})
	case hear.Snag:
		if strings.TrimSpace(rest) == "" {
			t.heard(text, "refuse.note", nil)
			return
		}
		t.emit(event.Snagged{Snag: fmt.Sprintf("s%d", len(t.s.Snags)+1), What: cut(rest)})
	case hear.TakeUp:
		t.takeUp(rest, text)
	case hear.Price:
		t.price(rest, text)
	case hear.Came:
		t.came(rest, text, spec, isStep)
	case hear.Choose:
		t.choose(rest, text)
	default:
		t.heard(text, "help", nil)
	}
}

func (t *turn) accept(text string, spec Spec, isStep bool) {
	if t.s.Pending != nil {
		t.confirm(true, text)
		return
	}
	if !isStep {
		t.heard(text, "where", nil)
		return
	}
	t.listen(spec, text, t.want(spec))
}

// back goes to the question before the open one; its answer is kept until
// another is given.
func (t *turn) back(text string) {
	if t.s.Pending != nil {
		t.emit(event.Dropped{})
		return
	}
	now := t.openStep()
	v := t.view()
	var last *Spec
	for _, spec := range script() {
		if spec.ID == now {
			break
		}
		if v.relevant(spec) && v.S.Settled[spec.ID].Answer() {
			last = &spec
		}
	}
	if last == nil {
		t.heard(text, "refuse.no-back", nil)
		return
	}
	t.emit(event.Moved{Phase: last.Phase, Step: last.ID, Back: true})
}

// slip is how long a tap can be taken back: a finger slips, but a roof does not
// come undone. Common practice, no source.
const slip = 5 * time.Minute

// undoLast takes the last answer back, unless something on the roof rests on it. A
// tap that was never meant is taken back too: glue is still wet, whatever was
// tapped.
func (t *turn) undoLast(text string) {
	if t.s.Pending != nil {
		t.emit(event.Dropped{})
		return
	}
	if len(t.s.undo) == 0 {
		t.heard(text, "refuse.no-undo", nil)
		return
	}
	last := t.s.undo[len(t.s.undo)-1]
	if last.physical || last.work != "" && t.in.At.Sub(last.when) > slip {
		t.heard(text, "refuse.undo-done", nil)
		return
	}
	t.emit(event.Undone{Seq: last.seq})
}

// skip passes over the open step for a reason. A hold wants it typed; a gate
// can't be skipped at all.
func (t *turn) skip(reason, text string, spec Spec, isStep bool) {
	switch {
	case !isStep || t.s.Pending != nil:
		t.heard(text, "refuse.move", nil)
	case spec.Kind == Gate:
		t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: "refuse.gate"})
	case strings.TrimSpace(reason) == "":
		t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: "refuse.skip-why"})
	case spec.Must:
		t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: "refuse.must"})
	case t.may(spec, text, "skip"):
		t.emit(event.Skipped{Step: spec.ID, Reason: cut(reason)})
	}
}

// putOff leaves the open step for later.
func (t *turn) putOff(rest, text string, spec Spec, isStep bool) {
	switch {
	case !isStep || t.s.Pending != nil:
		t.heard(text, "refuse.move", nil)
		return
	case spec.Kind == Gate:
		t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: "refuse.gate"})
		return
	case spec.Risk == "" || spec.Must:
		t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: "refuse.must"})
		return
	}
	until := t.in.When().AddDate(0, 0, 14) // two weeks, unless a date was said
	if strings.TrimSpace(rest) != "" {
		h := hear.Answer(rest, hear.Want{Kind: hear.Time, Lang: t.in.By.Lang, Now: civil(t.in.When(), t.s.Zone)})
		if len(h.Values) == 0 {
			t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: "refuse.when", Args: args("heard", event.Word("text", cut(rest)))})
			return
		}
		until = instant(h.Values[0].When, t.in.When(), t.s.Zone)
	}
	if !until.After(t.in.At) {
		t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: "refuse.past", Args: args("heard", event.Word("text", cut(rest)))})
		return
	}
	if t.may(spec, text, "put off") {
		t.emit(event.PutOff{Step: spec.ID, Until: until, Said: cut(rest), Risk: spec.Risk})
	}
}

// takeUp brings back a step by name, or the oldest one put off.
func (t *turn) takeUp(rest, text string) {
	id, ok := t.named(rest)
	if strings.TrimSpace(rest) == "" {
		id, ok = t.oldestPutOff()
	}
	if !ok {
		t.heard(text, "refuse.name", args("heard", event.Word("text", cut(rest))))
		return
	}
	spec, _ := Lookup(id)
	if t.may(spec, text, "take up") {
		t.emit(event.TakenUp{Step: id})
	}
}

func (t *turn) oldestPutOff() (string, bool) {
	var id string
	var until time.Time
	for _, spec := range script() {
		if set := t.s.Settled[spec.ID]; set.Status == StepPutOff && (id == "" || set.Until.Before(until)) {
			id, until = spec.ID, set.Until
		}
	}
	return id, id != ""
}

// named finds a step by its name as said: the ID, with or without its dashes.
func (t *turn) named(said string) (string, bool) {
	key := func(s string) string {
		return strings.Map(func(r rune) rune {
			if r == '-' || r == ' ' || r == '_' {
				return -1
			}
			return r
		}, strings.ToLower(strings.TrimSpace(s)))
	}
	want := key(said)
	if want == "" {
		return "", false
	}
	var near []string
	for _, spec := range script() {
		names := append([]string{spec.ID}, spec.Names...)
		for _, n := range names {
			if key(n) == want {
				return spec.ID, true
			}
			if len(want) >= 3 && strings.HasPrefix(key(n), want) && !slices.Contains(near, spec.ID) {
				near = append(near, spec.ID)
			}
		}
	}
	if len(near) == 1 {
		return near[0], true
	}
	return "", false
}

// change hears "change NAME VALUE": the longest run of words that names a step,
// the rest is the answer. Without a value the question is asked again.
func (t *turn) change(rest, text string) {
	fields := strings.Fields(rest)
	for n := min(len(fields), 4); n > 0; n-- {
		id, ok := t.named(strings.Join(fields[:n], " "))
		if !ok {
			continue
		}
		spec, _ := Lookup(id)
		answer := strings.TrimSpace(strings.Join(fields[n:], " "))
		if spec.Kind == Timed {
			t.emit(event.Heard{Step: id, Said: cut(text), Key: "refuse.timed"})
			return
		}
		if answer == "" || answer == "=" {
			t.goTo(spec, text)
			return
		}
		t.listen(spec, strings.TrimSpace(strings.TrimPrefix(answer, "=")), t.want(spec))
		return
	}
	t.heard(text, "refuse.name", args("heard", event.Word("text", cut(rest))))
}

// jump goes to a phase or a step whose needs are met.
func (t *turn) jump(rest, text string) {
	said := strings.ToLower(strings.TrimSpace(rest))
	for _, p := range phases {
		if said == p || (len(said) >= 3 && strings.HasPrefix(p, said)) || strings.ReplaceAll(said, " ", "-") == p {
			t.enter(p, text)
			return
		}
	}
	if id, ok := t.named(rest); ok {
		spec, _ := Lookup(id)
		t.goTo(spec, text)
		return
	}
	t.heard(text, "refuse.phase", args("heard", event.Word("text", cut(rest))))
}

func (t *turn) enter(phase, text string) {
	v := t.view()
	from := phaseState(v, phase)
	move := map[string]string{PhaseWaiting: "enter", PhaseComplete: "look again"}[from]
	if move != "" {
		_, err := phaseMachine.next(from, move, func() *Refusal {
			if need, blocked := missing(v, phase); blocked {
				return &Refusal{Key: "refuse.phase-needs", Args: map[string]any{"step": need.ID}}
			}
			return nil
		})
		if r, ok := refusal(err); ok {
			need, _ := r.Args["step"].(string)
			t.heard(text, r.Key, args("phase", event.Word("key", "phase."+phase), "step", event.Word("step", need)))
			return
		}
	}
	t.emit(event.Moved{Phase: phase})
}

func (t *turn) goTo(spec Spec, text string) {
	v := t.view()
	switch {
	case !v.relevant(spec):
		t.heard(text, "refuse.not-here", nil)
	case !v.ready(spec):
		t.heard(text, "refuse.not-ready", nil)
	default:
		t.emit(event.Moved{Phase: spec.Phase, Step: spec.ID})
	}
}

func refusal(err error) (*Refusal, bool) {
	r, ok := err.(*Refusal)
	return r, ok
}

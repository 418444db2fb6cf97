package flow

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"chargehand/flow/event"
)

// State is where a job stands: the fold of its events and nothing else. Its
// zero value is a job not begun. A State is never changed in place: Apply
// returns another one, sharing what did not change.
type State struct {
	Seq     uint64
	Name    string
	Zone    string
	Way     string // how much is asked: "full" or "short"
	Status  string // a job state of machine.go
	Away    bool   // archived
	Phase   string // the phase the person last moved to
	At      string // the step the person asked for; "" = the first ready one
	Settled map[string]Settled
	Pending *Pending
	Unclear *Unclear
	Works   map[string]Work
	Told    map[string]event.Told
	Snags   map[string]Snag
	Rung    map[string]time.Time
	Prices  map[string]event.Priced // the builder's own, by item, kind and size
	Films   []event.Film            // of earlier jobs, as the book knew them
	Came    map[string]event.Came   // what was delivered, by item and size
	Found   map[string]event.Solved // what long searches found, by the problem
	Begun   time.Time
	LastAt  time.Time
	Paused  time.Time // since when, if paused
	// Protected is how the roof was left at the pause, as said.
	Protected string
	// Handed is when the roof was handed over to its aftercare.
	Handed time.Time
	// Word is the latest sign of life of anybody who works on the roof.
	Word time.Time
	// Held is what was not said because hands were full, in order.
	Held []Held

	undo []undoable
	plan *reckoned
}

// Settled is what has become of a step.
type Settled struct {
	Status  string // a step state of machine.go
	Value   event.Value
	Said    string
	By      event.Actor
	At      time.Time
	Seq     uint64
	Version int // how often the step has been settled; part of a question's name
	Offered bool

	Reason    string    // skipped: why
	Until     time.Time // put off: until when
	Risk      string
	Temporary string
}

// Answer says whether there is a value to build on.
func (s Settled) Answer() bool { return s.Status == StepAnswered }

// counts says whether the plan is worked out with the answer: one that is asked again
// or put off counts until there is another.
func (s Settled) counts() bool {
	return s.Value.Unit != "" && s.Status != StepSkipped && s.Status != StepPending
}

// Pending is a change that waits for a yes, or a doubtful answer.
type Pending struct {
	event.Proposed
	By event.Actor
}

// Unclear is an answer with more than one reading, waiting for a choice.
type Unclear struct {
	Step, Said string
	Options    []event.Value
}

// Work is timed work: its marks and the numbers it was begun with.
type Work struct {
	Marks map[string]time.Time
	Has   map[string]event.Value
}

// Done says whether the mark has been tapped.
func (w Work) Done(mark string) bool { return !w.Marks[mark].IsZero() }

// Held is an event whose words wait until hands are free.
type Held struct {
	Seq   uint64
	Entry event.Entry
}

// Snag is something wrong or missing.
type Snag struct {
	What   string
	At     time.Time
	Closed string
}

// undoable remembers what an event replaced.
type undoable struct {
	seq      uint64
	step     string
	before   Settled
	had      bool
	at       string
	physical bool // something was done on the roof: undo would lie

	work   string // of a tap: a finger that slipped is taken back soon or not at all
	was    Work
	wasSet bool
	when   time.Time
}

const undoDepth = 20

// Apply is the only way a State changes. It is total: an event that does not
// fit changes nothing but the sequence.
func Apply(s State, e event.Entry) State {
	s.Seq++
	if withheld(s, e) {
		s.Held = append(slices.Clone(s.Held), Held{Seq: s.Seq, Entry: e})
	}
	if e.By.Role != "system" && e.By.Role != "follower" && e.At.After(s.Word) {
		s.Word = e.At
	}
	if e.At.After(s.LastAt) {
		s.LastAt = e.At
	}
	if said, ok := e.Event.(event.Heard); ok {
		if strings.HasPrefix(said.Key, "hear.ask.") {
			s.Unclear = &Unclear{Step: said.Step, Said: said.Said}
			for n := 1; ; n++ {
				o, ok := said.Args["option"+numeral(n)]
				if !ok {
					break
				}
				s.Unclear.Options = append(s.Unclear.Options, o)
			}
		}
	} else {
		s.Unclear = nil
	}
	switch ev := e.Event.(type) {
	case event.Opened:
		s.Name, s.Zone, s.Way, s.Status, s.Begun = ev.Name, ev.Zone, ev.Way, JobActive, e.At
		s.Phase = phases[0]
		s.plan = s.plan.after()
	case event.Renamed:
		s.Name = ev.Name
	case event.Archived:
		s.Away = ev.Away
	case event.Answered:
		s = s.settle(ev.Step, e, Settled{Status: StepAnswered, Value: ev.Value, Said: ev.Said, Offered: ev.Offered})
		s.Pending = nil
		s.plan = s.plan.after()
		switch spec, _ := Lookup(ev.Step); {
		case ev.Step == stepHandOver && ev.Value.Yes():
			s.Status, s.Handed = JobHanded, e.At
		case spec.Sets != "":
			s = s.set(spec.Sets, ev.Value)
		}
	case event.Proposed:
		s.Pending = &Pending{Proposed: ev, By: e.By}
	case event.Dropped:
		s.Pending = nil
	case event.Skipped:
		s = s.settle(ev.Step, e, Settled{Status: StepSkipped, Reason: ev.Reason})
		s.plan = s.plan.after()
	case event.PutOff:
		s = s.settle(ev.Step, e, Settled{Status: StepPutOff, Until: ev.Until, Said: ev.Said, Risk: ev.Risk, Temporary: ev.Temporary})
	case event.TakenUp:
		s = s.reopen(ev.Step)
		s.At = ev.Step
		if spec, ok := Lookup(ev.Step); ok {
			s.Phase = spec.Phase
		}
	case event.Moved:
		s.Phase, s.At = ev.Phase, ev.Step
		s.Pending = nil
	case event.Reopened:
		for _, id := range ev.Steps {
			s = s.reopen(id)
		}
	case event.Undone:
		s = s.takeBack(ev.Seq)
	case event.Paused:
		if s.Status != JobPaused { // said again, it only tells how the roof was left
			s.Paused = e.At
		}
		s.Status, s.Protected = JobPaused, ev.Protected
	case event.Continued:
		s.Paused, s.Protected = time.Time{}, ""
		s.Status = JobActive
		if !s.Handed.IsZero() {
			s.Status = JobHanded
		}
	case event.Tapped:
		w := s.Works[ev.Work]
		marks := maps.Clone(w.Marks)
		if marks == nil {
			marks = map[string]time.Time{}
		}
		marks[ev.Mark] = ev.At
		has := maps.Clone(w.Has)
		if has == nil {
			has = map[string]event.Value{}
		}
		maps.Copy(has, ev.Has)
		_, wasSet := s.Works[ev.Work]
		s = s.remember(undoable{seq: s.Seq, work: ev.Work, was: w, wasSet: wasSet, when: e.At})
		s.Works = with(s.Works, ev.Work, Work{Marks: marks, Has: has})
		s.plan = s.plan.after() // what was laid, and how fast, moves what comes next
	case event.Rang:
		at := ev.Due
		if e.At.After(at) { // a late ring stands for all that fell due before it
			at = e.At
		}
		s.Rung = with(s.Rung, ev.Clock, at)
	case event.Told:
		s.Told = with(s.Told, ev.What, ev)
	case event.Snagged:
		s.Snags = with(s.Snags, ev.Snag, Snag{What: ev.What, At: e.At})
	case event.SnagClosed:
		if sn, ok := s.Snags[ev.Snag]; ok {
			sn.Closed = ev.How
			s.Snags = with(s.Snags, ev.Snag, sn)
		}
	case event.Released:
		s.Held = slices.DeleteFunc(slices.Clone(s.Held), func(h Held) bool { return slices.Contains(ev.Seqs, h.Seq) })
	case event.Priced:
		s.Prices = s.priced(ev)
		s.plan = s.plan.after()
	case event.Recalled:
		for _, p := range ev.Prices {
			s.Prices = s.priced(p)
		}
		s.Films = ev.Films
		s.plan = s.plan.after()
	case event.Came:
		key := sized(ev.Item, "", ev.Size)
		if ev.Count > 0 {
			ev.Count += s.Came[key].Count
		}
		s.Came = with(s.Came, key, ev)
		s.plan = s.plan.after()
	case event.Solved:
		s.Found = with(s.Found, ev.Of, ev)
		s.plan = s.plan.after()
	case event.Ended:
		s.Status = JobEnded
	}
	return s
}

// with returns a copy of m in which k is v. Maps are copied on write because
// Say looks at the state before and after an event.
func with[V any](m map[string]V, k string, v V) map[string]V {
	out := make(map[string]V, len(m)+1)
	maps.Copy(out, m)
	out[k] = v
	return out
}

// sized names one size of a thing of the list.
func sized(item, of string, size float64) string {
	return item + "/" + of + "/" + strconv.FormatFloat(size, 'g', -1, 64)
}

func (s State) priced(p event.Priced) map[string]event.Priced {
	return with(s.Prices, sized(p.Item, p.Of, p.Size), p)
}

func (s State) settle(id string, e event.Entry, now Settled) State {
	before, had := s.Settled[id]
	now.By, now.At, now.Seq, now.Version = e.By, e.At, s.Seq, before.Version+1
	if now.Status != StepAnswered && before.Status == StepAnswered {
		now.Value = before.Value // a step put off after an answer keeps what is known
	}
	spec, _ := Lookup(id)
	u := undoable{seq: s.Seq, step: id, before: before, had: had, at: s.At, physical: spec.physical() && now.Status == StepAnswered}
	s = s.remember(u)
	s.Settled = with(s.Settled, id, now)
	if s.At == id {
		s.At = ""
	}
	return s
}

// remember keeps what an event replaced, for undo.
func (s State) remember(u undoable) State {
	s.undo = append(slices.Clone(s.undo), u)
	if len(s.undo) > undoDepth {
		s.undo = s.undo[len(s.undo)-undoDepth:]
	}
	return s
}

func (s State) reopen(id string) State {
	now, ok := s.Settled[id]
	if !ok {
		return s
	}
	now.Status = StepReopened
	s.Settled = with(s.Settled, id, now)
	return s
}

func (s State) takeBack(seq uint64) State {
	i := slices.IndexFunc(s.undo, func(u undoable) bool { return u.seq == seq })
	if i < 0 || s.undo[i].physical {
		return s
	}
	u := s.undo[i]
	s.undo = slices.Delete(slices.Clone(s.undo), i, i+1)
	s.plan = s.plan.after()
	if u.work != "" {
		s.Works = with(s.Works, u.work, u.was)
		if !u.wasSet {
			delete(s.Works, u.work) // with made the map anew
		}
		return s
	}
	back := u.before
	back.Version = s.Settled[u.step].Version // an old button must stay old
	if !u.had {
		back.Status = StepPending
	}
	s.Settled = with(s.Settled, u.step, back)
	s.At, s.Pending = u.step, nil
	if spec, ok := Lookup(u.step); ok {
		s.Phase = spec.Phase
	}
	return s
}

// set writes answers that are not facts of the roof but of the conversation.
func (s State) set(what string, v event.Value) State {
	switch what {
	case "zone":
		s.Zone = v.Text
	case "way":
		s.Way = v.Text
	}
	return s
}

// Fold applies entries in order.
func Fold(s State, entries ...event.Entry) State {
	for _, e := range entries {
		s = Apply(s, e)
	}
	return s
}

func numeral(n int) string { return strconv.Itoa(n) }

package flow

import (
	"slices"
	"time"

	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// While glue is wet nothing is said but alarms and what belongs to that glue.
// The rest is kept and said when hands are free.

// handsFull is how long glue holds everything else back at most: a batch or run
// that nobody has closed by then is not being worked on. Common practice, no
// source.
const handsFull = 2 * time.Hour

// busySince is when the wet glue in hand was begun; ok is false when there is none.
func busySince(s State) (begun time.Time, ok bool) {
	if _, w := batch(s); w.Done("begun") {
		return w.Marks["begun"], true
	}
	if _, w := run(s); coated(w) {
		return later(w.Marks["coated-wall"], w.Marks["coated-rubber"]), true
	}
	return time.Time{}, false
}

// busy says whether glue is wet and uncovered: nothing but alarms is said then.
func busy(s State) bool {
	begun, ok := busySince(s)
	return ok && s.LastAt.Before(begun.Add(handsFull))
}

// live says whether a batch is being laid: its question comes before all others.
func live(s State) bool {
	_, w := batch(s)
	return w.Done("begun") && s.LastAt.Before(w.Marks["begun"].Add(handsFull))
}

// withheld says whether an event waits until hands are free. Taps are the work
// itself; what answers one person is said to that person alone. A kind of event
// that nobody has thought of here waits.
func withheld(s State, e event.Entry) bool {
	if !busy(s) {
		return false
	}
	switch ev := e.Event.(type) {
	case event.Tapped, event.Heard, event.Told, event.Moved, event.Proposed, event.Dropped, event.Opened, event.Released:
		return false
	case event.Rang:
		return !alarmClock(ev.Clock)
	}
	return true
}

// heldFrom says whether an event's words are kept from this reader. A follower has
// clean hands.
func heldFrom(s State, e event.Entry, to talk.Person) bool {
	return to.Role != "follower" && e.By.ID != to.ID && withheld(s, e)
}

// alarmClock says whether a clock is one that calls out whatever is going on.
func alarmClock(name string) bool {
	stem, _ := numberOf(name)
	return slices.Contains([]string{"batch", "contact", "square", "check-in"}, stem)
}

// release says what was kept as soon as hands are free.
func (t *turn) release() {
	if len(t.s.Held) == 0 || busy(t.s) {
		return
	}
	var seqs []uint64
	for _, h := range t.s.Held {
		seqs = append(seqs, h.Seq)
	}
	t.emit(event.Released{Seqs: seqs})
}

// releasedReplies says the words that were kept from a reader.
func releasedReplies(before State, ev event.Released, to talk.Person) []talk.Reply {
	if to.Role == "follower" {
		return nil
	}
	var out []talk.Reply
	for _, h := range before.Held {
		if h.Entry.By.ID == to.ID || !slices.Contains(ev.Seqs, h.Seq) {
			continue
		}
		out = append(out, saidOf(before, Apply(before, h.Entry), h.Entry, to)...)
	}
	if len(out) == 0 {
		return nil
	}
	return append([]talk.Reply{talk.Say(talk.P("released"))}, out...)
}

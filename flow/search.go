package flow

import (
	"strings"

	"chargehand/calc/deck"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// Search is a long search that a job wants done beside the conversation. It
// counts its work and ends alike on every machine; what it finds comes back as
// an input.
type Search struct {
	What, Of string // deck; the name of the problem
	run      func() deck.Written
}

// Run searches. It may take some seconds.
func (x Search) Run() talk.Solved {
	w := x.run()
	return talk.Solved{What: x.What, Of: x.Of, Rows: w.Rows, Boards: w.Boards, Bound: w.Bound, Work: w.Work}
}

// stepDeckCut is the step whose cut list a long search can better.
const stepDeckCut = "deck-cut"

// toldBoards names what is told of how many boards a deck takes.
const toldBoards = "boards"

// Wanted is the long search a job wants now: for a deck whose layout is not
// proven, from when all that it rests on is known until its boards are cut.
func Wanted(s State) (Search, bool) {
	cut, ok := Lookup(stepDeckCut)
	v := View{s}
	if !ok || s.Status != JobActive || PhaseNow(s) != cut.Phase || !v.unsettled(cut) || !v.ready(cut) {
		return Search{}, false
	}
	d := v.Plan().Deck
	if d == nil || d.Proven || d.Searched {
		return Search{}, false
	}
	of, run := d.Problem()
	return Search{What: "deck", Of: of, run: run}, true
}

// solved takes in what a long search found, unless the question has moved on
// meanwhile.
func (t *turn) solved(found talk.Solved) {
	if want, ok := Wanted(t.s); !ok || want.What != found.What || want.Of != found.Of {
		return
	}
	t.emit(event.Solved{What: found.What, Of: found.Of, Rows: found.Rows, Boards: found.Boards, Bound: found.Bound, Work: found.Work})
}

// solvedReplies tells what a search came to, by its own numbers; nothing while
// nobody has been told that one was on.
func solvedReplies(before State, ev event.Solved) []talk.Reply {
	n := len(strings.Fields(ev.Boards))
	_, told := before.Told[toldBoards]
	switch {
	case n == 0 || !told:
		return nil
	case n == ev.Bound:
		return []talk.Reply{talk.Say(talk.P("solved.proven", "n", n))}
	}
	return []talk.Reply{talk.Say(talk.P("solved.open", "n", n, "bound", ev.Bound))}
}

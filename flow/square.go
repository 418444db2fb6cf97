package flow

import (
	"fmt"
	"math"
	"time"

	"chargehand/calc/glue"
	"chargehand/calc/unit"
	"chargehand/flow/event"
)

// A test square is half a metre of film on the real deck, left to itself and
// looked at: still wet at, gone at. A batch in which the film was touched, or went
// off, is such a look as well; what it would change is offered, never taken
// silently.

func squareName(n int) string { return fmt.Sprintf("square/%d", n) }

// square returns the number of the test square in hand, from 1, and its work.
func square(s State) (int, Work) {
	for n := 1; ; n++ {
		w, ok := s.Works[squareName(n)]
		if !ok || !w.Done("gone") && !w.Done("left") {
			return n, w
		}
	}
}

func squareTaps(v View) []tap {
	n, w := square(v.S)
	name := squareName(n)
	if !w.Done("begun") {
		return []tap{{action: "no-square", work: name, mark: "left", ends: true}, {action: "spread", work: name, mark: "begun"}}
	}
	return []tap{{action: "still-wet", work: name, mark: "still-wet"}, {action: "gone", work: name, mark: "gone", ends: true}, {action: "no-square", work: name, mark: "left", ends: true, hidden: true}}
}

func squareHas(v View) map[string]event.Value {
	w := v.Plan().Window
	if w == nil {
		return nil
	}
	return conditions(v, map[string]event.Value{"model": event.Of("min", math.Floor(float64(w.Model())*10)/10), "deck": event.Of("celsius", v.num(stepDeck))})
}

// nextLook is when the square wants looking at: at half the time the rules give,
// then at every quarter of it. Common practice, no source.
func nextLook(w Work, rung time.Time) time.Time {
	model := after(w, "model")
	for k := 0; k < 40; k++ {
		if at := w.Marks["begun"].Add(model * time.Duration(2+k) / 4); at.After(rung) && at.After(w.Marks["still-wet"]) {
			return at
		}
	}
	return time.Time{}
}

// seen is what was seen of a film that was spread at "begun": when it was last wet,
// when first gone. ok is false when nobody saw anything.
func seen(w Work) (glue.Square, bool) {
	at := func(mark string) unit.Minutes {
		if !w.Done(mark) || !w.Marks[mark].After(w.Marks["begun"]) {
			return 0
		}
		return unit.Minutes(w.age("begun", mark).Minutes())
	}
	sq := glue.Square{Model: unit.Minutes(w.Has["model"].Num()), LastWet: at("still-wet"), FirstGone: at("gone")}
	if sq.FirstGone > 0 && sq.LastWet >= sq.FirstGone {
		sq.LastWet = 0
	}
	return sq, sq.Model >= 0.1 && sq.LastWet+sq.FirstGone > 0
}

// squares are the looks that are planned with. today says whether the last bracketed
// one of this roof is of the day of the reading.
func squares(s State, read time.Time) (out []glue.Square, today bool) {
	own, today := ownSquares(s, read)
	return planned(s, own), today
}

// ownSquares are the looks of this roof: every test square that was spread, and the
// batches whose lesson was taken. One that said something must be wrong counts
// until the tin has been looked at again.
func ownSquares(s State, read time.Time) (out []glue.Square, today bool) {
	for _, w := range looks(s) {
		sq, ok := seen(w)
		if !ok {
			continue
		}
		if _, err := glue.Calibrate(sq); err != nil && w.Marks["begun"].Before(s.Settled["tin"].At) {
			continue
		}
		out = append(out, sq)
		if bracketed(sq) {
			today = sameDay(w.Marks["begun"], read, s.Zone)
		}
	}
	return out, today
}

// looks are the works that may be planned with: the test squares, and the batches
// whose lesson was taken.
func looks(s State) (out []Work) {
	for n := 1; ; n++ {
		w, ok := s.Works[squareName(n)]
		if !ok {
			break
		}
		out = append(out, w)
	}
	for _, w := range batches(s) {
		if w.Done("use") {
			out = append(out, w)
		}
	}
	return out
}

func bracketed(sq glue.Square) bool { return sq.LastWet > 0 && sq.FirstGone > 0 }

// lesson is the number of the batch whose film teaches something that nobody has
// taken or left yet; 0 for none.
func lesson(v View) int {
	read := v.S.Settled[stepDeck].At
	known, _ := ownSquares(v.S, read)
	for i, w := range batches(v.S) {
		if _, over := ended(w); !over || w.Done("use") || w.Done("pass") {
			continue
		}
		if end, _ := ended(w); end != "down" && end != "gone" {
			continue
		}
		if sq, ok := seen(w); ok && moves(v.S, known, sq) {
			return i + 1
		}
	}
	return 0
}

// moves says whether one look more would change what is planned with by more than
// a hair.
func moves(s State, known []glue.Square, sq glue.Square) bool {
	factor := func(own []glue.Square) float64 {
		all := planned(s, own)
		if len(all) == 0 {
			return 1
		}
		c, err := glue.Calibrate(all...)
		if err != nil {
			return 0
		}
		return c.Factor
	}
	const hair = 0.02
	return math.Abs(factor(append(append([]glue.Square(nil), known...), sq))-factor(known)) > hair
}

func teaches(v View) bool { return lesson(v) > 0 }

func learnTaps(v View) []tap {
	n := lesson(v)
	if n == 0 {
		return nil
	}
	return []tap{{action: "use", work: batchName(n), mark: "use"}, {action: "pass", work: batchName(n), mark: "pass"}}
}

package geom

import (
	"fmt"
	"slices"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Fault is what is wrong with a walk.
type Fault string

const (
	FaultCount         Fault = "count"         // too few or too many edges
	FaultLength        Fault = "length"        // a length outside MinEdge to MaxEdge
	FaultKind          Fault = "kind"          // nothing known stands on the edge
	FaultTurn          Fault = "turn"          // the turns do not make one round, or one is missing
	FaultAnticlockwise Fault = "anticlockwise" // a good round, walked the wrong way
	FaultOpen          Fault = "open"          // the end misses the start by more than the limit
	FaultCrossing      Fault = "crossing"      // an edge meets an earlier one
)

// WalkError refuses a walk. Edge is where it went wrong as far as can be
// known: the edge with the bad value, the edge that runs into an earlier one,
// or the last one when the walk as a whole does not come round. Suspects are
// the edges any one of which, put right, could mend it; nobody can say which.
type WalkError struct {
	Fault      Fault
	Edge       int         // from 0
	With       int         // the earlier edge that is met, else -1
	Misclosure unit.Length // from the end of the walk to its start
	Along      unit.Length // of that: along the gutter, + when it ended too far right
	Up         unit.Length // and up the roof, + when it ended too high
	Suspects   []int
	domain     *calc.DomainError
}

func (e *WalkError) Error() string { return e.domain.Error() }

// Unwrap gives the same refusal as a domain error, Field in the form walk[i].key.
func (e *WalkError) Unwrap() error { return e.domain }

func (w *walk) fault(fault Fault, edge, with int, gap vec) *WalkError {
	e := &WalkError{Fault: fault, Edge: edge, With: with,
		Misclosure: unit.Length(gap.len()), Along: unit.Length(gap.x), Up: unit.Length(gap.y)}
	d := &calc.DomainError{Op: "geom.walk", Field: fmt.Sprintf("walk[%d]", edge)}
	switch fault {
	case FaultCount:
		d.Field, d.Got, d.Wanted = "walk", len(w.steps), fmt.Sprintf("4 to %d edges", MaxEdges)
	case FaultLength:
		d.Field += ".length_mm"
		d.Got = float64(w.steps[edge].Length)
		if edge < len(w.lengths) { // the gap's share took it over the limit
			d.Got = w.lengths[edge]
		}
		d.Wanted = fmt.Sprintf("%g to %g mm", float64(MinEdge), float64(MaxEdge))
	case FaultKind:
		d.Field += ".kind"
		d.Got, d.Wanted = string(w.steps[edge].Kind), "gutter, verge, wall or parapet"
	case FaultTurn:
		d.Field += ".turn"
		d.Got, d.Wanted = string(w.steps[edge].Turn), "right, left or straight, in all four more right turns than left ones"
		e.Suspects = w.turnSuspects()
	case FaultAnticlockwise:
		d.Field, d.Got, d.Wanted = "walk", "walked anticlockwise", "clockwise from the gutter, the roof at the right hand"
	case FaultOpen:
		e.Suspects = w.lengthSuspects(gap)
		d.Got = fmt.Sprintf("ends %.0f mm from the start (%+.0f along the gutter, %+.0f up the roof)", gap.len(), gap.x, gap.y)
		d.Wanted = fmt.Sprintf("an end within %g mm of the start: tape edges %s again", float64(MisclosureLimit), fromOne(e.Suspects))
	case FaultCrossing:
		d.Got = fmt.Sprintf("edge %d meets edge %d", edge+1, with+1)
		d.Wanted = "an outline that neither crosses nor touches itself"
	}
	e.domain = d
	return e
}

// lengthSuspects are the edges any one of which, longer or shorter by the whole
// gap, would close the walk. A gap over the limit in both directions is more
// than one wrong reading can do: then every edge is suspect.
func (w *walk) lengthSuspects(gap vec) []int {
	limit := float64(MisclosureLimit)
	var suspects, all []int
	for i, h := range w.headings {
		all = append(all, i)
		mended := walk{headings: w.headings, lengths: slices.Clone(w.lengths)}
		mended.lengths[i] -= h.dot(gap)
		if mended.lengths[i] < float64(MinEdge) || mended.gap().len() > limit {
			continue
		}
		mended.close(mended.gap())
		if mended.vertices().IsSimple() {
			suspects = append(suspects, i)
		}
	}
	if len(suspects) == 0 {
		return all
	}
	return suspects
}

// turnSuspects are the steps whose turn, made the other way, would bring the
// walk round to its start.
func (w *walk) turnSuspects() []int {
	if len(w.turns) != len(w.steps) {
		return nil
	}
	var suspects []int
	for i, s := range w.steps {
		steps := slices.Clone(w.steps)
		switch s.Turn {
		case Left:
			steps[i].Turn = Right
		case Right:
			steps[i].Turn = Left
		default:
			continue
		}
		other, err := newWalk(steps)
		if err != nil {
			continue
		}
		if gap := other.gap(); other.net() == 4 && unit.Length(gap.len()) <= MisclosureLimit {
			suspects = append(suspects, i)
		}
	}
	return suspects
}

func fromOne(edges []int) string {
	s := ""
	for k, i := range edges {
		if k > 0 {
			s += ", "
		}
		s += fmt.Sprint(i + 1)
	}
	return s
}

package geom

import (
	"fmt"
	"math"

	"chargehand/calc/unit"
)

// WalkID names the formula and its version.
const WalkID = "geom.walk/1"

// Turn is what the walker does at the end of an edge, the roof at the right
// hand.
type Turn string

const (
	Right    Turn = "right"    // round an external corner
	Left     Turn = "left"     // into an internal corner
	Straight Turn = "straight" // the same line, another kind of edge
)

// Step is one edge of a right-angled outline as walked.
type Step struct {
	Length unit.Length
	Turn   Turn // at the end of the edge; may be empty in the last step
	Kind   Kind
}

// Walked is a closed walk.
type Walked struct {
	Outline     Outline
	Misclosure  unit.Length   // from where the tape ended to where it began
	Corrections []unit.Length // added to each length so that the walk closes
}

// MisclosureLimit is how far a set of tape readings may miss. Common practice,
// no source.
const MisclosureLimit = 20 * unit.Millimetre

// Walk returns the right-angled outline walked clockwise, beginning at the
// right end of the low edge and heading left along it.
//
// A walk that misses its start by no more than MisclosureLimit is closed with
// every corner held square: each direction by itself, its edges sharing the
// gap in proportion to their length,
//
//	vᵢ = -sᵢ·g·lᵢ/Σl        sᵢ = ±1 with the sense of the edge, g the gap along its direction
//
// Source: transit rule of traverse adjustment, which is the least squares answer for variances in proportion to length; from memory.
// Units: mm.
// Shape: Σ of corrected lengths is zero in each direction; a walk that closes is left exactly as taped.
// Domain: 4 to MaxEdges steps, lengths MinEdge to MaxEdge, four right turns more than left ones.
// Errors: *WalkError naming the edge; it wraps a *calc.DomainError.
func Walk(steps []Step) (Walked, error) {
	w, err := newWalk(steps)
	if err != nil {
		return Walked{}, err
	}
	gap := w.gap()
	miss := unit.Length(gap.len())
	if err := w.refuseUnclosed(gap); err != nil {
		return Walked{}, err
	}
	corrections := w.close(gap)
	for i, l := range w.lengths {
		if !(l >= float64(MinEdge) && l <= float64(MaxEdge)) {
			return Walked{}, w.fault(FaultLength, i, -1, gap)
		}
	}
	vertices := w.vertices()
	if i, j, crossed := vertices.firstCrossing(); crossed {
		return Walked{}, w.fault(FaultCrossing, j, i, gap)
	}
	kinds := make([]Kind, len(steps))
	for i, s := range steps {
		kinds[i] = s.Kind
	}
	o, err := NewOutline(vertices, kinds)
	if err != nil {
		return Walked{}, fmt.Errorf("geom.walk: %w", err)
	}
	return Walked{Outline: o, Misclosure: miss, Corrections: corrections}, nil
}

// walk holds the steps with their headings worked out.
type walk struct {
	steps    []Step
	lengths  []float64 // mm, corrected by close
	headings []vec     // unit steps along an axis
	turns    []int     // right +1, left -1
}

// quarter is the turn in quarters to the right.
func (t Turn) quarter() (turns int, known bool) {
	switch t {
	case Right:
		return 1, true
	case Left:
		return -1, true
	case Straight:
		return 0, true
	}
	return 0, false
}

func newWalk(steps []Step) (*walk, error) {
	w := &walk{steps: steps}
	n := len(steps)
	if n < 4 || n > MaxEdges {
		return nil, w.fault(FaultCount, max(0, min(n, MaxEdges)-1), -1, vec{})
	}
	heading, net := vec{-1, 0}, 0
	for i, s := range steps {
		if !(s.Length >= MinEdge && s.Length <= MaxEdge) {
			return nil, w.fault(FaultLength, i, -1, vec{})
		}
		if !s.Kind.known() {
			return nil, w.fault(FaultKind, i, -1, vec{})
		}
		turns, known := s.Turn.quarter()
		if s.Turn == "" && i == n-1 && net >= 3 && net <= 5 {
			turns, known = 4-net, true
		}
		if !known && !(s.Turn == "" && i == n-1) {
			return nil, w.fault(FaultTurn, i, -1, vec{})
		}
		w.lengths = append(w.lengths, float64(s.Length))
		w.headings = append(w.headings, heading)
		w.turns = append(w.turns, turns)
		net += turns
		switch turns {
		case 1:
			heading = vec{heading.y, -heading.x}
		case -1:
			heading = vec{-heading.y, heading.x}
		}
	}
	return w, nil
}

// gap is the way from the start to where the walk ended.
func (w *walk) gap() vec {
	var end vec
	for i, h := range w.headings {
		end = end.add(h.scale(w.lengths[i]))
	}
	return end
}

// refuseUnclosed names what is wrong with a walk that is not one round.
func (w *walk) refuseUnclosed(gap vec) error {
	last := len(w.steps) - 1
	if net := w.net(); net != 4 {
		if i, j, crossed := w.firstCrossing(); crossed {
			return w.fault(FaultCrossing, j, i, gap)
		}
		if net == -4 {
			return w.fault(FaultAnticlockwise, last, -1, gap)
		}
		return w.fault(FaultTurn, last, -1, gap)
	}
	if unit.Length(gap.len()) > MisclosureLimit {
		return w.fault(FaultOpen, last, -1, gap)
	}
	return nil
}

// net is the sum of the turns, in quarters to the right: 4 for one round.
func (w *walk) net() int {
	net := 0
	for _, t := range w.turns {
		net += t
	}
	return net
}

// firstCrossing returns the first edge j that meets an earlier edge i, taking
// the walk as it was taped, closed or not. The last edge may meet the first:
// that is where a walk should end.
func (w *walk) firstCrossing() (i, j int, found bool) {
	at := make([]vec, len(w.headings)+1)
	for k, h := range w.headings {
		at[k+1] = at[k].add(h.scale(w.lengths[k]))
		for i := range max(0, k-1) {
			if !(i == 0 && k == len(w.headings)-1) && meet(at[i], at[i+1], at[k], at[k+1]) {
				return i, k, true
			}
		}
	}
	return 0, 0, false
}

// close shares the gap out and returns what was added to each length.
func (w *walk) close(gap vec) []unit.Length {
	var along, up float64 // Σ l of each direction, mm
	for i, h := range w.headings {
		along += math.Abs(h.x) * w.lengths[i]
		up += math.Abs(h.y) * w.lengths[i]
	}
	corrections := make([]unit.Length, len(w.lengths))
	for i, h := range w.headings {
		v := 0 - w.lengths[i]*(h.x*gap.x/along+h.y*gap.y/up)
		w.lengths[i] += v
		corrections[i] = unit.Length(v)
	}
	return corrections
}

// vertices lays the walk out with the left end of the low edge at the origin.
func (w *walk) vertices() Polygon {
	at := vec{w.lengths[0], 0}
	p := make([]vec, len(w.lengths))
	for i, h := range w.headings {
		p[i] = at
		at = at.add(h.scale(w.lengths[i]))
	}
	// The last line must meet the first corner exactly, or rounding in the
	// twelfth digit would cost the outline its right angles.
	lastHeading := w.headings[len(p)-1]
	for i := len(p) - 1; i > 0 && math.Abs(w.headings[i].x) == math.Abs(lastHeading.x); i-- {
		if lastHeading.x == 0 {
			p[i].x = p[0].x
		} else {
			p[i].y = p[0].y
		}
	}
	ring := make(Polygon, len(p))
	for i, v := range p {
		ring[i] = v.point()
	}
	return ring
}

package plan

import (
	"math"

	"chargehand/calc/fixings"
	"chargehand/calc/geom"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// Strutting is what keeps the joists upright and carries the boards' edges.
type Strutting struct {
	Rows    int
	At      []unit.Length   // of each row, from a plate
	Depth   unit.Length     // of solid strutting, at least; 0 while the joists' depth is not known
	Pieces  []takeoff.Piece // solid strutting
	Noggins int
	Under   []takeoff.Piece // noggins under board edges
}

// Restraint is the straps across the joists that hold the walls beside them.
type Restraint struct {
	Runs    []unit.Length // walls the joists run along
	Straps  int
	Length  unit.Length // of one strap
	Noggins int         // under the straps
	Packers int
}

func (r *reckoner) strutting() {
	j := r.p.Joists
	if r.in.ClearSpan == nil || j == nil {
		return
	}
	s := Strutting{Under: []takeoff.Piece{}}
	if j.H > 0 {
		out, err := fixings.Strutting(fixings.StruttingIn{Span: *r.in.ClearSpan, Centres: j.Marks, Thick: j.B, Depth: j.H})
		if r.failed("strutting", err) {
			return
		}
		s.Rows, s.At, s.Depth, s.Pieces = out.Rows, out.At, out.Depth, pieces(out.Solid)
	} else {
		rows, err := fixings.StruttingRows(*r.in.ClearSpan)
		if r.failed("strutting", err) {
			return
		}
		s.Rows = rows
	}
	if r.in.Noggins && r.in.BoardWidth != nil {
		seams := max(int(math.Ceil(float64(*r.p.Depth)/float64(*r.in.BoardWidth)))-1, 0)
		out, err := fixings.Noggins(j.Marks, j.B, seams)
		if r.failed("strutting", err) {
			return
		}
		s.Under = pieces(out)
		for _, p := range s.Under {
			s.Noggins += p.Count
		}
	}
	r.p.Strutting = &s
	r.used("strutting", fixings.ID)
}

func pieces(ps []fixings.Pieces) []takeoff.Piece {
	out := []takeoff.Piece{}
	for _, p := range ps {
		out = append(out, takeoff.Piece{Count: p.Count, Length: p.Length})
	}
	return out
}

// firstGap is from a wall's face to the joist beside it. Common practice, no
// source.
const firstGap = 50 * unit.Millimetre

// restraint straps the walls that the joists run along. A timber wall is braced
// by its own boarding.
func (r *reckoner) restraint() {
	j := r.p.Joists
	if j == nil || j.H == 0 {
		return
	}
	if r.in.Wall == "timber" {
		r.p.Restraint = &Restraint{}
		return
	}
	rule, err := fixings.RuleOf(fixings.LateralStrap)
	if r.failed("restraint", err) {
		return
	}
	x := Restraint{}
	for i, e := range r.p.Outline.Edges {
		if r.level(i) || e.Kind == geom.Gutter || e.Length <= 2*rule.First {
			continue
		}
		out, err := fixings.Restraint(fixings.RestraintIn{Run: e.Length, Gap: firstGap, Apart: j.Centres, Thick: j.B, Depth: j.H, Rule: rule})
		if r.failed("restraint", err) {
			return
		}
		x.Runs = append(x.Runs, e.Length)
		x.Straps, x.Noggins, x.Packers = x.Straps+out.Row.Count, x.Noggins+out.Noggins, x.Packers+out.Packers
		x.Length = max(x.Length, out.StrapLength)
	}
	r.p.Restraint = &x
	r.used("restraint", fixings.ID)
}

// ends counts what holds the ends of the joists.
func (r *reckoner) ends() {
	j := r.p.Joists
	if j == nil || j.Stock == 0 || r.in.JoistFix == "" {
		return
	}
	onHangers, onPlates := 0, 2*j.Count
	if r.in.JoistFix == "hanger" {
		onHangers, onPlates = 2*j.Count, 0
	}
	e, err := fixings.Ends(onHangers, onPlates)
	if !r.failed("ends", err) {
		r.p.Ends = &e
		r.used("ends", fixings.ID)
	}
}

package setout

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// SkewedID names the rule for roofs out of square and its version.
const SkewedID = "setout.skewed/1"

// SkewedInput is a four-sided roof out of square, joists up the roof.
type SkewedInput struct {
	Outline     geom.Outline
	BoardLength unit.Length
	JointGap    unit.Length
	Joist       unit.Length
	MaxCentres  unit.Length
}

// SquareJoist is one joist that stands square to the gutter.
type SquareJoist struct {
	Low    unit.Length // mark along the gutter line from its left end; outside it the joist starts on a flank
	High   unit.Length // mark along the back edge from its left end
	From   unit.Length // up the roof where its centre line meets the outline
	To     unit.Length
	Jack   bool // starts or ends on a flank
	Length unit.Length
}

// FlankJoist is the joist along a side that is not square.
type FlankJoist struct {
	Edge   int
	Length unit.Length
	Lean   unit.Length // how far its head lies to the right of the square line through its foot
	// Bay to the next square joist, centre to centre, at its two ends.
	BayLow, BayHigh unit.Length
}

// Skewed is how such a roof is set out: joists and rows square to the gutter,
// the flanks tapered.
type Skewed struct {
	Centres  unit.Length
	Joists   []SquareJoist // from the left
	Flanks   [2]FlankJoist // left, right
	Diagonal unit.Length   // from the gutter's left end to the square line's meeting with the back at the gutter's length: tape this to set the square line
	Depth    unit.Length   // height at which that diagonal is taken
}

// SetSkewed sets out a roof that is out of square: everything square to the
// gutter from its left end, the outermost joists along the flanks, and the
// bays between filled with jacks wherever they would exceed the greatest
// centres.
//
//	joists at k·s − g/2 for every whole k inside the outline
//	diagonal of the square: √(L² + D²)
//
// Source: common practice, no source.
// Shape: on a rectangle the joists are those of Joists; mirrored outlines give mirrored jacks.
// Domain: a convex outline of four edges, its low edge level; else as Joists.
// Errors: DomainError only.
func SetSkewed(in SkewedInput) (Skewed, error) {
	const op = "setout.skewed"
	v := in.Outline.Vertices
	if len(v) != 4 || !v.IsConvex() || v[0].Y != v[1].Y || min(v[2].Y, v[3].Y) <= v[0].Y {
		return Skewed{}, &calc.DomainError{Op: op, Field: "outline", Got: len(v), Wanted: "a convex outline of four edges, the low one level"}
	}
	plan, err := Joists(Input{Length: in.Outline.Edges[0].Length, BoardLength: in.BoardLength, JointGap: in.JointGap, Joist: in.Joist, MaxCentres: in.MaxCentres})
	if err != nil {
		return Skewed{}, err
	}
	left, right := flank{v[1], v[2]}, flank{v[0], v[3]}
	s := Skewed{Centres: plan.Centres, Depth: min(v[2].Y, v[3].Y) - v[0].Y}
	s.Diagonal = unit.Length(math.Hypot(float64(in.Outline.Edges[0].Length), float64(s.Depth)))
	box := in.Outline.Bounds()
	module, n := float64(in.BoardLength+in.JointGap), float64(plan.BaysPerBoard)
	first := int(math.Floor(float64(box.Min.X) * n / module))
	back := float64(v[2].To(v[3])) / float64(v[3].X-v[2].X) // along the back edge per mm along the gutter
	for k := first; ; k++ {
		x := unit.Length(float64(k)*module/n) - in.JointGap/2
		if x >= box.Max.X {
			break
		}
		spans := v.UpRoof(x)
		if len(spans) != 1 || left.gap(x, spans[0]) < in.Joist+in.Joist/2 || right.gap(x, spans[0]) < in.Joist+in.Joist/2 {
			continue // it would stand in a flank joist
		}
		j := SquareJoist{Low: x - v[1].X, From: spans[0].From, To: spans[0].To, Length: spans[0].Length()}
		j.High = unit.Length(float64(x-v[2].X) * back)
		j.Jack = x < max(v[1].X, v[2].X) || x > min(v[0].X, v[3].X)
		s.Joists = append(s.Joists, j)
	}
	s.Flanks[0] = FlankJoist{Edge: 1, Length: in.Outline.Edges[1].Length, Lean: v[2].X - v[1].X}
	s.Flanks[1] = FlankJoist{Edge: 3, Length: in.Outline.Edges[3].Length, Lean: v[3].X - v[0].X}
	if len(s.Joists) > 0 {
		a, b := s.Joists[0], s.Joists[len(s.Joists)-1]
		inside := in.Joist / 2 // a flank joist stands inside the edge
		s.Flanks[0].BayLow, s.Flanks[0].BayHigh = a.Low+v[1].X-left.at(a.From)-inside, a.Low+v[1].X-left.at(a.To)-inside
		s.Flanks[1].BayLow, s.Flanks[1].BayHigh = right.at(b.From)-b.Low-v[1].X-inside, right.at(b.To)-b.Low-v[1].X-inside
	}
	return s, nil
}

// flank is a side of the roof from the gutter up.
type flank struct{ low, high geom.Point }

// at returns where the flank lies at a height.
func (f flank) at(y unit.Length) unit.Length {
	t := float64(y-f.low.Y) / float64(f.high.Y-f.low.Y)
	return f.low.X + unit.Length(math.Max(0, math.Min(1, t))*float64(f.high.X-f.low.X))
}

// gap returns the widest clear distance along the gutter between a line at x and the flank,
// over the stretch of the line that lies on the roof.
func (f flank) gap(x unit.Length, s geom.Span) unit.Length {
	a, b := f.at(s.From)-x, f.at(s.To)-x
	return max(a, -a, b, -b)
}

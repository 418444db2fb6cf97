package sheet

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// ID names the rule for the size of the sheet and its version.
const ID = "sheet.size/1"

// Size is the sheet to order, in one piece.
type Size struct {
	Length, Width           unit.Length // along the gutter, up the fall
	ExactLength, ExactWidth unit.Length // before the supplier's step
	Area                    unit.Area
	Mass                    unit.Mass
	Hands                   int // to carry it
	Allowances              []Allowance
}

// SizeOf returns the one piece that covers an outline.
//
//	length = extent along the gutter of the edges moved out by their allowances + |skew|
//	width  = extent of the same up the fall; each up to the supplier's step
//
// Source: common practice, no source; allowances as AllowanceAt.
// Units: mm, kg.
// Shape: never smaller for a longer or deeper roof, a higher wall or more skew.
// Domain: extents 500 to 20000 mm each way; skew within 1000; step 1 to 1000; thickness 1.0 to 2.5 mm.
// Ignores: whether a sheet that wide can be had: [Lay].
// Errors: DomainError only.
func SizeOf(in Input) (Size, error) {
	in, allowances, err := in.ready()
	if err != nil {
		return Size{}, err
	}
	box, err := extent(in.Outline, wanted(allowances))
	if err != nil {
		return Size{}, err
	}
	s := Size{Allowances: allowances}
	s.ExactLength = box.Length() + unit.Length(math.Abs(float64(in.Skew)))
	s.ExactWidth = box.Depth()
	s.Length, s.Width = upTo(s.ExactLength, in.Step), upTo(s.ExactWidth, in.Step)
	s.Area = s.Length.By(s.Width)
	s.Mass = PerSquareMetre(in.Thickness).Over(s.Area)
	s.Hands = hands(s.Mass)
	return s, nil
}

func wanted(allowances []Allowance) []unit.Length {
	out := make([]unit.Length, len(allowances))
	for i, a := range allowances {
		out[i] = a.Wanted
	}
	return out
}

func least(allowances []Allowance) []unit.Length {
	out := make([]unit.Length, len(allowances))
	for i, a := range allowances {
		out[i] = a.Least
	}
	return out
}

// extent returns the box round the outline's edges moved out by give. The box
// of a right-angled outline is taken edge by edge: where two upstands face
// each other across a narrow recess the moved edges cross, and the box still
// holds.
func extent(o geom.Outline, give []unit.Length) (geom.Rect, error) {
	if !o.IsRightAngled() {
		p, err := o.Offset(give)
		return p.Bounds(), err
	}
	box := o.Bounds()
	for i := range o.Edges {
		from, to := o.Side(i)
		switch { // the roof lies to the right of every edge
		case to.X < from.X:
			box.Min.Y = min(box.Min.Y, from.Y-give[i])
		case to.X > from.X:
			box.Max.Y = max(box.Max.Y, from.Y+give[i])
		case to.Y > from.Y:
			box.Min.X = min(box.Min.X, from.X-give[i])
		default:
			box.Max.X = max(box.Max.X, from.X+give[i])
		}
	}
	return box, nil
}

// upTo rounds up to a multiple of step. Lengths carry no more than a rounding
// of the twelfth digit past the multiple they stand for.
func upTo(l, step unit.Length) unit.Length {
	return unit.Length(math.Ceil(float64(l)/float64(step)-1e-9)) * step
}

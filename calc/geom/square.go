package geom

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// SkewID names the formula and its version.
const SkewID = "geom.skew/1"

// Squareness is what a difference of the diagonals asks for.
type Squareness string

const (
	Square Squareness = "square" // up to 10 mm: square enough
	Note   Squareness = "note"   // up to 25 mm: note it
	Taper  Squareness = "taper"  // more: taper plan, verge cut, sheet larger by the skew
)

// The diagonal rule. Common practice, no source.
const (
	squareUpTo = 10 * unit.Millimetre
	noteUpTo   = 25 * unit.Millimetre
)

// GradeDiagonals returns what the difference of two diagonals asks for. A roof
// whose sides run together like a wedge has equal diagonals too, so the taper
// of each edge is looked at as well: [Outline.Tapers].
func GradeDiagonals(d1, d2 unit.Length) Squareness {
	switch diff := unit.Length(math.Abs(float64(d1 - d2))); {
	case diff <= squareUpTo:
		return Square
	case diff <= noteUpTo:
		return Note
	}
	return Taper
}

// ParallelogramSkew returns how far the back of a roof with equal opposite
// sides is shifted along the gutter over the depth, from the diagonals alone.
//
//	s = (d1² - d2²) / (4·a)
//
// d1 runs from the gutter's left end, d2 from its right end, a is the gutter's
// length; the skew is + when the back lies to the right.
//
// Source: difference of the two laws of cosines; exact for a parallelogram.
// Units: mm.
// Shape: odd in the exchange of the diagonals; 0 for equal ones.
// Domain: lengths MinEdge to 2·MaxEdge, |s| below the diagonals. For unequal sides use FourSider.
// Errors: DomainError.
func ParallelogramSkew(d1, d2, a unit.Length) (unit.Length, error) {
	const op = "geom.skew"
	for _, in := range []struct {
		field string
		v     unit.Length
	}{{"d1", d1}, {"d2", d2}, {"a", a}} {
		if err := calc.Outside(op, in.field, float64(in.v), float64(MinEdge), float64(2*MaxEdge), "mm"); err != nil {
			return 0, err
		}
	}
	s := float64(d1-d2) * float64(d1+d2) / (4 * float64(a))
	if m := float64(min(d1, d2)); math.Abs(s) >= m {
		return 0, &calc.DomainError{Op: op, Field: "d1,d2", Got: float64(d1 - d2), Wanted: "diagonals of a roof, nearly alike"}
	}
	return unit.Length(s), nil
}

// Skew returns how far the middle of the back edge lies to the right (+) or
// left (-) of the middle of the gutter edge, for a four-sided outline: for a
// parallelogram the whole offset over the depth. It is 0 for any outline with
// another number of edges; walked outlines are square by construction.
func (o Outline) Skew() unit.Length {
	if len(o.Vertices) != 4 {
		return 0
	}
	v := o.Vertices
	return (v[2].X + v[3].X - v[0].X - v[1].X) / 2
}

// Diagonals returns the diagonal from the gutter's left end and the one from
// its right end of a four-sided outline; ok is false for any other.
func (o Outline) Diagonals() (d [2]unit.Length, ok bool) {
	if len(o.Vertices) != 4 {
		return d, false
	}
	v := o.Vertices
	return [2]unit.Length{v[1].To(v[3]), v[0].To(v[2])}, true
}

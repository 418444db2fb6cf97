package geom

import (
	"math"

	"chargehand/calc/unit"
)

// CornerKind says which way the plan turns.
type CornerKind string

const (
	External CornerKind = "external" // under 180° inside the roof
	Internal CornerKind = "internal" // over 180° inside the roof: the inside of an L
	Inline   CornerKind = "inline"   // no corner: the kind of edge changes along a straight run
)

// Corner is a vertex with the edges that meet in it.
type Corner struct {
	Kind   CornerKind
	At     Point
	Angle  unit.Angle // inside the roof, 0 to 2π
	Before int        // edge that ends here
	After  int        // edge that begins here
}

// inlineTolerance: a bend this small (about 1 mm in 1 m) is no corner to cut or
// patch. Common practice, no source.
const inlineTolerance = 0.001 // rad

// Corners returns the corner at the start of every edge, in order.
func (o Outline) Corners() []Corner {
	p := o.Vertices
	corners := make([]Corner, len(p))
	for i := range p {
		in, out := p[i].vec().sub(p.prev(i).vec()), p.next(i).vec().sub(p[i].vec())
		left := math.Atan2(in.cross(out), in.dot(out)) // rad, > 0 to the left
		c := Corner{At: p[i], Angle: unit.Angle(math.Pi + left), Before: (i + len(p) - 1) % len(p), After: i}
		switch {
		case math.Abs(left) <= inlineTolerance:
			c.Kind = Inline
		case left > 0:
			c.Kind = Internal
		default:
			c.Kind = External
		}
		corners[i] = c
	}
	return corners
}

// CountCorners returns how many corners of one kind the outline has.
func (o Outline) CountCorners(kind CornerKind) int {
	n := 0
	for _, c := range o.Corners() {
		if c.Kind == kind {
			n++
		}
	}
	return n
}

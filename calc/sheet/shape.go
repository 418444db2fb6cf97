package sheet

import (
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// shape returns the outline of the rubber itself: the deck's edges moved out by
// what is wanted, a skewed rectangle widened by its skew. recess is true when
// two upstands face each other across a recess too narrow for both: the sheet
// then fills its box, and the recess is dressed with a piece of its own.
func (in Input) shape(allowances []Allowance) (p geom.Polygon, recess bool, err error) {
	give := wanted(allowances)
	box, err := extent(in.Outline, give)
	if err != nil {
		return nil, false, err
	}
	skew := max(in.Skew, -in.Skew)
	p, err = in.Outline.Offset(give)
	if recess = err != nil; recess || skew > 0 && len(p) != 4 {
		// A skewed outline of many edges is known by its square walk only, so
		// which edges shift by how much is not known either.
		return geom.Polygon{
			{X: box.Min.X, Y: box.Min.Y}, {X: box.Min.X, Y: box.Max.Y},
			{X: box.Max.X + skew, Y: box.Max.Y}, {X: box.Max.X + skew, Y: box.Min.Y},
		}, recess, nil
	}
	for i := range p {
		if skew > 0 && p[i].X == box.Max.X {
			p[i].X += skew
		}
	}
	return p, false, nil
}

// turned swaps the two directions of the plan.
func turned(p geom.Polygon) geom.Polygon {
	q := make(geom.Polygon, len(p))
	for i, v := range p {
		q[i] = geom.Point{X: v.Y, Y: v.X}
	}
	return q
}

func turnedRect(r geom.Rect) geom.Rect {
	return geom.Rect{Min: geom.Point{X: r.Min.Y, Y: r.Min.X}, Max: geom.Point{X: r.Max.Y, Y: r.Max.X}}
}

// rightAngled reports whether every side of p runs along an axis.
func rightAngled(p geom.Polygon) bool {
	for i, v := range p {
		if next := p[(i+1)%len(p)]; v.X != next.X && v.Y != next.Y {
			return false
		}
	}
	return true
}

// hair is past the rounding of any sum of lengths on a roof.
const hair = 1e-6 * unit.Millimetre

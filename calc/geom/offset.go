package geom

import (
	"fmt"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// OffsetID names the formula and its version.
const OffsetID = "geom.offset/1"

// stepBend: two edges that bend by less than this and move by different
// amounts are joined by a step, since their mitre would lie metres away.
const stepBend = 5 * math.Pi / 180 // rad

// Offset returns the outline moved outwards (inwards if negative) by each
// edge's own allowance: the sheet round a deck, the deck inside a wall gap.
// Corners are mitred, each new corner lying on both moved edges. Where the
// kind changes along a straight run the two lines are joined by a step, so the
// result may have more corners than the outline.
//
// Shape: for a rectangle L by D the sides become L + Σ and D + Σ of the two ends' allowances; allowances 0 give the outline back.
// Domain: one allowance for each edge, up to MaxEdge in size.
// Errors: DomainError naming "allowances" or "allowances[i]", i being an edge that would vanish, turn round or run into another
// (the two arms of a U closing on each other). It never returns a ring that crosses itself.
func (o Outline) Offset(allowances []unit.Length) (Polygon, error) {
	const op = "geom.offset"
	n := len(o.Vertices)
	if len(allowances) != n || n < 3 {
		return nil, &calc.DomainError{Op: op, Field: "allowances", Got: len(allowances), Wanted: fmt.Sprintf("one for each of %d edges", n)}
	}
	for i, a := range allowances {
		if err := calc.Outside(op, fmt.Sprintf("allowances[%d]", i), float64(a), -float64(MaxEdge), float64(MaxEdge), "mm"); err != nil {
			return nil, err
		}
	}
	var ring Polygon
	var owner []int // edge that leaves each corner of the ring; -1 for a step
	for i := range n {
		before := (i + n - 1) % n
		in, out := o.direction(before), o.direction(i)
		v, a, b := o.Vertices[i].vec(), float64(allowances[before]), float64(allowances[i])
		sin := in.cross(out)
		switch {
		case a == b && math.Abs(sin) < stepBend:
			// The bisector form keeps its digits where the lines are nearly one.
			m := in.leftNormal().add(out.leftNormal())
			ring, owner = append(ring, v.add(m.scale(2*a/m.dot(m))).point()), append(owner, i)
		case math.Abs(sin) < stepBend:
			ring = append(ring, v.add(in.leftNormal().scale(a)).point(), v.add(out.leftNormal().scale(b)).point())
			owner = append(owner, -1, i)
		default:
			// Solve q·nᵢₙ = a, q·nₒᵤₜ = b for q from the corner.
			q := out.scale(a / sin).sub(in.scale(b / sin))
			ring, owner = append(ring, v.add(q).point()), append(owner, i)
		}
	}
	for k, i := range owner {
		from, to := ring.side(k)
		if i >= 0 && !(to.sub(from).dot(o.direction(i)) > 0) {
			return nil, &calc.DomainError{Op: op, Field: fmt.Sprintf("allowances[%d]", i), Got: float64(allowances[i]),
				Wanted: fmt.Sprintf("allowances that leave something of edge %d", i+1)}
		}
	}
	if i, j, crossed := ring.firstCrossing(); crossed {
		edge, with := max(0, owner[j]), max(0, owner[i])
		return nil, &calc.DomainError{Op: op, Field: fmt.Sprintf("allowances[%d]", edge), Got: float64(allowances[edge]),
			Wanted: fmt.Sprintf("allowances that keep edges %d and %d apart", with+1, edge+1)}
	}
	return ring, nil
}

// direction is the unit vector along edge i.
func (o Outline) direction(i int) vec {
	from, to := o.Vertices.side(i)
	d := to.sub(from)
	return d.scale(1 / d.len())
}

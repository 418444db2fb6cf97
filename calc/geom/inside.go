package geom

import (
	"math"

	"chargehand/calc/unit"
)

// Contains reports whether q lies inside p or on its edge.
func (p Polygon) Contains(q Point) bool {
	in, v := false, q.vec()
	for i := range p {
		a, b := p.side(i)
		if turn(a, b, v) == 0 && within(a, b, v) {
			return true
		}
		// Crossing count along +X. The half-open test on y counts a vertex once.
		if (a.y > v.y) != (b.y > v.y) && (turn(a, b, v) > 0) == (b.y > a.y) {
			in = !in
		}
	}
	return in
}

// ToSide returns the shortest distance from q to side i of p.
func (p Polygon) ToSide(q Point, i int) unit.Length {
	a, b := p.side(i)
	return unit.Length(toSegment(q.vec(), a, b))
}

func toSegment(q, a, b vec) float64 {
	ab := b.sub(a)
	l2 := ab.dot(ab)
	if l2 == 0 {
		return q.sub(a).len()
	}
	t := math.Max(0, math.Min(1, q.sub(a).dot(ab)/l2))
	return q.sub(a.add(ab.scale(t))).len()
}

// betweenSegments returns the shortest distance between segments ab and cd.
func betweenSegments(a, b, c, d vec) float64 {
	if meet(a, b, c, d) {
		return 0
	}
	return min(toSegment(a, c, d), toSegment(b, c, d), toSegment(c, a, b), toSegment(d, a, b))
}

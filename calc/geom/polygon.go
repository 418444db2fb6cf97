package geom

import (
	"math"

	"chargehand/calc/unit"
)

// Polygon is a closed ring of vertices; the last one joins the first.
type Polygon []Point

// Orientation is the sense in which a ring is walked.
type Orientation string

const (
	Clockwise     Orientation = "clockwise"
	Anticlockwise Orientation = "anticlockwise"
	Flat          Orientation = "flat" // no area at all
)

// signedArea is positive for an anticlockwise ring, in mm².
//
//	2A = Σ (xᵢ·yᵢ₊₁ - xᵢ₊₁·yᵢ)
//
// taken about the first vertex, so that a roof far from the origin loses no
// digits.
func (p Polygon) signedArea() float64 {
	twice := 0.0
	for i := 2; i < len(p); i++ {
		twice += turn(p[0].vec(), p[i-1].vec(), p[i].vec())
	}
	return twice / 2
}

// Area returns the area enclosed by p, by the surveyor's (shoelace) formula.
//
// Shape: quadratic in scale; unchanged by a shift, a turn or the starting vertex; 0 below three vertices.
// Ignores: overlaps; of a ring that crosses itself it is not the covered area.
func (p Polygon) Area() unit.Area { return unit.Area(math.Abs(p.signedArea())) }

// Perimeter returns the length round p.
func (p Polygon) Perimeter() unit.Length {
	var sum unit.Length
	for i := range p {
		sum += p[i].To(p.next(i))
	}
	return sum
}

// Orientation returns the sense in which p is walked, seen from above.
func (p Polygon) Orientation() Orientation {
	switch a := p.signedArea(); {
	case a < 0:
		return Clockwise
	case a > 0:
		return Anticlockwise
	}
	return Flat
}

// Bounds returns the smallest rectangle along the axes that holds p; the zero
// Rect for no vertices.
func (p Polygon) Bounds() Rect {
	if len(p) == 0 {
		return Rect{}
	}
	r := Rect{Min: p[0], Max: p[0]}
	for _, q := range p[1:] {
		r.Min.X, r.Min.Y = min(r.Min.X, q.X), min(r.Min.Y, q.Y)
		r.Max.X, r.Max.Y = max(r.Max.X, q.X), max(r.Max.Y, q.Y)
	}
	return r
}

// IsConvex reports whether p turns one way only, corners of 180° allowed.
func (p Polygon) IsConvex() bool {
	if !p.IsSimple() {
		return false
	}
	sign := p.signedArea()
	for i := range p {
		if turn(p.prev(i).vec(), p[i].vec(), p.next(i).vec())*sign < 0 {
			return false
		}
	}
	return true
}

func (p Polygon) next(i int) Point { return p[(i+1)%len(p)] }
func (p Polygon) prev(i int) Point { return p[(i+len(p)-1)%len(p)] }

// side returns the ends of side i as vectors.
func (p Polygon) side(i int) (from, to vec) { return p[i].vec(), p.next(i).vec() }

// Rect is a rectangle along the axes.
type Rect struct{ Min, Max Point }

// Length returns the extent of r along the gutter.
func (r Rect) Length() unit.Length { return r.Max.X - r.Min.X }

// Depth returns the extent of r up the roof.
func (r Rect) Depth() unit.Length { return r.Max.Y - r.Min.Y }

// Area returns the area of r.
func (r Rect) Area() unit.Area { return r.Length().By(r.Depth()) }

// ring returns the corners of r clockwise, as those of an outline.
func (r Rect) ring() Polygon {
	return Polygon{{r.Max.X, r.Min.Y}, r.Min, {r.Min.X, r.Max.Y}, r.Max}
}

// cutBy reports whether the segment ab runs through the inside of r, by
// clipping it against each pair of sides in turn. Running along a side is not
// running through.
func (r Rect) cutBy(a, b vec) bool {
	d := b.sub(a)
	enter, leave := 0.0, 1.0
	for _, s := range [2]struct{ from, step, low, high float64 }{
		{a.x, d.x, float64(r.Min.X) + touching, float64(r.Max.X) - touching},
		{a.y, d.y, float64(r.Min.Y) + touching, float64(r.Max.Y) - touching},
	} {
		if s.step == 0 {
			if s.from < s.low || s.from > s.high {
				return false
			}
			continue
		}
		t0, t1 := (s.low-s.from)/s.step, (s.high-s.from)/s.step
		enter, leave = max(enter, min(t0, t1)), min(leave, max(t0, t1))
	}
	return enter <= leave
}

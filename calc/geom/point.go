package geom

import (
	"math"

	"chargehand/calc/unit"
)

// Point is a place on the plan: X along the gutter from its left end, Y up the
// roof.
type Point struct{ X, Y unit.Length }

// To returns the distance from p to q.
func (p Point) To(q Point) unit.Length { return unit.Length(q.vec().sub(p.vec()).len()) }

// Add returns p moved by dx along the gutter and dy up the roof.
func (p Point) Add(dx, dy unit.Length) Point { return Point{p.X + dx, p.Y + dy} }

func (p Point) vec() vec { return vec{float64(p.X), float64(p.Y)} }

// vec is a point or a difference of points inside formulas, in mm.
type vec struct{ x, y float64 }

func (a vec) sub(b vec) vec       { return vec{a.x - b.x, a.y - b.y} }
func (a vec) add(b vec) vec       { return vec{a.x + b.x, a.y + b.y} }
func (a vec) scale(k float64) vec { return vec{k * a.x, k * a.y} }
func (a vec) dot(b vec) float64   { return a.x*b.x + a.y*b.y }
func (a vec) cross(b vec) float64 { return a.x*b.y - a.y*b.x }
func (a vec) len() float64        { return math.Hypot(a.x, a.y) }
func (a vec) leftNormal() vec     { l := a.len(); return vec{-a.y / l, a.x / l} }
func (a vec) point() Point        { return Point{unit.Length(a.x), unit.Length(a.y)} }
func turn(a, b, c vec) float64    { return b.sub(a).cross(c.sub(a)) } // twice the signed area of abc: > 0 anticlockwise

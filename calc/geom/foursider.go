package geom

import (
	"fmt"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// FourSiderID names the formula and its version.
const FourSiderID = "geom.foursider/1"

// Taped are the six readings of an out-of-square four-sided roof.
type Taped struct {
	Sides     [4]unit.Length // clockwise: gutter, left, back, right
	Diagonals [2]unit.Length // from the gutter's left end to the back right corner; from its right end to the back left
}

// FourSided is an adjusted four-sided roof.
type FourSided struct {
	Outline   Outline
	Adjusted  Taped // the readings made to agree
	Residuals Taped // adjusted less read: what was added to each reading
	// Misclosure is how far a diagonal misses the length which the other five
	// readings give it: the larger of the two.
	Misclosure unit.Length
	Closes     bool        // Misclosure is within MisclosureLimit
	Skew       unit.Length // see [Outline.Skew]
}

// FourSider returns the four-sided roof that fits four sides and two diagonals
// best: the least sum of squared corrections, all readings weighing the same,
// such that the six lengths belong to one plane figure.
//
//	min Σvᵢ²  subject to  F(l+v) = 0,   v = -Bᵀ·(B·Bᵀ)⁻¹·(F(l+v₀) - B·v₀), B = ∂F/∂l, repeated
//
// F is the second diagonal as built from the other five less itself.
//
// Source: adjustment by conditions; from memory, checked in the tests against an adjustment of coordinates by another route.
// Units: mm.
// Shape: scales with the readings; mirrored readings give the mirrored roof; readings that close are left as they are.
// Domain: readings MinEdge to MaxEdge that make a convex figure clockwise from the gutter.
// Ignores: which reading is wrong. One condition cannot tell, and a short side may be 40 mm out before a diagonal misses by 20.
// Errors: DomainError naming "sides_mm[i]", "diagonals_mm[i]" or "edges[i]" for a value; "sides_mm" when the six
// together make no roof. A roof over the misclosure limit is no error: Closes is false.
func FourSider(t Taped, kinds [4]Kind) (FourSided, error) {
	const op = "geom.foursider"
	for i, l := range t.Sides {
		if err := calc.Outside(op, fmt.Sprintf("sides_mm[%d]", i), float64(l), float64(MinEdge), float64(MaxEdge), "mm"); err != nil {
			return FourSided{}, err
		}
	}
	for i, l := range t.Diagonals {
		if err := calc.Outside(op, fmt.Sprintf("diagonals_mm[%d]", i), float64(l), float64(MinEdge), float64(2*MaxEdge), "mm"); err != nil {
			return FourSided{}, err
		}
	}
	read := t.braces()
	fit, ok := read.adjust()
	miss, closable := read.misclosure()
	if !ok || !closable {
		return FourSided{}, &calc.DomainError{Op: op, Field: "sides_mm", Got: fmt.Sprintf("%v", read),
			Wanted: "six lengths that make one four-sided roof, sides clockwise from the gutter: tape both diagonals again, then the sides"}
	}
	corners, _, _ := fit.build()
	o, err := NewOutline([]Point{corners[0].point(), corners[1].point(), corners[2].point(), corners[3].point()}, kinds[:])
	if err != nil {
		return FourSided{}, err
	}
	var residuals braces
	for i := range fit {
		residuals[i] = fit[i] - read[i]
	}
	return FourSided{
		Outline:    o,
		Adjusted:   fit.taped(),
		Residuals:  residuals.taped(),
		Misclosure: unit.Length(miss),
		Closes:     unit.Length(miss) <= MisclosureLimit,
		Skew:       o.Skew(),
	}, nil
}

// braces are the six lengths between four corners, in mm: sides 0-1, 1-2, 2-3,
// 3-0, diagonals 1-3, 0-2.
type braces [6]float64

// ends are the corners that each of the braces joins.
var ends = [6][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {1, 3}, {0, 2}}

func (t Taped) braces() braces {
	return braces{float64(t.Sides[0]), float64(t.Sides[1]), float64(t.Sides[2]), float64(t.Sides[3]),
		float64(t.Diagonals[0]), float64(t.Diagonals[1])}
}

func (l braces) taped() Taped {
	return Taped{
		Sides:     [4]unit.Length{unit.Length(l[0]), unit.Length(l[1]), unit.Length(l[2]), unit.Length(l[3])},
		Diagonals: [2]unit.Length{unit.Length(l[4]), unit.Length(l[5])},
	}
}

// build lays out the four corners from the sides and the diagonal 1-3, corner 1
// at the origin and corner 0 on +x, and returns by how much the diagonal 0-2 of
// that figure is longer than read. ok is false when a triangle will not close.
func (l braces) build() (p [4]vec, miss float64, ok bool) {
	a, b, c, d, e := l[0], l[1], l[2], l[3], l[4]
	p[0] = vec{a, 0}
	x3 := (e*e + a*a - d*d) / (2 * a)
	y3 := e*e - x3*x3
	t := (e*e + b*b - c*c) / (2 * e) // from corner 1 along the diagonal to the foot of corner 2
	h := b*b - t*t
	if !(y3 > 0) || !(h > 0) {
		return p, 0, false
	}
	p[3] = vec{x3, math.Sqrt(y3)}
	u := p[3].scale(1 / e)
	p[2] = u.scale(t).add(vec{-u.y, u.x}.scale(math.Sqrt(h)))
	return p, p[2].sub(p[0]).len() - l[5], true
}

// misclosure is the larger of the two amounts by which a diagonal misses what
// the other five give it.
func (l braces) misclosure() (miss float64, ok bool) {
	_, second, ok := l.build()
	_, first, ok2 := braces{l[1], l[2], l[3], l[0], l[5], l[4]}.build()
	return math.Max(math.Abs(first), math.Abs(second)), ok && ok2
}

// gradient returns ∂F/∂l at a plane figure with corners p.
//
//	Bᵢⱼ = -λᵢ·λⱼ·lᵢⱼ / (λ₀·λ₂·l₀₂),   Σλ = 0 and Σλ·p = 0
//
// The λ are the signed areas of the triangles left by dropping one corner:
// their products are the one set of bar forces (per length) in balance at
// every joint, and first-order changes of length that fit a plane figure do no
// work against them.
func (l braces) gradient(p [4]vec) braces {
	λ := [4]float64{turn(p[1], p[2], p[3]), -turn(p[0], p[2], p[3]), turn(p[0], p[1], p[3]), -turn(p[0], p[1], p[2])}
	var b braces
	for k, e := range ends {
		b[k] = -λ[e[0]] * λ[e[1]] * l[k] / (λ[0] * λ[2] * l[5])
	}
	return b
}

// adjust returns the closing lengths nearest to l.
func (l braces) adjust() (fit braces, ok bool) {
	const rounds, closed = 200, 1e-12 // of the longest reading
	scale := 0.0
	for _, v := range l {
		scale = math.Max(scale, v)
	}
	fit = l
	for range rounds {
		p, f, built := fit.build()
		if !built {
			return fit, false
		}
		b := fit.gradient(p)
		bb, bv := 0.0, 0.0
		for i := range b {
			bb += b[i] * b[i]
			bv += b[i] * (fit[i] - l[i])
		}
		moved := 0.0
		for i := range b {
			next := l[i] - b[i]*(f-bv)/bb
			moved = math.Max(moved, math.Abs(next-fit[i]))
			fit[i] = next
		}
		if moved <= closed*scale {
			return fit, fit.convex()
		}
	}
	return fit, false
}

// convex reports whether the figure turns the same way at all corners; a dart
// or a bow tie has the same six lengths' worth of data but is no roof.
func (l braces) convex() bool {
	p, _, ok := l.build()
	for i := range p {
		ok = ok && turn(p[i], p[(i+1)%4], p[(i+2)%4]) < 0
	}
	return ok
}

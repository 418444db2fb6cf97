package picture

import "math"

// pt is a place on paper, in mm, Y up; as a difference it is a vector.
type pt struct{ x, y float64 }

func (a pt) add(b pt) pt          { return pt{a.x + b.x, a.y + b.y} }
func (a pt) sub(b pt) pt          { return pt{a.x - b.x, a.y - b.y} }
func (a pt) by(k float64) pt      { return pt{k * a.x, k * a.y} }
func (a pt) dot(b pt) float64     { return a.x*b.x + a.y*b.y }
func (a pt) cross(b pt) float64   { return a.x*b.y - a.y*b.x }
func (a pt) len() float64         { return math.Hypot(a.x, a.y) }
func (a pt) left() pt             { return pt{-a.y, a.x} }
func (a pt) turned(by float64) pt { s, c := math.Sincos(by); return pt{a.x*c - a.y*s, a.x*s + a.y*c} }

// unit is a vector's direction; to the right where it has none.
func (a pt) unit() pt {
	if l := a.len(); l > 1e-9 {
		return a.by(1 / l)
	}
	return pt{1, 0}
}

// box is a rectangle on paper that may be turned: the room of a text.
type box struct {
	mid    pt
	hw, hh float64 // half its width and height
	dir    pt      // along its width, of length 1
}

func (b box) corners() [4]pt {
	w, h := b.dir.by(b.hw), b.dir.left().by(b.hh)
	return [4]pt{b.mid.sub(w).sub(h), b.mid.add(w).sub(h), b.mid.add(w).add(h), b.mid.sub(w).add(h)}
}

// reach is how far a box extends from its middle along the axes.
func (b box) reach() (x, y float64) {
	dx, dy := math.Abs(b.dir.x), math.Abs(b.dir.y)
	return b.hw*dx + b.hh*dy, b.hw*dy + b.hh*dx
}

// grown is the box with more room all round.
func (b box) grown(by float64) box {
	b.hw += by
	b.hh += by
	return b
}

// meets says whether two boxes share more than an edge: no line along a side of
// either lies between them.
func (b box) meets(c box) bool {
	d := c.mid.sub(b.mid)
	bx, by := b.reach()
	cx, cy := c.reach()
	if math.Abs(d.x) >= bx+cx || math.Abs(d.y) >= by+cy {
		return false
	}
	for _, axis := range [4]pt{b.dir, b.dir.left(), c.dir, c.dir.left()} {
		if math.Abs(d.dot(axis)) >= b.span(axis)+c.span(axis) {
			return false
		}
	}
	return true
}

func (b box) span(axis pt) float64 {
	return b.hw*math.Abs(b.dir.dot(axis)) + b.hh*math.Abs(b.dir.left().dot(axis))
}

// line is a straight piece of a line.
type line struct{ a, b pt }

// within returns how much of a line lies inside a box.
func (b box) within(l line) float64 {
	x, y := b.reach()
	if min(l.a.x, l.b.x) > b.mid.x+x || max(l.a.x, l.b.x) < b.mid.x-x ||
		min(l.a.y, l.b.y) > b.mid.y+y || max(l.a.y, l.b.y) < b.mid.y-y {
		return 0
	}
	from, d := l.a.sub(b.mid), l.b.sub(l.a)
	in, out := 0.0, 1.0
	for _, s := range [2]struct{ at, step, half float64 }{
		{from.dot(b.dir), d.dot(b.dir), b.hw}, {from.dot(b.dir.left()), d.dot(b.dir.left()), b.hh},
	} {
		if s.step == 0 {
			if math.Abs(s.at) >= s.half {
				return 0
			}
			continue
		}
		t, u := (-s.half-s.at)/s.step, (s.half-s.at)/s.step
		in, out = max(in, min(t, u)), min(out, max(t, u))
	}
	return max(0, out-in) * d.len()
}

// crosses says whether two lines meet between their ends.
func (l line) crosses(m line) bool {
	side := func(l line, p pt) float64 { return l.b.sub(l.a).cross(p.sub(l.a)) }
	return side(l, m.a)*side(l, m.b) < 0 && side(m, l.a)*side(m, l.b) < 0
}

// extent is the rectangle along the axes that holds everything added to it.
type extent struct {
	min, max pt
	some     bool
}

func (e *extent) add(p pt, x, y float64) {
	if !e.some {
		e.min, e.max, e.some = pt{p.x - x, p.y - y}, pt{p.x + x, p.y + y}, true
		return
	}
	e.min = pt{min(e.min.x, p.x-x), min(e.min.y, p.y-y)}
	e.max = pt{max(e.max.x, p.x+x), max(e.max.y, p.y+y)}
}

func (e *extent) addBox(b box) {
	x, y := b.reach()
	e.add(b.mid, x, y)
}

func (e extent) width() float64  { return e.max.x - e.min.x }
func (e extent) height() float64 { return e.max.y - e.min.y }

// holds says whether a place lies inside a ring.
func holds(ring []pt, p pt) bool {
	in := false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if (a.y > p.y) != (b.y > p.y) && p.x < a.x+(b.x-a.x)*(p.y-a.y)/(b.y-a.y) {
			in = !in
		}
	}
	return in
}

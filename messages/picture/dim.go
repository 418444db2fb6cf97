package picture

import (
	"math"

	"chargehand/flow/talk"
)

// Measures of a dimension, in mm on paper. Source: ISO 129, in widths of the
// narrow line: a short way past the dimension line, an oblique stroke at 45°.
const (
	extensionGap  = 0.8
	extensionPast = 1.5
	obliqueLong   = 2.4
	outerLine     = 2.5 // of a dimension too short for its strokes
)

// dim draws a dimension and places its figure.
func (e *easel) dim(d talk.Dim) {
	a, b := e.at(d.From), e.at(d.To)
	u := b.sub(a).unit()
	switch d.Along {
	case talk.Across:
		u = pt{math.Copysign(1, b.x-a.x), 0}
	case talk.Upward:
		u = pt{0, math.Copysign(1, b.y-a.y)}
	}
	n := u.left()
	if d.Away < 0 {
		n = n.by(-1)
	}
	away := math.Abs(float64(d.Away))
	stand := max(a.dot(n), b.dot(n)) + away
	p, q := a.add(n.by(stand-a.dot(n))), b.add(n.by(stand-b.dot(n)))
	for _, end := range [2][2]pt{{a, p}, {b, q}} {
		if end[1].sub(end[0]).len() > extensionGap {
			e.stroke(talk.Narrow, []pt{end[0].add(n.by(extensionGap)), end[1].add(n.by(extensionPast))}, false)
		}
	}
	long := q.sub(p).len()
	from, to := p, q
	if long < 2*obliqueLong {
		from, to = p.sub(u.by(outerLine)), q.add(u.by(outerLine))
	}
	e.stroke(talk.Narrow, []pt{from, to}, false)
	for _, end := range []pt{p, q} {
		half := u.turned(math.Pi / 4).by(obliqueLong / 2)
		e.stroke(talk.Wide, []pt{end.sub(half), end.add(half)}, false)
	}
	s := set(e.say.Say(d.Text), float64(talk.Small), false, 0)
	e.best(s, e.figures(s, p, q, readable(u)))
}

// figures offers the places of a dimension's figure: above the middle of its
// line, else past one end, else further up or down with a line to it.
func (e *easel) figures(s setting, p, q, dir pt) func(yield func(seat) bool) {
	if q.sub(p).dot(dir) < 0 {
		p, q = q, p
	}
	mid, long := p.add(q).by(0.5), q.sub(p).len()
	up := dir.left().by(s.h/2 + aboveLine)
	return func(yield func(seat) bool) {
		first := seat{box: s.box(mid.add(up), dir)}
		if s.w > long {
			first.cost = 1
		}
		past := s.w/2 + 1.2
		if !yield(first) || !yield(seat{box: s.box(q.add(dir.by(past)).add(up), dir), cost: 1.5}) || !yield(seat{box: s.box(p.sub(dir.by(past)).add(up), dir), cost: 1.5}) {
			return
		}
		for level := 1.0; level <= 8; level++ {
			for _, slide := range []float64{0, 0.5, -0.5, 1, -1, 1.5, -1.5, 2.5, -2.5, 4, -4} {
				for _, side := range []float64{1, -1} {
					if side < 0 && level < 2 {
						continue
					}
					b := s.box(mid.add(up.by(1+1.1*(level*side-max(0, -side)))).add(dir.by(slide*(s.w+1))), dir)
					_, from := b.from(mid)
					if !yield(seat{box: b, cost: 2 + level + math.Abs(slide), lead: &line{from, mid}}) {
						return
					}
				}
			}
		}
	}
}

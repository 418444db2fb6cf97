package picture

import (
	"math"

	"chargehand/flow/talk"
)

// seat is one place a text could take, and what speaks against it before one
// looks at what is there.
type seat struct {
	box  box
	cost float64
	lead *line // from the text back to its place
}

// rings are how far from its place a word is looked a seat for, in mm.
var rings = []float64{1.5, 3, 4.5, 6, 8, 10, 12.5, 15, 18, 22, 27, 33, 40, 50, 62, 78, 98}

// around offers the seats of a word, the one that was meant first, then further
// and further off.
func around(s setting, at, dir pt, anchor talk.Anchor) func(yield func(seat) bool) {
	return func(yield func(seat) bool) {
		meant := s.box(at.add(s.off(anchor, dir)), dir)
		if !yield(seat{box: meant}) {
			return
		}
		for _, a := range []talk.Anchor{talk.RightOf, talk.Above, talk.LeftOf, talk.Below} {
			if anchor != talk.Middle && a != anchor && !yield(seat{box: s.box(at.add(s.off(a, dir)), dir), cost: 1}) {
				return
			}
		}
		for _, d := range rings {
			for n := range 16 {
				b := meant
				b.mid = b.mid.add(pt{d, 0}.turned(float64(n) * math.Pi / 8))
				c := seat{box: b, cost: 0.5 + 0.3*d}
				if gap, from := b.from(at); gap > 1.5 {
					c.lead = &line{from, at}
					c.cost += 1.5 + 0.2*gap
				}
				if !yield(c) {
					return
				}
			}
		}
	}
}

// from is the nearest place on a box to a point, and how far off it is.
func (b box) from(p pt) (gap float64, at pt) {
	d := p.sub(b.mid)
	x, y := d.dot(b.dir), d.dot(b.dir.left())
	cx, cy := min(max(x, -b.hw), b.hw), min(max(y, -b.hh), b.hh)
	at = b.mid.add(b.dir.by(cx)).add(b.dir.left().by(cy))
	return p.sub(at).len(), at
}

// best puts a text on the seat with least against it. A seat on another text is
// none; beyond the drawing there always is one. Seats come in order of what
// speaks against them by themselves, or nearly: a far one is not looked at once
// a near one is good.
func (e *easel) best(s setting, seats func(yield func(seat) bool)) {
	var best, first seat
	least, some := math.Inf(1), false
	for c := range seats {
		if !some {
			first, some = c, true
		}
		if c.cost >= least {
			if c.cost >= least+3 {
				break
			}
			continue
		}
		if cost, ok := e.against(c, least); ok && cost < least {
			best, least = c, cost
			if cost == 0 {
				break
			}
		}
	}
	if math.IsInf(least, 1) {
		best = e.beyond(first.box)
	}
	e.put(s, best.box, best.lead)
}

// against weighs a seat; ok is false where it lies on another text, or costs more
// than the most.
func (e *easel) against(c seat, most float64) (cost float64, ok bool) {
	cost = c.cost
	x, y := c.box.reach()
	if e.seen.some && c.cost > 0 { // the seat that was meant may lie outside
		out := max(0, e.seen.min.x-(c.box.mid.x-x)) + max(0, c.box.mid.x+x-e.seen.max.x) +
			max(0, e.seen.min.y-(c.box.mid.y-y)) + max(0, c.box.mid.y+y-e.seen.max.y)
		cost += 0.4 * out
	}
	room := c.box.apart()
	for i := range e.words {
		if room.meets(e.words[i].apart) {
			return 0, false
		}
		if c.lead != nil && e.words[i].apart.within(*c.lead) > 0 {
			return 0, false
		}
	}
	free := c.box.grown(offLines)
	x, y = free.reach()
	low, high := pt{free.mid.x - x, free.mid.y - y}, pt{free.mid.x + x, free.mid.y + y}
	for i := range e.hurdles {
		h := &e.hurdles[i]
		if c.lead != nil && h.crosses(*c.lead) {
			cost += 0.3 * h.weight
		}
		if h.max.x <= low.x || h.min.x >= high.x || h.max.y <= low.y || h.min.y >= high.y {
			continue
		}
		if in := free.within(h.line); in > 0 {
			cost += h.weight * (0.8 + 0.3*in)
		}
		if cost >= most {
			return 0, false
		}
	}
	for _, g := range e.grounds {
		if g.hatched && g.under(c.box) {
			cost += 1.5
		}
	}
	return cost, cost < most
}

// beyond is a seat past everything drawn so far.
func (e *easel) beyond(meant box) seat {
	x, y := meant.reach()
	b := meant
	b.mid = pt{min(max(meant.mid.x, e.seen.min.x+x), max(e.seen.min.x+x, e.seen.max.x-x)), e.seen.min.y - y - 2}
	_, from := b.from(meant.mid)
	return seat{box: b, lead: &line{from, meant.mid}}
}

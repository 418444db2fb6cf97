package picture

import (
	"image/color"
	"math"
	"strings"

	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// placed is a text that has its place.
type placed struct {
	lines  []string
	size   float64 // of a capital
	bold   bool
	flush  float64 // of several lines: -1 flush left, 1 flush right
	box    box
	apart  box         // with the room that keeps it from its neighbours
	ground color.Color // painted behind the letters; nil: nothing is there
	halo   float64     // how far past them
}

// Room between a text and what stands beside it.
const (
	besidePoint = 1.0
	aboveLine   = 0.8
	apart       = 0.35 // half of the least room between two texts, and beside one another
	apartBeside = 0.75
	offLines    = 0.6
	haloLines   = 0.2
	haloHatched = 0.7 // or its lines run into the letters
)

// leading is from one line of letters to the next, in heights of a capital.
const leading = 1.75

// setting is a text measured but not placed.
type setting struct {
	lines []string
	size  float64
	bold  bool
	flush float64
	w, h  float64
}

func face(bold bool) *letters {
	if bold {
		return typefaces()[1]
	}
	return typefaces()[0]
}

// set measures a text; one wider than most is broken between words.
func set(s string, size float64, bold bool, most float64) setting {
	f := face(bold)
	out := setting{size: size, bold: bold}
	line := ""
	for word := range strings.FieldsSeq(s) {
		longer := strings.TrimPrefix(line+" "+word, " ")
		if line != "" && most > 0 && f.width(longer, size) > most {
			out.lines = append(out.lines, line)
			longer = word
		}
		line = longer
	}
	out.lines = append(out.lines, line)
	for _, l := range out.lines {
		out.w = max(out.w, f.width(l, size))
	}
	out.h = size * (1 + leading*float64(len(out.lines)-1))
	if strings.ContainsAny(out.lines[len(out.lines)-1], "gjpqyQ,;()") {
		out.h += 2 * f.drop * f.size(size) // the box stays centred on the capitals
	}
	return out
}

func sizeOf(s unit.Length) float64 {
	if s == 0 {
		s = talk.Small
	}
	return float64(s)
}

func (s setting) box(mid, dir pt) box { return box{mid: mid, hw: s.w / 2, hh: s.h / 2, dir: dir} }

// readable turns a direction so that its text reads from below or from the
// right. Source: ISO 129.
func readable(dir pt) pt {
	if dir.x < -1e-6 || math.Abs(dir.x) <= 1e-6 && dir.y < 0 {
		return dir.by(-1)
	}
	return dir
}

// off is from a word's place to its middle.
func (s setting) off(a talk.Anchor, dir pt) pt {
	switch a {
	case talk.Above:
		return dir.left().by(s.h/2 + besidePoint)
	case talk.Below:
		return dir.left().by(-s.h/2 - besidePoint)
	case talk.LeftOf:
		return dir.by(-s.w/2 - besidePoint)
	case talk.RightOf:
		return dir.by(s.w/2 + besidePoint)
	}
	return pt{}
}

// apart is a text's box with the room that keeps it from its neighbours: two
// figures on one line must not read as one.
func (b box) apart() box {
	b.hw += apartBeside
	b.hh += apart
	return b
}

// word places one text where it disturbs least.
func (e *easel) word(w talk.Word) {
	s := set(e.say.Say(w.Text), sizeOf(w.Size), sizeOf(w.Size) > float64(talk.Small), 0)
	at, dir := e.at(w.At), readable(pt{1, 0}.turned(float64(w.Turn)))
	if w.Fixed {
		e.put(s, s.box(at.add(s.off(w.Anchor, dir)), dir), nil)
		return
	}
	e.best(s, around(s, at, dir, w.Anchor))
}

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
	clear := c.box.grown(offLines)
	x, y = clear.reach()
	low, high := pt{clear.mid.x - x, clear.mid.y - y}, pt{clear.mid.x + x, clear.mid.y + y}
	for i := range e.hurdles {
		h := &e.hurdles[i]
		if c.lead != nil && h.crosses(*c.lead) {
			cost += 0.3 * h.weight
		}
		if h.max.x <= low.x || h.min.x >= high.x || h.max.y <= low.y || h.min.y >= high.y {
			continue
		}
		if in := clear.within(h.line); in > 0 {
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

func (g ground) under(b box) bool {
	x, y := b.reach()
	if g.max.x < b.mid.x-x || g.min.x > b.mid.x+x || g.max.y < b.mid.y-y || g.min.y > b.mid.y+y {
		return false
	}
	if holds(g.ring, b.mid) {
		return true
	}
	for _, c := range b.corners() {
		if holds(g.ring, c) {
			return true
		}
	}
	return false
}

// put sets a text down for good.
func (e *easel) put(s setting, b box, lead *line) {
	w := placed{lines: s.lines, size: s.size, bold: s.bold, flush: s.flush, box: b, apart: b.apart(), halo: haloLines}
	for _, h := range e.hurdles {
		if b.within(h.line) > 0 {
			w.ground = white
			break
		}
	}
	for _, g := range e.grounds {
		if !g.under(b) {
			continue
		}
		switch {
		case g.hatched:
			w.ground, w.halo = white, haloHatched
		case w.ground != nil && holds(g.ring, b.mid):
			w.ground = g.ink
		}
	}
	e.words = append(e.words, w)
	e.seen.addBox(b.apart())
	if lead != nil {
		e.stroke(talk.Narrow, []pt{lead.a, lead.b}, false)
		e.dot(lead.b)
	}
}

package picture

import (
	"image/color"
	"math"

	"chargehand/calc/geom"
	"chargehand/flow/talk"
	"chargehand/messages/text"
)

// easel is a panel being drawn at one scale: what is painted, where words stand,
// and what they should keep clear of.
type easel struct {
	say    *text.Speaker
	scale  float64 // paper over thing
	origin geom.Point

	marks   []mark
	hurdles []hurdle
	grounds []ground
	words   []placed
	seen    extent
}

// hurdle is a line that a word should not stand on; weight is how much it
// matters.
type hurdle struct {
	line
	min, max pt
	weight   float64
}

func newHurdle(a, b pt, weight float64) hurdle {
	return hurdle{line{a, b}, pt{min(a.x, b.x), min(a.y, b.y)}, pt{max(a.x, b.x), max(a.y, b.y)}, weight}
}

// ground is a filled surface; a word on it takes its colour behind it.
type ground struct {
	ring     []pt
	min, max pt
	ink      color.Color
	hatched  bool
}

// at is where a place of the thing comes to lie on the panel.
func (e *easel) at(p geom.Point) pt {
	return pt{float64(p.X-e.origin.X) * e.scale, float64(p.Y-e.origin.Y) * e.scale}
}

func (e *easel) all(ps []geom.Point) []pt {
	out := make([]pt, len(ps))
	for i, p := range ps {
		out[i] = e.at(p)
	}
	return out
}

// see keeps a mark inside the view.
func (e *easel) see(points []pt, margin float64) {
	for _, p := range points {
		e.seen.add(p, margin, margin)
	}
}

// clear keeps words off a line.
func (e *easel) clear(points []pt, closed bool, weight float64) {
	for i := 1; i < len(points); i++ {
		e.hurdles = append(e.hurdles, newHurdle(points[i-1], points[i], weight))
	}
	if closed && len(points) > 2 {
		e.hurdles = append(e.hurdles, newHurdle(points[len(points)-1], points[0], weight))
	}
}

// stroke draws along points.
func (e *easel) stroke(pen talk.Pen, points []pt, closed bool) {
	s := strokes[pen]
	if s.width == 0 || len(points) < 2 {
		return
	}
	e.marks = append(e.marks, mark{path: through(points, closed), pen: s})
	e.see(points, s.width/2)
	e.clear(points, closed, s.weight())
}

// weight is how much it matters to keep words off a line: a broken one is read
// well enough behind them.
func (s stroke) weight() float64 {
	if s.dash != nil && s.width == narrow {
		return 0.3
	}
	return 1 + 2*s.width
}

// fill fills a ring by what it is.
func (e *easel) fill(t talk.Tone, ring []pt) {
	how := tones[t]
	if len(ring) < 3 || (how.ground == nil && how.hatches == nil) {
		return
	}
	if how.ground != nil {
		e.marks = append(e.marks, mark{path: through(ring, true), fill: how.ground})
		var x extent
		for _, p := range ring {
			x.add(p, 0, 0)
		}
		e.grounds = append(e.grounds, ground{ring, x.min, x.max, how.ground, how.hatches != nil || how.ground == black})
	}
	for _, h := range how.hatches {
		if m := h.lines(ring); len(m.path) > 0 {
			e.marks = append(e.marks, m)
		}
	}
	e.see(ring, 0)
}

// draw paints everything but the words.
func (e *easel) draw(s talk.Shape) {
	switch s := s.(type) {
	case talk.Stroke:
		e.stroke(s.Pen, e.all(s.Points), false)
	case talk.Area:
		ring := e.all(s.Points)
		e.fill(s.Tone, ring)
		e.stroke(s.Pen, ring, true)
	case talk.Arc:
		e.arc(s)
	case talk.Rim:
		e.rim(s.Outline)
	case talk.Note:
		e.see([]pt{e.at(s.At)}, 0)
	case talk.Arrow:
		e.arrow(s.Pen, e.at(s.From), e.at(s.To))
	}
}

func (e *easel) arc(a talk.Arc) {
	at, r := e.at(a.At), float64(a.Radius)*e.scale
	points := bend(at, r, float64(a.From), float64(a.Sweep))
	whole := math.Abs(float64(a.Sweep)) >= 2*math.Pi-1e-9
	if whole {
		e.fill(a.Tone, bend(at, r, 0, 2*math.Pi))
	}
	s := strokes[a.Pen]
	if s.width == 0 {
		return
	}
	e.marks = append(e.marks, mark{path: circle(at, r, float64(a.From), float64(a.Sweep)), pen: s})
	e.see(points, s.width/2)
	e.clear(points, false, s.weight())
}

// arrow ends in a filled head. Source: ISO 129, closed and filled.
func (e *easel) arrow(pen talk.Pen, from, to pt) {
	s := strokes[pen]
	if s.width == 0 {
		return
	}
	dir := to.sub(from).unit()
	long := min(2+3*s.width, 0.6*to.sub(from).len())
	neck := to.sub(dir.by(long))
	e.stroke(pen, []pt{from, neck}, false)
	side := dir.left().by(long * 0.32)
	e.head([]pt{to, neck.add(side), neck.sub(side)}, s.ink)
}

func (e *easel) head(ring []pt, ink color.Color) {
	e.marks = append(e.marks, mark{path: through(ring, true), fill: ink})
	e.see(ring, 0)
	e.clear(ring, true, 2)
}

// dot is the end of a line that leads to a thing.
func (e *easel) dot(at pt) {
	e.marks = append(e.marks, mark{path: circle(at, 0.5, 0, 2*math.Pi), fill: black})
}

// under says whether a surface lies behind a text.
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

package picture

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/flow/talk"
	"chargehand/messages/text"
)

// Layout is a sketch set for a page of one width: everything has its place.
type Layout struct {
	Width, Height float64 // mm
	blocks        []block
}

// block is a panel or a heading that keeps together on a page; Y counts from its
// lower edge.
type block struct {
	height float64
	shift  pt // from the panel's own axes to the block's
	easel  *easel
}

// Page widths, in mm.
const (
	Phone = 100 // shown 360 pixels wide, a capital is 9 pixels high
	Paper = 180 // A4 between its margins
)

const (
	edge      = 2.5 // free all round
	betweenBl = 5.0
	underHead = 1.5
	tallest   = 1.35 // of a panel, in widths of the page
	enough    = 0.03 // a scale that could grow by less is left
	hopping   = 4    // tries after which words are taken to hop from place to place
	tries     = 40
)

// Lay fits a sketch to a page.
func Lay(s talk.Sketch, say *text.Speaker, width float64) *Layout {
	l := &Layout{Width: width}
	for i, p := range s.Panels {
		if i > 0 {
			l.gap(betweenBl)
		}
		if p.Title != nil {
			l.head(*p.Title, say)
			l.gap(underHead)
		}
		l.panel(p, say)
	}
	l.Height = 2 * edge
	for _, b := range l.blocks {
		l.Height += b.height
	}
	return l
}

func (l *Layout) inner() float64 { return l.Width - 2*edge }

func (l *Layout) gap(by float64) { l.blocks = append(l.blocks, block{height: by}) }

// head sets a line above a panel.
func (l *Layout) head(p talk.Phrase, say *text.Speaker) {
	e := &easel{say: say}
	s := set(say.Say(p), float64(talk.Large), true, l.inner())
	s.flush = -1
	e.put(s, s.box(pt{s.w / 2, -s.h / 2}, pt{1, 0}), nil)
	l.add(e)
}

func (l *Layout) add(e *easel) {
	if !e.seen.some {
		return
	}
	l.blocks = append(l.blocks, block{height: e.seen.height(), shift: pt{edge - e.seen.min.x, -e.seen.min.y}, easel: e})
}

// panel draws a panel at the scale at which it just fits. What words and
// dimensions take beside it hardly depends on the scale, so a few tries find it;
// where words hop to other places as it grows, the scale is brought down until
// they stay on the page.
func (l *Layout) panel(p talk.Panel, say *text.Speaker) {
	area := bounds(p)
	w, h := float64(area.Length()), float64(area.Depth())
	if w <= 0 && h <= 0 {
		return
	}
	probe := &easel{say: say}
	left, right := probe.margin(p.Shapes, true, l.inner()), probe.margin(p.Shapes, false, l.inner())
	room := l.inner() - left.room() - right.room()
	limit := tallest * l.Width
	if p.Long {
		limit = math.Inf(1)
	}
	most := math.Inf(1)
	if p.Tall > 0 && h > 0 {
		most = float64(p.Tall) * l.Width / Phone / h
	}
	scale := min(most, room/max(w, 1e-6), limit/max(h, 1e-6))
	var e *easel
	for try := range tries {
		now := paint(p, say, scale, area.Min)
		spareW, spareH := room-now.seen.width(), limit-now.seen.height()
		next := scale
		if w > 0 {
			next = scale + spareW/w
		}
		if h > 0 {
			next = min(next, scale+spareH/h)
		}
		next = min(next, most)
		if fits := spareW >= 0 && spareH >= 0; fits && (e == nil || scale > e.scale) {
			e = now
			if next-scale < enough*scale || try >= hopping {
				break
			}
		} else if try >= hopping {
			if e != nil {
				break
			}
			next = min(next, scale*0.95)
		}
		scale = max(next, scale*0.4)
	}
	if e == nil {
		e = paint(p, say, scale, area.Min) // a word alone is wider than the page
		l.Width = max(l.Width, e.seen.width()+left.room()+right.room()+2*edge)
	}
	if !e.seen.some && len(left.notes)+len(right.notes) == 0 {
		return // nothing in it has a pen
	}
	e.notes(left, true)
	e.notes(right, false)
	l.add(e)
	b := &l.blocks[len(l.blocks)-1]
	b.shift.x += max(0, (l.inner()-e.seen.width())/2) // in the middle of the page
}

// paint draws a panel at a scale, but for the notes in its margins.
func paint(p talk.Panel, say *text.Speaker, scale float64, origin geom.Point) *easel {
	e := &easel{say: say, scale: scale, origin: origin}
	if p.Frame != (geom.Rect{}) {
		e.see([]pt{e.at(p.Frame.Min), e.at(p.Frame.Max)}, 0)
	}
	for _, s := range p.Shapes {
		e.draw(s)
	}
	for _, s := range p.Shapes {
		if w, ok := s.(talk.Word); ok && w.Fixed {
			e.word(w)
		}
	}
	for _, s := range p.Shapes {
		if d, ok := s.(talk.Dim); ok {
			e.dim(d)
		}
	}
	for _, s := range p.Shapes {
		if w, ok := s.(talk.Word); ok && !w.Fixed {
			e.word(w)
		}
	}
	return e
}

// bounds is what a panel shows of the thing itself.
func bounds(p talk.Panel) geom.Rect {
	r, some := p.Frame, p.Frame != (geom.Rect{})
	add := func(points ...geom.Point) {
		for _, q := range points {
			if !some {
				r, some = geom.Rect{Min: q, Max: q}, true
			}
			r.Min.X, r.Min.Y = min(r.Min.X, q.X), min(r.Min.Y, q.Y)
			r.Max.X, r.Max.Y = max(r.Max.X, q.X), max(r.Max.Y, q.Y)
		}
	}
	for _, s := range p.Shapes {
		switch s := s.(type) {
		case talk.Stroke:
			add(s.Points...)
		case talk.Area:
			add(s.Points...)
		case talk.Arc:
			add(s.At.Add(-s.Radius, -s.Radius), s.At.Add(s.Radius, s.Radius))
		case talk.Rim:
			add(s.Outline.Vertices...)
		case talk.Arrow:
			add(s.From, s.To)
		case talk.Word:
			add(s.At)
		case talk.Note:
			add(s.At)
		case talk.Dim:
			add(s.From, s.To)
		}
	}
	return r
}

// Box is a text with the room it takes: its middle, half its size, and how far
// it is turned, in mm and radians from the page's lower left corner.
type Box struct {
	Text               string
	X, Y, HalfW, HalfH float64
	Turn               float64
	Capital            float64 // height of a capital
	box                box
}

// Boxes lists every text of a layout with its place.
func (l *Layout) Boxes() []Box {
	var out []Box
	l.each(func(e *easel, shift pt) {
		for _, w := range e.words {
			b := w.box
			b.mid = b.mid.add(shift)
			text := ""
			for i, s := range w.lines {
				if i > 0 {
					text += " "
				}
				text += s
			}
			out = append(out, Box{Text: text, X: b.mid.x, Y: b.mid.y, HalfW: b.hw, HalfH: b.hh, Turn: math.Atan2(b.dir.y, b.dir.x), Capital: w.size, box: b})
		}
	})
	return out
}

// Meets says whether two texts lie on one another.
func (b Box) Meets(c Box) bool { return b.box.meets(c.box) }

// Reach is how far a text extends from its middle along the page's axes.
func (b Box) Reach() (x, y float64) { return b.box.reach() }

// each visits the panels from the top, with the way from their own axes to the
// page's.
func (l *Layout) each(do func(e *easel, shift pt)) {
	top := l.Height - edge
	for _, b := range l.blocks {
		top -= b.height
		if b.easel != nil {
			do(b.easel, b.shift.add(pt{0, top}))
		}
	}
}

package picture

import (
	"gonum.org/v1/plot/vg"
)

// writer puts letters on a canvas: at the left end of their line, turned.
type writer func(c vg.Canvas, w placed, line string, at pt)

// onto paints a layout on a canvas of its size.
func (l *Layout) onto(c vg.Canvas, write writer) {
	l.each(func(e *easel, shift pt) { e.onto(c, shift, write) })
}

func (e *easel) onto(c vg.Canvas, shift pt, write writer) {
	for _, m := range e.marks {
		paintMark(c, m, shift)
	}
	for _, w := range e.words {
		w.box.mid = w.box.mid.add(shift)
		w.onto(c, write)
	}
}

func paintMark(c vg.Canvas, m mark, shift pt) {
	path := make(vg.Path, 0, len(m.path))
	for _, s := range m.path {
		at := point(s.p.add(shift))
		switch {
		case s.close:
			path.Close()
		case s.radius > 0:
			path.Arc(at, mm(s.radius), s.from, s.sweep)
		case s.jump:
			path.Move(at)
		default:
			path.Line(at)
		}
	}
	if m.fill != nil {
		c.SetColor(m.fill)
		c.Fill(path)
	}
	if m.pen.width > 0 {
		c.SetColor(m.pen.ink)
		c.SetLineWidth(mm(m.pen.width))
		dash := make([]vg.Length, len(m.pen.dash))
		for i, d := range m.pen.dash {
			dash[i] = mm(d)
		}
		c.SetLineDash(dash, 0)
		c.Stroke(path)
	}
}

func point(p pt) vg.Point { return vg.Point{X: mm(p.x), Y: mm(p.y)} }

// onto writes a text, on a ground of its own where something lies under it.
func (w placed) onto(c vg.Canvas, write writer) {
	if w.ground != nil {
		corners := w.box.grown(w.halo).corners()
		paintMark(c, mark{path: through(corners[:], true), fill: w.ground}, pt{})
	}
	c.SetColor(black)
	f := face(w.bold)
	tall := w.size * (1 + leading*float64(len(w.lines)-1)) // from the first capital's top to the last line
	down := w.box.dir.left().by(-1)
	for i, line := range w.lines {
		wide := f.width(line, w.size)
		base := w.box.mid.add(down.by(w.size + leading*w.size*float64(i) - tall/2))
		spare := w.flush * (w.box.hw - wide/2)
		write(c, w, line, base.add(w.box.dir.by(spare-wide/2)))
	}
}

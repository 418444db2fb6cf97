package picture

import (
	"image/color"

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

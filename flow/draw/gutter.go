package draw

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// gutterEdge is the section through the low edge: where the water leaves the
// roof, and where the gutter catches it.
func gutterEdge(s Subject) (talk.Picture, bool) {
	in, d := s.In, s.Plan.Drip
	if d == nil || in.Fascia == nil || in.Batten == nil || in.Trim == nil || in.GutterSize == nil || !s.stands(geom.Gutter) {
		return talk.Picture{}, false
	}
	fascia, batten, trim, size := *in.Fascia, *in.Batten, *in.Trim, *in.GutterSize
	board, _, h := s.deckSizes()
	e := freeEdge{fascia: fascia, batten: batten, on: in.BattenOnFascia, tuck: in.Tuck}
	nose := e.nose()
	tip := at(-nose-trim, -battenDeep-26)
	rim := -battenDeep - 20 // of the gutter
	shapes := roofCut(board, h, 0, shownRoof)
	shapes = append(shapes, e.draw()...)
	face := -nose - min(4, trim)
	shapes = append(shapes,
		line(talk.Wide, at(45, 6), at(face, 6), at(face, -battenDeep-8), tip),
		talk.Arc{Pen: talk.Wide, At: at(-fascia-size/2, rim), Radius: size / 2, From: math.Pi, Sweep: math.Pi},
		line(talk.Centre, at(-fascia-size/2, rim-size/2-12), at(-fascia-size/2, rim+12)),
		talk.Word{At: at(-fascia-size/2, rim-size/5), Text: talk.P("pick.gutter")},
	)
	low := e.bottom()
	shapes = append(shapes,
		named(across(at(-nose, 6), at(-nose+batten, 6), 7), "label.dim.batten"),
		named(across(at(tip.X, 6), at(-nose, 6), 13), "label.dim.trim"),
		named(across(at(-fascia, low), tip, 6), "label.dim.drip"),
		named(across(at(0, low), at(-fascia, low), 13), "label.dim.fascia"),
		named(across(at(-fascia, low), at(-fascia-size, rim), 20), "label.dim.gutter"),
		note(30, 6, "label.trim"))
	shapes = append(shapes, s.deckNotes()...)
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Shapes: shapes}}}}
	args := []any{"drip", whole(d.Drip), "least", whole(d.Least), "most", whole(d.Most)}
	pic.Caption = talk.P("picture.gutter", args...)
	pic.Alt = talk.P("picture.gutter.alt", append(args, "fascia", whole(fascia), "batten", whole(batten), "trim", whole(trim), "gutter", whole(size))...)
	return pic, true
}

// freeEdge is what a gutter edge and a verge have in common: a batten along the
// deck's edge or on the fascia's face, the fascia, the rubber over both.
type freeEdge struct {
	fascia, batten unit.Length
	on             bool // the batten is fixed on the fascia
	tuck           bool // the rubber goes down behind the fascia
}

// nose is how far the batten's face stands out from the deck's edge.
func (e freeEdge) nose() unit.Length {
	if e.on {
		return e.fascia + e.batten
	}
	return e.batten
}

const shownFascia unit.Length = 110

// bottom is where the view of the fascia stops.
func (e freeEdge) bottom() unit.Length {
	if e.on {
		return -shownFascia - battenDeep/2
	}
	return -battenDeep - shownFascia
}

func (e freeEdge) draw() []talk.Shape {
	top, nose := -battenDeep, e.nose()
	if e.on {
		top = 0
	}
	var shapes []talk.Shape
	if e.fascia > 0 {
		shapes = append(shapes, talk.Area{Tone: talk.Grain, Points: oblong(-e.fascia, e.bottom(), 0, top)},
			line(talk.Wide, at(-e.fascia, e.bottom()), at(-e.fascia, top), at(0, top), at(0, e.bottom())),
			ending(at(-e.fascia-6, e.bottom()), at(6, e.bottom())))
	}
	shapes = append(shapes, talk.Area{Tone: talk.Grain, Pen: talk.Wide, Points: oblong(-nose, -battenDeep, -nose+e.batten, 0)})
	r := rubberThick
	rubber := []geom.Point{at(shownRoof, r), at(-nose-r, r), at(-nose-r, -battenDeep-16)}
	if e.tuck && !e.on { // under the batten, then down behind the fascia
		rubber = []geom.Point{at(shownRoof, r), at(-nose-r, r), at(-nose-r, -battenDeep-r), at(0, -battenDeep-r), at(0, -battenDeep-52)}
	}
	return append(shapes, line(talk.Heavy, rubber...))
}

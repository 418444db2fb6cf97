package draw

import (
	"chargehand/calc/geom"
	"chargehand/flow/talk"
)

// verge is the section through a free edge at a side: the trim stands up so that
// the water stays on the roof.
func verge(s Subject) (talk.Picture, bool) {
	in := s.In
	board, b, h := s.deckSizes()
	if in.Batten == nil || !s.stands(geom.Verge) || h == 0 {
		return talk.Picture{}, false
	}
	e := freeEdge{batten: *in.Batten, on: false}
	if in.Fascia != nil {
		e.fascia, e.on = *in.Fascia, in.BattenOnFascia
	}
	nose := e.nose()
	end := shownRoof
	shapes := []talk.Shape{
		talk.Area{Tone: talk.Grain, Pen: talk.Wide, Points: oblong(0, -board-h, b, -board)},
		talk.Area{Tone: talk.Board, Points: oblong(0, -board, end, 0)},
		line(talk.Wide, at(end, 0), at(0, 0), at(0, -board), at(end, -board)),
		ending(at(end, -board-20), at(end, 30)),
	}
	shapes = append(shapes, e.draw()...)
	face := -nose - 4
	shapes = append(shapes,
		line(talk.Wide, at(62, 6), at(0, 6), at(-nose*0.3, 24), at(face, 24), at(face, -battenDeep-8), at(face-8, -battenDeep-22)),
		named(across(at(-nose, 24), at(-nose+e.batten, 24), 7), "label.dim.batten"),
		note(50, 6, "label.trim.verge"),
		note(end*0.8, rubberThick, "label.rubber"),
		note(end*0.88, -board/2, "label.board", "n", whole(board)),
		note(b*0.6, -board-h*0.45, "label.joist", "b", whole(b), "h", whole(h)))
	alt := talk.P("picture.verge.alt", "batten", whole(e.batten), "board", whole(board))
	if e.fascia > 0 {
		low := e.bottom()
		shapes = append(shapes, named(across(at(0, low), at(-e.fascia, low), 7), "label.dim.fascia"))
		alt = talk.P("picture.verge.fascia.alt", "batten", whole(e.batten), "board", whole(board), "fascia", whole(e.fascia))
	}
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Shapes: shapes}}}}
	pic.Caption = talk.P("picture.verge", "batten", whole(e.batten))
	pic.Alt = alt
	return pic, true
}

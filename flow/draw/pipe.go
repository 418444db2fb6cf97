package draw

import (
	"chargehand/calc/geom"
	"chargehand/calc/sheet"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// patchPast is how far a patch reaches past a cut: common practice, no source.
const patchPast = 75 * unit.Millimetre

// pipe shows where the pipes stand, taped from the gutter's left end, and how the
// first of them is sealed.
func pipe(s Subject) (talk.Picture, bool) {
	p := s.Plan
	if len(s.In.Pipes) == 0 || p.Outline == nil {
		return talk.Picture{}, false
	}
	o := *p.Outline
	shapes := []talk.Shape{talk.Area{Tone: talk.Blank, Points: o.Vertices}, talk.Rim{Outline: o}}
	shapes = append(shapes, pipesOn(s.In.Pipes)...)
	var told []any
	for _, q := range s.In.Pipes {
		foot := at(q.X, 0)
		shapes = append(shapes, across(at(0, q.Y), at(q.X, q.Y), 0), upward(foot, at(q.X, q.Y), 0))
		told = append(told, talk.P("picture.pipe.at", "dia", whole(q.Dia), "x", whole(q.X), "y", whole(q.Y)))
	}
	title := talk.P("label.pipe.where")
	first := s.In.Pipes[0]
	head := talk.P("label.pipe.seal", "dia", whole(first.Dia))
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Title: &title, Shapes: shapes, Tall: 75}, {Title: &head, Shapes: s.pipeCut(first.Dia)}}}}
	pic.Caption = talk.P("picture.pipe", "n", len(s.In.Pipes), "past", patchPast)
	pic.Alt = talk.P("picture.pipe.alt", "pipes", told, "past", patchPast, "up", sheet.LeastUpstand)
	return pic, true
}

// pipeCut is the section through a pipe: the boards held up beside the hole, the
// sheet cut round it, the patch from the sheet up the pipe.
func (s Subject) pipeCut(dia unit.Length) []talk.Shape {
	board, b, _ := s.deckSizes()
	if b == 0 {
		b = 47
	}
	r := dia / 2
	hole, cut := r+8, r+14
	const half = 190
	low, high := -board-95, sheet.LeastUpstand+60
	var shapes []talk.Shape
	for _, side := range []unit.Length{-1, 1} {
		x := func(v unit.Length) unit.Length { return side * v }
		shapes = append(shapes,
			talk.Area{Tone: talk.Board, Pen: talk.NoPen, Points: oblong(min(x(hole), x(half)), -board, max(x(hole), x(half)), 0)},
			line(talk.Wide, at(x(half), 0), at(x(hole), 0), at(x(hole), -board), at(x(half), -board)),
			talk.Area{Tone: talk.Grain, Pen: talk.Wide, Points: oblong(min(x(hole), x(hole+b)), -board-75, max(x(hole), x(hole+b)), -board)},
			line(talk.Heavy, at(x(half), rubberThick), at(x(cut), rubberThick)),
			line(talk.Heavy, at(x(cut+patchPast), 3*rubberThick+1), at(x(r+3), 3*rubberThick+1), at(x(r+3), sheet.LeastUpstand)),
			ending(at(x(half), -board-30), at(x(half), 30)))
	}
	shapes = append(shapes,
		talk.Area{Tone: talk.Blank, Points: oblong(-r, low, r, high)},
		line(talk.Wide, at(-r, low), at(-r, high)), line(talk.Wide, at(r, low), at(r, high)),
		ending(at(-r-8, high), at(r+8, high)), ending(at(-r-8, low), at(r+8, low)),
		line(talk.Centre, at(0, low-10), at(0, high+10)),
		talk.Area{Tone: talk.Shade, Pen: talk.Wide, Points: oblong(r+5, sheet.LeastUpstand-16, r+9, sheet.LeastUpstand-4)},
		talk.Area{Tone: talk.Shade, Pen: talk.Wide, Points: oblong(-r-9, sheet.LeastUpstand-16, -r-5, sheet.LeastUpstand-4)})
	return append(shapes,
		named(across(at(-r, low), at(r, low), -7), "label.dim.dia"),
		named(across(at(-cut-patchPast, 3*rubberThick+1), at(-cut, 3*rubberThick+1), 7), "label.dim.past"),
		named(upward(at(-half, 0), at(-r-3, sheet.LeastUpstand), 5), "label.dim.up"),
		note(r+7, sheet.LeastUpstand-10, "label.clip"),
		note(r+3, sheet.LeastUpstand*0.55, "label.patch"),
		note(half*0.92, rubberThick, "label.rubber"),
		note(half*0.9, -board/2, "label.board", "n", whole(board)),
		note(hole+b/2, -board-40, "label.backing"))
}

// openingsOn draws the rooflights of a roof.
func openingsOn(openings []geom.Opening) []talk.Shape {
	var out []talk.Shape
	for _, q := range openings {
		if q.Dia > 0 {
			continue
		}
		x, y := q.Length/2, q.Depth/2
		place := geom.Rect{Min: q.Centre.Add(-x, -y), Max: q.Centre.Add(x, y)}
		out = append(out, talk.Area{Tone: talk.Shade, Pen: talk.Wide, Points: rectOf(place)},
			line(talk.Narrow, place.Min, place.Max), line(talk.Narrow, at(place.Min.X, place.Max.Y), at(place.Max.X, place.Min.Y)),
			talk.Word{At: at(q.Centre.X, place.Max.Y), Text: talk.P("label.light", "length", whole(q.Length), "depth", whole(q.Depth)), Anchor: talk.Above})
	}
	return out
}

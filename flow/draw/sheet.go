package draw

import (
	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/sheet"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// sheetPicture is the rubber spread over the deck: how far it goes past each
// edge, where it is folded, where its seams lie if it has any.
func sheetPicture(s Subject) (talk.Picture, bool) {
	p := s.Plan
	if p.Sheet == nil || p.Outline == nil || len(p.Sheet.Allow) != len(p.Outline.Edges) {
		return talk.Picture{}, false
	}
	o, sh := *p.Outline, p.Sheet
	ring, err := o.Offset(sh.Allow)
	if err != nil {
		return talk.Picture{}, false
	}
	var shapes []talk.Shape
	args := []any{"length", whole(sh.Length), "width", whole(sh.Width), "mass", sh.Mass, "hands", sh.Hands}
	var lies geom.Rect
	if len(sh.Strips) > 1 {
		lies, shapes = strips(sh)
		args = append(args, "n", len(sh.Strips))
	} else {
		b := ring.Bounds()
		dx, dy := (sh.Length-b.Length())/2, (sh.Width-b.Depth())/2
		lies = geom.Rect{Min: b.Min.Add(-dx, -dy), Max: b.Max.Add(dx, dy)}
		shapes = []talk.Shape{talk.Area{Tone: talk.Tint, Pen: talk.Wide, Points: rectOf(lies)}}
	}
	shapes = append(shapes,
		talk.Area{Pen: talk.Narrow, Points: ring},
		talk.Area{Tone: talk.Blank, Pen: talk.Hidden, Points: o.Vertices})
	for _, q := range sh.Seams {
		shapes = append(shapes, seam(sh, q, lies)...)
	}
	f := foldOf(s)
	shapes = append(shapes, f.draw(rectOf(lies))...)
	shapes = append(shapes, pipesOn(s.In.Pipes)...)
	var told []any
	for i, e := range o.Edges {
		from, to := o.Side(i)
		text := talk.P("label.allow", "n", i+1, "kind", kindName(e.Kind), "allow", whole(sh.Allow[i]))
		shapes = append(shapes, talk.Word{At: between(from, to, 0.36), Text: text, Turn: heading(from, to), Anchor: inside(from, to)})
		told = append(told, text)
	}
	shapes = append(shapes,
		across(at(lies.Max.X, lies.Min.Y), lies.Min, firstRow),
		upward(lies.Min, at(lies.Min.X, lies.Max.Y), firstRow))
	if s.In.Exit != "" {
		shapes = append(shapes, wayOff(o, s.In.Exit, lies)...)
	}
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Shapes: shapes, Tall: 110}}}}
	key := "picture.sheet"
	if len(sh.Strips) > 1 {
		key = "picture.sheet.strips"
	}
	pic.Caption = talk.P(key, args...)
	pic.Alt = talk.P(key+".alt", append(args, "allow", told)...)
	return pic, true
}

// strips are the pieces of a covering that no sheet is wide enough for.
func strips(sh *plan.Sheet) (lies geom.Rect, shapes []talk.Shape) {
	lies = sh.Strips[0].Place
	for _, st := range sh.Strips {
		shapes = append(shapes, talk.Area{Tone: talk.Tint, Pen: talk.Wide, Points: rectOf(st.Place)})
		lies.Min = at(min(lies.Min.X, st.Place.Min.X), min(lies.Min.Y, st.Place.Min.Y))
		lies.Max = at(max(lies.Max.X, st.Place.Max.X), max(lies.Max.Y, st.Place.Max.Y))
	}
	return lies, shapes
}

// seam is the lap of two strips with its name.
func seam(sh *plan.Sheet, q sheet.Seam, lies geom.Rect) []talk.Shape {
	place := geom.Rect{Min: at(q.From, lies.Min.Y), Max: at(q.To, lies.Max.Y)}
	word := talk.Word{At: at(q.To, between(lies.Min, lies.Max, 0.7).Y), Turn: unit.Degree * 90, Anchor: talk.Below, Text: talk.P("label.seam", "n", whole(q.To-q.From))}
	if sh.Run == sheet.Across {
		place = geom.Rect{Min: at(lies.Min.X, q.From), Max: at(lies.Max.X, q.To)}
		word.At, word.Turn, word.Anchor = at(between(lies.Min, lies.Max, 0.7).X, q.To), 0, talk.Above
	}
	return []talk.Shape{talk.Area{Tone: talk.Shade, Pen: talk.Narrow, Points: rectOf(place)}, word}
}

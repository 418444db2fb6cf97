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

// fold is the line at which the sheet is folded back: in the middle of the field,
// along the edge one leaves by.
type fold struct {
	at      unit.Length
	upright bool
}

func foldOf(s Subject) fold {
	b := s.Plan.Outline.Bounds()
	if s.In.Exit == string(geom.Verge) {
		return fold{(b.Min.X + b.Max.X) / 2, true}
	}
	return fold{(b.Min.Y + b.Max.Y) / 2, false}
}

// draw is the fold where it lies on a ring, with its name.
func (f fold) draw(ring geom.Polygon) []talk.Shape {
	var out []talk.Shape
	for _, ends := range acrossRing(ring, f.at, f.upright) {
		out = append(out, line(talk.Movable, ends[0], ends[1]))
	}
	w := talk.Word{At: widest(ring, f.at, f.upright, 0.85), Text: talk.P("label.fold"), Anchor: talk.Above}
	if f.upright {
		w.Turn = 90 * unit.Degree
	}
	return append(out, w)
}

// wayOff is the arrow over the edge one leaves by; a window or a hatch is named.
func wayOff(o geom.Outline, exit string, beyond geom.Rect) []talk.Shape {
	from, to := o.Side(plan.Ladder(o, exit))
	mid := between(from, to, 0.8)
	long := from.To(to)
	out := at(-(to.Y-from.Y)/long, (to.X-from.X)/long) // clockwise: outside is on the left
	reach := 0.09 * max(beyond.Length(), beyond.Depth())
	tail, tip := mid.Add(-out.X*reach, -out.Y*reach), mid.Add(out.X*reach, out.Y*reach)
	return []talk.Shape{
		talk.Arrow{Pen: talk.Heavy, From: tail, To: tip},
		talk.Word{At: tail, Text: talk.P("label.way-off"), Anchor: talk.RightOf},
	}
}

package draw

import (
	"chargehand/calc/deck"
	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// deckGap is between neighbouring boards, end to end and row to row, as the plan
// lays them.
const deckGap = 3 * unit.Millimetre

// deckPicture is the boards as they lie, lettered, and below it how each board
// is sawn.
func deckPicture(s Subject) (talk.Picture, bool) {
	p := s.Plan
	d := p.Deck
	if d == nil || p.Outline == nil || p.Joists == nil || len(d.Places) == 0 {
		return talk.Picture{}, false
	}
	o := *p.Outline
	var shapes []talk.Shape
	rows := laidRows(d)
	for _, r := range rows {
		for _, b := range r.boards {
			shapes = append(shapes, talk.Area{Tone: talk.Tint, Pen: talk.Narrow, Points: rectOf(b.place)})
		}
	}
	shapes = append(shapes, joistLines(p)...)
	shapes = append(shapes, talk.Rim{Outline: o})
	for _, r := range rows {
		for _, b := range r.boards {
			shapes = append(shapes, talk.Word{At: centre(b.place), Text: talk.P("label.letter", "letter", b.letter), Size: talk.Large})
		}
	}
	b := o.Bounds()
	shapes = append(shapes, across(at(b.Max.X, b.Min.Y), b.Min, firstRow), upward(b.Min, at(b.Min.X, b.Max.Y), secondRow))
	for _, r := range rows {
		last := r.boards[len(r.boards)-1].place
		if r.turned {
			shapes = append(shapes, across(at(last.Min.X, last.Max.Y), last.Max, firstRow))
			continue
		}
		shapes = append(shapes, upward(at(last.Max.X, last.Min.Y), last.Max, -firstRow))
	}
	panels := []talk.Panel{{Shapes: shapes, Tall: 90}}
	if len(d.Groups) > 0 && s.In.BoardWidth != nil && s.In.BoardLength != nil {
		title := talk.P("label.saw", "n", d.Boards)
		panels = append(panels, talk.Panel{Title: &title, Shapes: sawn(d.Groups, *s.In.BoardLength, *s.In.BoardWidth)})
	}
	pic := talk.Picture{Sketch: talk.Sketch{Panels: panels}}
	pic.Caption = talk.P("picture.deck", "n", d.Boards, "pieces", d.Pieces)
	var told []any
	for i, r := range d.Rows {
		told = append(told, talk.P("picture.row", "n", i+1, "width", whole(r.Width), "lengths", list(r.Lengths)))
	}
	pic.Alt = talk.P("picture.deck.alt", "n", d.Boards, "pieces", d.Pieces, "rows", told)
	return pic, true
}

// laidBoard is a piece in its place; laidRow a row of them.
type laidBoard struct {
	place  geom.Rect
	letter string
}

type laidRow struct {
	boards []laidBoard
	turned bool
}

// laidRows puts the rows where they lie: each part of the deck from its low left
// corner, row on row, piece beside piece, a gap between.
func laidRows(d *plan.Deck) []laidRow {
	var out []laidRow
	y, part := unit.Length(0), -1
	for _, row := range d.Rows {
		if row.Part != part {
			part, y = row.Part, 0
		}
		if part >= len(d.Places) || len(row.Lengths) == 0 {
			continue
		}
		place := d.Places[part]
		r := laidRow{turned: place.Turned}
		x := unit.Length(0)
		for i, l := range row.Lengths {
			letter := ""
			if i < len(row.Letters) {
				letter = row.Letters[i]
			}
			from, to := at(x, y), at(x+l, y+row.Width)
			if place.Turned {
				from, to = at(y, x), at(y+row.Width, x+l)
			}
			r.boards = append(r.boards, laidBoard{geom.Rect{Min: place.Min.Add(from.X, from.Y), Max: place.Min.Add(to.X, to.Y)}, letter})
			x += l + deckGap
		}
		y += row.Width + deckGap
		out = append(out, r)
	}
	return out
}

// joistLines are the joists' centre lines under the deck.
func joistLines(p *plan.Plan) []talk.Shape {
	var out []talk.Shape
	j, o := p.Joists, *p.Outline
	switch {
	case j.Parts != nil:
		for _, part := range j.Parts {
			r := part.Rect
			for _, m := range part.Plan.Marks {
				if part.Joists == geom.AlongGutterAxis {
					out = append(out, line(talk.Centre, at(r.Min.X, r.Min.Y+m), at(r.Max.X, r.Min.Y+m)))
					continue
				}
				out = append(out, line(talk.Centre, at(r.Min.X+m, r.Min.Y), at(r.Min.X+m, r.Max.Y)))
			}
		}
	case j.Skewed != nil:
		foot := o.Vertices[1]
		for _, q := range j.Skewed.Joists {
			out = append(out, line(talk.Centre, foot.Add(q.Low, q.From), foot.Add(q.Low, q.To)))
		}
	default:
		left := o.Bounds().Min.X
		for _, m := range j.Marks {
			for _, span := range o.Vertices.UpRoof(m + left) {
				out = append(out, line(talk.Centre, at(m+left, span.From), at(m+left, span.To)))
			}
		}
	}
	return out
}

func centre(r geom.Rect) geom.Point { return between(r.Min, r.Max, 0.5) }

// sawn draws the boards as one saws them, two beside one another, boards sawn
// alike once with their number.
func sawn(groups []deck.Group, long, wide unit.Length) []talk.Shape {
	var shapes []talk.Shape
	gapX, gapY := long*0.08, wide*0.45
	for i, g := range groups {
		corner := at(unit.Length(i%2)*(long+gapX), -unit.Length(i/2)*(wide+gapY))
		shapes = append(shapes, sawnBoard(g, corner, long, wide)...)
	}
	return shapes
}

func sawnBoard(g deck.Group, corner geom.Point, long, wide unit.Length) []talk.Shape {
	shapes := []talk.Shape{talk.Area{Tone: talk.Waste, Pen: talk.Wide, Points: rectOf(geom.Rect{Min: corner, Max: corner.Add(long, wide)})}}
	x := corner.X
	for _, section := range g.Cuts.Sections {
		y := corner.Y
		for _, lane := range section.Lanes {
			px := x
			for _, part := range lane.Parts {
				place := geom.Rect{Min: at(px, y), Max: at(px+part.Length, y+lane.Width)}
				size := talk.P("label.part", "letter", part.Letter, "length", whole(part.Length))
				if lane.Width < wide {
					size = talk.P("label.ripped", "letter", part.Letter, "length", whole(part.Length), "width", whole(lane.Width))
				}
				shapes = append(shapes, talk.Area{Tone: talk.Blank, Pen: talk.Narrow, Points: rectOf(place)}, talk.Word{At: centre(place), Text: size})
				px += part.Length + deckGap
			}
			y += lane.Width + deckGap
		}
		x += section.Length + deckGap
	}
	return append(shapes, talk.Word{At: at(corner.X+long/2, corner.Y), Text: talk.P("label.times", "n", g.Times), Anchor: talk.Below})
}

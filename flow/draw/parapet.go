package draw

import (
	"chargehand/calc/geom"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// Sizes of a parapet that are drawn as they usually are.
const (
	copingThick unit.Length = 50
	bedThick    unit.Length = 10
	overOuter   unit.Length = 50 // of the rubber down the outer face
)

// parapet is the section of a parapet: the rubber up its inside, over its top,
// and the coping on it.
func parapet(s Subject) (talk.Picture, bool) {
	in := s.In
	if in.ParapetHeight == nil || in.ParapetTop == nil || !s.stands(geom.Parapet) {
		return talk.Picture{}, false
	}
	tall, top := *in.ParapetHeight, *in.ParapetTop
	deck, _, joist := s.deckSizes()
	board := boarded
	if in.BoardThick != nil {
		board = *in.BoardThick
	}
	gap := unit.Length(10)
	if in.WallGap != nil {
		gap = *in.WallGap
	}
	low := -deck - joist - 15
	r := rubberThick
	shapes := []talk.Shape{
		talk.Area{Tone: talk.Brick, Points: oblong(-top, low, 0, tall)},
		line(talk.Wide, at(-top, low), at(-top, tall), at(0, tall), at(0, low)),
		ending(at(-top-10, low), at(10, low)),
	}
	shapes = append(shapes, roofCut(deck, joist, gap, shownFoot)...)
	shapes = append(shapes,
		talk.Area{Tone: talk.Grain, Pen: talk.Wide, Points: geom.Polygon{{X: board, Y: 0}, {X: board, Y: bevel}, {X: board + bevel, Y: 0}}},
		talk.Area{Tone: talk.Board, Pen: talk.Wide, Points: oblong(0, 0, board, tall)},
		line(talk.Heavy, at(gap+shownFoot, r), at(board+bevel+r, r), at(board+r, bevel+r), at(board+r, tall+r), at(-top-r, tall+r), at(-top-r, tall-overOuter)))
	height := named(upward(at(-top, 0), at(-top, tall), 7), "label.dim.parapet")
	args := []any{"height", whole(tall), "top", whole(top)}
	pic := talk.Picture{Caption: talk.P("picture.parapet", args...), Alt: talk.P("picture.parapet.alt", args...)}
	wide := named(across(at(-top, tall), at(0, tall), 7), "label.dim.top")
	if in.CopingWidth != nil && *in.CopingWidth > 0 {
		stone := *in.CopingWidth
		over := (stone - top) / 2
		if c := s.Plan.Coping; c != nil {
			over = c.Outside
		}
		left, bed := -top-over, tall+2*r
		shapes = append(shapes,
			talk.Area{Tone: talk.Mortar, Points: oblong(-top, bed, 0, bed+bedThick)},
			coping(left, left+stone, bed+bedThick, in.CopingThroat),
			note(left+stone-12, bed+bedThick+copingThick*0.5, "label.coping", "n", whole(stone)))
		if over >= 1 {
			shapes = append(shapes, named(across(at(left, bed+bedThick), at(-top, bed+bedThick), copingAway), "label.dim.over"))
		}
		wide = named(across(at(0, low), at(-top, low), 6), "label.dim.top")
		args = append(args, "coping", whole(stone), "over", whole(over))
		pic.Caption, pic.Alt = talk.P("picture.parapet.coping", args...), talk.P("picture.parapet.coping.alt", args...)
	}
	shapes = append(shapes, wide, height,
		note(board/2, tall*0.4, "label.upstand-board", "n", whole(board)),
		note(board+r, tall*0.75, "label.rubber"),
		note(gap+shownFoot*0.88, -deck/2, "label.board", "n", whole(deck)))
	pic.Sketch = talk.Sketch{Panels: []talk.Panel{{Shapes: shapes}}}
	return pic, true
}

const copingAway unit.Length = 14

// coping is a stone with a fall to both sides and a throat under each edge.
func coping(left, right, under unit.Length, throat *unit.Length) talk.Area {
	deep, wide := unit.Length(8), unit.Length(10)
	from := unit.Length(15)
	if throat != nil {
		from = *throat
	}
	ring := geom.Polygon{{X: left, Y: under}, {X: left, Y: under + copingThick*0.8}, {X: (left + right) / 2, Y: under + copingThick}, {X: right, Y: under + copingThick*0.8}, {X: right, Y: under}}
	for _, x := range [2][2]unit.Length{{right - from, right - from - wide}, {left + from + wide, left + from}} {
		ring = append(ring, at(x[0], under), at(x[0], under+deep), at(x[1], under+deep), at(x[1], under))
	}
	return talk.Area{Tone: talk.Brick, Pen: talk.Wide, Points: ring}
}

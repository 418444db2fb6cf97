package draw

import (
	"chargehand/calc/geom"
	"chargehand/calc/lead"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// Sizes of the abutment that are drawn as they usually are.
const (
	shownWall unit.Length = 46 // of the wall's thickness
	bedJoint  unit.Length = 10
	barTall   unit.Length = 25
	barThick  unit.Length = 4
	leadThick unit.Length = 2
)

// abutment is the section at a wall: the board, the rubber on it, the bar, and
// the lead from its chase down over all of them. It is cut at the high end of
// the first wall, where the heights were taped.
func abutment(s Subject) (talk.Picture, bool) {
	u := s.Plan.Upstands
	if u == nil || u.BoardTop <= 0 || u.BedJoint <= 0 || !s.stands(geom.Wall) {
		return talk.Picture{}, false
	}
	a := wallCut{s: s, u: u, board: boarded, gap: 10, deep: lead.TurnIn, wide: usualLead}
	a.deck, _, a.joist = s.deckSizes()
	if s.In.BoardThick != nil {
		a.board = *s.In.BoardThick
	}
	if s.In.WallGap != nil {
		a.gap = *s.In.WallGap
	}
	if s.In.LeadWidth != nil {
		a.wide = *s.In.LeadWidth
	}
	if s.Chase > 0 {
		a.deep = s.Chase
	}
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Shapes: a.draw()}}}}
	args := []any{"top", whole(u.BoardTop), "joint", whole(u.BedJoint), "rubber", whole(u.Rubber)}
	pic.Caption = talk.P("picture.abutment", args...)
	pic.Alt = talk.P("picture.abutment.alt", append(args, "deep", whole(a.deep), "lead", whole(a.wide))...)
	return pic, true
}

// usualLead is how wide a flashing is unless something else was told.
const usualLead = 180 * unit.Millimetre

type wallCut struct {
	s           Subject
	u           *plan.Upstands
	deck, joist unit.Length
	board, gap  unit.Length
	deep, wide  unit.Length // of the chase, of the lead
}

func (a wallCut) draw() []talk.Shape {
	u, t := a.u, a.board
	high := max(u.BedJoint, u.BoardTop) + 75
	low := -a.deck - a.joist - 15
	shapes := a.wall(low, high)
	shapes = append(shapes, roofCut(a.deck, a.joist, a.gap, shownFoot)...)
	shapes = append(shapes,
		talk.Area{Tone: talk.Grain, Pen: talk.Wide, Points: geom.Polygon{{X: t, Y: 0}, {X: t, Y: bevel}, {X: t + bevel, Y: 0}}},
		talk.Area{Tone: talk.Board, Pen: talk.Wide, Points: oblong(0, 0, t, u.BoardTop)})
	r := rubberThick
	shapes = append(shapes, line(talk.Heavy, at(a.gap+shownFoot, r), at(t+bevel+r, r), at(t+r, bevel+r), at(t+r, u.Rubber)))
	face := t + 2*r // of the rubber
	shapes = append(shapes,
		talk.Area{Tone: talk.Mortar, Points: geom.Polygon{{X: t, Y: u.Rubber}, {X: face + barThick, Y: u.Rubber}, {X: t, Y: u.Rubber + 12}}},
		talk.Area{Tone: talk.Shade, Pen: talk.Wide, Points: oblong(face, u.Rubber-barTall, face+barThick, u.Rubber)},
		line(talk.Centre, at(face+barThick+5, u.Rubber-barTall/2), at(-14, u.Rubber-barTall/2)))
	// The lead goes into the chase, out over the board and down in front of the bar.
	out := face + barThick + leadThick
	turn := u.BedJoint + bedJoint*0.4
	down := max(a.wide-a.deep-out, 0)
	foot := turn - down
	shapes = append(shapes,
		line(talk.Wide, at(-a.deep, turn), at(0, turn), at(out, max(turn-6, foot)), at(out, foot)),
		note(out, foot+down*0.25, "label.lead", "code", a.code(), "n", whole(a.wide)),
		note(face+barThick/2, u.Rubber-barTall*0.6, "label.bar"),
		note(t/2, u.BoardTop*0.35, "label.upstand-board", "n", whole(t)),
		note(t+bevel*0.3, bevel*0.3, "label.bevel"),
		note(a.gap+shownFoot*0.8, r, "label.rubber"),
		note(a.gap+shownFoot*0.88, -a.deck/2, "label.board", "n", whole(a.deck)))
	for i, h := range []struct {
		key string
		top unit.Length
	}{{"label.dim.rubber", u.Rubber}, {"label.dim.board", u.BoardTop}, {"label.dim.chase", u.BedJoint}} {
		shapes = append(shapes, line(talk.Narrow, at(-shownWall, h.top), at(0, h.top)),
			named(upward(at(-shownWall, 0), at(-shownWall, h.top), 7+7*unit.Length(i)), h.key))
	}
	return append(shapes, line(talk.Narrow, at(-shownWall, 0), at(0, 0)))
}

func (a wallCut) code() int {
	if a.s.In.LeadCode != nil {
		return *a.s.In.LeadCode
	}
	return lead.FlashingCode
}

// wall is the face of the wall with its courses, cut: bricks, bed joints, and the
// joint that is raked out and pointed again.
func (a wallCut) wall(low, high unit.Length) []talk.Shape {
	const course = 75 * unit.Millimetre
	shapes := []talk.Shape{talk.Area{Tone: talk.Brick, Points: oblong(-shownWall, low, 0, high)}}
	first := a.u.BedJoint
	for first-course > low {
		first -= course
	}
	for y := first; y < high; y += course {
		tone := talk.Blank
		from := -shownWall
		if y == a.u.BedJoint {
			from = -a.deep
			shapes = append(shapes, talk.Area{Tone: talk.Blank, Points: oblong(-shownWall, y, -a.deep, y+bedJoint)})
			tone = talk.Mortar
		}
		shapes = append(shapes, talk.Area{Tone: tone, Points: oblong(from, y, 0, min(y+bedJoint, high))},
			line(talk.Narrow, at(-shownWall, y), at(0, y)), line(talk.Narrow, at(-shownWall, min(y+bedJoint, high)), at(0, min(y+bedJoint, high))))
	}
	return append(shapes, line(talk.Wide, at(0, low), at(0, high)), ending(at(-shownWall, low), at(-shownWall, high)))
}

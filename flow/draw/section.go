package draw

import (
	"chargehand/calc/geom"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// Sections share their axes: X runs into the roof from the edge of the deck, Y
// up from the finished roof. What is not this job's own size is drawn as it
// usually is and carries no figure: common practice, no source.
const (
	battenDeep  unit.Length = 50 // of a batten, down from the deck
	rubberThick unit.Length = 2  // as drawn: 1.2 would be lost
	boarded     unit.Length = 12 // an upstand board where the deck's is not known
	shownRoof   unit.Length = 130
	shownFoot   unit.Length = 100 // at the foot of an upstand
	bevel       unit.Length = 40  // of the fillet at the foot of an upstand
	breakSize   unit.Length = 9   // of the zigzag where a view stops
)

// named is a dimension that says what it measures.
func named(d talk.Dim, key string) talk.Dim {
	d.Text = talk.P(key, "n", d.Text.Args["n"])
	return d
}

// ending is the line at which a view stops though the thing goes on.
func ending(from, to geom.Point) talk.Stroke {
	half := min(0.06, float64(breakSize/from.To(to)))
	a, b := between(from, to, 0.5-half), between(from, to, 0.5+half)
	out := at((to.Y-from.Y)*unit.Length(half), -(to.X-from.X)*unit.Length(half))
	return line(talk.Narrow, from, a, a.Add(out.X, out.Y), b.Add(-out.X, -out.Y), b, to)
}

// roofCut is the deck on its joist, cut along the joist: from the deck's edge to
// where the view stops.
func roofCut(board, joist, from, shown unit.Length) []talk.Shape {
	shapes := []talk.Shape{}
	end := from + shown
	low := -board
	if joist > 0 {
		low -= joist
		shapes = append(shapes, talk.Area{Tone: talk.Blank, Points: oblong(from, low, end, -board)},
			line(talk.Wide, at(end, -board), at(from, -board), at(from, low), at(end, low)))
	}
	return append(shapes,
		talk.Area{Tone: talk.Board, Points: oblong(from, -board, end, 0)},
		line(talk.Wide, at(end, 0), at(from, 0), at(from, -board), at(end, -board)),
		ending(at(end, low-15), at(end, 25)))
}

// sizes of the deck and its joists, for a section.
func (s Subject) deckSizes() (board, b, h unit.Length) {
	board = 18
	if s.In.BoardThick != nil {
		board = *s.In.BoardThick
	}
	if j := s.Plan.Joists; j != nil && j.H > 0 {
		return board, j.B, j.H
	}
	return board, 0, 0
}

// stands says whether an edge of the kind is on this roof.
func (s Subject) stands(k geom.Kind) bool {
	if s.Plan.Outline == nil {
		return false
	}
	for _, e := range s.Plan.Outline.Edges {
		if e.Kind == k {
			return true
		}
	}
	return false
}

// deckNotes name the boards, the joist and the rubber on the roof.
func (s Subject) deckNotes() []talk.Shape {
	board, b, h := s.deckSizes()
	out := []talk.Shape{
		note(shownRoof*0.8, rubberThick, "label.rubber"),
		note(shownRoof*0.88, -board/2, "label.board", "n", whole(board)),
	}
	if h > 0 {
		out = append(out, note(shownRoof*0.7, -board-h*0.5, "label.joist", "b", whole(b), "h", whole(h)))
	}
	return out
}

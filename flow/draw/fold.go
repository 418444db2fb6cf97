package draw

import (
	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

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

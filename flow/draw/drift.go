package draw

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// drift is the snow banked against a taller wall or a parapet: its height over
// the roof as a load, and where on the plan it lies.
func drift(s Subject) (talk.Picture, bool) {
	p := s.Plan
	if p.Outline == nil || p.Snow == nil {
		return talk.Picture{}, false
	}
	var bank *plan.Bank
	for _, exceptional := range []bool{false, true} {
		if b := p.Snow.Worst(exceptional); b != nil && (bank == nil || b.Peak > bank.Peak) {
			bank = b
		}
	}
	if bank == nil || bank.Length <= 0 {
		return talk.Picture{}, false
	}
	run := *p.Depth
	if bank.Beside {
		run = *p.Length
	}
	against := talk.P("pick." + bank.Against)
	title := talk.P("label.drift", "against", against)
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Title: &title, Shapes: bankCut(s, bank, run)}, {Shapes: bankPlan(p, bank), Tall: 70}}}}
	args := []any{"peak", bank.Peak, "length", whole(min(bank.Length, run)), "flat", p.Snow.Flat, "against", against}
	pic.Caption = talk.P("picture.drift", args...)
	pic.Alt = talk.P("picture.drift.alt", append(args, "edge", bank.Edge)...)
	return pic, true
}

// bankCut is the load along the roof: the bank against what it leans on, the even
// snow as a broken line.
func bankCut(s Subject, b *plan.Bank, run unit.Length) []talk.Shape {
	tallest := run * 0.28
	up := func(q unit.AreaLoad) unit.Length { return tallest * unit.Length(q/b.Peak) }
	end := max(run-b.Length, 0)
	flat := up(s.Plan.Snow.Flat)
	roof := run * 0.03
	shapes := []talk.Shape{
		talk.Area{Tone: talk.Brick, Points: oblong(run, -roof, run+run*0.06, tallest*1.25)},
		line(talk.Wide, at(run, -roof), at(run, tallest*1.25)),
		talk.Area{Tone: talk.Tint, Pen: talk.Wide, Points: geom.Polygon{{X: end, Y: 0}, {X: end, Y: up(b.Edge)}, {X: run, Y: up(b.Peak)}, {X: run, Y: 0}}},
		line(talk.Hidden, at(0, flat), at(run, flat)),
		talk.Area{Tone: talk.Board, Pen: talk.Wide, Points: oblong(0, -roof, run, 0)},
		talk.Word{At: at(run, up(b.Peak)), Text: talk.P("label.load", "load", b.Peak), Anchor: talk.LeftOf, Size: talk.Large},
		talk.Word{At: at(run*0.12, flat), Text: talk.P("label.even", "load", s.Plan.Snow.Flat), Anchor: talk.Above},
		across(at(run, -roof), at(end, -roof), firstRow),
	}
	if b.Edge >= 0.005*unit.KilonewtonPerM2 {
		shapes = append(shapes, talk.Word{At: at(end, up(b.Edge)), Text: talk.P("label.load", "load", b.Edge), Anchor: talk.Above})
	}
	return shapes
}

// bankPlan shades where the bank lies on the roof.
func bankPlan(p *plan.Plan, b *plan.Bank) []talk.Shape {
	o := *p.Outline
	shapes := []talk.Shape{talk.Area{Tone: talk.Blank, Points: o.Vertices}}
	for i, e := range o.Edges {
		from, to := o.Side(i)
		level := math.Abs(float64(to.X-from.X)) >= math.Abs(float64(to.Y-from.Y))
		if string(e.Kind) != b.Against || level == b.Beside {
			continue
		}
		long := e.Length
		in := at((to.Y-from.Y)/long, -(to.X-from.X)/long) // clockwise: inside is on the right
		edge, reach := (from.Y+to.Y)/2, in.Y*b.Length
		low, high := min(from.X, to.X), max(from.X, to.X)
		if b.Beside {
			edge, reach = (from.X+to.X)/2, in.X*b.Length
			low, high = min(from.Y, to.Y), max(from.Y, to.Y)
		}
		for _, piece := range band(o.Vertices, edge, edge+reach, b.Beside) {
			for _, part := range band(piece, low, high, !b.Beside) {
				shapes = append(shapes, talk.Area{Tone: talk.Shade, Points: part})
			}
		}
	}
	shapes = append(shapes, talk.Rim{Outline: o})
	return append(shapes, edgeNames(o)...)
}

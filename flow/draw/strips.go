package draw

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/glue"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// glueStrips is the field in strips, numbered in the order in which they are glued:
// those that are down, the next one, and those that would follow it today.
func glueStrips(s Subject) (talk.Picture, bool) {
	p := s.Plan
	if p.Outline == nil || p.Field == nil || p.Batch == nil || len(p.Batch.Ahead) == 0 {
		return talk.Picture{}, false
	}
	o := *p.Outline
	core, err := inner(o)
	if err != nil {
		return talk.Picture{}, false
	}
	f := foldOf(s)
	shapes := []talk.Shape{talk.Area{Tone: talk.Blank, Points: o.Vertices}}
	places := stripPlaces(s)
	b := o.Bounds()
	for i, st := range places {
		tone := talk.Blank
		switch {
		case i < len(s.In.Laid):
			tone = talk.Shade
		case i == len(s.In.Laid):
			tone = talk.Wet
		}
		for _, piece := range band(core, st.from, st.to, f.upright) {
			shapes = append(shapes, talk.Area{Tone: tone, Points: piece})
		}
	}
	for i, st := range places {
		for _, ends := range acrossRing(core, st.to, f.upright) {
			shapes = append(shapes, line(talk.Narrow, ends[0], ends[1]))
		}
		mid := widest(core, (st.from+st.to)/2, f.upright, 0.5)
		shapes = append(shapes, talk.Word{At: mid, Text: talk.P("label.number", "n", i+1), Size: talk.Huge})
		shapes = append(shapes, stripDim(b, st, f.upright))
	}
	next := places[len(s.In.Laid)]
	shapes = append(shapes, talk.Area{Pen: talk.Narrow, Points: core}, talk.Rim{Outline: o})
	shapes = append(shapes, f.draw(o.Vertices)...)
	shapes = append(shapes, rolling(core, next, p.Batch.Direction, f.upright)...)
	shapes = append(shapes, pipesOn(s.In.Pipes)...)
	if s.In.Exit != "" {
		shapes = append(shapes, wayOff(o, s.In.Exit, b)...)
	}
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Shapes: shapes, Tall: 110}}}}
	args := []any{"n", len(s.In.Laid) + 1, "of", len(places), "strip", whole(p.Batch.Strip), "area", p.Batch.Area}
	pic.Caption = talk.P("picture.strips", args...)
	var wide []unit.Length
	for _, st := range places {
		wide = append(wide, st.width())
	}
	pic.Alt = talk.P("picture.strips.alt", append(args, "strips", list(wide), "half", talk.P("half."+string(p.Batch.Half)), "exit", exitName(s.In.Exit))...)
	return pic, true
}

func exitName(exit string) talk.Phrase {
	if exit == "" {
		exit = string(geom.Gutter)
	}
	return talk.P("exit." + exit)
}

// inner is the field that is bonded with deck adhesive.
func inner(o geom.Outline) (geom.Polygon, error) {
	in := make([]unit.Length, len(o.Edges))
	for i := range in {
		in[i] = -plan.DryStrip
	}
	return o.Offset(in)
}

// place is a strip between two lines, rolled or laid from the fold outwards.
type place struct{ from, to unit.Length }

func (p place) width() unit.Length { return unit.Length(math.Abs(float64(p.to - p.from))) }

// stripPlaces puts the strips side by side from the fold: those of the half away
// from the edge one leaves by, and those towards it.
func stripPlaces(s Subject) []place {
	f := foldOf(s)
	towards := unit.Length(-1) // the near half lies at the gutter, or at the left
	from, to := s.Plan.Outline.Side(plan.Ladder(*s.Plan.Outline, s.In.Exit))
	edge := (from.Y + to.Y) / 2
	if f.upright {
		edge = (from.X + to.X) / 2
	}
	if edge > f.at {
		towards = 1
	}
	next := map[glue.Half]unit.Length{glue.FarHalf: f.at, glue.NearHalf: f.at}
	var out []place
	for _, st := range append(append([]plan.Strip(nil), s.In.Laid...), s.Plan.Batch.Ahead...) {
		way := towards
		if st.Half == glue.FarHalf {
			way = -towards
		}
		p := place{next[st.Half], next[st.Half] + way*st.Width}
		next[st.Half] = p.to
		out = append(out, p)
	}
	return out
}

// stripDim measures a strip beside the roof.
func stripDim(b geom.Rect, st place, upright bool) talk.Shape {
	low, high := min(st.from, st.to), max(st.from, st.to)
	if upright {
		return across(at(low, b.Max.Y), at(high, b.Max.Y), firstRow)
	}
	return upward(at(b.Max.X, low), at(b.Max.X, high), -firstRow)
}

// rolling shows which way the next strip is rolled.
func rolling(core geom.Polygon, st place, direction string, upright bool) []talk.Shape {
	from, to := st.from, st.to
	if direction == string(glue.OuterInward) {
		from, to = to, from
	}
	p := widest(core, (from+to)/2, upright, 0.22)
	tail, tip := at(p.X, from+(to-from)*0.15), at(p.X, to-(to-from)*0.15)
	if upright {
		tail, tip = at(from+(to-from)*0.15, p.Y), at(to-(to-from)*0.15, p.Y)
	}
	return []talk.Shape{talk.Arrow{Pen: talk.Wide, From: tail, To: tip}, talk.Word{At: between(tail, tip, 0.5), Text: talk.P("label.roll"), Anchor: talk.RightOf}}
}

package draw

import (
	"chargehand/calc/glue"
	"chargehand/calc/plan"
	"chargehand/flow/talk"
)

// contactRuns is the runs of contact adhesive round the edges, in their order.
func contactRuns(s Subject) (talk.Picture, bool) {
	p := s.Plan
	if p.Outline == nil || p.Contact == nil || len(p.Contact.Runs) == 0 {
		return talk.Picture{}, false
	}
	o := *p.Outline
	core, err := inner(o)
	if err != nil {
		return talk.Picture{}, false
	}
	shapes := []talk.Shape{talk.Area{Tone: talk.Tint, Points: o.Vertices}, talk.Area{Tone: talk.Blank, Pen: talk.Narrow, Points: core}, talk.Rim{Outline: o}}
	done := s.In.Pressed
	all := append(append([]glue.Run(nil), done...), p.Contact.Runs...)
	var told []any
	for i, run := range all {
		from, to := o.Side(run.Edge)
		long := from.To(to)
		a, b := between(from, to, float64(run.From/long)), between(from, to, float64(run.To/long))
		in := at((to.Y-from.Y)/long*plan.DryStrip, -(to.X-from.X)/long*plan.DryStrip) // clockwise: inside is on the right
		switch {
		case i < len(done):
			shapes = append(shapes, line(talk.Narrow, a, b.Add(in.X, in.Y)), line(talk.Narrow, b, a.Add(in.X, in.Y)))
		case i == len(done):
			shapes = append(shapes, line(talk.Heavy, a, b))
		}
		shapes = append(shapes, line(talk.Wide, a, a.Add(in.X, in.Y)), line(talk.Wide, b, b.Add(in.X, in.Y)))
		text := talk.P("label.run", "n", i+1, "length", whole(run.To-run.From))
		shapes = append(shapes, talk.Word{At: between(a, b, 0.5).Add(in.X, in.Y), Text: text, Turn: heading(from, to), Anchor: inside(from, to)})
		told = append(told, text)
	}
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Shapes: shapes, Tall: 110}}}}
	next := p.Contact.Runs[0]
	args := []any{"n", len(done) + 1, "of", len(all), "run", whole(next.To - next.From)}
	pic.Caption = talk.P("picture.runs", args...)
	pic.Alt = talk.P("picture.runs.alt", append(args, "runs", told)...)
	return pic, true
}

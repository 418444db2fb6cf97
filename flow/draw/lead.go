package draw

import (
	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// leadPicture is the flashing of each wall as it hangs, seen from the roof: the
// pieces with their laps, the wedges above, the clips below.
func leadPicture(s Subject) (talk.Picture, bool) {
	l := s.Plan.Lead
	if l == nil || len(l.Runs) == 0 || s.Plan.Outline == nil {
		return talk.Picture{}, false
	}
	wide := usualLead
	if s.In.LeadWidth != nil {
		wide = *s.In.LeadWidth
	}
	longest := shortView
	for _, r := range l.Runs {
		longest = max(longest, r.Run)
	}
	var panels []talk.Panel
	var told []any
	pieces := 0
	edges := edgesOf(*s.Plan.Outline, geom.Wall)
	for i, r := range l.Runs {
		if i >= len(edges) || len(r.Starts) == 0 {
			continue
		}
		title := talk.P("label.lead.wall", "edge", talk.P("label.edge", "n", edges[i]+1, "kind", kindName(geom.Wall)), "n", r.Pieces, "piece", whole(r.Piece))
		var steps []unit.Length
		for _, c := range s.Plan.Chases {
			if c.Edge == edges[i] {
				steps = c.Steps
			}
		}
		panels = append(panels, talk.Panel{Title: &title, Frame: geom.Rect{Min: at(0, 0), Max: at(longest, wide)}, Shapes: leadRun(r, l.Lap, wide, steps)})
		told = append(told, talk.P("picture.lead.run", "n", r.Pieces, "piece", whole(r.Piece), "run", whole(r.Run), "wedges", r.Wedges, "clips", r.Clips))
		pieces += r.Pieces
	}
	if len(panels) == 0 {
		return talk.Picture{}, false
	}
	args := []any{"n", pieces, "wide", whole(wide), "lap", whole(l.Lap)}
	pic := talk.Picture{Sketch: talk.Sketch{Panels: panels}, Caption: talk.P("picture.lead", args...)}
	pic.Alt = talk.P("picture.lead.alt", append(args, "runs", told)...)
	return pic, true
}

// shortView is the least length of wall a view shows: a short flashing is not
// drawn larger than life.
const shortView = 2400 * unit.Millimetre

// edgesOf lists the edges of a kind, clockwise from the gutter.
func edgesOf(o geom.Outline, k geom.Kind) []int {
	var out []int
	for i, e := range o.Edges {
		if e.Kind == k {
			out = append(out, i)
		}
	}
	return out
}

func leadRun(r plan.LeadRun, lap, wide unit.Length, steps []unit.Length) []talk.Shape {
	var shapes []talk.Shape
	for _, x := range r.Starts {
		shapes = append(shapes, talk.Area{Tone: talk.Blank, Pen: talk.Wide, Points: oblong(x, 0, x+r.Piece, wide)})
	}
	for _, x := range r.Starts[1:] {
		shapes = append(shapes, talk.Area{Tone: talk.Waste, Pen: talk.Narrow, Points: oblong(x, 0, x+lap, wide)})
	}
	tick := wide * 0.45
	for i := range r.Wedges {
		x := r.Run * unit.Length(i) / unit.Length(max(r.Wedges-1, 1))
		shapes = append(shapes, talk.Area{Tone: talk.Solid, Points: geom.Polygon{{X: x, Y: wide}, {X: x - tick*0.3, Y: wide + tick}, {X: x + tick*0.3, Y: wide + tick}}})
	}
	for i := range r.Clips {
		x := r.Run * unit.Length(i) / unit.Length(max(r.Clips-1, 1))
		shapes = append(shapes, line(talk.Wide, at(x, -tick*0.8), at(x, 0)))
	}
	for _, x := range steps {
		shapes = append(shapes, line(talk.Movable, at(x, wide+2*tick), at(x, -tick)), talk.Word{At: at(x, wide+2*tick), Text: talk.P("label.step", "n", whole(x)), Anchor: talk.Above})
	}
	first, last := r.Starts[0], r.Starts[len(r.Starts)-1]
	shapes = append(shapes, across(at(first+r.Piece, -tick*0.8), at(first, -tick*0.8), firstRow))
	if last > first {
		shapes = append(shapes, across(at(r.Starts[1]+lap, wide+tick), at(r.Starts[1], wide+tick), -firstRow))
		shapes = append(shapes, across(at(last+r.Piece, -tick*0.8), at(last, -tick*0.8), firstRow))
	}
	return append(shapes, talk.Word{At: at(r.Run*0.62, wide+tick), Text: talk.P("label.wedges", "n", r.Wedges), Anchor: talk.Above},
		talk.Word{At: at(r.Run*0.5, -tick), Text: talk.P("label.clips", "n", r.Clips), Anchor: talk.Below})
}

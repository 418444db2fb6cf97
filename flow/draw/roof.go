package draw

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// roof is the plan: edges by kind and length, what goes through it, where the
// water runs.
func roof(s Subject) (talk.Picture, bool) {
	p := s.Plan
	if p.Outline == nil || p.Area == nil {
		return talk.Picture{}, false
	}
	o := *p.Outline
	shapes := []talk.Shape{talk.Area{Tone: talk.Blank, Points: o.Vertices}, talk.Rim{Outline: o}}
	shapes = append(shapes, edgeDims(o)...)
	shapes = append(shapes, edgeNames(o)...)
	if !o.IsRightAngled() && len(o.Vertices) == 4 {
		for i := range 2 {
			a, b := o.Vertices[1-i], o.Vertices[3-i]
			shapes = append(shapes, line(talk.Narrow, a, b), talk.Word{At: between(a, b, 0.72), Text: figure(a.To(b)), Turn: heading(a, b), Anchor: talk.Above})
		}
	}
	shapes = append(shapes, openingsOn(p.Openings)...)
	shapes = append(shapes, pipesOn(s.In.Pipes)...)
	shapes = append(shapes, falls(p)...)
	shapes = append(shapes, north(s.In.Faces, o.Bounds())...)
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Shapes: shapes, Tall: 110}}}}
	pic.Caption = talk.P("picture.roof", "area", *p.Area)
	pic.Alt = talk.P("picture.roof.alt", "area", *p.Area, "edges", edgesTold(o))
	if f := p.Fall; f != nil {
		pic.Caption = talk.P("picture.roof.fall", "area", *p.Area, "fall", f.Slope, "drop", whole(f.Drop))
		pic.Alt = talk.P("picture.roof.fall.alt", "area", *p.Area, "edges", edgesTold(o), "fall", f.Slope, "drop", whole(f.Drop))
	}
	if s.In.Faces != "" {
		told := talk.P("picture.faces", "faces", talk.P("pick."+s.In.Faces))
		pic.Alt = talk.P("picture.roof.north", "roof", pic.Alt, "faces", told)
	}
	return pic, true
}

// bearings of the ways a gutter can face, clockwise from the north.
var bearings = map[string]unit.Angle{"north": 0, "north-east": 45, "east": 90, "south-east": 135, "south": 180, "south-west": 225, "west": 270, "north-west": 315}

// north is the arrow to the north beside the roof, where it is known which way the
// gutter faces. Up the roof lies behind one who looks that way.
func north(faces string, b geom.Rect) []talk.Shape {
	bearing, ok := bearings[faces]
	if !ok {
		return nil
	}
	sin, cos := math.Sincos(float64((90 + 180 + bearing) * unit.Degree))
	size := 0.08 * max(b.Length(), b.Depth())
	mid := b.Max.Add(3.6*size, -size)
	dx, dy := size*unit.Length(cos), size*unit.Length(sin)
	tip := mid.Add(dx, dy)
	return []talk.Shape{talk.Arrow{Pen: talk.Wide, From: mid.Add(-dx, -dy), To: tip}, talk.Word{At: tip, Text: talk.P("label.north"), Anchor: talk.Above, Size: talk.Large}}
}

// edgesTold lists the edges in words, clockwise from the gutter.
func edgesTold(o geom.Outline) []any {
	out := make([]any, len(o.Edges))
	for i, e := range o.Edges {
		out[i] = talk.P("picture.edge", "n", i+1, "kind", kindName(e.Kind), "length", whole(e.Length))
	}
	return out
}

// Rows of dimensions outside a roof, in mm on paper.
const (
	firstRow  unit.Length = 7
	secondRow unit.Length = 15
)

// edgeDims are the lengths of the edges, each outside its edge, and those over
// all where no single edge has them.
func edgeDims(o geom.Outline) []talk.Shape {
	var out []talk.Shape
	b := o.Bounds()
	alongX, alongY := false, false
	plain := o.IsRightAngled()
	for i, e := range o.Edges {
		from, to := o.Side(i)
		if plain && len(o.Edges) == 4 && i > 1 {
			continue // a rectangle is measured once
		}
		out = append(out, dim(from, to, firstRow)) // clockwise: outside is on the left
		alongX = alongX || math.Abs(float64(e.Length-b.Length())) < 0.5
		alongY = alongY || math.Abs(float64(e.Length-b.Depth())) < 0.5
	}
	if plain && !alongX {
		out = append(out, across(at(b.Max.X, b.Min.Y), b.Min, secondRow))
	}
	if plain && !alongY {
		out = append(out, upward(b.Min, at(b.Min.X, b.Max.Y), secondRow))
	}
	return out
}

// edgeNames are the numbers and kinds of the edges, inside, along them.
func edgeNames(o geom.Outline) []talk.Shape {
	var out []talk.Shape
	for i, e := range o.Edges {
		from, to := o.Side(i)
		out = append(out, talk.Word{At: between(from, to, 0.5), Text: talk.P("label.edge", "n", i+1, "kind", kindName(e.Kind)),
			Turn: heading(from, to), Anchor: inside(from, to)})
	}
	return out
}

// inside says on which side of a text that reads along an edge, from below or
// from the right, the roof lies. The outline runs clockwise, so the roof lies to
// the right of an edge.
func inside(from, to geom.Point) talk.Anchor {
	if dx := to.X - from.X; dx < -1e-6 || math.Abs(float64(dx)) <= 1e-6 && to.Y < from.Y {
		return talk.Above // the text is turned round to be read, and so are its sides
	}
	return talk.Below
}

func pipesOn(pipes []plan.Pipe) []talk.Shape {
	var out []talk.Shape
	for _, p := range pipes {
		r := p.Dia / 2
		out = append(out,
			talk.Arc{Pen: talk.Wide, Tone: talk.Shade, At: at(p.X, p.Y), Radius: r, Sweep: 2 * math.Pi},
			line(talk.Centre, at(p.X-2*r, p.Y), at(p.X+2*r, p.Y)), line(talk.Centre, at(p.X, p.Y-2*r), at(p.X, p.Y+2*r)),
			talk.Word{At: at(p.X+r, p.Y+r), Text: talk.P("label.dia", "n", whole(p.Dia)), Anchor: talk.RightOf})
	}
	return out
}

// falls is the arrow down the fall with its drop, and the area beside it.
func falls(p *plan.Plan) []talk.Shape {
	o := *p.Outline
	x, low, high := middle(o)
	from, to := at(x, low+(high-low)*0.5), at(x, low+(high-low)*0.18)
	flat := p.Fall == nil || p.Fall.Drop <= 0
	area := talk.Word{At: roomiest(o, from, to, flat), Text: talk.P("label.area", "area", *p.Area), Size: talk.Large}
	if flat {
		return []talk.Shape{area}
	}
	return []talk.Shape{
		area,
		talk.Arrow{Pen: talk.Wide, From: from, To: to},
		talk.Word{At: between(from, to, 0.3), Text: talk.P("label.fall", "fall", p.Fall.Slope), Anchor: talk.RightOf},
		talk.Word{At: between(from, to, 0.3), Text: talk.P("label.drop", "drop", whole(p.Fall.Drop)), Anchor: talk.LeftOf},
	}
}

// middle finds where the roof is deepest near the middle of the gutter: the line
// up the roof there.
func middle(o geom.Outline) (x, low, high unit.Length) {
	b := o.Bounds()
	best := unit.Length(-1)
	for _, part := range []float64{0.5, 0.45, 0.55, 0.35, 0.65, 0.25, 0.75, 0.15, 0.85} {
		at := b.Min.X + unit.Length(part)*b.Length()
		for _, span := range o.Vertices.UpRoof(at) {
			// Deeper must be deeper by a good bit to go out of the middle for.
			if l := span.Length(); l > best*1.25 {
				best, x, low, high = l, at, span.From, span.To
			}
		}
	}
	return x, low, high
}

// roomiest is the place on a roof furthest from its edges, and from the arrow down
// the fall with its figures: where a word has most room. It looks at a grid; a
// finer one would move a word by less than its own height.
func roomiest(o geom.Outline, from, to geom.Point, free bool) geom.Point {
	const grid = 24
	b := o.Bounds()
	best, most := centre(b), unit.Length(-1)
	for i := range grid {
		y := b.Min.Y + b.Depth()*(unit.Length(i)+0.5)/grid
		for _, s := range o.Vertices.AlongGutter(y) {
			for k := range grid {
				p := at(s.From+s.Length()*(unit.Length(k)+0.5)/grid, y)
				room := unit.Length(math.Inf(1))
				for e := range o.Edges {
					a, c := o.Side(e)
					room = min(room, apart(p, a, c))
				}
				if !free {
					room = min(room, apart(p, from, to)*0.7) // its figures stand beside the arrow
				}
				if room > most+1e-6 {
					best, most = p, room
				}
			}
		}
	}
	return best
}

// apart is how far a point lies from the straight line between two others.
func apart(p, a, b geom.Point) unit.Length {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = math.Min(1, math.Max(0, (float64(p.X-a.X)*dx+float64(p.Y-a.Y)*dy)/l))
	}
	return p.To(between(a, b, t))
}

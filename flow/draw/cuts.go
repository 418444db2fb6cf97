package draw

import (
	"strings"

	"chargehand/calc/cut"
	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// cuts is how timber and trim bought by the length are sawn: bars that are sawn
// alike once, pieces lettered, what is left over crossed out.
func cuts(s Subject) (talk.Picture, bool) {
	var lists []plan.Lengths
	longest := unit.Length(0)
	for _, k := range takeoff.Keys() {
		l, ok := s.Plan.Lengths[k]
		if !ok || len(l.List.Bars) == 0 || l.Whole() {
			continue
		}
		lists = append(lists, l)
		for _, b := range l.List.Bars {
			longest = max(longest, b.Length)
		}
	}
	if len(lists) == 0 {
		return talk.Picture{}, false
	}
	var panels []talk.Panel
	var told []any
	bars := 0
	for _, l := range lists {
		name := talk.P("item." + strings.ReplaceAll(string(l.Key), " ", "-"))
		title := talk.P("label.bars", "item", name, "n", l.List.Count)
		panels = append(panels, talk.Panel{Title: &title, Frame: geom.Rect{Min: at(0, 0), Max: at(longest, 0)}, Shapes: barsOf(l.List.Groups(), longest)})
		bars += l.List.Count
		told = append(told, talk.P("picture.cuts.list", "item", name, "n", l.List.Count, "bars", barsTold(l.List.Groups())))
	}
	pic := talk.Picture{Sketch: talk.Sketch{Panels: panels}}
	pic.Caption = talk.P("picture.cuts", "n", bars)
	pic.Alt = talk.P("picture.cuts.alt", "n", bars, "lists", told)
	return pic, true
}

// sawKerf is what the saw takes between two pieces.
const sawKerf = 3 * unit.Millimetre

// leastNamed is the shortest offcut that is named.
const leastNamed = 150 * unit.Millimetre

func barsOf(groups []cut.Group, longest unit.Length) []talk.Shape {
	var shapes []talk.Shape
	tall := longest * 0.05
	for i, g := range groups {
		y := -unit.Length(i) * tall * 2.2
		shapes = append(shapes, talk.Area{Tone: talk.Waste, Pen: talk.Wide, Points: oblong(0, y, g.Length, y+tall)},
			talk.Word{At: at(0, y+tall/2), Text: talk.P("label.count", "n", g.Times), Anchor: talk.LeftOf, Fixed: true})
		x := unit.Length(0)
		for _, c := range g.Cuts {
			shapes = append(shapes, talk.Area{Tone: talk.Blank, Pen: talk.Narrow, Points: oblong(x, y, x+c.Length, y+tall)})
			x += c.Length + sawKerf
		}
		for _, r := range alike(g.Cuts) {
			text := talk.P("label.part", "letter", r.letter, "length", whole(r.length))
			if r.n > 1 {
				text = talk.P("label.parts", "n", r.n, "letter", r.letter, "length", whole(r.length))
			}
			shapes = append(shapes, talk.Word{At: at((r.from+r.to)/2, y+tall/2), Text: text})
		}
		if g.Offcut >= leastNamed {
			shapes = append(shapes, talk.Word{At: at(g.Length-g.Offcut/2, y+tall/2), Text: talk.P("label.left", "n", whole(g.Offcut))})
		}
	}
	return shapes
}

// row is pieces of one length beside one another.
type row struct {
	letter           string
	n                int
	length, from, to unit.Length
}

func alike(cuts []cut.Cut) []row {
	var out []row
	x := unit.Length(0)
	for _, c := range cuts {
		if k := len(out) - 1; k >= 0 && out[k].letter == c.Letter {
			out[k].n++
			out[k].to = x + c.Length
		} else {
			out = append(out, row{c.Letter, 1, c.Length, x, x + c.Length})
		}
		x += c.Length + sawKerf
	}
	return out
}

func barsTold(groups []cut.Group) []any {
	var out []any
	for _, g := range groups {
		var pieces []unit.Length
		for _, c := range g.Cuts {
			pieces = append(pieces, c.Length)
		}
		out = append(out, talk.P("picture.cuts.bar", "n", g.Times, "length", whole(g.Length), "pieces", list(pieces)))
	}
	return out
}

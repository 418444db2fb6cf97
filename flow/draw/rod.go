package draw

import (
	"math"
	"slices"

	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// perRow is how many marks stand on one line of the rod: few enough for figures
// that are read at arm's length.
const perRow = 6

// tape is one tape pulled from one datum, with everything marked along it.
type tape struct {
	title  talk.Phrase
	marks  []unit.Length
	joints []unit.Length // centres of the joints between whole boards
	end    unit.Length
}

// rod is every joist mark along the tapes, in rows of one scale.
func rod(s Subject) (talk.Picture, bool) {
	j := s.Plan.Joists
	if j == nil || s.Plan.Length == nil {
		return talk.Picture{}, false
	}
	tapes := tapesOf(s.Plan)
	wide := unit.Length(0)
	n := 0
	for _, t := range tapes {
		n += len(t.marks)
		for i, row := range t.rows() {
			from := row[0]
			if i == 0 {
				from = 0
			}
			wide = max(wide, (row[len(row)-1]-from)*1.18, 4*j.B)
		}
	}
	if n == 0 {
		return talk.Picture{}, false
	}
	var panels []talk.Panel
	var alt []any
	for _, t := range tapes {
		for i, row := range t.rows() {
			from := row[0]
			if i == 0 {
				from = 0
			}
			r := rodRow{tape: t, b: j.B, h: j.H, from: from - 0.076*wide, wide: wide, first: i == 0, last: row[len(row)-1] == t.marks[len(t.marks)-1]}
			p := talk.Panel{Frame: geom.Rect{Min: at(r.from, 0), Max: at(r.from+wide, 0)}, Shapes: r.draw(row)}
			if i == 0 {
				title := t.title
				p.Title = &title
			}
			panels = append(panels, p)
		}
		alt = append(alt, talk.P("picture.tape", "name", t.title, "marks", list(t.marks), "joints", list(t.atJoints(j.B))))
	}
	pic := talk.Picture{Sketch: talk.Sketch{Panels: panels}}
	centres := unit.Length(math.Floor(float64(j.Centres)*10+0.5) / 10)
	pic.Caption = talk.P("picture.rod", "n", j.Count, "centres", centres)
	pic.Alt = talk.P("picture.rod.alt", "n", j.Count, "centres", centres, "tapes", alt)
	return pic, true
}

// tapesOf are the tapes a roof is set out with: one for a rectangle, one for each
// part of an L, T or U, one along the gutter and one along the back of a roof out
// of square.
func tapesOf(p *plan.Plan) []tape {
	j := p.Joists
	switch {
	case j.Parts != nil:
		var out []tape
		for i, part := range j.Parts {
			t := tape{title: talk.P("label.rod.up", "n", i+1), marks: part.Plan.Marks, joints: part.Plan.JointLines, end: part.Rect.Length()}
			if part.Joists == geom.AlongGutterAxis {
				t.title, t.end = talk.P("label.rod.along", "n", i+1), part.Rect.Depth()
			}
			out = append(out, t)
		}
		return out
	case j.Skewed != nil:
		gutter := tape{title: talk.P("label.rod.gutter"), joints: j.JointLines, end: p.Outline.Edges[0].Length}
		back := tape{title: talk.P("label.rod.back"), end: p.Outline.Edges[2].Length}
		for _, q := range j.Skewed.Joists {
			if !q.Jack || q.From < 1 {
				gutter.marks = append(gutter.marks, q.Low)
			}
			if !q.Jack || q.To > j.Skewed.Depth-1 {
				back.marks = append(back.marks, q.High)
			}
		}
		return slices.DeleteFunc([]tape{gutter, back}, func(t tape) bool { return len(t.marks) == 0 })
	case len(j.Marks) == 0:
		return nil
	}
	return []tape{{title: talk.P("label.rod"), marks: j.Marks, joints: j.JointLines, end: *p.Length}}
}

// rows are the marks by lines of the picture, as even as can be.
func (t tape) rows() [][]unit.Length {
	if len(t.marks) == 0 {
		return nil
	}
	n := (len(t.marks) + perRow - 1) / perRow
	return slices.Collect(slices.Chunk(t.marks, (len(t.marks)+n-1)/n))
}

// joint says whether board ends land on a mark.
func (t tape) joint(mark, b unit.Length) bool {
	return slices.ContainsFunc(t.joints, func(l unit.Length) bool { return math.Abs(float64(l-mark)) < float64(b)/2 })
}

func (t tape) atJoints(b unit.Length) []unit.Length {
	return slices.DeleteFunc(slices.Clone(t.marks), func(m unit.Length) bool { return !t.joint(m, b) })
}

// rodRow is one line of the rod.
type rodRow struct {
	tape
	b, h        unit.Length // of a joist
	from, wide  unit.Length // what of the tape it shows
	first, last bool
}

func (r rodRow) draw(marks []unit.Length) []talk.Shape {
	deep := r.wide * 0.045 // of the tape as drawn
	tall := max(r.h, 2*r.b)
	left, right := r.from, r.from+r.wide
	if r.first {
		left = 0
	}
	if r.last {
		right = min(right, r.end)
	}
	shapes := []talk.Shape{talk.Area{Tone: talk.Blank, Points: oblong(left, 0, right, deep)},
		line(talk.Narrow, at(left, 0), at(right, 0)), line(talk.Narrow, at(left, deep), at(right, deep))}
	if r.first {
		shapes = append(shapes, line(talk.Wide, at(0, -deep), at(0, deep)), talk.Word{At: at(0, deep/2), Text: figure(0), Size: talk.Large, Anchor: talk.LeftOf})
	}
	if r.last && right == r.end {
		shapes = append(shapes, line(talk.Wide, at(r.end, -deep), at(r.end, deep)))
	}
	top := -deep // of the joists under the tape
	for _, m := range marks {
		joint := r.joint(m, r.b)
		pen := talk.Wide
		if joint {
			pen = talk.Heavy
		}
		shapes = append(shapes,
			talk.Area{Tone: talk.Grain, Pen: talk.Wide, Points: oblong(m-r.b/2, top-tall, m+r.b/2, top)},
			line(talk.Centre, at(m, top-tall-deep/2), at(m, 0)),
			line(pen, at(m, 0), at(m, deep)),
			talk.Word{At: at(m, deep), Text: figure(m), Size: talk.Large, Anchor: talk.Above})
		if joint {
			foot := top - tall - deep*0.3
			shapes = append(shapes, talk.Area{Tone: talk.Solid, Points: geom.Polygon{{X: m, Y: foot}, {X: m - deep*0.4, Y: foot - deep*0.8}, {X: m + deep*0.4, Y: foot - deep*0.8}}},
				talk.Word{At: at(m, foot-deep*0.8), Text: talk.P("label.joint"), Anchor: talk.Below})
		}
	}
	return shapes
}

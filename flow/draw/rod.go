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
const perRow = 7

// rod is every joist mark along one tape, in rows of one scale.
func rod(s Subject) (talk.Picture, bool) {
	j := s.Plan.Joists
	if j == nil || len(j.Marks) == 0 || s.Plan.Length == nil {
		return talk.Picture{}, false
	}
	n := (len(j.Marks) + perRow - 1) / perRow
	rows := slices.Collect(slices.Chunk(j.Marks, (len(j.Marks)+n-1)/n))
	span := unit.Length(0)
	for _, row := range rows {
		span = max(span, row[len(row)-1]-row[0])
	}
	margin := 0.09 * span
	if margin == 0 {
		margin = j.B
	}
	wide := span + 2*margin
	var panels []talk.Panel
	for i, row := range rows {
		r := rodRow{j: j, from: row[0] - margin, wide: wide, end: *s.Plan.Length, first: i == 0, last: i == len(rows)-1}
		panels = append(panels, talk.Panel{Frame: geom.Rect{Min: at(r.from, 0), Max: at(r.from+wide, 0)}, Shapes: r.draw(row)})
	}
	title := talk.P("label.rod")
	panels[0].Title = &title
	pic := talk.Picture{Sketch: talk.Sketch{Panels: panels}}
	centres := unit.Length(math.Floor(float64(j.Centres)*10+0.5) / 10)
	pic.Caption = talk.P("picture.rod", "n", len(j.Marks), "centres", centres)
	pic.Alt = talk.P("picture.rod.alt", "n", len(j.Marks), "centres", centres, "marks", list(j.Marks), "joints", list(jointMarks(j)))
	return pic, true
}

// jointMarks are the marks that board ends land on.
func jointMarks(j *plan.Joists) []unit.Length {
	var out []unit.Length
	for _, m := range j.Marks {
		if isJoint(j, m) {
			out = append(out, m)
		}
	}
	return out
}

func isJoint(j *plan.Joists, mark unit.Length) bool {
	return slices.ContainsFunc(j.JointLines, func(l unit.Length) bool { return math.Abs(float64(l-mark)) < float64(j.B)/2 })
}

// rodRow is one line of the rod.
type rodRow struct {
	j           *plan.Joists
	from, wide  unit.Length // what of the tape it shows
	end         unit.Length // of the roof
	first, last bool
}

func (r rodRow) draw(marks []unit.Length) []talk.Shape {
	tape := r.wide * 0.045 // its width
	tall := max(r.j.H, 2*r.j.B)
	left, right := r.from, r.from+r.wide
	if r.first {
		left = 0
	}
	if r.last {
		right = min(right, r.end)
	}
	shapes := []talk.Shape{talk.Area{Tone: talk.Blank, Points: oblong(left, 0, right, tape)},
		line(talk.Narrow, at(left, 0), at(right, 0)), line(talk.Narrow, at(left, tape), at(right, tape))}
	if r.first {
		shapes = append(shapes, line(talk.Wide, at(0, -tape), at(0, tape)), talk.Word{At: at(0, tape/2), Text: figure(0), Size: talk.Large, Anchor: talk.LeftOf})
	}
	if r.last && right == r.end {
		shapes = append(shapes, line(talk.Wide, at(r.end, -tape), at(r.end, tape)))
	}
	top := -tape // of the joists under the tape
	for _, m := range marks {
		joint := isJoint(r.j, m)
		pen := talk.Wide
		if joint {
			pen = talk.Heavy
		}
		shapes = append(shapes,
			talk.Area{Tone: talk.Grain, Pen: talk.Wide, Points: oblong(m-r.j.B/2, top-tall, m+r.j.B/2, top)},
			line(talk.Centre, at(m, top-tall-tape/2), at(m, 0)),
			line(pen, at(m, 0), at(m, tape)),
			talk.Word{At: at(m, tape), Text: figure(m), Size: talk.Large, Anchor: talk.Above})
		if joint {
			foot := top - tall - tape*0.3
			shapes = append(shapes, talk.Area{Tone: talk.Solid, Points: geom.Polygon{{X: m, Y: foot}, {X: m - tape*0.4, Y: foot - tape*0.8}, {X: m + tape*0.4, Y: foot - tape*0.8}}},
				talk.Word{At: at(m, foot-tape*0.8), Text: talk.P("label.joint"), Anchor: talk.Below})
		}
	}
	return shapes
}

package flow

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/setout"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
	"chargehand/flow/event"
)

func tellJoistOrder(v View) *event.Told {
	j := v.Plan().Joists
	if j == nil {
		return nil
	}
	t := told("joist-order", v.Plan().Formulas("joists", "lengths"), line("told.joist-order", "n", whole(j.Order), "b", length(j.B), "h", length(j.H), "length", length(j.Each), "count", whole(j.Count)))
	t.Lines = append(t.Lines, cutLines(v, takeoff.JoistTimber)...)
	return t
}

// tellMarks gives the marks, each run from one datum: one run for a rectangle,
// gutter line and back for a roof out of square, one for each part of an L or U.
func tellMarks(v View) *event.Told {
	j := v.Plan().Joists
	if j == nil {
		return nil
	}
	t := told("marks", v.Plan().Formulas("joists"))
	add := func(key string, pairs ...any) { t.Lines = append(t.Lines, line(key, pairs...)) }
	n := whole(j.Count)
	switch {
	case j.Parts != nil:
		add("told.marks-parts", "centres", tenths(float64(j.Centres)), "n", n, "parts", whole(len(j.Parts)))
		for i, p := range j.Parts {
			k := "told.part-up"
			if p.Joists == geom.AlongGutterAxis {
				k = "told.part-along"
			}
			add(k, "n", whole(i+1), "marks", lengths(p.Plan.Marks))
		}
		for _, q := range j.Junctions {
			add("told.junction."+dashKey(string(q.Support)), "a", whole(q.A+1), "b", whole(q.B+1), "length", length(unit.Length(math.Hypot(float64(q.To.X-q.From.X), float64(q.To.Y-q.From.Y)))))
		}
	case j.Skewed != nil:
		add("told.marks-skew", "centres", tenths(float64(j.Centres)), "n", n, "diagonal", length(j.Skewed.Diagonal), "depth", length(j.Skewed.Depth))
		low, high := squareMarks(j.Skewed)
		add("told.marks-low", "marks", low)
		add("told.marks-high", "marks", high)
		for i, f := range j.Skewed.Flanks {
			if math.Abs(float64(f.Lean)) >= 1 {
				add("told.flank."+[]string{"left", "right"}[i], "length", length(f.Length), "lean", length(unit.Length(math.Abs(float64(f.Lean)))), "way", key("pick."+leans(f.Lean)))
			}
		}
	default:
		add("told.marks", "centres", tenths(float64(j.Centres)), "n", n, "marks", lengths(j.Marks))
	}
	add("told.joint", "bearing", event.Of("mm", math.Floor(float64(j.JointBearing)*10)/10), "tolerance", event.Of("mm", math.Floor(float64(j.Tolerance)*10)/10))
	if j.Bays%2 == 1 {
		add("told.odd-bays", "bays", whole(j.Bays), "stagger", whole(j.StaggerBays))
	}
	return t
}

func leans(l unit.Length) string {
	if l < 0 {
		return "left"
	}
	return "right"
}

// squareMarks are the feet along the gutter line and the heads along the back of
// the joists that stand square; one that begins or ends on a flank has no mark
// there.
func squareMarks(s *setout.Skewed) (low, high event.Value) {
	var feet, heads []unit.Length
	for _, q := range s.Joists {
		if !q.Jack || q.From < 1 {
			feet = append(feet, q.Low)
		}
		if !q.Jack || q.To > s.Depth-1 {
			heads = append(heads, q.High)
		}
	}
	return lengths(feet), lengths(heads)
}

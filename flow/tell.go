package flow

import (
	"math"
	"strings"

	"chargehand/calc/unit"
	"chargehand/flow/event"
)

// The functions of this file put the plan's numbers into Told events: number
// first, the formulas named, so that replay shows what was said then.

const m2 = unit.SquareMetre

func told(what string, formulas []string, lines ...event.Line) *event.Told {
	return &event.Told{What: what, Lines: lines, Formulas: formulas}
}

func line(key string, pairs ...any) event.Line {
	l := event.Line{Key: key}
	if len(pairs) > 0 {
		l.Args = args(pairs...)
	}
	return l
}

func length(l unit.Length) event.Value { return event.Of("mm", round(l)) }

func lengths(ls []unit.Length) event.Value {
	v := event.Value{Unit: "mm"}
	for _, l := range ls {
		v.Nums = append(v.Nums, math.Floor(float64(l)+0.5)) // half up, once, on show
	}
	return v
}

func area(a unit.Area) event.Value { return event.Of("m2", math.Round(a.In(m2)*100)/100) }

func whole(n int) event.Value { return event.Of("count", float64(n)) }

func key(k string) event.Value { return event.Word("key", k) }

func load(p unit.AreaLoad) event.Value {
	return event.Of("kn_m2", math.Round(p.In(unit.KilonewtonPerM2)*100)/100)
}

func tellRoof(v View) *event.Told {
	p := v.Plan()
	if p.Area == nil || p.Fall == nil {
		return nil
	}
	t := told("roof", p.Formulas("roof", "fall"), line("told.roof", "area", area(*p.Area), "drop", length(p.Fall.Drop), "fall", event.Of("ratio", float64(p.Fall.Slope))))
	if p.Skew != nil && math.Abs(float64(*p.Skew)) >= 1 {
		t.Lines = append(t.Lines, line("told.skew", "skew", length(unit.Length(math.Abs(float64(*p.Skew))))))
	}
	if p.Misclosure != nil && *p.Misclosure >= 1 {
		t.Lines = append(t.Lines, line("told.closed", "gap", length(*p.Misclosure)))
	}
	for _, tp := range p.Tapers {
		t.Lines = append(t.Lines, line("told.taper", "edge", whole(tp.Edge+1), "off", length(tp.Off())))
	}
	if p.Snow != nil {
		t.Formulas = append(t.Formulas, p.Formulas("snow")...)
		t.Lines = append(t.Lines, snowLines(p.Snow)...)
	}
	if p.Wind != nil {
		t.Formulas = append(t.Formulas, p.Formulas("wind")...)
		t.Lines = append(t.Lines, windLine(p.Wind))
	}
	if p.Gutter != nil {
		t.Formulas = append(t.Formulas, p.Formulas("gutter")...)
		t.Lines = append(t.Lines, line("told.gutter-size", "size", length(p.Gutter.Size), "outlet", length(p.Gutter.Outlet)))
	}
	return t
}

func dashed(s string) string { return strings.ReplaceAll(s, "_", "-") }

func tellCorners(v View) *event.Told {
	tr := v.Plan().Trims
	if tr == nil {
		return nil
	}
	return told("corners", v.Plan().Formulas("trims"), line("told.corners", "corners", whole(tr.Corners), "ends", whole(tr.Ends)))
}

func tellBar(v View) *event.Told {
	b := v.Plan().Bar
	if b == nil {
		return nil
	}
	return told("bar", v.Plan().Formulas("bar"), line("told.bar", "runs", lengths(b.Runs), "screws", event.Value{Unit: "count", Nums: floats(b.Screws)}))
}

func floats(ns []int) []float64 {
	out := make([]float64, len(ns))
	for i, n := range ns {
		out[i] = float64(n)
	}
	return out
}

func tellScore(v View) *event.Told {
	done, off, skipped := 0, 0, 0
	for _, spec := range script() {
		switch v.S.Settled[spec.ID].Status {
		case StepAnswered:
			done++
		case StepPutOff:
			off++
		case StepSkipped:
			skipped++
		}
	}
	return told("score", nil, line("told.score", "done", whole(done), "off", whole(off), "skipped", whole(skipped)))
}

func dashKey(s string) string { return strings.ReplaceAll(s, " ", "-") }

// tidy keeps two decimals: a list is read by people at a counter.
func tidy(x float64) float64 { return math.Round(x*100) / 100 }

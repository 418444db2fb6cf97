package flow

import (
	"math"
	"strings"

	"chargehand/calc"
	"chargehand/calc/plan"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// The functions of this file tell what the structure carries: number, limit and
// share, and whom to ask. No line with a force of the wind in it is made unless
// the plan has a wind.

// force is shown to a hundredth of a kilonewton, as a packet prints it.
func force(f unit.Force) event.Value {
	return event.Of("kn", math.Round(f.In(unit.Kilonewton)*100)/100)
}

func share(u float64) event.Value { return event.Of("pct", math.Ceil(u*100)) }

// snowLines show the snow as it lies: flat, against the wall and at the far end
// of the bank, and the exceptional bank beside it.
func snowLines(s *plan.Snow) []event.Line {
	out := []event.Line{line("told.snow", "ground", load(s.Ground), "flat", load(s.Flat), "set", key("load."+s.Set))}
	for _, exceptional := range []bool{false, true} {
		b := s.Worst(exceptional)
		if b == nil {
			continue
		}
		k := "told.drift"
		if exceptional {
			k = "told.drift-exceptional"
		}
		out = append(out, line(k, "peak", load(b.Peak), "edge", load(b.Edge), "length", length(b.Length), "against", key("against."+b.Against), "clause", event.Word("text", b.Clause)))
	}
	return out
}

func windLine(w *plan.Wind) event.Line {
	return line("told.wind", "pressure", load(w.Pressure), "lift", force(w.Total), "rules", key("wind."+strings.ToLower(w.Rules)))
}

func tellPlates(v View) *event.Told {
	p := v.Plan().Plates
	if p == nil {
		return nil
	}
	t := told("plates", v.Plan().Formulas("plates"))
	add := func(l event.Line) { t.Lines = append(t.Lines, l) }
	if p.Anchors > 0 {
		add(line("told.anchors", "n", whole(p.Anchors), "spacing", length(p.AnchorSpacing), "first", length(p.AnchorFirst), "runs", whole(len(p.Runs)+len(p.Ledgers))))
	}
	switch l := p.Ledger; {
	case l != nil:
		k := "told.ledger"
		if !l.PullChecked {
			k = "told.ledger-shear"
		}
		add(line(k, "share", share(l.Utilisation), "shear", force(l.Shear), "pull", force(l.Pull)))
		if l.Status != calc.Within {
			add(line("told.ledger." + string(l.Status)))
		}
		if l.Status == calc.Over {
			t.Level = string(talk.Stop)
		}
	case len(p.Ledgers) > 0 && p.Anchors > 0:
		add(line("told.ledger-unknown"))
	}
	if f := p.Fit; f != nil && f.Sink > 0 {
		add(line("told.sink", "sink", length(f.Sink)))
	}
	if len(p.Runs) > 0 {
		add(line("told.plates", "runs", lengths(p.Runs)))
	}
	if len(p.Ledgers) > 0 {
		add(line("told.ledgers", "runs", lengths(p.Ledgers)))
	}
	t.Lines = append(t.Lines, cutLines(v, takeoff.PlateTimber)...)
	return t
}

func tellStraps(v View) *event.Told {
	p := v.Plan().Plates
	if p == nil {
		return nil
	}
	t := told("straps", v.Plan().Formulas("straps"))
	h := p.HoldDown
	if h == nil {
		t.Lines = append(t.Lines, line("told.straps", "n", whole(p.Straps), "spacing", length(p.StrapSpacing)))
		return t
	}
	t.Formulas = append(t.Formulas, v.Plan().Formulas("wind")...)
	t.Lines = append(t.Lines, line("told.straps-wind", "n", whole(p.Straps), "spacing", length(p.StrapSpacing)))
	switch {
	case h.Net <= 0:
		t.Lines = append(t.Lines, line("told.strap-light"))
	case h.Share > 0:
		t.Lines = append(t.Lines, line("told.strap-share", "each", force(h.Each), "net", force(h.Net), "share", share(h.Share)))
	default:
		t.Lines = append(t.Lines, line("told.strap-pull", "each", force(h.Each), "net", force(h.Net)))
	}
	if h.WallShare > 1 {
		t.Lines = append(t.Lines, line("told.strap-wall", "caught", force(h.Caught), "net", force(h.Net)))
	}
	return t
}

// floor rounds a limit down to whole millimetres: a limit never grows in print.
func floor(l unit.Length) unit.Length { return unit.Length(math.Floor(float64(l))) }

// tellSpan shows number, limit and share; over the limit, or with no verdict at
// all, it holds the job.
func tellSpan(v View) *event.Told {
	p := v.Plan()
	s := p.Span
	if s == nil {
		return tellUnjudged(p)
	}
	t := told("span", p.Formulas("span"), line("told.span."+string(s.Status),
		"clear", length(s.Clear), "max", length(floor(s.Max)), "share", share(s.Utilisation),
		"by", key("cond."+s.GovernedBy), "method", key("method."+s.Method)),
		line("told.span-load", "dead", load(s.Dead), "imposed", load(s.Imposed), "snow", load(s.Snow)))
	add := func(l event.Line) { t.Lines = append(t.Lines, l) }
	if s.Drift > 0 {
		add(line("told.span-drift", "drift", load(s.Drift)))
	}
	if s.Up > 0 {
		add(line("told.span-wind", "up", load(s.Up)))
	}
	if s.Hung > 0 {
		add(line("told.span-hung", "hung", force(s.Hung)))
	}
	if s.FallLeft != nil {
		k := "told.span-sag"
		if s.Ponds {
			k = "told.span-ponds"
		}
		add(line(k, "sag", length(s.LastingSag), "left", event.Of("ratio", float64(*s.FallLeft))))
	}
	if s.Over() {
		t.Level = string(talk.Stop)
	}
	return t
}

// needNames are the steps that tell what the plan needs.
var needNames = map[plan.Need]string{
	plan.NeedSize: stepShape, plan.NeedBoard: stepBoard, plan.NeedCentres: stepCentres, plan.NeedSpan: stepSpan, plan.NeedJoist: stepJoist,
	plan.NeedAltitude: "site", plan.NeedGroundSnow: "ground-snow", plan.NeedWallAbove: "wall-above", plan.NeedUpperDepth: "upper-depth",
	plan.NeedParapet: "parapet-size", plan.NeedHung: "hung-weight",
}

// tellUnjudged says why there is no verdict on the joists: what is not known, or
// that the roof lies outside what the formulas hold for.
func tellUnjudged(p *plan.Plan) *event.Told {
	t := told("span", nil)
	t.Level = string(talk.Stop)
	if len(p.Lacks) == 0 {
		t.Lines = []event.Line{line("told.span.outside")}
		return t
	}
	var names []string
	for _, n := range p.Lacks {
		names = append(names, "name."+needNames[n])
	}
	t.Lines = []event.Line{line("told.span.unknown", "needs", event.Word("keys", strings.Join(names, " ")))}
	return t
}

// tellSet is the verdict again, where the joists go in, with what holds their
// ends.
func tellSet(v View) *event.Told {
	t := tellSpan(v)
	p := v.Plan()
	if e := p.Ends; e != nil {
		t.Formulas = append(t.Formulas, p.Formulas("ends")...)
		if e.Hangers > 0 {
			t.Lines = append(t.Lines, line("told.ends.hangers", "n", whole(e.Hangers)))
		}
		if e.Clips > 0 {
			t.Lines = append(t.Lines, line("told.ends.plates", "nails", whole(e.SkewNails), "n", whole(e.Clips)))
		}
	}
	if w := p.Wind; w != nil && w.End != nil && *w.EndCorner > 0 {
		t.Formulas = append(t.Formulas, p.Formulas("wind")...)
		t.Lines = append(t.Lines, line("told.end-pull", "end", force(max(*w.End, 0)), "corner", force(*w.EndCorner)))
	}
	return t
}

func tellStrutting(v View) *event.Told {
	p := v.Plan()
	s := p.Strutting
	if s == nil {
		return nil
	}
	t := told("strutting", p.Formulas("strutting"), line("told.strutting", "rows", whole(s.Rows), "noggins", whole(s.Noggins)))
	if s.Rows > 0 && s.Depth > 0 {
		t.Lines = append(t.Lines, line("told.strutting-at", "at", lengths(s.At), "depth", event.Of("mm", math.Ceil(float64(s.Depth)))))
	}
	if x := p.Restraint; x != nil && x.Straps > 0 {
		t.Formulas = append(t.Formulas, p.Formulas("restraint")...)
		t.Lines = append(t.Lines, line("told.restraint", "n", whole(x.Straps), "length", event.Of("mm", math.Ceil(float64(x.Length)/10)*10), "noggins", whole(x.Noggins)))
	}
	return t
}

package flow

import (
	"math"

	"chargehand/calc/drain"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
	"chargehand/flow/event"
)

// tellJoints names the bed joint for the chase, out of the one that was taped.
func tellJoints(v View) *event.Told {
	u := v.Plan().Upstands
	if u == nil || u.BedJoint == 0 {
		return nil
	}
	return told("joint-chosen", v.Plan().Formulas("chase"), line("told.joint-chosen", "joint", length(u.BedJoint), "top", length(u.BoardTop)))
}

// tellChase says of each wall where its chase runs: level, or down a course at
// each place where the roof has fallen away by one.
func tellChase(v View) *event.Told {
	cs := v.Plan().Chases
	if len(cs) == 0 {
		return nil
	}
	t := told("chase", v.Plan().Formulas("chase"))
	for _, c := range cs {
		switch {
		case len(c.Steps) > 0:
			t.Lines = append(t.Lines, line("told.chase.steps", "edge", whole(c.Edge+1), "joint", length(c.Joint), "at", lengths(c.Steps)))
		case c.Drop > 0:
			t.Lines = append(t.Lines, line("told.chase.level", "edge", whole(c.Edge+1), "joint", length(c.Joint), "most", length(c.Most)))
		default:
			t.Lines = append(t.Lines, line("told.chase", "edge", whole(c.Edge+1), "joint", length(c.Joint)))
		}
	}
	return t
}

func tellUpstands(v View) *event.Told {
	u := v.Plan().Upstands
	if u == nil {
		return nil
	}
	t := told("upstands", v.Plan().Formulas("upstands"))
	if u.BoardTop > 0 {
		t.Lines = append(t.Lines, line("told.upstands", "top", length(u.BoardTop), "joint", length(u.BedJoint), "rubber", length(u.Rubber)))
	}
	if d := v.Plan().Deck; d != nil {
		t.Lines = append(t.Lines, stripLines(d)...)
	}
	t.Lines = append(t.Lines, line("told.plugs", "n", whole(u.Plugs)))
	return t
}

func tellBattens(v View) *event.Told {
	lines := cutLines(v, takeoff.Battens)
	if len(lines) == 0 {
		return nil
	}
	return told("battens", v.Plan().Formulas("lengths"), lines...)
}

func tellFascia(v View) *event.Told {
	lines := cutLines(v, takeoff.Fascias)
	if len(lines) == 0 {
		return nil
	}
	return told("fascia", v.Plan().Formulas("lengths"), lines...)
}

func tellTrims(v View) *event.Told {
	tr := v.Plan().Trims
	if tr == nil {
		return nil
	}
	t := told("trims", v.Plan().Formulas("trims", "lengths"))
	for _, e := range tr.Edges {
		t.Lines = append(t.Lines, line("told.trim", "edge", key("pick."+e.Kind), "run", length(e.Run), "pieces", lengths(e.Pieces), "nails", whole(e.Nails)))
	}
	t.Lines = append(t.Lines, cutLines(v, takeoff.Trim)...)
	return t
}

// tellGutter gives each bracket its place and how far it hangs below the string.
func tellGutter(v View) *event.Told {
	g := v.Plan().Gutter
	if g == nil {
		return nil
	}
	t := told("gutter", v.Plan().Formulas("gutter"), line("told.gutter", "size", length(g.Size), "brackets", whole(g.Brackets), "drop", length(unit.Length(math.Ceil(float64(g.Drop))))))
	from := "told.brackets.high"
	if g.Place != drain.AtEnd {
		from = "told.brackets.left"
	}
	for _, r := range g.Runs {
		var at, below []unit.Length
		for _, b := range r.Brackets {
			at, below = append(at, b.At), append(below, b.Below)
		}
		t.Lines = append(t.Lines, line(from, "at", lengths(at)), line("told.brackets.below", "below", lengths(below)))
	}
	t.Lines = append(t.Lines, line("told.outlets", "n", whole(g.Outlets*len(g.Runs)), "outlet", length(g.Outlet), "place", key("outlet."+dashKey(string(g.Place)))),
		line("told.gutter-flow", "share", event.Of("pct", math.Ceil(g.Share*100))))
	return t
}

func tellLead(v View) *event.Told {
	l := v.Plan().Lead
	if l == nil {
		return nil
	}
	t := told("lead", v.Plan().Formulas("lead"))
	for _, r := range l.Runs {
		t.Lines = append(t.Lines, line("told.lead", "n", whole(r.Pieces), "piece", length(r.Piece), "lap", length(l.Lap), "mass", event.Of("kg", math.Ceil(float64(r.Mass))), "wedges", whole(r.Wedges), "clips", whole(r.Clips)))
		if len(r.Starts) > 1 {
			t.Lines = append(t.Lines, line("told.lead.starts", "starts", lengths(r.Starts)))
		}
	}
	t.Lines = append(t.Lines, buyLines(v, takeoff.LeadSheet)...)
	return t
}

// leadRolls are the widths rolls come in: common practice, no source.
var leadRolls = []float64{150, 180, 240, 300}

// offerLeadWidth is the narrowest roll that turns in, passes the gap and covers
// the bar; the usual one where the chase is not known.
func offerLeadWidth(v View) (event.Value, bool) {
	need := 180.0
	if l := v.Plan().Lead; l != nil {
		need = math.Max(need, float64(l.Need))
	}
	for _, w := range leadRolls {
		if w >= need {
			return event.Of("mm", w), true
		}
	}
	return event.Of("mm", math.Ceil(need)), true
}

// doubtLeadWidth catches a roll too narrow to cover the bar.
func doubtLeadWidth(v View, val event.Value) *Doubt {
	if l := v.Plan().Lead; l != nil && val.Num() < float64(l.Need) {
		return &Doubt{Key: "doubt.lead-narrow", Args: args("width", val, "need", length(up(l.Need)))}
	}
	return nil
}

func tellCoping(v View) *event.Told {
	c := v.Plan().Coping
	if c == nil {
		return nil
	}
	t := told("coping", v.Plan().Formulas("coping"), line("told.coping", "n", whole(c.Pieces), "out", length(c.Outside), "dpc", length(c.Wall)))
	if c.OK {
		t.Lines = append(t.Lines, line("told.coping.clear", "clear", length(floor(c.Clear))))
	} else {
		t.Lines = append(t.Lines, line("told.coping.narrow", "clear", length(floor(c.Clear)), "least", length(up(c.Least))))
	}
	return t
}

// doubtCoping catches a coping whose throat would drip down the wall.
func doubtCoping(v View, val event.Value) *Doubt {
	c := v.with("coping-size", val).Plan().Coping
	if c == nil || c.OK {
		return nil
	}
	return &Doubt{Key: "doubt.coping-narrow", Args: args("clear", length(floor(c.Clear)), "least", length(up(c.Least)))}
}

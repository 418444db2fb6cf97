package flow

import (
	"math"
	"slices"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// The functions of this file catch a mistake while it can still be put right.

// edges are the kinds of the roof's edges, clockwise from the gutter.
func (v View) edges() []string {
	if walked(v) {
		var out []string
		for _, l := range v.legs(walkEdges) {
			out = append(out, string(l.Kind))
		}
		return out
	}
	return words(v.Pick(stepEdges))
}

func doubtEdges(_ View, val event.Value) *Doubt {
	kinds := words(val.Text)
	switch {
	case !slices.Contains(kinds, "gutter"):
		return &Doubt{Key: "doubt.no-gutter"}
	case kinds[0] != "gutter":
		return &Doubt{Key: "refuse.gutter-first", Refuse: true}
	}
	return nil
}

// doubtSquare looks at the two diagonals: 10 mm apart is nothing, 25 mm is to be
// known, more wants a taper. Six readings that do not close within 20 mm are
// taped again; which one is wrong can't be known from them. Common practice, no
// source.
func doubtSquare(v View, val event.Value) *Doubt {
	if len(val.Nums) != 2 {
		return nil
	}
	p := v.with("diagonals", val).Plan()
	diff := event.Of("mm", math.Abs(val.Nums[0]-val.Nums[1]))
	if fourSided(v) {
		switch {
		case p.Outline == nil:
			return &Doubt{Key: "refuse.no-shape", Refuse: true}
		case *p.Misclosure > geom.MisclosureLimit:
			return &Doubt{Key: "doubt.misclosure", Args: args("gap", length(*p.Misclosure))}
		}
		return nil
	}
	mean := (val.Nums[0] + val.Nums[1]) / 2
	switch {
	case p.Diagonal != nil && math.Abs(mean-float64(*p.Diagonal)) > 100:
		return &Doubt{Key: "doubt.diagonals", Args: args("want", length(*p.Diagonal), "mean", event.Of("mm", math.Round(mean)))}
	case diff.Num() > 25 && p.Skew != nil:
		return &Doubt{Key: "doubt.skew", Args: args("diff", diff, "skew", length(unit.Length(math.Abs(float64(*p.Skew)))))}
	}
	return nil
}

// doubtFall wants a design fall of 1:40 and never less than 1:80 (BS 6229).
func doubtFall(v View, val event.Value) *Doubt {
	_, deep := v.size()
	d := float64(deep)
	if d <= 0 {
		return nil
	}
	a := args("drop", val, "need", event.Of("mm", math.Ceil(d/40)), "least", event.Of("mm", math.Ceil(d/80)))
	switch n := val.Num(); {
	case n < d/80:
		return &Doubt{Key: "doubt.fall-under-80", Args: a}
	case n < math.Floor(d/40):
		return &Doubt{Key: "doubt.fall-under-40", Args: a}
	}
	return nil
}

// doubtFixture compares the anchor with the timber it goes through: more than
// it may hold wants a counterbore or a longer anchor.
func doubtFixture(v View, val event.Value) *Doubt {
	p := v.with("anchor-size", val).Plan().Plates
	size, ok := v.Value("plate-size")
	if p == nil || p.Fit == nil || !ok || len(size.Nums) != 2 || len(val.Nums) != 3 {
		return nil
	}
	thick := size.Nums[1] // a plate on a wall is held through its height
	if len(p.Ledgers) > 0 {
		thick = size.Nums[0]
	}
	a := args("thick", event.Of("mm", thick), "holds", event.Of("mm", val.Nums[2]))
	switch f := p.Fit; {
	case f.NeedsLong:
		return &Doubt{Key: "doubt.anchor-short", Args: a}
	case !f.LongOK:
		return &Doubt{Key: "doubt.anchor-length", Args: args("length", event.Of("mm", val.Nums[1]), "need", length(f.Length))}
	case f.Sink > 0:
		a["sink"] = length(f.Sink)
		return &Doubt{Key: "doubt.anchor-sink", Args: a}
	}
	return nil
}

// doubtLedger refuses a ledger whose anchors are too weak for it, as their own
// sheet has them.
func doubtLedger(v View, val event.Value) *Doubt {
	p := v.Plan().Plates
	if !val.Yes() || p == nil || p.Ledger == nil || p.Ledger.Status != calc.Over {
		return nil
	}
	return &Doubt{Key: "refuse.anchors-weak", Args: args("share", share(p.Ledger.Utilisation)), Refuse: true}
}

// doubtEndFalls looks at the fall measured at both end joists.
func doubtEndFalls(v View, val event.Value) *Doubt {
	if len(val.Nums) != 2 {
		return nil
	}
	low := event.Of("mm", math.Min(val.Nums[0], val.Nums[1]))
	if d := doubtFall(v, low); d != nil {
		return d
	}
	if diff := math.Abs(val.Nums[0] - val.Nums[1]); diff > 6 {
		return &Doubt{Key: "doubt.joists-twist", Args: args("diff", event.Of("mm", diff))}
	}
	return nil
}

// doubtBoardThick: OSB/3 18 mm to 600 mm centres, 15 mm only to 450 mm
// (NHBC Standards 2020 7.1.4).
func doubtBoardThick(v View, val event.Value) *Doubt {
	j := v.Plan().Joists
	limit := 0.0
	switch n := val.Num(); {
	case n < 15:
		limit = 0
	case n < 18:
		limit = 450
	default:
		limit = 610
	}
	if j != nil && float64(j.Centres) > limit || val.Num() < 15 {
		centres := event.Of("mm", 400)
		if j != nil {
			centres = length(j.Centres)
		}
		return &Doubt{Key: "doubt.board-thin", Args: args("thick", val, "centres", centres)}
	}
	return nil
}

// doubtDrip wants the trim's drip 30 to 55 mm past the fascia and not past half
// the gutter. Common practice, no source.
func doubtDrip(v View, val event.Value) *Doubt {
	d := v.with("batten-where", val).Plan().Drip
	if d == nil {
		return nil
	}
	a := args("drip", length(d.Drip), "least", length(d.Least), "most", length(d.Most))
	switch {
	case d.Drip < d.Least:
		return &Doubt{Key: "doubt.drip-short", Args: a}
	case d.Drip > d.Most:
		return &Doubt{Key: "doubt.drip-long", Args: a}
	}
	return nil
}

// upstandLeast is the least height of an upstand above the finished roof.
const upstandLeast = 150 * unit.Millimetre // BS 6229, NHBC 7.1, from memory

func doubtBoardTop(v View, val event.Value) *Doubt {
	joint := unit.Length(0)
	if u := v.Plan().Upstands; u != nil {
		joint = u.BedJoint
	}
	if joint > 0 && val.Num() > float64(joint)-10 {
		return &Doubt{Key: "doubt.board-covers-chase", Args: args("top", val, "want", length(joint-10)), Refuse: val.Num() >= float64(joint)}
	}
	return nil
}

func overlapsWant(v View) hear.Want {
	n := max(len(v.edges()), 1)
	return many(ranged(hear.SectionLength, 100, 600, 0, 3000), n, n)
}

// exitWant offers the edges one can leave the roof by.
func exitWant(v View) hear.Want {
	var keys []string
	for _, k := range []string{"gutter", "verge"} {
		if v.edge(k) {
			keys = append(keys, k)
		}
	}
	keys = append(keys, "window", "ladder-hatch")
	return choices(keys)
}

// lastAnswer offers what was said the last time the question was asked.
func lastAnswer(id string) func(View) (event.Value, bool) {
	return func(v View) (event.Value, bool) {
		set := v.S.Settled[id]
		return set.Value, set.Status == StepReopened && set.Value.Unit != ""
	}
}

package flow

import (
	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// pipesWant hears pipes as threes: diameter, distance to the left edge, distance
// to the gutter edge; or none.
func pipesWant(View) hear.Want {
	return many(ranged(hear.SectionLength, 40, 12000, 0, 20000), 3, 18)
}

// rooflightsWant hears rooflights as fours: length along the gutter, depth up
// the fall, distance to the left edge, distance to the gutter edge; or none.
func rooflightsWant(View) hear.Want {
	return many(ranged(hear.SectionLength, 100, 12000, 0, 20000), 4, 16)
}

// pipesOf and rooflightsOf read the lists as they are recorded.
func pipesOf(val event.Value) []plan.Pipe {
	var out []plan.Pipe
	for i := 0; i+2 < len(val.Nums); i += 3 {
		out = append(out, plan.Pipe{Dia: *lengthAt(val, i), X: *lengthAt(val, i+1), Y: *lengthAt(val, i+2)})
	}
	return out
}

func rooflightsOf(val event.Value) []plan.Rooflight {
	var out []plan.Rooflight
	for i := 0; i+3 < len(val.Nums); i += 4 {
		out = append(out, plan.Rooflight{Length: *lengthAt(val, i), Depth: *lengthAt(val, i+1), X: *lengthAt(val, i+2), Y: *lengthAt(val, i+3)})
	}
	return out
}

func doubtPipes(v View, val event.Value) *Doubt {
	if len(val.Nums)%3 != 0 {
		return &Doubt{Key: "refuse.pipes-threes", Args: args("n", whole(len(val.Nums))), Refuse: true}
	}
	return doubtOpenings(v.with(stepPipes, val), len(val.Nums) == 0)
}

func doubtRooflights(v View, val event.Value) *Doubt {
	if len(val.Nums)%4 != 0 {
		return &Doubt{Key: "refuse.rooflights-fours", Args: args("n", whole(len(val.Nums))), Refuse: true}
	}
	return doubtOpenings(v.with("rooflights", val), len(val.Nums) == 0)
}

// doubtOpenings looks at the free gap round every pipe and rooflight: 150 mm is
// ideal, under 75 a patch can't lie flat. Common practice, no source.
func doubtOpenings(v View, none bool) *Doubt {
	o := v.Plan().Outline
	if o == nil || none {
		return nil
	}
	openings := v.Plan().Openings
	for i := range openings {
		if _, err := o.Clearances(openings[i : i+1]); err != nil {
			at := openings[i].Centre
			return &Doubt{Key: "refuse.opening-outside", Args: args("x", length(at.X), "y", length(at.Y)), Refuse: true}
		}
	}
	gaps, err := o.Clearances(openings)
	if err != nil {
		return &Doubt{Key: "refuse.openings-overlap", Refuse: true}
	}
	if len(gaps) == 0 {
		return nil
	}
	least := gaps[0].Gap
	for _, g := range gaps {
		least = min(least, g.Gap)
	}
	a := args("gap", length(floor(least)))
	switch geom.RoomFor(least) {
	case geom.Unbondable:
		return &Doubt{Key: "doubt.pipe-25", Args: a}
	case geom.Tight:
		return &Doubt{Key: "doubt.pipe-75", Args: a}
	case geom.PatchFits:
		return &Doubt{Key: "doubt.pipe-150", Args: a}
	}
	return nil
}

package flow

import (
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

func freeEdges(v View) bool { return v.edge("gutter") || v.edge("verge") }

// copingsLifted says whether copings come off and go back on.
func copingsLifted(v View) bool { return parapets(v) && v.Pick("copings") == "lift" }

func edgesSteps() []Spec {
	const p = "edges"
	return []Spec{
		{ID: "trim-stock", Phase: p, Kind: Fact, Example: true, When: freeEdges, Want: fixed(many(ranged(hear.PlanLength, 2000, 5000, 1000, 6000), 1, 3)), Offer: offerNums("mm", 2500, 3000), Short: true,
			Into: func(in *plan.Inputs, val event.Value) {
				in.TrimStock = nil
				for _, n := range val.Nums {
					in.TrimStock = append(in.TrimStock, unit.Length(n))
				}
			}},
		{ID: "battens-on", Phase: p, Kind: Do, When: freeEdges, Needs: []string{"bond-hold"}, Tell: tellBattens, Cautions: []string{"edge-work"}},
		{ID: "trims-on", Phase: p, Kind: Do, When: freeEdges, Needs: []string{"battens-on", "trim-stock"}, Tell: tellTrims, Rests: []string{"trims"}, Risk: "weather"},
		{ID: "corners-on", Phase: p, Kind: Do, When: freeEdges, Needs: []string{"battens-on"}, Tell: tellCorners, Rests: []string{"trims"}, Risk: "weather"},
		{ID: "fascia-on", Phase: p, Kind: Do, When: func(v View) bool { return v.edge("gutter") }, Needs: []string{"battens-on"}, Tell: tellFascia, Risk: "looks"},
		{ID: "outlet", Phase: p, Kind: Fact, When: func(v View) bool { return v.edge("gutter") }, Want: pick("end", "middle", "both-ends"), Offer: offerWord("end"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.Outlet = val.Text }},
		{ID: "gutter-fall", Phase: p, Kind: Fact, When: func(v View) bool { return v.edge("gutter") }, Want: fixed(ranged(hear.Ratio, 1.0/600, 1.0/350, 0, 1.0/20)), Offer: offerNums("ratio", 1.0/500), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { f := unit.Fall(val.Num()); in.GutterFall = &f }},
		{ID: "gutter-on", Phase: p, Kind: Do, When: func(v View) bool { return v.edge("gutter") }, Needs: []string{"outlet", "gutter-fall", "fascia-on"}, Tell: tellGutter, Rests: []string{"gutter"}, Risk: "weather"},
		{ID: "edges-hold", Phase: p, Kind: Hold, When: freeEdges, Needs: []string{"trims-on", "corners-on"}, Risk: "weather", Rests: []string{"trims"}},
	}
}

func flashingSteps() []Spec {
	const p = "flashing"
	return []Spec{
		{ID: "cuts", Phase: p, Kind: Fact, Want: count(0, 12, 0, 60), Needs: []string{"bond-hold"},
			Offer: func(v View) (event.Value, bool) { return event.Of("count", float64(v.Plan().Patches)), true }, Cautions: []string{"primer"},
			Into: func(in *plan.Inputs, val event.Value) { n := int(val.Num()); in.Cuts = &n }},
		{ID: "patched", Phase: p, Kind: Fact, Want: count(0, 12, 0, 60), Needs: []string{"cuts"},
			When:  func(v View) bool { return v.num("cuts") > 0 },
			Offer: func(v View) (event.Value, bool) { return v.Value("cuts") },
			Doubt: func(v View, val event.Value) *Doubt {
				if left := v.num("cuts") - val.Num(); left != 0 {
					return &Doubt{Key: "refuse.cuts-open", Args: args("n", event.Of("count", left)), Refuse: true}
				}
				return nil
			}, Rests: []string{"cuts"}},
		{ID: "laps", Phase: p, Kind: Fact, Want: pick("uphill-on-top", "downhill-on-top"), When: func(v View) bool { return v.num("cuts") > 0 }, Needs: []string{"patched"},
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Text == "downhill-on-top" {
					return &Doubt{Key: "refuse.lap-upstream", Refuse: true}
				}
				return nil
			}},
		{ID: "bar-on", Phase: p, Kind: Do, When: walls, Needs: []string{"trim-hold"}, Tell: tellBar, Rests: []string{"bar"}, Risk: "weather"},
		{ID: "severe", Phase: p, Kind: Fact, When: walls, Offer: offerWordAs("yes", "no"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.Severe = val.Yes() }},
		{ID: "lead-code", Phase: p, Kind: Fact, When: walls, Example: true, Want: fixed(parts(1, ranged(hear.Count, 4, 5, 3, 8), ranged(hear.SectionLength, 150, 300, 100, 600))),
			More: []string{"lead-width"}, Needs: []string{"severe"}, Offer: offerNums("count", 4), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { n := int(val.Num()); in.LeadCode = &n }},
		{ID: "lead-width", Phase: p, Kind: Fact, When: walls, Want: sectionLength(150, 300, 100, 600), Needs: []string{"lead-code"}, Offer: offerLeadWidth, Doubt: doubtLeadWidth, Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.LeadWidth = mm(val) }},
		{ID: stepLead, Phase: p, Kind: Do, When: walls, Needs: []string{"bar-on", "lead-width"}, Tell: tellLead, Rests: []string{"lead"}, Risk: "weather", Cautions: []string{"lead"}},
		{ID: "pointing", Phase: p, Kind: Do, When: walls, Needs: []string{stepLead}, Risk: "weather"},
		{ID: "coping-size", Phase: p, Kind: Fact, Example: true, When: copingsLifted, Short: true, Want: sectionLengths(3, 3, 10, 900, 0, 3000), Doubt: doubtCoping,
			Offer: func(v View) (event.Value, bool) {
				size, ok := v.Value("parapet-size")
				if !ok || len(size.Nums) != 2 {
					return event.Value{}, false
				}
				return event.Of("mm", size.Nums[1]+2*(40+20), 600, 20), true // as wide as the throat wants it
			},
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 3 {
					in.CopingWidth, in.CopingPiece, in.CopingThroat = lengthAt(val, 0), lengthAt(val, 1), lengthAt(val, 2)
				}
			}},
		{ID: "copings-on", Phase: p, Kind: Do, When: copingsLifted, Needs: []string{"bond-hold", "coping-size"}, Tell: tellCoping, Rests: []string{"coping"}, Risk: "weather"},
		{ID: "flashing-hold", Phase: p, Kind: Hold, Needs: []string{"bond-hold", "cuts", "patched", "laps"}, Risk: "weather", Rests: []string{"cuts", "patched"}},
		{ID: stepHose, Phase: p, Kind: Timed, Want: tapsWant(stepHose), Needs: []string{"flashing-hold"}, Risk: "weather"},
	}
}

func aftercareSteps() []Spec {
	const p = "aftercare"
	return []Spec{
		{ID: "photos", Phase: p, Kind: Fact, Want: yesNo, Needs: []string{"bond-hold"}, Risk: "looks"},
		{ID: "papers", Phase: p, Kind: Fact, Want: textWant, Needs: []string{"bond-hold"}, Risk: "looks"},
		{ID: stepHandOver, Phase: p, Kind: Hold, Needs: []string{"flashing-hold", stepHose, "photos", "papers", "edges-hold"}, Tell: tellScore},
		{ID: "look", Phase: p, Kind: Timed, Needs: []string{stepHandOver}, Want: tapsWant(stepLook),
			When: func(v View) bool { return inspectionDue(v) != "" }},
	}
}

// altitudeWant hears a height above sea level; bare numbers are metres.
func altitudeWant(View) hear.Want { return ranged(hear.SiteLength, 0, 300000, 0, 1500000) }

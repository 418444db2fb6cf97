package flow

import (
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
	"chargehand/flow/talk"
)

// Steps that other files name.
const (
	stepLength    = "length"
	stepDepth     = "depth"
	stepEdges     = "edges"
	stepSpan      = "clear-span"
	stepPipes     = "pipes"
	stepAsbestos  = "asbestos"
	stepHandOver  = "hand-over"
	stepSpanGate  = "span-gate"
	stepBoard     = "board"
	stepJoist     = "joist"
	stepGrade     = "grade"
	stepCentres   = "centres"
	stepHands     = "hands"
	stepWindow    = "weather"
	stepBatches   = "batches"
	stepContact   = "contact"
	stepRelax     = "relax"
	stepHose      = "hose"
	stepLead      = "lead"
	stepUpstand   = "upstand"
	stepDelivered = "sheet-got"
	stepBefore    = "before"
	stepShape     = "shape"
	stepSides     = "sides"
)

func walls(v View) bool    { return v.edge("wall") }
func parapets(v View) bool { return v.edge("parapet") }
func pipes(v View) bool {
	val, ok := v.Value(stepPipes)
	return ok && len(val.Nums) > 0
}

// rectangle, fourSided and walked say how the outline is taped.
func rectangle(v View) bool { return v.Pick(stepShape) == "rectangle" }
func fourSided(v View) bool { return v.Pick(stepShape) == "four-sided" }
func walked(v View) bool    { return v.Pick(stepShape) == "walked" }

// shaped says whether the outline is known.
func shaped(v View) bool { return v.Plan().Outline != nil }

// size is the roof's length along the gutter and depth up the fall, over all.
func (v View) size() (length, depth unit.Length) {
	p := v.Plan()
	if p.Length == nil || p.Depth == nil {
		return 0, 0
	}
	return *p.Length, *p.Depth
}

// edge says whether any edge of the roof is of the kind.
func (v View) edge(kind string) bool {
	for _, k := range v.edges() {
		if k == kind {
			return true
		}
	}
	return false
}

func surveySteps() []Spec {
	const p = "survey"
	steps := []Spec{
		{ID: "way", Phase: p, Kind: Fact, Want: pick("full", "short"), Offer: offerWord("full"), Sets: "way"},
		{ID: "attached", Phase: p, Kind: Fact, Want: pick("detached", "attached", "integral"), Offer: offerWord("detached"), Short: true},
		{ID: "built", Phase: p, Kind: Fact, Want: pick("after-2000", "before-2000", "unknown"), Offer: offerWord("unknown"),
			Cautions: []string{"asbestos"}},
		{ID: "covering", Phase: p, Kind: Fact, Want: pick("felt", "metal", "cement", "timber", "none"), Needs: []string{"built"}},
		{ID: "suspect", Phase: p, Kind: Fact, When: old, Needs: []string{"built"}},
		{ID: stepAsbestos, Phase: p, Kind: Gate, Example: true, Want: textWant,
			Tell: func(View) *event.Told {
				t := told("asbestos-hold", nil, line("told.asbestos-hold"))
				t.Level = string(talk.Stop)
				return t
			}, Needs: []string{"built", "covering"},
			When: func(v View) bool {
				return old(v) && (v.Yes("suspect") || (v.Has("covering") && v.Pick("covering") != "none" && v.Pick("covering") != "timber"))
			}},
		{ID: "shared", Phase: p, Kind: Fact, Offer: offerWordAs("yes", "no"), Short: true},
		{ID: "use", Phase: p, Kind: Fact, Want: pick("unheated", "heated", "cold-roof"), Offer: offerWord("unheated"), Short: true,
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Text == "cold-roof" {
					return &Doubt{Key: "doubt.cold-roof"}
				}
				return nil
			},
			Into: func(in *plan.Inputs, val event.Value) { in.Use = val.Text }},
	}
	steps = append(steps, hungSteps(p)...)
	steps = append(steps, []Spec{
		{ID: stepHands, Phase: p, Kind: Fact, Want: count(1, 3, 1, 4), Offer: offerNums("count", 2),
			Into: func(in *plan.Inputs, val event.Value) { in.Hands = int(val.Num()) }},
		{ID: "guarded", Phase: p, Kind: Fact, Cautions: []string{"edge", "fragile"}},
		{ID: stepShape, Phase: p, Kind: Fact, Want: pick("rectangle", "four-sided", "walked"), Offer: offerWord("rectangle"),
			Into: func(in *plan.Inputs, val event.Value) { in.Shape = val.Text }},
		{ID: stepLength, Phase: p, Kind: Fact, When: rectangle, Needs: []string{stepShape}, More: []string{stepDepth},
			Want:     fixed(parts(1, ranged(hear.PlanLength, 2000, 9000, 500, 20000), ranged(hear.PlanLength, 1500, 5000, 500, 10000))),
			Cautions: []string{"measure"},
			Into:     func(in *plan.Inputs, val event.Value) { in.Length = mm(val) }},
		{ID: stepDepth, Phase: p, Kind: Fact, When: rectangle, Want: planLength(1500, 5000, 500, 10000), Needs: []string{stepLength},
			Into: func(in *plan.Inputs, val event.Value) { in.Depth = mm(val) }},
		{ID: stepSides, Phase: p, Kind: Fact, When: fourSided, Example: true, Want: planLengths(4, 4, 1500, 9000, 500, 20000), Needs: []string{stepShape}, Cautions: []string{"measure"},
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 4 {
					in.Sides = &[4]unit.Length{*lengthAt(val, 0), *lengthAt(val, 1), *lengthAt(val, 2), *lengthAt(val, 3)}
				}
			}},
		{ID: "diagonals", Phase: p, Kind: Fact, When: func(v View) bool { return rectangle(v) || fourSided(v) }, Example: true,
			Want: planLengths(2, 2, 1800, 11000, 700, 23000), Needs: []string{stepDepth, stepSides},
			Offer: func(v View) (event.Value, bool) {
				d := v.Plan().Diagonal
				if d == nil {
					return event.Value{}, false
				}
				n := round(*d)
				return event.Of("mm", n, n), true
			},
			Doubt: doubtSquare, Rests: []string{stepSides},
			Risk: "looks", Short: true,
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					in.Diagonals = &[2]unit.Length{unit.Length(val.Nums[0]), unit.Length(val.Nums[1])}
				}
			}},
		{ID: stepEdges, Phase: p, Kind: Fact, When: func(v View) bool { return rectangle(v) || fourSided(v) }, Example: true,
			Want: picksWant(4, "gutter", "verge", "wall", "parapet"), Needs: []string{stepDepth, "diagonals"},
			Offer: offerWord("gutter verge verge verge"), Doubt: doubtEdges,
			Into: func(in *plan.Inputs, val event.Value) { in.Edges = words(val.Text) }},
	}...)
	steps = append(steps, walkSteps(p)...)
	steps = append(steps, []Spec{
		{ID: stepSpan, Phase: p, Kind: Fact, Names: []string{"span"}, When: shaped, Want: planLength(1500, 4200, 400, 9800), Needs: []string{stepEdges},
			Doubt: func(v View, val event.Value) *Doubt {
				long, deep := v.size()
				if long = max(long, deep); unit.Length(val.Num()) > long {
					return &Doubt{Key: "refuse.span-outside", Args: args("side", event.Of("mm", float64(long))), Refuse: true}
				}
				return nil
			},
			Into: func(in *plan.Inputs, val event.Value) { in.ClearSpan = mm(val) }},
		{ID: "wall-face", Phase: p, Kind: Fact, When: walls, Want: pick("rough", "smooth", "rendered", "pebbledash", "timber"), Offer: offerWord("rough"), Short: true},
	}...)
	steps = append(steps, tallerSteps(p)...)
	steps = append(steps, []Spec{
		{ID: "copings", Phase: p, Kind: Fact, When: parapets, Want: pick("lift", "stay", "none"), Offer: offerWord("lift"),
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Text == "stay" {
					return &Doubt{Key: "doubt.copings-stay"}
				}
				return nil
			}},
		{ID: "parapet-size", Phase: p, Kind: Fact, Example: true, When: parapets, Want: sectionLengths(2, 2, 100, 600, 50, 1200), Offer: offerNums("mm", 250, 215),
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					in.ParapetHeight, in.ParapetTop = lengthAt(val, 0), lengthAt(val, 1)
				}
			}},
		{ID: "drop", Phase: p, Kind: Fact, When: shaped, Want: sectionLength(20, 250, 0, 300), Needs: []string{stepEdges},
			Offer: func(v View) (event.Value, bool) {
				if _, d := v.size(); d > 0 {
					return event.Of("mm", round(d/40)), true
				}
				return event.Value{}, false
			},
			Doubt: doubtFall, Rests: []string{"roof"}, Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.Drop = mm(val) }},
		{ID: stepPipes, Phase: p, Kind: Fact, None: true, When: shaped, Example: true, Want: pipesWant, Needs: []string{stepEdges},
			Offer: func(View) (event.Value, bool) { return event.Value{Unit: "mm"}, true },
			Doubt: doubtPipes,
			Into:  func(in *plan.Inputs, val event.Value) { in.Pipes = pipesOf(val) }},
		{ID: "rooflights", Phase: p, Kind: Fact, None: true, When: shaped, Example: true, Want: rooflightsWant, Needs: []string{stepEdges}, Short: true,
			Offer: func(View) (event.Value, bool) { return event.Value{Unit: "mm"}, true },
			Doubt: doubtRooflights,
			Into:  func(in *plan.Inputs, val event.Value) { in.Rooflights = rooflightsOf(val) }},
		{ID: "sill", Phase: p, Kind: Fact, When: walls, Want: sectionLength(0, 3000, 0, 9000), Offer: offerNums("mm", 0), Short: true,
			Doubt: func(_ View, val event.Value) *Doubt {
				if n := val.Num(); n > 0 && n < 150 {
					return &Doubt{Key: "doubt.sill", Args: args("sill", val)}
				}
				return nil
			}},
		facesStep(p),
		{ID: "overhead", Phase: p, Kind: Fact, Offer: offerWordAs("yes", "no"), Short: true},
		{ID: "below", Phase: p, Kind: Fact, Offer: offerWordAs("yes", "no")},
	}...)
	steps = append(steps, snowSteps(p)...)
	steps = append(steps, windSteps(p)...)
	return append(steps, []Spec{
		{ID: "tuck", Phase: p, Kind: Fact, Offer: offerWordAs("yes", "no"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.Tuck = val.Yes() }},
		{ID: stepBefore, Phase: p, Kind: Hold, Needs: []string{stepSpan, stepEdges, "drop", stepPipes, "guarded"},
			Doubt: func(v View, val event.Value) *Doubt {
				if val.Yes() && v.No("guarded") {
					return &Doubt{Key: "refuse.unguarded", Refuse: true}
				}
				return nil
			},
			Tell: tellRoof, Rests: []string{"roof", stepEdges, "drop", stepSpan}},
	}...)
}

// old says whether asbestos cannot be ruled out by the building's age.
func old(v View) bool { return v.Has("built") && v.Pick("built") != "after-2000" }

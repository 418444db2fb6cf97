package flow

import (
	"chargehand/calc/plan"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

func stands(v View) bool { return walls(v) || parapets(v) }

func upstandsSteps() []Spec {
	const p = "upstands"
	return []Spec{
		{ID: "upstand-fix", Phase: p, Kind: Do, When: stands, Needs: []string{"deck-hold"}, Tell: tellUpstands, Rests: []string{"upstands"}, Risk: "weather"},
		{ID: "chase", Phase: p, Kind: Fact, When: walls, Want: sectionLength(20, 25, 5, 60), Offer: offerNums("mm", 25), Needs: []string{"board-top"}, Tell: tellChase, Rests: []string{"chase"}, Cautions: []string{"chase"}, Risk: "weather",
			Doubt: func(_ View, val event.Value) *Doubt {
				switch n := val.Num(); {
				case n > 25:
					return &Doubt{Key: "doubt.chase-deep", Args: args("depth", val)}
				case n < 20:
					return &Doubt{Key: "doubt.chase-shallow", Args: args("depth", val)}
				}
				return nil
			}},
		{ID: "pipe-backed", Phase: p, Kind: Fact, When: pipes, Needs: []string{"deck-hold"}, Risk: "weather"},
		{ID: "dust-left", Phase: p, Kind: Fact, Want: yesNo, Offer: offerWordAs("yes", "no"), Needs: []string{"deck-hold"},
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Yes() {
					return &Doubt{Key: "refuse.dust-left", Refuse: true}
				}
				return nil
			}},
		{ID: "upstands-hold", Phase: p, Kind: Hold, Needs: []string{"deck-hold", "dust-left"}, Risk: "weather", Rests: []string{"upstands", stepUpstand, "bed-joint"},
			Weathers: true, Covered: stepContact},
	}
}

func membraneSteps() []Spec {
	const p = "membrane"
	return append(sheetSteps(), []Spec{
		{ID: stepRelax, Phase: p, Kind: Timed, Want: tapsWant(relaxTaps), Needs: []string{"sheet-order", stepDelivered, stepShort}, Cautions: []string{"sail"}},
		{ID: "overlaps", Phase: p, Kind: Fact, Example: true, Want: overlapsWant, Needs: []string{stepRelax}, Doubt: doubtOverlaps, Rests: []string{"sheet"}},
		{ID: "way-off", Phase: p, Kind: Fact, Want: exitWant, Needs: []string{stepRelax}, Cautions: []string{"no-trap"},
			Into: func(in *plan.Inputs, val event.Value) { in.Exit = val.Text }},
		{ID: "dry-hold", Phase: p, Kind: Hold, Needs: []string{"overlaps", "way-off"}, Risk: "weather", Rests: []string{"sheet", "overlaps"}, Weathers: true, Covered: stepBatches},
		{ID: "tin", Phase: p, Kind: Fact, Want: pick("wet", "two-face"), Offer: offerWord("wet"), Needs: []string{"dry-hold"}, Cautions: []string{"solvent"}, Must: true,
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Text == "two-face" {
					return &Doubt{Key: "refuse.wrong-tin", Refuse: true}
				}
				return nil
			}},
		{ID: "label", Phase: p, Kind: Fact, Example: true, Want: fixed(parts(1, ranged(hear.Minutes, 3, 60, 1, 240), ranged(hear.Temperature, 5, 30, -5, 45))),
			More: []string{"label-temp"}, Needs: []string{"tin"}, Offer: offerNums("min", 15), Must: true,
			Into: func(in *plan.Inputs, val event.Value) { in.LabelMin = number(val) }},
		{ID: "label-temp", Phase: p, Kind: Fact, Want: fixed(ranged(hear.Temperature, 5, 30, -5, 45)), Needs: []string{"label"}, Offer: offerNums("celsius", 20), Short: true, Must: true,
			Into: func(in *plan.Inputs, val event.Value) { in.LabelC = number(val) }},
		{ID: "deck-temp", Phase: p, Kind: Fact, Want: fixed(ranged(hear.Temperature, 5, 60, -20, 85)), Needs: []string{"label-temp"}, Must: true, Offer: lastAnswer("deck-temp"),
			Into: func(in *plan.Inputs, val event.Value) { in.SurfaceC = number(val) }},
		{ID: "air-temp", Phase: p, Kind: Fact, Want: fixed(ranged(hear.Temperature, 3, 38, -20, 50)), Needs: []string{"label-temp"}, Must: true, Offer: lastAnswer("air-temp"),
			Into: func(in *plan.Inputs, val event.Value) { in.AirC = number(val) }},
		{ID: "night", Phase: p, Kind: Fact, Want: fixed(ranged(hear.Temperature, -5, 25, -30, 45)), Needs: []string{"label-temp"}, Must: true,
			Into: func(in *plan.Inputs, val event.Value) { in.NightC = number(val) }},
		{ID: "damp", Phase: p, Kind: Fact, Want: pick("dry", "normal", "damp"), Needs: []string{"label-temp"}, Must: true, Offer: lastAnswerOr("damp", event.Word("pick", "normal")),
			Into: func(in *plan.Inputs, val event.Value) { in.Damp = val.Text }},
		{ID: "wind", Phase: p, Kind: Fact, Want: pick("calm", "breeze", "windy"), Needs: []string{"label-temp"}, Must: true, Offer: lastAnswerOr("wind", event.Word("pick", "breeze")),
			Into: func(in *plan.Inputs, val event.Value) { in.Wind = val.Text }},
		{ID: "rain-in", Phase: p, Kind: Fact, Want: pick("none", "within-3h", "now"), Needs: []string{"label-temp"}, Must: true, Offer: offerWord("none"),
			Into: func(in *plan.Inputs, val event.Value) { in.Rain = val.Text }},
		{ID: "go", Phase: p, Kind: Hold, Needs: []string{"dry-hold", "deck-temp", "air-temp", "night", "damp", "wind", "rain-in"}, Tell: tellGo, Doubt: doubtGo, Rests: []string{"go"}, Weathers: true, Covered: stepBatches},
		{ID: stepBatches, Phase: p, Kind: Timed, Want: tapsWant(batchTaps), Needs: []string{"go"}, Tell: tellBatch, Cautions: []string{"kneel", "heat"}},
		{ID: "bond-hold", Phase: p, Kind: Hold, Needs: []string{stepBatches}, Risk: "weather"},
		{ID: "contact-label", Phase: p, Kind: Fact, Example: true, Want: fixed(many(ranged(hear.Minutes, 3, 120, 1, 300), 2, 2)), Needs: []string{stepBatches}, Offer: offerNums("min", 15, 45),
			Doubt: func(_ View, val event.Value) *Doubt {
				if len(val.Nums) == 2 && val.Nums[0] >= val.Nums[1] {
					return &Doubt{Key: "refuse.label-order", Refuse: true}
				}
				return nil
			},
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					d, m := val.Nums[0], val.Nums[1]
					in.ContactDry, in.ContactMax = &d, &m
				}
			}},
		{ID: "face-temps", Phase: p, Kind: Fact, Example: true, Want: fixed(many(ranged(hear.Temperature, 5, 60, -10, 85), 2, 2)), Needs: []string{"contact-label"},
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					a, b := val.Nums[0], val.Nums[1]
					in.WallC, in.RubberC = &a, &b
				}
			}},
		{ID: stepContact, Phase: p, Kind: Timed, Want: tapsWant(contactTaps), Needs: []string{"face-temps", stepBatches}, Tell: tellContact, Cautions: []string{"solvent"}},
		{ID: "trim-hold", Phase: p, Kind: Hold, Needs: []string{stepContact}, Risk: "weather"},
	}...)
}

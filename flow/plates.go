package flow

import (
	"chargehand/calc/plan"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

func bolted(v View) bool { return v.Pick("plate") == "ledger" }

func platesSteps() []Spec {
	const p = "plates"
	return []Spec{
		{ID: "plate", Phase: p, Kind: Fact, Want: pick("on-wall", "ledger", "hangers"), Needs: []string{stepBefore},
			Offer: func(v View) (event.Value, bool) {
				if walls(v) {
					return event.Word("pick", "ledger"), true
				}
				return event.Word("pick", "on-wall"), true
			},
			Cautions: []string{"dust", "services"},
			Into:     func(in *plan.Inputs, val event.Value) { in.Plate = val.Text }},
		{ID: "wall-kind", Phase: p, Kind: Fact, Want: pick("brick", "hollow", "block", "stone", "timber"), Needs: []string{"plate"},
			Offer: offerWord("brick"), Short: true,
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Text == "hollow" {
					return &Doubt{Key: "doubt.hollow"}
				}
				return nil
			}},
		{ID: "plate-size", Phase: p, Kind: Fact, Example: true, Want: sectionLengths(2, 2, 38, 250, 25, 300), Needs: []string{"plate"},
			Offer: func(v View) (event.Value, bool) {
				if bolted(v) {
					return event.Of("mm", 47, 145), true
				}
				return event.Of("mm", 100, 50), true
			},
			Short: true,
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					in.PlateWidth, in.PlateHeight = lengthAt(val, 0), lengthAt(val, 1)
				}
			}},
		{ID: "anchor", Phase: p, Kind: Fact, Want: pick("resin", "sleeve", "through", "screws", "straps-only"), Needs: []string{"plate"},
			Offer: offerWord("resin"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.Anchor = val.Text }},
		{ID: "anchor-size", Phase: p, Kind: Fact, Example: true, Want: fixed(many(ranged(hear.SectionLength, 6, 200, 4, 400), 3, 3)), Needs: []string{"anchor"},
			When:  func(v View) bool { return v.Has("anchor") && v.Pick("anchor") != "straps-only" },
			Doubt: doubtFixture, Risk: "structure",
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 3 {
					in.AnchorDia, in.AnchorLength, in.AnchorHolds = lengthAt(val, 0), lengthAt(val, 1), lengthAt(val, 2)
				}
			}},
		{ID: "plate-fix", Phase: p, Kind: Do, Needs: []string{"plate-size", "anchor"}, Tell: tellPlates, Rests: []string{"plates"}},
		{ID: "plate-level", Phase: p, Kind: Fact, Want: sectionLength(0, 300, 0, 400), Needs: []string{"plate-fix"},
			Offer: func(v View) (event.Value, bool) { return v.Value("drop") },
			Doubt: doubtFall, Rests: []string{"drop"},
			Into: func(in *plan.Inputs, val event.Value) { in.Drop = mm(val) }},
		{ID: "dpc", Phase: p, Kind: Fact, Offer: offerWordAs("yes", "yes"), Short: true, Risk: "weather"},
		{ID: "straps", Phase: p, Kind: Do, Tell: tellStraps, Needs: []string{"plate-fix"}, Risk: "structure", Rests: []string{"straps"}},
		{ID: "plates-hold", Phase: p, Kind: Hold, Needs: []string{"plate-level", "dpc", "straps"}, Risk: "structure",
			Rests: []string{"plates", stepSpan, stepLength}},
	}
}

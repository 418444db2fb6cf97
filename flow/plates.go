package flow

import (
	"chargehand/calc/plan"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

func bolted(v View) bool { return v.Pick("plate") == "ledger" }

func anchored(v View) bool { return v.Has("anchor") && v.Pick("anchor") != "straps-only" }

// ledgerAnchored says whether anchors carry joists, rather than hold down a
// plate that lies on its wall.
func ledgerAnchored(v View) bool {
	p := v.Plan().Plates
	return anchored(v) && p != nil && len(p.Ledgers) > 0
}

// strapped says whether a plate lies on a wall: a ledger is held by its anchors.
func strapped(v View) bool {
	p := v.Plan().Plates
	return p == nil || p.Straps > 0
}

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
			},
			Into: func(in *plan.Inputs, val event.Value) { in.Wall = val.Text }},
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
		{ID: "anchor-size", Phase: p, Kind: Fact, Example: true, Needs: []string{"anchor"}, When: anchored,
			Want:  fixed(parts(3, ranged(hear.SectionLength, 6, 20, 5, 30), ranged(hear.SectionLength, 60, 250, 30, 500), ranged(hear.SectionLength, 10, 200, 1, 400))),
			Doubt: doubtFixture, Risk: "structure",
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 3 {
					in.AnchorDia, in.AnchorLength, in.AnchorHolds = lengthAt(val, 0), lengthAt(val, 1), lengthAt(val, 2)
				}
			}},
		{ID: "anchor-kn", Phase: p, Kind: Fact, Unit: "kn", None: true, Unsure: true, Example: true, When: ledgerAnchored, Needs: []string{"anchor-size"}, Short: true,
			Want:  fixed(parts(1, ranged(hear.Number, 0.5, 20, 0.05, 100), ranged(hear.Number, 0.5, 20, 0.05, 100))),
			Offer: func(View) (event.Value, bool) { return event.Of("kn"), true },
			Into: func(in *plan.Inputs, val event.Value) {
				in.AnchorShear, in.AnchorPull = forceAt(val, 0), forceAt(val, 1)
			}},
		{ID: "anchor-kind", Phase: p, Kind: Fact, Want: pick("design", "recommended", "unknown"), Needs: []string{"anchor-kn"},
			When: func(v View) bool { return ledgerAnchored(v) && v.num("anchor-kn") > 0 },
			Into: func(in *plan.Inputs, val event.Value) { in.AnchorKind = val.Text }},
		{ID: "plate-fix", Phase: p, Kind: Do, Needs: []string{"plate-size", "anchor", "anchor-kn", "anchor-kind"}, Tell: tellPlates, Doubt: doubtLedger, Rests: []string{"plates"}},
		{ID: "plate-level", Phase: p, Kind: Fact, Want: sectionLength(0, 300, 0, 400), Needs: []string{"plate-fix"},
			Offer: func(v View) (event.Value, bool) { return v.Value("drop") },
			Doubt: doubtFall, Rests: []string{"drop"},
			Into: func(in *plan.Inputs, val event.Value) { in.Drop = mm(val) }},
		{ID: "dpc", Phase: p, Kind: Fact, Offer: offerWordAs("yes", "yes"), Short: true, Risk: "weather"},
		{ID: "strap-kn", Phase: p, Kind: Fact, Unit: "kn", None: true, Unsure: true, Example: true, Needs: []string{"plate"}, Short: true,
			When:  func(v View) bool { return strapped(v) && v.Plan().Wind != nil },
			Want:  measured(1, 20, 0.05, 100),
			Offer: func(View) (event.Value, bool) { return event.Of("kn"), true },
			Into:  func(in *plan.Inputs, val event.Value) { in.StrapHolds = forceAt(val, 0) }},
		{ID: "straps", Phase: p, Kind: Do, Tell: tellStraps, When: strapped, Needs: []string{"plate-fix", "strap-kn"}, Risk: "structure", Rests: []string{"straps"}},
		{ID: "plates-hold", Phase: p, Kind: Hold, Needs: []string{"plate-level", "dpc", "straps"}, Risk: "structure",
			Rests: []string{"plates", stepSpan, stepLength}},
	}
}

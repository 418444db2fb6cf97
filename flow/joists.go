package flow

import (
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

func joistsSteps() []Spec {
	const p = "joists"
	return []Spec{
		{ID: stepBoard, Phase: p, Kind: Fact, Names: []string{"boards"}, Needs: []string{stepBefore},
			Want: fixed(parts(2, hear.Want{Kind: hear.BoardLength, Range: hear.Range{SoftMin: 1800, SoftMax: 3100, HardMin: 600, HardMax: 6000}},
				hear.Want{Kind: hear.BoardWidth, Range: hear.Range{SoftMin: 590, SoftMax: 1250, HardMin: 300, HardMax: 1500}})),
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					in.BoardLength, in.BoardWidth = lengthAt(val, 0), lengthAt(val, 1)
				}
			}},
		{ID: stepCentres, Phase: p, Kind: Fact, Names: []string{"joist centres"}, Want: pick("400", "600"), Offer: offerWord("400"), Needs: []string{stepBoard}, Short: true,
			Into: func(in *plan.Inputs, val event.Value) {
				// What the trade calls 400 and 600 allows the board module a little over.
				limit := 410 * unit.Millimetre
				if val.Text == "600" {
					limit = 601
				}
				in.MaxCentres = &limit
			}},
		{ID: "grade", Phase: p, Kind: Fact, Want: pick("C16", "C24", "unknown"), Offer: offerWord("C16"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) {
				in.Grade = val.Text
				if val.Text == "unknown" {
					in.Grade = "C16" // the weaker of the two in the yard
				}
			}},
		{ID: stepJoist, Phase: p, Kind: Fact, Example: true, Names: []string{"joist size", "joists"}, Want: sectionLengths(2, 2, 38, 250, 30, 320),
			Needs: []string{stepBoard, stepCentres, "grade", stepSpan}, Tell: tellChoice,
			Offer: offerJoist, Rests: []string{stepSpan},
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					in.JoistB, in.JoistH = lengthAt(val, 0), lengthAt(val, 1)
				}
			}},
		{ID: stepSpanGate, Phase: p, Kind: Gate, Example: true, Want: textWant,
			When: func(v View) bool { return v.Plan().Span != nil && v.Plan().Span.Over() },
			Tell: tellSpan, Rests: []string{"span"}},
		{ID: "joist-fix", Phase: p, Kind: Fact, Want: pick("hanger", "skew-strap", "clip"), Needs: []string{stepJoist},
			Offer: func(v View) (event.Value, bool) {
				if bolted(v) || v.Pick("plate") == "hangers" {
					return event.Word("pick", "hanger"), true
				}
				return event.Word("pick", "skew-strap"), true
			}, Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.JoistFix = val.Text }},
		{ID: "joist-order", Phase: p, Kind: Do, Needs: []string{stepJoist, "joist-fix"}, Tell: tellJoistOrder, Rests: []string{"joists", "span", stepJoist}, Short: true,
			Offer: offerWordAs("yes", "yes"), Risk: "looks"},
		{ID: "joist-damp", Phase: p, Kind: Fact, Want: fixed(ranged(hear.Percent, 8, 24, 4, 60)), Needs: []string{"joist-order"}, Risk: "structure",
			Offer: offerNums("pct", 18), Short: true,
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Num() > 20 {
					return &Doubt{Key: "doubt.joist-damp", Args: args("damp", val)}
				}
				return nil
			}},
		{ID: "joist-marks", Phase: p, Kind: Do, Needs: []string{"joist-order"}, Tell: tellMarks, Rests: []string{"joists"}, Cautions: []string{"open-joists"}},
		{ID: "joist-set", Phase: p, Kind: Do, Needs: []string{"joist-marks"}, Tell: tellSpan, Rests: []string{"joists", "span"}, Cautions: []string{"lift"}},
		{ID: "joist-falls", Phase: p, Kind: Fact, Example: true, Want: sectionLengths(2, 2, 10, 250, 0, 300), Needs: []string{"joist-set"},
			Offer: func(v View) (event.Value, bool) {
				if d, ok := v.Value("plate-level"); ok {
					return event.Of("mm", d.Num(), d.Num()), true
				}
				return event.Value{}, false
			},
			Doubt: doubtJoistFalls, Rests: []string{stepDepth}, Risk: "weather"},
		{ID: "deck-edges", Phase: p, Kind: Fact, Want: pick("noggins", "tongue"), Offer: offerWord("noggins"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.Noggins = val.Text == "noggins" }},
		{ID: "strutting", Phase: p, Kind: Do, Needs: []string{"joist-set", "deck-edges"}, Tell: tellStrutting, Rests: []string{"strutting"}, Risk: "structure"},
		{ID: "joists-hold", Phase: p, Kind: Hold, Needs: []string{"joist-falls", "joist-set", "strutting"}, Risk: "structure",
			Rests: []string{"joists", "span"}},
	}
}

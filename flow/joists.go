package flow

import (
	"strings"

	"chargehand/calc/plan"
	"chargehand/calc/takeoff"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

func joistsSteps() []Spec {
	const p = "joists"
	return []Spec{
		{ID: "joists-stay", Phase: p, Kind: Fact, Want: pick("joists-new", "joists-old"), Offer: offerWord("joists-new"), Short: true, Needs: []string{stepBefore},
			Into: func(in *plan.Inputs, val event.Value) {
				if in.OldJoists = val.Text == "joists-old"; in.OldJoists {
					limit := plan.ClassLimit(600)
					in.MaxCentres = &limit
				}
			}},
		{ID: "joist-way", Phase: p, Kind: Fact, Want: pick("joists-up", "joists-short"), Offer: offerWord("joists-up"), Short: true, Needs: []string{stepBefore},
			When: func(v View) bool { return walked(v) && !oldJoists(v) && !v.rectangular() },
			Into: func(in *plan.Inputs, val event.Value) {
				if val.Text == "joists-short" {
					in.JoistWay = "short"
				}
			}},
		{ID: stepBoard, Phase: p, Kind: Fact, Names: []string{"boards"}, Needs: []string{stepBefore},
			Want: fixed(parts(2, hear.Want{Kind: hear.BoardLength, Range: hear.Range{SoftMin: 1800, SoftMax: 3100, HardMin: 600, HardMax: 6000}},
				hear.Want{Kind: hear.BoardWidth, Range: hear.Range{SoftMin: 590, SoftMax: 1250, HardMin: 300, HardMax: 1500}})),
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					in.BoardLength, in.BoardWidth = lengthAt(val, 0), lengthAt(val, 1)
				}
			}},
		{ID: stepCentres, Phase: p, Kind: Fact, Names: []string{"joist centres"}, Want: pick("400", "600"), Offer: offerWord("400"), Needs: []string{stepBoard}, Short: true, When: newJoists,
			Into: func(in *plan.Inputs, val event.Value) {
				class := 400
				if val.Text == "600" {
					class = 600
				}
				limit := plan.ClassLimit(class)
				in.MaxCentres = &limit
			}},
		{ID: stepGrade, Phase: p, Kind: Fact, Want: pick("C16", "C24", "unknown"), Offer: offerWord("C16"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) {
				in.Grade = val.Text
				if val.Text == "unknown" {
					in.Grade = "C16" // the weaker of the two in the yard
				}
			}},
		{ID: stepJoist, Phase: p, Kind: Fact, Example: true, Names: []string{"joist size", "joists"}, Want: sectionLengths(2, 2, 38, 250, 30, 320),
			Needs: append([]string{stepBoard, stepCentres, stepGrade, stepSpan}, onJoist...), Tell: tellChoice,
			Offer: offerJoist, Doubt: doubtJoist, Rests: []string{stepSpan, stepCentres, stepGrade},
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					in.JoistB, in.JoistH = lengthAt(val, 0), lengthAt(val, 1)
				}
			}},
		{ID: stepSpanGate, Phase: p, Kind: Gate, Example: true, Want: textWant,
			When: spanHolds, Tell: tellSpan, Also: tellChoice, Rests: []string{"span"}},
		{ID: "joist-fix", Phase: p, Kind: Fact, Want: pick("hanger", "skew-strap", "clip"), Needs: []string{stepJoist}, Tell: tellSpan, When: newJoists,
			Offer: func(v View) (event.Value, bool) {
				if bolted(v) || v.Pick("plate") == "hangers" {
					return event.Word("pick", "hanger"), true
				}
				return event.Word("pick", "skew-strap"), true
			}, Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.JoistFix = val.Text }},
		{ID: "deck-edges", Phase: p, Kind: Fact, Want: pick("noggins", "tongue"), Offer: offerWord("noggins"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.Noggins = val.Text == "noggins" }},
		{ID: "joist-order", Phase: p, Kind: Do, When: newJoists, Needs: []string{stepJoist, "joist-fix", "deck-edges"}, Tell: tellJoistOrder, Holds: []takeoff.Key{takeoff.JoistTimber}, Rests: []string{"joists", "span", stepJoist}, Short: true,
			Offer: offerWordAs("yes", "yes"), Risk: "looks"},
		{ID: "joist-damp", Phase: p, Kind: Fact, Want: fixed(ranged(hear.Percent, 8, 24, 4, 60)), Needs: []string{"joist-order"}, Risk: "structure",
			Offer: offerNums("pct", 18), Short: true,
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Num() > 20 {
					return &Doubt{Key: "doubt.joist-damp", Args: args("damp", val)}
				}
				return nil
			}},
		{ID: "joist-marks", Phase: p, Kind: Do, When: newJoists, Needs: []string{"joist-order"}, Tell: tellMarks, Rests: []string{"joists"}, Cautions: []string{"open-joists"}},
		{ID: "joist-set", Phase: p, Kind: Do, When: newJoists, Needs: []string{"joist-marks"}, Tell: tellSet, Doubt: doubtUnjudged, Rests: []string{"joists", "span"}, Cautions: []string{"lift"}},
		{ID: stepTaped, Phase: p, Kind: Fact, Example: true, Short: true, Want: fixed(many(ranged(hear.SectionLength, 0, 0, 0, 20500), 3, 60)), Needs: []string{stepJoist, "joist-set"}, Risk: "structure",
			When: onePart, Offer: offerMarks, Doubt: doubtTaped, Rests: []string{"joists"},
			Into: func(in *plan.Inputs, val event.Value) { in.Measured = lengthsOf(val) }},
		{ID: stepCure, Phase: p, Kind: Fact, Needs: []string{stepTaped}, Must: true, Want: cureWant, Offer: offerCure, Tell: tellTaped, Rests: []string{stepTaped},
			When: func(v View) bool { s := v.Plan().Standing; return s != nil && len(s.Options) > 0 },
			Into: func(in *plan.Inputs, val event.Value) { in.JoistCure = strings.TrimPrefix(val.Text, "cure-") }},
		{ID: "joist-falls", Phase: p, Kind: Fact, Example: true, Want: fixed(many(ranged(hear.SectionLength, 0, 0, 0, 3000), 2, 100)), Needs: []string{"joist-set", stepTaped},
			Offer: func(v View) (event.Value, bool) {
				if d, ok := v.Value("plate-level"); ok {
					return event.Of("mm", d.Num(), d.Num()), true
				}
				return event.Value{}, false
			},
			Doubt: doubtJoistFalls, Tell: tellOldSpan, Rests: []string{stepDepth}, Risk: "weather",
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) > 2 {
					in.Levels = lengthsOf(val)
				}
			}},
		{ID: "strutting", Phase: p, Kind: Do, Needs: []string{"joist-set", "deck-edges"}, Tell: tellStrutting, Rests: []string{"strutting", "restraint"}, Risk: "structure"},
		{ID: "joists-hold", Phase: p, Kind: Hold, Needs: []string{"joist-falls", "joist-set", stepTaped, stepCure, "strutting"}, Tell: tellCured, Risk: "structure",
			Doubt: doubtUnjudged, Rests: []string{"joists", "span"}},
	}
}

// spanHolds says whether the joists hold the job: a size has been settled, and
// either it is over a limit or there is no verdict on it at all, because
// something was passed over or lies outside what the formulas hold for. Joists
// are not set unchecked.
func spanHolds(v View) bool {
	switch v.S.Settled[stepJoist].Status {
	case StepAnswered, StepSkipped, StepPutOff, StepReopened:
		if taped, ok := Lookup(stepTaped); ok && oldJoists(v) && v.unsettled(taped) {
			return false // how far apart they stand is still to be taped
		}
		s := v.Plan().Span
		return s == nil || s.Over()
	}
	return false
}

// doubtUnjudged refuses to set joists, or to pass them, while they hold the job.
// The gate comes first whatever the phase; this stands behind it.
func doubtUnjudged(v View, val event.Value) *Doubt {
	if val.Yes() && spanHolds(v) && !v.Has(stepSpanGate) {
		return &Doubt{Key: "refuse.span-open", Refuse: true}
	}
	return nil
}

// doubtJoist looks at the fall once the joists have sagged for good: creep takes
// from it at the low end.
func doubtJoist(v View, val event.Value) *Doubt {
	s := v.with(stepJoist, val).Plan().Span
	if s == nil || s.Over() || !s.Ponds {
		return nil
	}
	return &Doubt{Key: "doubt.sag-ponds", Args: args("sag", length(s.LastingSag), "left", event.Of("ratio", float64(*s.FallLeft)))}
}

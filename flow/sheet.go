package flow

import (
	"math"
	"slices"

	"chargehand/calc/plan"
	"chargehand/calc/sheet"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// oneWidth is the narrowest sheet that need not be asked about: suppliers cut one
// piece up to some width, and most cut this. From memory.
const oneWidth = 4500 * unit.Millimetre

// onePiece says whether the roof is covered without a seam.
func onePiece(v View) bool {
	s := v.Plan().Sheet
	return s == nil || s.Pieces() == 1
}

// sheetSteps order the sheet and see whether what came is enough.
func sheetSteps() []Spec {
	const p = "membrane"
	return []Spec{
		{ID: "sheet-step", Phase: p, Kind: Fact, Want: sectionLength(100, 500, 1, 1000), Offer: offerNums("mm", 100), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.SheetStep = mm(val) }},
		{ID: "sheet-widths", Phase: p, Kind: Fact, Example: true, None: true, Short: true, Want: planLengths(1, 8, 900, 16000, 900, 20000),
			When: func(v View) bool {
				s := v.Plan().Sheet
				return s != nil && min(s.Length, s.Width) > oneWidth
			},
			Offer: func(View) (event.Value, bool) { return event.Value{Unit: "mm"}, true },
			Doubt: doubtWidths,
			Into: func(in *plan.Inputs, val event.Value) {
				in.SheetWidths = nil
				for _, n := range val.Nums {
					in.SheetWidths = append(in.SheetWidths, unit.Length(n))
				}
			}},
		{ID: "sheet-order", Phase: p, Kind: Do, Needs: []string{"upstands-hold", "sheet-widths"}, Tell: tellSheet, Rests: []string{"sheet"}},
		{ID: stepDelivered, Phase: p, Kind: Fact, Example: true, When: onePiece, Want: planLengths(2, 2, 1500, 12000, 500, 25000), Needs: []string{"sheet-order"},
			Offer: offerSheet, Doubt: doubtTight,
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					in.SheetLength, in.SheetWidth = lengthAt(val, 0), lengthAt(val, 1)
				}
			}},
		{ID: stepShort, Phase: p, Kind: Fact, Needs: []string{stepDelivered}, Must: true, Want: remedyWant, Offer: offerRemedy, Tell: tellShort, Rests: []string{stepDelivered},
			When: func(v View) bool { s := v.Plan().Sheet; return s != nil && s.Short > 0 },
			Into: func(in *plan.Inputs, val event.Value) { in.SheetRemedy = val.Text }},
	}
}

// stepShort asks what is done about a sheet that came too small.
const stepShort = "sheet-short"

// doubtWidths refuses widths whose seams can't keep clear of pipes and the gutter.
func doubtWidths(v View, val event.Value) *Doubt {
	if len(val.Nums) == 0 {
		return nil
	}
	if _, bad := v.with("sheet-widths", val).Plan().Faults["sheet-strips"]; bad {
		return &Doubt{Key: "refuse.widths", Refuse: true}
	}
	return nil
}

func tellSheet(v View) *event.Told {
	s := v.Plan().Sheet
	if s == nil {
		return nil
	}
	mass, hands := event.Of("kg", math.Ceil(float64(s.Mass))), whole(s.Hands)
	t := told("sheet", v.Plan().Formulas("sheet"))
	if n := s.Pieces(); n > 1 {
		t.Lines = append(t.Lines, line("told.strips", "n", whole(n), "run", key("run."+string(s.Run)), "mass", mass, "hands", hands))
		for i, st := range s.Strips {
			t.Lines = append(t.Lines, line("told.sheet-strip", "n", whole(i+1), "length", length(st.Length), "width", length(st.Width)))
		}
		for _, seam := range s.Seams {
			t.Lines = append(t.Lines, line("told.seam."+string(s.Run), "from", length(seam.From), "to", length(seam.To)))
		}
	} else {
		t.Lines = append(t.Lines, line("told.sheet", "length", length(s.Length), "width", length(s.Width), "mass", mass, "hands", hands))
	}
	t.Lines = append(t.Lines, line("told.allow", "allow", lengths(s.Allow)))
	if len(s.Offcuts) > 0 {
		big := s.Offcuts[0]
		t.Lines = append(t.Lines, line("told.offcuts", "n", whole(len(s.Offcuts)), "length", length(floor(big.Length())), "depth", length(floor(big.Depth()))))
	}
	return t
}

func offerSheet(v View) (event.Value, bool) {
	s := v.Plan().Sheet
	if s == nil {
		return event.Value{}, false
	}
	return event.Of("mm", round(s.Length), round(s.Width)), true
}

// doubtTight says so when less came than was ordered, but enough.
func doubtTight(v View, val event.Value) *Doubt {
	if len(val.Nums) != 2 {
		return nil
	}
	s := v.with(stepDelivered, val).Plan().Sheet
	if s == nil || s.Short > 0 {
		return nil
	}
	long, wide := unit.Length(val.Nums[0]), unit.Length(val.Nums[1])
	if long < wide != (s.Length < s.Width) {
		long, wide = wide, long // it is turned as it is laid
	}
	if less := max(s.Length-long, s.Width-wide); less > 0 {
		return &Doubt{Key: "doubt.sheet-tight", Args: args("less", length(less))}
	}
	return nil
}

// tellShort says how much is missing where, and what each cure would take.
func tellShort(v View) *event.Told {
	s := v.Plan().Sheet
	if s == nil || s.Short <= 0 {
		return nil
	}
	t := told("sheet-short", v.Plan().Formulas("sheet"), line("told.short", "short", length(up(s.Short)), "length", length(s.Length), "width", length(s.Width)))
	for _, l := range s.Lacks {
		t.Lines = append(t.Lines, lackLines(l)...)
	}
	return t
}

// lackLines say of one short edge what is missing and what would cure it.
func lackLines(l plan.Lack) []event.Line {
	out := []event.Line{line("told.lack", "edge", whole(l.Edge+1), "short", length(up(l.Short)))}
	for _, a := range l.Acts {
		if a.Act != sheet.Reorder {
			out = append(out, line("told.cure."+string(a.Act), "by", length(up(a.By))))
		}
	}
	return out
}

func up(l unit.Length) unit.Length { return unit.Length(math.Ceil(float64(l) - 1e-6)) }

// remedyWant offers what would cure every short edge, the least work first.
func remedyWant(v View) hear.Want {
	keys := []string{string(sheet.Reorder)}
	if s := v.Plan().Sheet; s != nil && len(s.Remedies) > 0 {
		keys = nil
		for _, a := range s.Remedies {
			keys = append(keys, string(a))
		}
	}
	return choices(keys)
}

// offerRemedy is the cure that takes the least work.
func offerRemedy(v View) (event.Value, bool) {
	return event.Word("pick", remedyWant(v).Choices[0].Key), true
}

// remedied does what a remedy brings: another sheet is taped again when it comes.
func (t *turn) remedied(val event.Value) {
	if val.Text == string(sheet.Reorder) {
		t.emit(event.Reopened{Steps: []string{stepDelivered}, Because: stepShort})
	}
}

// patched says whether a strip is bonded on where the sheet is short.
func patched(v View) bool { return v.Pick(stepShort) == string(sheet.AddTo) }

// doubtOverlaps wants each edge's overlap to reach what that edge needs. An edge
// that a strip can be bonded to is kept after a yes, with the strip.
func doubtOverlaps(v View, val event.Value) *Doubt {
	var have []unit.Length
	for _, n := range val.Nums {
		have = append(have, unit.Length(n))
	}
	lacks := plan.Lacking(Inputs(v.S), have)
	if patched(v) {
		lacks = slices.DeleteFunc(lacks, func(l plan.Lack) bool {
			return slices.ContainsFunc(l.Acts, func(r sheet.Remedy) bool { return r.Act == sheet.AddTo })
		})
	}
	if len(lacks) == 0 {
		return nil
	}
	l := lacks[0]
	a := args("edge", whole(l.Edge+1), "got", length(have[l.Edge]), "need", length(l.Least), "by", length(0))
	for _, act := range l.Acts {
		if act.Act == sheet.Lower {
			continue // the wall's height is settled by now
		}
		a["by"] = length(up(act.By))
		return &Doubt{Key: "refuse.overlap-" + string(act.Act), Args: a, Refuse: !(act.Act == sheet.AddTo)}
	}
	return nil
}

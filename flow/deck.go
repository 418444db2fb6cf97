package flow

import (
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

func deckSteps() []Spec {
	const p = "deck"
	return []Spec{
		{ID: "board-thick", Phase: p, Kind: Fact, Want: sectionLength(15, 25, 9, 40), Offer: offerNums("mm", 18), Short: true, Needs: []string{stepBoard},
			Doubt: doubtBoardThick,
			Into:  func(in *plan.Inputs, val event.Value) { in.BoardThick = mm(val) }},
		// What a wall wants is taped before boards are sawn: its upstand boards come
		// from the same boards.
		{ID: stepUpstand, Phase: p, Kind: Fact, When: walls, Want: sectionLength(150, 400, 50, 1000), Offer: offerNums("mm", 150),
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Num() < 150 {
					return &Doubt{Key: "doubt.upstand-low", Args: args("height", val)}
				}
				return nil
			},
			Into: func(in *plan.Inputs, val event.Value) { in.Upstand = mm(val) }},
		{ID: "bed-joint", Phase: p, Kind: Fact, When: walls, Want: sectionLength(5, 400, 0, 1200), Needs: []string{stepUpstand},
			Into: func(in *plan.Inputs, val event.Value) { in.BedJoint = mm(val) }},
		{ID: "board-top", Phase: p, Kind: Fact, When: walls, Want: sectionLength(120, 400, 20, 1200), Needs: []string{"bed-joint"}, Tell: tellJoints,
			Offer: func(v View) (event.Value, bool) {
				if u := v.Plan().Upstands; u != nil && u.BedJoint > 0 {
					return event.Of("mm", round(u.BedJoint-10)), true
				}
				return event.Value{}, false
			},
			Doubt: doubtBoardTop, Short: true, Rests: []string{"chase"},
			Into: func(in *plan.Inputs, val event.Value) { in.BoardTop = mm(val) }},
		{ID: "upstand-cut", Phase: p, Kind: Fact, When: stands, Offer: offerWordAs("yes", "yes"), Short: true, Needs: []string{"board-top"},
			Into: func(in *plan.Inputs, val event.Value) { in.UpstandCut = val.Yes() }},
		{ID: "front", Phase: p, Kind: Fact, Example: true, Names: []string{"fascia", "drip"}, Want: fixed(many(ranged(hear.SectionLength, 5, 170, 3, 200), 4, 4)), Offer: offerNums("mm", 18, 38, 10, 112),
			When: func(v View) bool { return v.edge("gutter") },
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 4 {
					in.Fascia, in.Batten, in.Trim, in.GutterSize = lengthAt(val, 0), lengthAt(val, 1), lengthAt(val, 2), lengthAt(val, 3)
				}
			}},
		{ID: "batten-where", Phase: p, Kind: Fact, Want: pick("behind", "on-fascia"), Offer: offerWord("behind"), Needs: []string{"front"},
			When:  func(v View) bool { return v.edge("gutter") },
			Doubt: doubtDrip,
			Into:  func(in *plan.Inputs, val event.Value) { in.BattenOnFascia = val.Text == "on-fascia" }},
		{ID: "face", Phase: p, Kind: Fact, Want: sectionLength(0, 500, 0, 1000), Needs: []string{"front"}, Short: true, Names: []string{"overhang"},
			When: func(v View) bool { return v.edge("gutter") },
			Offer: func(v View) (event.Value, bool) {
				if face := v.Plan().UsualFace(Inputs(v.S)); face != nil {
					return event.Of("mm", round(*face)), true
				}
				return event.Value{}, false
			},
			Doubt: func(v View, val event.Value) *Doubt {
				if val.Num() < float64(v.fascia()) {
					return &Doubt{Key: "refuse.face", Args: args("fascia", length(v.fascia())), Refuse: true}
				}
				return nil
			},
			Into: func(in *plan.Inputs, val event.Value) { in.Face = mm(val) }},
		{ID: "wall-gap", Phase: p, Kind: Fact, When: func(v View) bool { return walls(v) || parapets(v) }, Want: sectionLength(10, 25, 3, 60), Offer: offerNums("mm", 10), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.WallGap = mm(val) }},
		{ID: stepDeckCut, Phase: p, Kind: Do, Needs: []string{"joists-hold", "board-thick", "upstand-cut"}, Tell: tellBoards, Also: tellDeck, Doubt: doubtBoards, Rests: []string{"deck", "joists"}, Cautions: []string{"saw", "boards"}},
		{ID: "deck-fixed", Phase: p, Kind: Do, Needs: []string{"deck-cut"}, Tell: tellScrews, Rests: []string{"deck", "screws"}},
		{ID: "tails", Phase: p, Kind: Do, When: func(v View) bool { return v.edge("gutter") }, Needs: []string{"deck-fixed", "front", "batten-where", "face"}, Tell: tellFront, Rests: []string{"drip", "front"}},
		{ID: "lips", Phase: p, Kind: Fact, Want: sectionLength(0, 4, 0, 30), Offer: offerNums("mm", 0), Needs: []string{"deck-fixed"}, Risk: "weather",
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Num() > 2 {
					return &Doubt{Key: "doubt.lip", Args: args("lip", val)}
				}
				return nil
			}},
		{ID: "deck-damp", Phase: p, Kind: Fact, Want: fixed(ranged(hear.Percent, 6, 22, 3, 60)), Needs: []string{"deck-fixed"}, Risk: "weather",
			Doubt: func(_ View, val event.Value) *Doubt {
				switch n := val.Num(); {
				case n > 20:
					return &Doubt{Key: "refuse.deck-wet", Args: args("damp", val), Refuse: true}
				case n > 18:
					return &Doubt{Key: "doubt.deck-damp", Args: args("damp", val)}
				}
				return nil
			},
			Into: func(in *plan.Inputs, val event.Value) { in.DeckDamp = number(val) }},
		{ID: "deck-hold", Phase: p, Kind: Hold, Needs: []string{"deck-fixed", "lips", "deck-damp"}, Risk: "weather", Rests: []string{"deck", "joists"},
			Weathers: true, Covered: stepBatches},
	}
}

// fascia is the thickness of the fascia, as measured.
func (v View) fascia() unit.Length {
	if f := Inputs(v.S).Fascia; f != nil {
		return *f
	}
	return 0
}

// tellFront says where the drip hangs, and the line that tails and deck are cut to.
func tellFront(v View) *event.Told {
	d := v.Plan().Drip
	if d == nil {
		return nil
	}
	t := told("drip", v.Plan().Formulas("drip", "front"))
	if f := v.Plan().Front; f != nil {
		t.Lines = append(t.Lines, line("told.front", "cut", length(f.Cut), "face", length(f.Face), "gutter", length(f.GutterTo)))
		if f.TooLong {
			t.Lines = append(t.Lines, line("told.front.long", "most", length(floor(f.MostTail))))
		}
	}
	t.Lines = append(t.Lines, line("told.drip", "drip", length(d.Drip), "most", length(d.Most)))
	return t
}

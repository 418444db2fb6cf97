package flow

import (
	"chargehand/calc/plan"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

func deckSteps() []Spec {
	const p = "deck"
	return []Spec{
		{ID: "board-thick", Phase: p, Kind: Fact, Want: sectionLength(15, 25, 9, 40), Offer: offerNums("mm", 18), Short: true, Needs: []string{stepBoard},
			Doubt: doubtBoardThick,
			Into:  func(in *plan.Inputs, val event.Value) { in.BoardThick = mm(val) }},
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
		{ID: "wall-gap", Phase: p, Kind: Fact, When: func(v View) bool { return walls(v) || parapets(v) }, Want: sectionLength(10, 25, 3, 60), Offer: offerNums("mm", 10), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.WallGap = mm(val) }},
		{ID: "deck-cut", Phase: p, Kind: Do, Needs: []string{"joists-hold", "board-thick"}, Tell: tellDeck, Rests: []string{"deck", "joists"}, Cautions: []string{"saw", "boards"}},
		{ID: "deck-fixed", Phase: p, Kind: Do, Needs: []string{"deck-cut"}, Tell: tellScrews, Rests: []string{"deck", "screws"}},
		{ID: "tails", Phase: p, Kind: Do, When: func(v View) bool { return v.edge("gutter") }, Needs: []string{"deck-fixed", "front", "batten-where"}, Tell: tellDrip, Rests: []string{"drip"}},
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

package flow

import (
	"chargehand/flow/event"
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

package flow

import (
	"chargehand/calc/plan"
	"chargehand/flow/event"
)

// compass are the ways a gutter can face.
var compass = []string{"north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"}

// facesStep is which way the gutter faces. Nothing rests on it but the arrow on
// the roof plan, so it is never asked: "change faces south" tells it.
func facesStep(phase string) Spec {
	return Spec{ID: "faces", Phase: phase, Kind: Fact, Want: pick(compass...), Unasked: true,
		When: func(v View) bool { return v.Has("faces") },
		Into: func(in *plan.Inputs, val event.Value) { in.Faces = val.Text }}
}

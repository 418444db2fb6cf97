package flow

import (
	"fmt"
	"strings"

	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// A right-angled outline is walked edge by edge, clockwise from the right end
// of the gutter: each edge is a step of its own, so that one can be changed,
// undone or gone back to like any other answer.

// walkEdges is how many edges a walk may have; a U round a chimney has eight.
const walkEdges = 16

func walkID(n int) string { return fmt.Sprintf("edge-%d", n) }

func walkSteps(phase string) []Spec {
	var out []Spec
	for n := 1; n <= walkEdges; n++ {
		s := Spec{ID: walkID(n), Phase: phase, Kind: Fact, Example: true, Asks: "edge", Number: n, Needs: []string{stepShape},
			Want: fixed(parts(3, ranged(hear.PlanLength, 300, 9000, 1, 20000), choices([]string{"right", "left", "straight"}), choices([]string{"gutter", "verge", "wall", "parapet"}))),
			When: func(v View) bool { return walked(v) && v.walksOn(n) }, Doubt: doubtWalk(n),
			Into: func(in *plan.Inputs, val event.Value) {
				if step, ok := leg(val); ok && len(in.Walk) == n-1 { // a gap in the walk ends it
					in.Walk = append(in.Walk, step)
				}
			}}
		if n == 1 {
			s.Cautions = []string{"measure"}
		} else {
			s.Needs = append(s.Needs, walkID(n-1))
		}
		out = append(out, s)
	}
	return out
}

// leg reads one walked edge: a length, the turn at its end, what stands on it.
func leg(val event.Value) (geom.Step, bool) {
	w := words(val.Text)
	if val.Unit != "leg" || len(w) != 2 || len(val.Nums) != 1 {
		return geom.Step{}, false
	}
	return geom.Step{Length: unit.Length(val.Nums[0]), Turn: geom.Turn(w[0]), Kind: geom.Kind(w[1])}, true
}

// legs are the edges walked so far, up to the first that is missing.
func (v View) legs(upTo int) []geom.Step {
	var out []geom.Step
	for n := 1; n <= upTo; n++ {
		val, ok := v.Value(walkID(n))
		step, good := leg(val)
		if !ok || !good {
			break
		}
		out = append(out, step)
	}
	return out
}

// walksOn says whether edge n is part of the walk: every edge before it is
// known and they have not come round yet.
func (v View) walksOn(n int) bool {
	before := v.legs(n - 1)
	return len(before) == n-1 && !round4(before)
}

// near is how close to its start a walk that has turned once round must end to
// be taken as meant to close. A wall's breadth: a real edge is longer.
const near = 450 * unit.Millimetre

// round4 says whether a walk has come round to its start.
func round4(legs []geom.Step) bool {
	if len(legs) < 4 {
		return false
	}
	net := 0
	x, y := 0.0, 0.0
	dx, dy := -1.0, 0.0
	for _, l := range legs {
		x += dx * float64(l.Length)
		y += dy * float64(l.Length)
		switch l.Turn {
		case geom.Right:
			net++
			dx, dy = dy, -dx
		case geom.Left:
			net--
			dx, dy = -dy, dx
		}
	}
	return net == 4 && unit.Length(max(x, -x)) <= near && unit.Length(max(y, -y)) <= near
}

// doubtWalk looks at edge n as it is put down: a walk that comes round must
// close, and must not cross itself on the way.
func doubtWalk(n int) func(View, event.Value) *Doubt {
	return func(v View, val event.Value) *Doubt {
		step, ok := leg(val)
		if !ok {
			return nil
		}
		if n == 1 && step.Kind != geom.Gutter {
			return &Doubt{Key: "refuse.gutter-first", Refuse: true}
		}
		legs := append(v.legs(n-1), step)
		for k := n + 1; k <= walkEdges; k++ { // a changed edge takes the later ones along
			next, ok := v.Value(walkID(k))
			s, good := leg(next)
			if !ok || !good || round4(legs) {
				break
			}
			legs = append(legs, s)
		}
		if !round4(legs) {
			if n == walkEdges {
				return &Doubt{Key: "refuse.walk-long", Refuse: true}
			}
			return nil
		}
		p := plan.Reckon(plan.Inputs{Shape: "walked", Walk: legs}, nil)
		if p.Walk == nil {
			return nil
		}
		a := args("gap", event.Of("mm", float64(int(p.Walk.Misclosure+0.5))), "edge", event.Of("count", float64(p.Walk.Edge+1)))
		switch p.Walk.Fault {
		case geom.FaultOpen:
			a["edges"] = event.Word("text", suspects(p.Walk.Suspects))
			return &Doubt{Key: "refuse.walk-open", Args: a, Refuse: true}
		case geom.FaultCrossing:
			a["with"] = event.Of("count", float64(p.Walk.With+1))
			return &Doubt{Key: "refuse.walk-crosses", Args: a, Refuse: true}
		}
		return &Doubt{Key: "refuse.walk-turns", Args: a, Refuse: true}
	}
}

// suspects names edges by their numbers, as people count.
func suspects(edges []int) string {
	var out []string
	for _, e := range edges {
		out = append(out, fmt.Sprint(e+1))
	}
	return strings.Join(out, ", ")
}

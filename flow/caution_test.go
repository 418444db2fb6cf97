package flow_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// hazards are the steps at which somebody can be hurt, and what must be said
// there. The list is ours, from the trade's usual cautions; a step that brings a
// hazard belongs into it before it is written.
var hazards = map[string][]string{
	"built":       {"asbestos"},
	"guarded":     {"edge", "fragile"},
	"length":      {"measure"},
	"sides":       {"measure"},
	"edge-1":      {"measure"},
	"plate":       {"dust", "services"},
	"joist-marks": {"open-joists"},
	"joist-set":   {"lift"},
	"deck-cut":    {"saw", "boards"},
	"chase":       {"chase"},
	"relax":       {"sail"},
	"way-off":     {"no-trap"},
	"tin":         {"solvent"},
	"batches":     {"kneel", "heat"},
	"contact":     {"solvent"},
	"battens-on":  {"edge-work"},
	"cuts":        {"primer"},
	"lead":        {"lead"},
}

func TestEveryHazardHasItsCautionAtTheStep(t *testing.T) {
	for id, cautions := range hazards {
		spec, ok := flow.Lookup(id)
		if assert.True(t, ok, "no step %s", id) {
			for _, c := range cautions {
				assert.Contains(t, spec.Cautions, c, id)
			}
		}
	}
}

// A caution is said once, before the question it belongs to, and stays to be
// had by asking why.
func TestCautionsAreSaidOnceAndStayAvailable(t *testing.T) {
	j := begin(t)
	j.finish()
	said := map[string]int{}
	open := map[string]string{} // caution -> the question open when it was said
	s := flow.State{}
	for _, e := range j.entries {
		s = flow.Apply(s, e)
		if told, ok := e.Event.(event.Told); ok && strings.HasPrefix(told.What, "caution.") {
			c := strings.TrimPrefix(told.What, "caution.")
			said[c]++
			open[c] = flow.StepNow(s)
		}
	}
	for c, n := range said {
		assert.Equal(t, 1, n, "%s was said %d times", c, n)
	}
	for c, id := range open {
		spec, _ := flow.Lookup(id)
		assert.Contains(t, spec.Cautions, c, "%s was said at %s", c, id)
	}
	for id := range hazards {
		if j.s.Settled[id].Status == "" { // not on this roof
			continue
		}
		for _, c := range hazards[id] {
			assert.Equal(t, 1, said[c], "%s passed without %s", id, c)
		}
	}

	j = begin(t)
	j.to("guarded")
	es := j.say("?")
	why := flow.Say(flow.Fold(flow.State{}, j.entries[:len(j.entries)-len(es)]...), es[0], builder)
	keys := []string{}
	for _, l := range why[0].(talk.Tell).Lines {
		keys = append(keys, l.Key)
	}
	assert.Subset(t, keys, []string{"why.guarded", "caution.edge", "caution.fragile"})
}

package flow_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
)

// taping walks to the line of measured centres of new joists.
func taping(t *testing.T) *job {
	j := begin(t)
	j.to("joist-centres")
	return j
}

// twin is a job that goes on from where j stands, without touching it: a State is
// never changed in place.
func (j *job) twin() *job {
	return &job{t: j.t, s: j.s, now: j.now, entries: slices.Clone(j.entries)}
}

func TestCentresAsTapedAreReadInOneLine(t *testing.T) {
	marks := "24 399 800 1200 1601 2001 2402 2802 3203 3603 4004 4177"
	base := taping(t)
	off := "24 399 800 1200 1601 2001 2411 2802 3203 3603 4004 4177" // the seventh is 9 off
	for _, c := range []struct{ said, heard, doubt string }{
		{said: marks}, {said: "."}, {said: off},
		{said: "24 399 800 1200 1601 2001 2001 2802 3203 3603 4004 4177", heard: "refuse.taped-order"},
		{said: "24 399 800 1200 1601 2001 2402 2802 3203 3603 4004 4377", heard: "refuse.taped-long"},
		{said: "24 399 800 1200 1601 2001 2402 2802 3203 3603 4177", doubt: "doubt.taped-count"},
	} {
		j := base.twin()
		es := j.say(c.said)
		switch {
		case c.heard != "":
			h, ok := find[event.Heard](es)
			require.True(t, ok, c.said)
			assert.Equal(t, c.heard, h.Key, c.said)
		case c.doubt != "":
			p, ok := find[event.Proposed](es)
			require.True(t, ok, c.said)
			assert.Equal(t, c.doubt, p.Doubt, c.said)
		default:
			a, ok := find[event.Answered](es)
			require.True(t, ok, "%s: %#v", c.said, last(es))
			assert.Len(t, a.Value.Nums, 12)
			assert.Equal(t, c.said == off, flow.StepNow(j.s) == "joist-cure", c.said)
		}
	}
}

// Joists that are moved are taped again; when they bear, nothing more is asked.
func TestMovedJoistsAreTapedAgain(t *testing.T) {
	j := taping(t)
	j.say("24 399 800 1200 1601 2001 2440 2802 3203 3603 4004 4177")
	require.Equal(t, "joist-cure", flow.StepNow(j.s))
	es := j.say("move joists")
	r, ok := find[event.Reopened](es)
	require.True(t, ok, "%#v", last(es))
	assert.Equal(t, []string{"joist-centres"}, r.Steps)
	require.Equal(t, "joist-centres", flow.StepNow(j.s))
	j.say("24 399 800 1200 1601 2001 2402 2802 3203 3603 4004 4177")
	if j.s.Pending != nil {
		j.say("yes")
	}
	assert.NotEqual(t, "joist-cure", flow.StepNow(j.s))
}

func TestEveryTopCanBeGivenInOneLine(t *testing.T) {
	base := begin(t)
	base.to("joist-falls")
	for _, c := range []struct{ said, key string }{
		{"0 0 0 7 0 0 0 0 0 0 0 0", "doubt.joist-low"},
		{"0 0 0 -7 0", ""},
		{"1 2 3", "refuse.levels"},
		{"0 0 0 0 0 0 0 0 0 0 0 0", ""},
		{"75 70", ""},
	} {
		j := base.twin()
		es := j.say(c.said)
		if c.key == "" {
			continue
		}
		if p, ok := find[event.Proposed](es); ok {
			assert.Equal(t, c.key, p.Doubt, c.said)
			continue
		}
		h, ok := find[event.Heard](es)
		require.True(t, ok, "%s: %#v", c.said, last(es))
		assert.Equal(t, c.key, h.Key, c.said)
	}
}

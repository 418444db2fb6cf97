package load_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/load"
	"chargehand/calc/unit"
)

func TestDeadPublishedWeights(t *testing.T) {
	t.Parallel()
	// Consulting engineer's published dead loads: plasterboard 2 x 12.5 mm 0.225
	// kN/m², glass wool 150 mm 0.015; TU Delft: polymer foil 0.02, insulation
	// with roofing 0.1 to 0.2.
	for _, c := range []struct {
		layers []load.Layer
		want   float64
	}{
		{[]load.Layer{{Material: "plasterboard", Thickness: 12.5}, {Material: "plasterboard", Thickness: 12.5}}, 0.225},
		{[]load.Layer{{Material: "mineral wool", Thickness: 150}}, 0.015},
		{[]load.Layer{{Material: "foil"}}, 0.02},
		{[]load.Layer{{Material: "osb", Thickness: 18}}, 550 * 0.018 * 9.80665e-3},
		{[]load.Layer{{Material: "label of our own", Weight: 10}}, 0.0980665},
		{nil, 0},
	} {
		total, shares, err := load.Dead(c.layers)
		require.NoError(t, err)
		assert.InDelta(t, c.want, total.In(kn), 1e-3*c.want+1e-12)
		assert.Len(t, shares, len(c.layers))
	}
}

// TU Delft, composed structures: a flat roof with beams and underlay and no
// gravel weighs 0.36 kN/m². Ours for a bare garage roof must be lighter, one
// with insulation and a ceiling about that.
func TestDeadPlausible(t *testing.T) {
	t.Parallel()
	bare := []load.Layer{{Material: "osb", Thickness: 18}, {Material: "rubber sheet", Thickness: 1.2}}
	light, _, err := load.Dead(bare)
	require.NoError(t, err)
	joists := 370 * 9.80665e-3 * 0.047 * 0.145 / 0.4 // 47 x 145 C16 at 400
	assert.InDelta(t, 0.17, light.In(kn)+joists, 0.03)
	full, shares, err := load.Dead(append(bare, load.Layer{Material: "rigid insulation", Thickness: 120}, load.Layer{Material: "foil"}, load.Layer{Material: "plasterboard", Thickness: 12.5}))
	require.NoError(t, err)
	assert.InDelta(t, 0.36, full.In(kn)+joists, 0.05)
	sum := unit.AreaLoad(0)
	for _, s := range shares {
		sum += s
	}
	assert.Equal(t, full, sum)
}

func TestDeadDomain(t *testing.T) {
	t.Parallel()
	for _, l := range []load.Layer{
		{Material: "straw", Thickness: 100}, {Material: "osb", Thickness: -1}, {Material: "osb", Thickness: 1001},
		{Material: "osb", Thickness: unit.Length(math.NaN())}, {Weight: -5}, {Weight: unit.SurfaceDensity(math.Inf(1))},
	} {
		_, _, err := load.Dead([]load.Layer{l})
		assert.Error(t, err, "%+v", l)
	}
}

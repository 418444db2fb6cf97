package fixings_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// TU Delft, Structural Design Essentials, "Pre-design of timber hall", wind
// suction on the column-beam connection: 5 x 10 m, weight 0.5 kN/m², wind
// 1.0·(0.7 + 0.3) kN/m², printed 52.5 kN; at 7 kN a shear plane, 7.5, so 8.
func TestNetUpliftOfTheTimberHall(t *testing.T) {
	t.Parallel()
	area := 50 * unit.SquareMetre
	wind := unit.Force(area.In(unit.SquareMetre) * 1.0 * 1000)
	dead := unit.Force(area.In(unit.SquareMetre) * 0.5 * 1000)
	net, err := fixings.NetUplift(wind, dead)
	require.NoError(t, err)
	assert.InDelta(t, 52.5, net.In(unit.Kilonewton), 1e-9)
	n, err := fixings.Needed(net, 7*unit.Kilonewton)
	require.NoError(t, err)
	assert.Equal(t, 8, n)
}

func demoPlate(t *testing.T) fixings.HoldDownIn {
	t.Helper()
	rule, err := fixings.RuleOf(fixings.Strap)
	require.NoError(t, err)
	return fixings.HoldDownIn{Run: 5500, Wind: 12000, Dead: 2400, Strap: 2000, Reach: 1000, Leaf: 102.5, Wall: 2000, Rule: rule}
}

// By hand, invented loads: 1.5·12 - 0.9·2.4 = 15.84 kN; at 2 kN a strap 7.92, so
// 8 where the spacing rule asks for 4. The wall over 1 m of strap:
// 5.5·1·0.1025·2000·9.80665/1000 = 11.057 kN, ·0.9 = 9.951: not enough.
func TestHoldDownByHand(t *testing.T) {
	t.Parallel()
	out, err := fixings.HoldDown(demoPlate(t))
	require.NoError(t, err)
	assert.InDelta(t, 15840, float64(out.Net), 1e-6)
	assert.Equal(t, 8, out.Row.Count)
	assert.True(t, out.ByUplift)
	assert.InDelta(t, 1980, float64(out.Each), 1e-6)
	assert.InDelta(t, 0.99, out.Utilisation, 1e-9)
	assert.InDelta(t, 9951, float64(out.Caught), 1)
	assert.InDelta(t, 15840/9951.3, out.WallShare, 1e-3)
	assert.InDelta(t, 5200.0/7, float64(out.Row.Spacing), 1e-9)
}

// Half-brick, 1 m down, 2 m along: "about 4 kN" in the trade.
func TestWallCaughtOfHalfBrick(t *testing.T) {
	t.Parallel()
	in := demoPlate(t)
	in.Run, in.Wall = 2000, 1900
	out, err := fixings.HoldDown(in)
	require.NoError(t, err)
	assert.InDelta(t, 4, float64(out.Caught)/0.9/1000, 0.5)
}

func TestHoldDownWithoutWindNeed(t *testing.T) {
	t.Parallel()
	in := demoPlate(t)
	in.Wind, in.Dead = 1000, 4000 // 1.5 - 3.6: the roof's weight is enough
	out, err := fixings.HoldDown(in)
	require.NoError(t, err)
	assert.Negative(t, float64(out.Net))
	assert.Equal(t, 4, out.Row.Count)
	assert.Zero(t, out.Utilisation)
	assert.Zero(t, float64(out.Each))
	in.Strap, in.Reach = 0, 0 // nothing printed, wall not told
	out, err = fixings.HoldDown(in)
	require.NoError(t, err)
	assert.Zero(t, out.WallShare)
}

func TestHoldDownShape(t *testing.T) {
	t.Parallel()
	last := 0
	for w := 0.0; w < 60000; w += 700 {
		in := demoPlate(t)
		in.Wind = unit.Force(w)
		out, err := fixings.HoldDown(in)
		require.NoError(t, err)
		require.GreaterOrEqual(t, out.Row.Count, last)
		require.LessOrEqual(t, out.Utilisation, 1+1e-9)
		require.LessOrEqual(t, float64(out.Row.Spacing), 2000.0)
		last = out.Row.Count
	}
}

func TestHoldDownDomain(t *testing.T) {
	t.Parallel()
	for field, change := range map[string]func(*fixings.HoldDownIn){
		"run_mm":              func(in *fixings.HoldDownIn) { in.Run = 0 },
		"wind_uplift_kn":      func(in *fixings.HoldDownIn) { in.Wind = -1 },
		"dead_kn":             func(in *fixings.HoldDownIn) { in.Dead = -1 },
		"strap_resistance_kn": func(in *fixings.HoldDownIn) { in.Strap = -1 },
		"strap_length_mm":     func(in *fixings.HoldDownIn) { in.Reach = 200 },
		"wall_mm":             func(in *fixings.HoldDownIn) { in.Leaf = 0 },
		"wall_kg_m3":          func(in *fixings.HoldDownIn) { in.Wall = 0 },
	} {
		in := demoPlate(t)
		change(&in)
		_, err := fixings.HoldDown(in)
		assertDomain(t, err, field)
	}
	_, err := fixings.Needed(1, 0)
	assertDomain(t, err, "resistance_kn")
	_, err = fixings.Needed(2e7, 1000)
	assertDomain(t, err, "force_kn")
}

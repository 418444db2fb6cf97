package timber_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/timber"
	"chargehand/calc/unit"
)

func TestCutLimitsLABC(t *testing.T) {
	t.Parallel()
	for _, row := range worked(t, "notch-hole-labc.csv") {
		at := unit.Length(number(t, row["span_or_depth_mm"]))
		a, b := number(t, row["a_mm"]), number(t, row["b_mm"])
		switch row["kind"] {
		case "hole_zone":
			lim, err := timber.LimitsOfCuts(timber.CutUK, 195, at)
			require.NoError(t, err)
			assert.InDelta(t, a, float64(lim.HoleFrom), 1e-9)
			assert.InDelta(t, b, float64(lim.HoleTo), 1e-9)
		case "notch_zone":
			lim, err := timber.LimitsOfCuts(timber.CutUK, 195, at)
			require.NoError(t, err)
			assert.InDelta(t, a, float64(lim.NotchFrom), 1e-9)
			assert.InDelta(t, b, float64(lim.NotchTo), 1e-9)
		case "max_size":
			lim, err := timber.LimitsOfCuts(timber.CutUK, at, 4000)
			require.NoError(t, err)
			assert.InDelta(t, a, float64(lim.HoleDiameter), 0.0501) // printed to 0.1 mm
			assert.InDelta(t, b, float64(lim.NotchDepth), 0.0501)
		default:
			require.Fail(t, "unknown row", "%v", row)
		}
	}
}

func TestOtherCutRules(t *testing.T) {
	t.Parallel()
	// NHBC Standards 2020 6.4.18 Table 6.
	lim, err := timber.LimitsOfCuts(timber.CutNHBC, 200, 3000)
	require.NoError(t, err)
	assert.InDelta(t, 30, float64(lim.NotchDepth), 1e-9)
	assert.InDelta(t, 300, float64(lim.NotchFrom), 1e-9)
	assert.InDelta(t, 600, float64(lim.NotchTo), 1e-9)
	assert.InDelta(t, 50, float64(lim.HoleDiameter), 1e-9)
	_, err = timber.LimitsOfCuts(timber.CutNHBC, 251, 3000)
	assert.Error(t, err, "Table 6 stops at 250 mm")
	// IBC 2018 2308.7.4: end notch h/4, others h/6 outside the middle third.
	lim, err = timber.LimitsOfCuts(timber.CutUS, 184.15, 3600)
	require.NoError(t, err)
	assert.InDelta(t, 184.15/4, float64(lim.EndNotchDepth), 1e-9)
	assert.InDelta(t, 184.15/6, float64(lim.NotchDepth), 1e-9)
	assert.InDelta(t, 1200, float64(lim.NotchTo), 1e-9)
	assert.Zero(t, lim.HoleDiameter)
}

func TestCheckCuts(t *testing.T) {
	t.Parallel()
	const depth, span = unit.Length(195), unit.Length(3000)
	faults := func(cuts ...timber.Cut) []timber.CutFault {
		got, err := timber.CheckCuts(timber.CutUK, depth, span, cuts)
		require.NoError(t, err)
		return got
	}
	good := timber.Cut{Kind: timber.Hole, At: 900, Size: 32}
	assert.Empty(t, faults(good))
	assert.Empty(t, faults(timber.Cut{Kind: timber.Hole, At: span - 900, Size: 32}), "either end")
	assert.Empty(t, faults(timber.Cut{Kind: timber.Notch, At: 400, Size: 20, Length: 40}))

	rule := func(f []timber.CutFault) string {
		require.Len(t, f, 1)
		return f[0].Rule
	}
	assert.Equal(t, timber.FaultSize, rule(faults(timber.Cut{Kind: timber.Hole, At: 900, Size: 49})))
	assert.Equal(t, timber.FaultNear, rule(faults(timber.Cut{Kind: timber.Hole, At: 700, Size: 32})))
	assert.Equal(t, timber.FaultFar, rule(faults(timber.Cut{Kind: timber.Hole, At: 1500, Size: 32})))
	assert.Equal(t, timber.FaultFar, rule(faults(timber.Cut{Kind: timber.Notch, At: 740, Size: 20, Length: 40})), "its far edge counts")
	assert.Equal(t, timber.FaultApart, rule(faults(good, timber.Cut{Kind: timber.Hole, At: 990, Size: 20})), "three of the larger")
	assert.Equal(t, timber.FaultTogether, rule(faults(timber.Cut{Kind: timber.Notch, At: 700, Size: 20, Length: 40}, timber.Cut{Kind: timber.Hole, At: 810, Size: 32})))
	assert.Empty(t, faults(timber.Cut{Kind: timber.Hole, At: 900, Size: 32}, timber.Cut{Kind: timber.Hole, At: 996, Size: 32}))

	var d *calc.DomainError
	for _, c := range []timber.Cut{{Kind: "slot", At: 900}, {Kind: timber.Hole, At: -1}, {Kind: timber.Hole, At: 900, Size: 400}, {Kind: timber.Notch, At: 900, Length: unit.Length(math.NaN())}} {
		_, err := timber.CheckCuts(timber.CutUK, depth, span, []timber.Cut{c})
		assert.ErrorAs(t, err, &d)
	}
	_, err := timber.CheckCuts("old", depth, span, nil)
	assert.ErrorAs(t, err, &d)
}

func TestNotchFactorShape(t *testing.T) {
	t.Parallel()
	kv := func(left, offset unit.Length, slope float64) float64 {
		k, err := timber.NotchFactor(timber.EndNotch{Depth: 195, Left: left, Offset: offset, Slope: slope})
		require.NoError(t, err)
		return k
	}
	assert.Equal(t, 1.0, kv(195, 50, 0), "no notch")
	last := 1.0
	for left := unit.Length(194); left >= 98; left -= 4 {
		k := kv(left, 50, 0)
		assert.LessOrEqual(t, k, last)
		assert.Positive(t, k)
		last = k
	}
	assert.LessOrEqual(t, kv(150, 80, 0), kv(150, 40, 0), "further from the reaction is worse")
	assert.GreaterOrEqual(t, kv(150, 50, 4), kv(150, 50, 0), "a taper is better")
	_, err := timber.NotchFactor(timber.EndNotch{Depth: 195, Left: 90, Offset: 50})
	assert.Error(t, err)
}

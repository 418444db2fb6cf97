package air_test

import (
	"fmt"
	"math"
	"testing"

	"chargehand/calc"
	"chargehand/calc/air"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestDewPointShape(t *testing.T) {
	t.Parallel()
	for at := unit.Celsius(-45); at <= 60; at += 2.5 {
		last := unit.Celsius(math.Inf(-1))
		for rh := unit.Percent(1); rh <= 100; rh++ {
			td, err := air.DewPoint(at, rh)
			require.NoError(t, err)
			assert.Greater(t, td, last, "rises with humidity")
			assert.LessOrEqual(t, td, at)
			last = td
			// Back again: the dew point is where this vapour saturates.
			if td < -45 {
				continue // below the range of the formula, which does not refuse its own results
			}
			back, err := air.Humidity(at, td)
			require.NoError(t, err)
			assert.InDelta(t, float64(rh), float64(back), 1e-9)
		}
		assert.Equal(t, at, last, "at 100 %")
	}
}

func TestPressureOverIceMeetsWaterAtFreezing(t *testing.T) {
	t.Parallel()
	water, err := air.SaturationPressure(0)
	require.NoError(t, err)
	ice, err := air.SaturationPressureOverIce(0)
	require.NoError(t, err)
	assert.InDelta(t, float64(water), float64(ice), 1e-9)
	for at := unit.Celsius(-45); at < 0; at++ {
		water, err := air.SaturationPressure(at)
		require.NoError(t, err)
		ice, err := air.SaturationPressureOverIce(at)
		require.NoError(t, err)
		assert.Less(t, ice, water)
	}
}

func TestEvaporationShape(t *testing.T) {
	t.Parallel()
	base := air.Drying{Surface: 20, Air: 20, RH: 60, Wind: 3}
	of := func(d air.Drying) float64 {
		e, err := air.Evaporation(d)
		require.NoError(t, err)
		return float64(e)
	}
	warmer, windier, damper, warmerAir := base, base, base, base
	warmer.Surface, windier.Wind, damper.RH, warmerAir.Air = 25, 6, 80, 25
	assert.Greater(t, of(warmer), of(base))
	assert.Greater(t, of(windier), of(base))
	assert.Less(t, of(damper), of(base))
	assert.Less(t, of(warmerAir), of(base))
	assert.InDelta(t, 0, of(air.Drying{Surface: 20, Air: 20, RH: 100, Wind: 3}), 1e-12)
	assert.Negative(t, of(air.Drying{Surface: 10, Air: 20, RH: 100, Wind: 3}))
}

func TestDomains(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for name, c := range map[string]struct {
		field string
		run   func() error
	}{
		"dew hot":       {"t", func() error { _, err := air.DewPoint(60.1, 50); return err }},
		"dew cold":      {"t", func() error { _, err := air.DewPoint(-45.1, 50); return err }},
		"dew dry":       {"rh", func() error { _, err := air.DewPoint(20, 0); return err }},
		"dew 140 %":     {"rh", func() error { _, err := air.DewPoint(20, 140); return err }},
		"dew nan":       {"rh", func() error { _, err := air.DewPoint(20, unit.Percent(nan)); return err }},
		"vapour":        {"rh", func() error { _, err := air.VapourPressure(20, -1); return err }},
		"saturation":    {"t", func() error { _, err := air.SaturationPressure(61); return err }},
		"ice":           {"t", func() error { _, err := air.SaturationPressureOverIce(0.1); return err }},
		"humidity t":    {"t", func() error { _, err := air.Humidity(61, 20); return err }},
		"humidity td":   {"td", func() error { _, err := air.Humidity(20, 20.1); return err }},
		"surface":       {"sky", func() error { _, err := air.Surface(20, "snow"); return err }},
		"surface t":     {"t", func() error { _, err := air.Surface(99, air.Overcast); return err }},
		"drying ts":     {"surface", func() error { _, err := air.Evaporation(air.Drying{Surface: -19}); return err }},
		"drying ta":     {"air", func() error { _, err := air.Evaporation(air.Drying{Air: 61}); return err }},
		"drying rh":     {"rh", func() error { _, err := air.Evaporation(air.Drying{RH: 101}); return err }},
		"drying u":      {"wind", func() error { _, err := air.Evaporation(air.Drying{Wind: -1}); return err }},
		"reckon air":    {"air_c", func() error { _, err := air.ReckonDew(air.DewIn{AirC: 200, RHPct: 50}); return err }},
		"reckon rh 140": {"rh_pct", func() error { _, err := air.ReckonDew(air.DewIn{AirC: 20, RHPct: 140}); return err }},
	} {
		var domain *calc.DomainError
		require.ErrorAs(t, c.run(), &domain, name)
		assert.Equal(t, c.field, domain.Field, name)
		assert.NotEmpty(t, domain.Wanted, name)
	}
	for _, ok := range []func() error{
		func() error { _, err := air.DewPoint(60, 1); return err },
		func() error { _, err := air.DewPoint(-45, 100); return err },
		func() error { _, err := air.SaturationPressureOverIce(-65); return err },
		func() error { _, err := air.Humidity(20, 20); return err },
	} {
		require.NoError(t, ok())
	}
}

func TestSurfaceGuesses(t *testing.T) {
	t.Parallel()
	for sky, want := range map[air.Sky]unit.Celsius{
		air.Overcast: 21, air.SunOnBoard: 33, air.BlackSheet: 48, air.ClearNight: 15,
	} {
		got, err := air.Surface(18, sky)
		require.NoError(t, err)
		assert.Equal(t, want, got)
	}
}

func FuzzReckonDew(f *testing.F) {
	f.Add(20.0, 50.0)
	f.Add(-45.0, 1.0)
	f.Add(60.0, 100.0)
	f.Add(math.Inf(1), math.NaN())
	f.Fuzz(func(t *testing.T, at, rh float64) {
		out, err := air.ReckonDew(air.DewIn{AirC: at, RHPct: rh})
		if err != nil {
			return
		}
		if !(out.DewPointC <= at && out.VapourPressureHPa > 0) || math.IsInf(out.DewPointC, 0) {
			t.Fatalf("%g °C %g %%: %+v", at, rh, out)
		}
	})
}

func ExampleDewPoint() {
	td, err := air.DewPoint(20, 50)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f °C\n", float64(td))
	// Output: 9.3 °C
}

func ExampleReckonDew() {
	_, err := air.ReckonDew(air.DewIn{AirC: 20, RHPct: 140})
	fmt.Println(err)
	// Output: air.dew: rh_pct: got 140, wanted 1 to 100 %
}

package load_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/load"
	"chargehand/calc/unit"
)

// Steel Buildings in Europe, Single-storey buildings, Part 3, pp. 3-47, 3-48:
// v_b 26 m/s, terrain III, 8 m: q_b 422.5 N/m², k_r 0.215, c_r 0.706, c_e 1.56,
// q_p 0.659 kN/m². The print carries rounded steps on; unrounded it is 0.662.
func TestPeakPressureSteelBuildings(t *testing.T) {
	t.Parallel()
	p, err := load.PeakPressure(load.Site{Terrain: "III", BasicSpeed: 26, Height: m(8)})
	require.NoError(t, err)
	assert.InEpsilon(t, 422.5, float64(p.Qb)*1e6, 1e-9)
	assert.InEpsilon(t, 0.215, p.Kr, 3e-3)
	assert.InEpsilon(t, 0.706, p.Cr, 3e-3)
	assert.InEpsilon(t, 1.56, p.Ce, 6e-3)
	assert.InEpsilon(t, 0.659, p.Qp.In(kn), 6e-3)
	assert.Contains(t, p.Annex, "EN 1991-1-4")
}

// A public flat-roof article: v_b,0 24 m/s, terrain III: I_v 0.247, c_r 0.871,
// v_m 20.9 m/s, q_p 0.746 kN/m². The height was not printed where this was
// seen; the turbulence gives it (ln z/z0 = 1/I_v), and the rest must follow.
func TestPeakPressureArticle(t *testing.T) {
	t.Parallel()
	z := 0.3 * math.Exp(1/0.247)
	p, err := load.PeakPressure(load.Site{Terrain: "III", BasicSpeed: 24, Height: m(z)})
	require.NoError(t, err)
	assert.InEpsilon(t, 0.871, p.Cr, 3e-3)
	assert.InEpsilon(t, 20.9, float64(p.Vm), 3e-3)
	assert.InEpsilon(t, 0.746, p.Qp.In(kn), 3e-3)
}

// The Dutch table as printed in the TU Delft open textbook, areas I and II, to
// its two digits. Trap: its columns for area III are shifted by one (coastal
// equals the rural formula), so they are no test.
func TestPeakPressureNetherlands(t *testing.T) {
	t.Parallel()
	speeds := map[string]unit.Speed{"I": 29.5, "II": 27}
	cells := 0
	for _, row := range worked(t, "wind-qp-netherlands.csv") {
		for area, v := range speeds {
			for _, terrain := range []string{"coastal", "rural", "urban"} {
				p, err := load.PeakPressure(load.Site{Annex: "NL", Terrain: terrain, BasicSpeed: v, Height: m(number(t, row["ze_m"]))})
				require.NoError(t, err)
				assert.InDelta(t, number(t, row[terrain+"_"+area]), p.Qp.In(kn), 0.0051, "%s %s at %s m", terrain, area, row["ze_m"])
				cells++
			}
		}
		rural3, err := load.PeakPressure(load.Site{Annex: "NL", Terrain: "rural", BasicSpeed: 24.5, Height: m(number(t, row["ze_m"]))})
		require.NoError(t, err)
		if number(t, row["ze_m"]) >= 5 {
			assert.InDelta(t, number(t, row["coastal_III_as_printed"]), rural3.Qp.In(kn), 0.0051, "the shift")
		}
	}
	assert.Equal(t, 72, cells)
}

func TestPeakPressureUK(t *testing.T) {
	t.Parallel()
	v, err := load.AltitudeSpeedUK(22, m(150))
	require.NoError(t, err)
	assert.InEpsilon(t, 22*1.15, float64(v), 1e-12)
	p, err := load.PeakPressure(load.Site{Annex: "UK", Terrain: "country", BasicSpeed: 22, Altitude: m(150), Height: m(3)})
	require.NoError(t, err)
	plain, err := load.PeakPressure(load.Site{Terrain: "II", BasicSpeed: v, Height: m(3)})
	require.NoError(t, err)
	assert.Equal(t, plain.Qp, p.Qp)
	assert.Contains(t, p.Annex, "not the exposure charts")
}

func TestPeakPressureDomainAndShape(t *testing.T) {
	t.Parallel()
	for _, s := range []load.Site{
		{Terrain: "V", BasicSpeed: 24, Height: m(5)},
		{Annex: "XX", Terrain: "II", BasicSpeed: 24, Height: m(5)},
		{Terrain: "II", BasicSpeed: 9, Height: m(5)},
		{Terrain: "II", BasicSpeed: 24, Height: m(51)},
		{Terrain: "II", BasicSpeed: unit.Speed(math.NaN()), Height: m(5)},
		{Terrain: "II", BasicSpeed: 24, Height: m(5), Orographic: 0.5},
		{Terrain: "II", BasicSpeed: 24, Height: m(5), Altitude: m(50)},
		{Annex: "UK", Terrain: "town", BasicSpeed: 24, Height: m(5), Altitude: m(2000)},
		{Annex: "UK", Terrain: "town", BasicSpeed: 50, Height: m(5)},
	} {
		_, err := load.PeakPressure(s)
		assert.Error(t, err, "%+v", s)
	}
	last := 0.0
	for z := 0.5; z <= 50; z += 0.5 {
		p, err := load.PeakPressure(load.Site{Terrain: "III", BasicSpeed: 24, Height: m(z)})
		require.NoError(t, err)
		assert.GreaterOrEqual(t, p.Qp.In(kn), last)
		last = p.Qp.In(kn)
		twice, err := load.PeakPressure(load.Site{Terrain: "III", BasicSpeed: 48, Height: m(z)})
		require.NoError(t, err)
		assert.InEpsilon(t, 4*last, twice.Qp.In(kn), 1e-12)
	}
}

// EN 1991-1-4 Table 7.2, every printed number, exact.
func TestFlatRoofCoefficients(t *testing.T) {
	t.Parallel()
	rows := worked(t, "en1991-1-4-flat-roof-cpe.csv")
	require.Len(t, rows, 4)
	for _, row := range rows {
		zones, err := load.FlatRoofZones(load.Roof{Across: m(20), Along: m(20), Height: m(8), Parapet: m(8 * number(t, row["hp_over_h"]))})
		require.NoError(t, err)
		for i, name := range []string{"F", "G", "H"} {
			assert.Equal(t, name, zones[i].Name)
			assert.InDelta(t, number(t, row[name+"_cpe10"]), zones[i].Cpe10, 1e-9)
			assert.InDelta(t, number(t, row[name+"_cpe1"]), zones[i].Cpe1, 1e-9)
		}
		assert.Equal(t, number(t, row["I_minus"]), zones[3].Cpe10)
	}
	// Between two parapets straight; beyond them no better.
	at := func(ratio float64) float64 {
		z, err := load.FlatRoofZones(load.Roof{Across: m(20), Along: m(20), Height: m(10), Parapet: m(10 * ratio)})
		require.NoError(t, err)
		return z[0].Cpe10
	}
	assert.InDelta(t, -1.5, at(0.0375), 1e-9)
	assert.InDelta(t, -1.3, at(0.075), 1e-9)
	assert.Equal(t, -1.8, at(0.02), "a low kerb counts as none")
	assert.Equal(t, -1.2, at(0.3))
}

// Steel Buildings in Europe, Part 3, p. 3-48: b 32, d 60, h 8: e = 16 m; 0.1 e
// and 0.5 e set the zones.
func TestZoneAreas(t *testing.T) {
	t.Parallel()
	z, err := load.FlatRoofZones(load.Roof{Across: m(32), Along: m(60), Height: m(8)})
	require.NoError(t, err)
	areas := []float64{2 * 4 * 1.6, (32 - 8) * 1.6, 32 * (8 - 1.6), 32 * (60 - 8)}
	for i, want := range areas {
		assert.InEpsilon(t, want, z[i].Area.In(unit.SquareMetre), 1e-9, z[i].Name)
	}
	for _, r := range []load.Roof{
		{Across: m(5.5), Along: m(2.9), Height: m(2.5)}, {Across: m(2.9), Along: m(5.5), Height: m(2.5)},
		{Across: m(9), Along: m(0.6), Height: m(20)}, {Across: m(0.5), Along: m(9), Height: m(3)},
	} {
		zones, err := load.FlatRoofZones(r)
		require.NoError(t, err)
		sum := 0.0
		for _, z := range zones {
			assert.GreaterOrEqual(t, float64(z.Area), 0.0)
			sum += float64(z.Area)
		}
		assert.InEpsilon(t, float64(r.Across.By(r.Along)), sum, 1e-12)
	}
	for _, r := range []load.Roof{{Along: m(3), Height: m(3)}, {Across: m(5), Along: m(101), Height: m(3)}, {Across: m(5), Along: m(3)}, {Across: m(5), Along: m(3), Height: m(3), Parapet: m(-1)}} {
		_, err := load.FlatRoofZones(r)
		assert.Error(t, err)
	}
}

func TestCoefficientOfAnArea(t *testing.T) {
	t.Parallel()
	z := load.Zone{Name: "F", Cpe10: -1.8, Cpe1: -2.5}
	at := func(a float64) float64 { return z.At(unit.Area(a) * unit.SquareMetre) }
	assert.Equal(t, -2.5, at(0.5))
	assert.Equal(t, -2.5, at(1))
	assert.InDelta(t, -2.15, at(math.Sqrt(10)), 1e-9, "half way in the logarithm")
	assert.InDelta(t, -1.8, at(10), 1e-9)
	assert.Equal(t, -1.8, at(40))
	assert.Equal(t, -2.5, at(math.NaN()), "the larger suction when in doubt")
}

package timber_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/timber"
	"chargehand/calc/unit"
)

// A regression, and called one: the inputs of the bs5268 method were found by
// fitting these tables. The quoted rows are the SC3 flat-roof table repeated on
// public pages (dead-load band 0.50 to 0.75 kN/m²); the others are UK Approved
// Document A (1992) Table A17, from memory, band up to 0.50.
//
// Trap: a table that names a band was made at the band's upper end, with the
// joist's own weight on top.
func TestFlatRoofJoistsUK(t *testing.T) {
	t.Parallel()
	quoted, remembered := 0, 0
	for _, row := range worked(t, "span-uk-flat-roof-c16.csv") {
		dead, within := 0.50, 0.005
		if row["confidence"] == "quoted" {
			dead, within = 0.75, 0.01
			quoted++
		} else {
			remembered++
		}
		j := timber.Joist{Method: timber.BS5268, Grade: "C16",
			Section: timber.Section{B: unit.Length(number(t, row["b_mm"])), H: unit.Length(number(t, row["h_mm"]))},
			Centres: unit.Length(number(t, row["spacing_mm"])), Dead: unit.AreaLoad(dead) * unit.KilonewtonPerM2,
			Imposed: 0.75 * unit.KilonewtonPerM2}
		got, by, err := timber.MaxClearSpan(j)
		require.NoError(t, err)
		assert.InEpsilon(t, number(t, row["max_clear_span_m"]), got.In(unit.Metre), within, "%v", row)
		assert.Equal(t, timber.Final, by, "bending never governs there")
	}
	assert.Equal(t, 18, quoted)
	assert.Equal(t, 36, remembered)
}

// The same tables as a plausibility band for ec5, whose limits and loads
// differ: within ten per cent, with a ceiling, all bands at their upper end.
func TestFlatRoofJoistsEC5Band(t *testing.T) {
	t.Parallel()
	for _, row := range worked(t, "span-uk-flat-roof-c16.csv") {
		dead := 0.50
		if row["confidence"] == "quoted" {
			dead = 0.75
		}
		j := timber.Joist{Grade: "C16",
			Section: timber.Section{B: unit.Length(number(t, row["b_mm"])), H: unit.Length(number(t, row["h_mm"]))},
			Centres: unit.Length(number(t, row["spacing_mm"])), Dead: unit.AreaLoad(dead) * unit.KilonewtonPerM2,
			Imposed: 0.75 * unit.KilonewtonPerM2}
		got, _, err := timber.MaxClearSpan(j)
		require.NoError(t, err)
		assert.InEpsilon(t, number(t, row["max_clear_span_m"]), got.In(unit.Metre), 0.10, "%v", row)
	}
}

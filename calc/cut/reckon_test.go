package cut_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/cut"
)

func reckon(t *testing.T, in string) (cut.CutOut, error) {
	t.Helper()
	var c cut.CutIn
	require.NoError(t, json.Unmarshal([]byte(in), &c))
	return cut.ReckonCut(c)
}

// Row S001 of multistock.csv through the topic, with prices in pounds.
func TestReckonRow(t *testing.T) {
	t.Parallel()
	out, err := reckon(t, `{"kerf_mm": 3, "trim_mm": 0,
		"stock": [{"length_mm": 2400, "cost": 0.41}, {"length_mm": 3000, "cost": 0.55, "available": -1}, {"length_mm": 3600, "cost": 0.70}],
		"pieces": [{"length_mm": 2035, "count": 1}, {"length_mm": 1938, "count": 1}, {"length_mm": 1528, "count": 2},
			{"length_mm": 1132, "count": 1}, {"length_mm": 1074, "count": 1}, {"length_mm": 1039, "count": 1},
			{"length_mm": 830, "count": 1}, {"length_mm": 517, "count": 2}, {"length_mm": 483, "count": 1}, {"length_mm": 379, "count": 1}]}`)
	require.NoError(t, err)
	assert.InDelta(t, 2.46, out.Cost, 1e-9)
	assert.InDelta(t, 2.46, out.LowerBound, 1e-9)
	assert.True(t, out.Proven)
	assert.Len(t, out.Bars, out.Count)
	bars := 0
	for _, g := range out.Groups {
		bars += g.Times
	}
	assert.Equal(t, out.Count, bars)
}

func TestReckonWithoutPrices(t *testing.T) {
	t.Parallel()
	one, err := reckon(t, `{"kerf_mm": 0, "stock": [{"length_mm": 3000}], "pieces": [{"length_mm": 1600, "count": 3, "label": "sill"}]}`)
	require.NoError(t, err)
	assert.Equal(t, 3.0, one.Cost, "one stock counts bars")
	assert.Equal(t, []string{"sill"}, one.Bars[0].Labels)

	several, err := reckon(t, `{"kerf_mm": 0, "stock": [{"length_mm": 3000}, {"length_mm": 1800}], "pieces": [{"length_mm": 1600, "count": 3}]}`)
	require.NoError(t, err)
	assert.Equal(t, 3*1800.0, several.Cost, "several stocks count mm")

	site, err := reckon(t, `{"kerf_mm": 0, "stock": [{"length_mm": 1800, "cost": 5}, {"length_mm": 3000, "available": 1}], "pieces": [{"length_mm": 1600, "count": 3}]}`)
	require.NoError(t, err)
	assert.Equal(t, 10.0, site.Cost, "a leftover without a price is free")

	for in, field := range map[string]string{
		`{"kerf_mm": 0, "stock": [{"length_mm": 1800, "cost": 5}, {"length_mm": 3000}], "pieces": [{"length_mm": 1600, "count": 3}]}`: "stock[1].cost",
		`{"kerf_mm": 0, "stock": [{"length_mm": 1800, "cost": 5.001}], "pieces": [{"length_mm": 1600, "count": 3}]}`:                  "stock[0].cost",
		`{"kerf_mm": 0, "stock": [{"length_mm": 1800, "cost": -5}], "pieces": [{"length_mm": 1600, "count": 3}]}`:                     "stock[0].cost",
		`{"kerf_mm": 0, "stock": [{"length_mm": 1800}], "pieces": [{"length_mm": 1900, "count": 3}]}`:                                 "pieces[0].length_mm",
		`{"kerf_mm": 0, "stock": [], "pieces": [{"length_mm": 1900, "count": 3}]}`:                                                    "stock",
	} {
		_, err := reckon(t, in)
		var outside *calc.DomainError
		if assert.ErrorAs(t, err, &outside, in) {
			assert.Equal(t, field, outside.Field)
		}
	}
}

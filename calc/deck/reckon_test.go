package deck_test

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/deck"
)

func reckon(t *testing.T, in string) (deck.DeckOut, error) {
	t.Helper()
	var d deck.DeckIn
	require.NoError(t, json.Unmarshal([]byte(in), &d))
	return deck.ReckonDeck(d)
}

func TestReckonDK02(t *testing.T) {
	t.Parallel()
	out, err := reckon(t, `{"row_length_mm": 4400, "depth_mm": 4160, "joist_spacing_mm": 400, "board_length_mm": 2440, "board_width_mm": 1220,
		"kerf_mm": 3, "end_gap_mm": 0, "row_gap_mm": 0, "min_bays": 2, "stagger": 1}`)
	require.NoError(t, err)
	assert.Equal(t, 7, out.Boards)
	assert.Equal(t, 7, out.LowerBound)
	assert.True(t, out.Proven)
	require.Len(t, out.Rows, 4)
	assert.Equal(t, 500.0, out.Rows[3][0].WidthMM, "4160 - 3×1220")
	boards, pieces := 0, 0
	for _, c := range out.Cuts {
		boards += c.Times
		assert.Len(t, c.Boards, c.Times)
	}
	for _, row := range out.Rows {
		x := 0.0
		for _, pc := range row {
			assert.InDelta(t, x, pc.XMM, 1e-9)
			x += pc.LengthMM
			pieces++
		}
		assert.InDelta(t, 4400, x, 1e-9)
	}
	assert.Equal(t, out.Boards, boards)
	assert.Equal(t, out.Pieces, pieces)
}

func TestReckonKeys(t *testing.T) {
	t.Parallel()
	const rest = `"row_length_mm": 3000, "depth_mm": 1200, "board_length_mm": 2400, "board_width_mm": 1200, "kerf_mm": 3, "end_gap_mm": 3, "row_gap_mm": 0, "min_bays": 2, "stagger": 1`
	out, err := reckon(t, `{`+rest+`, "lines_mm": [23, 600, 1200, 1800, 2400, 2977], "stagger_mm": 400, "budget": 1000000,
		"strips": [{"length_mm": 900, "height_mm": 150, "count": 2, "label": "kerb"}],
		"regions": [{"row_length_mm": 1200, "depth_mm": 600, "joist_spacing_mm": 600}]}`)
	require.NoError(t, err)
	assert.Len(t, out.Rows, 2)
	assert.Equal(t, 1, out.Rows[1][0].Region)
	for in, field := range map[string]string{
		`{` + rest + `}`: "joist_spacing_mm",
		`{` + rest + `, "joist_spacing_mm": 600, "lines_mm": [600]}`:                                              "joist_spacing_mm",
		`{` + rest + `, "joist_spacing_mm": 600, "regions": [{"row_length_mm": 1200, "depth_mm": 600}]}`:          "regions[0].joist_spacing_mm",
		`{` + rest + `, "joist_spacing_mm": 600, "strips": [{"length_mm": 900, "height_mm": 150, "count": 501}]}`: "strips[0].count",
		`{` + rest + `, "joist_spacing_mm": 600, "stagger_mm": 10001}`:                                            "stagger_mm",
	} {
		_, err := reckon(t, in)
		var outside *calc.DomainError
		if assert.ErrorAs(t, err, &outside, in) {
			assert.Equal(t, field, outside.Field)
		}
	}
}

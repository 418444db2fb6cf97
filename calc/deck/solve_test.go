package deck_test

import (
	"encoding/json"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/deck"
	"chargehand/calc/unit"
)

type workedDeck struct {
	ID            string  `json:"id"`
	Kerf          float64 `json:"kerf"`
	EndGap        float64 `json:"end_gap"`
	RowGap        float64 `json:"row_gap"`
	MinBays       int     `json:"min_bays"`
	Stagger       int     `json:"stagger"`
	RowLength     float64 `json:"row_length"`
	Depth         float64 `json:"depth"`
	JoistSpacing  float64 `json:"joist_spacing"`
	BoardLength   float64 `json:"board_length"`
	BoardWidth    float64 `json:"board_width"`
	OptimumBoards int     `json:"optimum_boards"`
	RowByRowReuse int     `json:"row_by_row_reuse"`
	AreaBound     int     `json:"area_bound"`
}

func (w workedDeck) problem() deck.Problem {
	return deck.Problem{
		RowLength: unit.Length(w.RowLength), Depth: unit.Length(w.Depth), JoistSpacing: unit.Length(w.JoistSpacing),
		BoardLength: unit.Length(w.BoardLength), BoardWidth: unit.Length(w.BoardWidth),
		Kerf: unit.Length(w.Kerf), EndGap: unit.Length(w.EndGap), RowGap: unit.Length(w.RowGap),
		MinBays: w.MinBays, Stagger: w.Stagger,
	}
}

// workedDecks reads testdata/worked/cutting/deck.json; SOURCES.md beside it
// says how the optima were found.
func workedDecks(t testing.TB) []workedDeck {
	t.Helper()
	raw, err := os.ReadFile("../../testdata/worked/cutting/deck.json")
	require.NoError(t, err)
	var out []workedDeck
	require.NoError(t, json.Unmarshal(raw, &out))
	require.NotEmpty(t, out)
	return out
}

func TestWorkedDecks(t *testing.T) {
	t.Parallel()
	for _, w := range workedDecks(t) {
		l, err := deck.Solve(w.problem())
		require.NoError(t, err, w.ID)
		require.NoError(t, deck.Check(w.problem(), l), w.ID)
		assert.Equal(t, w.OptimumBoards, l.Boards, w.ID)
		assert.True(t, l.Proven, w.ID)
	}
}

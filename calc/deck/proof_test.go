package deck

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/calc/unit"
)

// DK01 and DK02 of testdata/worked/cutting/deck.json: seven boards each.
var proven = []Problem{
	{RowLength: 4800, Depth: 3600, JoistSpacing: 600, BoardLength: 2400, BoardWidth: 1200, Kerf: 3, MinBays: 2, Stagger: 1},
	{RowLength: 4400, Depth: 4160, JoistSpacing: 400, BoardLength: 2440, BoardWidth: 1220, Kerf: 3, MinBays: 2, Stagger: 1},
}

// Any values at all make a true proof, with all ways to lay a row or without.
func TestAnyValuesProveNothingFalse(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 3))
	met := 0
	for _, p := range proven {
		s, err := fold(p)
		require.NoError(t, err)
		for _, complete := range []bool{true, false} {
			se, _ := newSearch(s, DefaultBudget)
			require.NotNil(t, se)
			for _, w := range se.walkers {
				require.True(t, w.complete)
				w.complete = complete
			}
			for range 300 {
				value := make([]int64, len(se.sizes))
				for i := range value {
					value[i] = int64(float64(boardWorth) * r.Float64() * r.Float64())
				}
				_, worth := se.saw(value)
				_, bound := se.prove(value, worth)
				require.LessOrEqual(t, bound, 7)
				if bound == 7 {
					met++
				}
			}
			se.offer(se.rowByRow()[0], make([]boardPlan, 8))
			se.relax(se.best)
			require.LessOrEqual(t, se.bound, 7)
			require.GreaterOrEqual(t, se.bound, 6)
		}
	}
	t.Log(met, "of the random proofs meet the optimum")
}

// A row too long for all ways to be listed is laid all the same, and never
// called proven on the strength of an unfinished list.
func TestLongRow(t *testing.T) {
	t.Parallel()
	p := Problem{RowLength: 14 * unit.Metre, Depth: 2400, JoistSpacing: 400, BoardLength: 2400, BoardWidth: 1200,
		Kerf: 3, MinBays: 2, Stagger: 1, Budget: 20_000_000}
	s, err := fold(p)
	require.NoError(t, err)
	_, complete := s.patterns(s.regions[0])
	require.False(t, complete)
	l, err := Solve(p)
	require.NoError(t, err)
	require.NoError(t, Check(p, l))
	require.LessOrEqual(t, l.Boards, l.Bound+1)
}

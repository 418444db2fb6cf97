package fill_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/calc/cut/fill"
)

// dense is the textbook table over every room: S. Martello and P. Toth,
// Knapsack Problems (1990), section 3.2.
func dense(size []int, value []int64, limit []int, room int) []int64 {
	best := make([]int64, room+1)
	for i := range size {
		for range limit[i] {
			for r := room; r >= size[i]; r-- {
				best[r] = max(best[r], best[r-size[i]]+max(value[i], 0))
			}
		}
	}
	return best
}

func TestAgainstDenseTable(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 1))
	for range 300 {
		n := 1 + r.IntN(6)
		size, value, limit := make([]int, n), make([]int64, n), make([]int, n)
		for i := range n {
			size[i], value[i], limit[i] = 1+r.IntN(30), int64(r.IntN(40)-3), r.IntN(4)
		}
		room := 1 + r.IntN(90)
		table := fill.Table{Size: size, Room: room}
		table.Run(value, limit)
		want := dense(size, value, limit, room)
		for at, w := range want {
			place, got := table.Best(at)
			require.Equal(t, w, got, "room %d of %v %v %v", at, size, value, limit)
			used, worth := 0, int64(0)
			items, times := table.Read(place)
			for k, i := range items {
				require.LessOrEqual(t, times[k], limit[i])
				used += times[k] * size[i]
				worth += int64(times[k]) * value[i]
			}
			require.LessOrEqual(t, used, at)
			require.Equal(t, w, worth)
		}
		for _, st := range table.Steps() {
			require.Equal(t, want[st.Room], st.Value)
		}
		require.Positive(t, table.Work+1)
	}
}

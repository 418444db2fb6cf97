package cut_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/cut"
)

func TestPublishedListsCheck(t *testing.T) {
	t.Parallel()
	for _, in := range append(multistock(t, worked+"multistock.csv"), bins(t, worked+"orlibrary.csv")...) {
		l, err := cut.Solve(in.problem)
		require.NoError(t, err, in.name)
		require.NoError(t, cut.Check(in.problem, l), in.name)
		assert.GreaterOrEqual(t, l.Cost, in.optimum, in.name)
		assert.LessOrEqual(t, l.Bound, in.optimum, in.name)
	}
}

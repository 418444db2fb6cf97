package cut_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/cut"
)

func solved(t *testing.T, in instance) cut.List {
	t.Helper()
	l, err := cut.Solve(in.problem)
	require.NoError(t, err, in.name)
	require.NoError(t, cut.Check(in.problem, l), in.name)
	require.GreaterOrEqual(t, l.Cost, in.optimum, "%s: cheaper than the proven optimum", in.name)
	require.LessOrEqual(t, l.Bound, in.optimum, "%s: a false bound", in.name)
	return l
}

// Every list of several stocks is proven, within a twentieth of QuickBudget.
func TestSeveralStocks(t *testing.T) {
	t.Parallel()
	for _, in := range multistock(t, worked+"multistock.csv") {
		l := solved(t, in)
		assert.True(t, l.Proven, in.name)
		assert.Less(t, l.Work, int64(cut.QuickBudget/20), in.name)
	}
}

func TestORLibraryRows(t *testing.T) {
	t.Parallel()
	for _, in := range bins(t, worked+"orlibrary.csv") {
		assert.True(t, solved(t, in).Proven, in.name)
	}
}

// The other published rows may be used but not passed on; they are read from
// the folder that CHECKS_DIR names.
func TestPublishedRows(t *testing.T) {
	dir := os.Getenv("CHECKS_DIR")
	if dir == "" {
		t.Skip("CHECKS_DIR is not set")
	}
	t.Parallel()
	all := bins(t, filepath.Join(dir, "binpack", "literature.csv"))
	proven := 0
	for _, in := range all {
		l := solved(t, in)
		if l.Proven {
			proven++
		} else {
			t.Logf("%s: cost %d, bound %d", in.name, l.Cost, l.Bound)
		}
	}
	t.Logf("%d of %d proven", proven, len(all))
	assert.GreaterOrEqual(t, proven*100, len(all)*95)
}

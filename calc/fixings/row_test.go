package fixings_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// Worked numbers of common practice: see testdata/worked/takeoff.
func TestRunCounts(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		what fixings.What
		run  unit.Length
		want int
	}{
		{fixings.Plate, 5500, 10},
		{fixings.Bar, 3200, 17},
		{fixings.Bar, 5400, 28},
		{fixings.Trim, 3000, 11},
		{fixings.Trim, 2500, 10},
		{fixings.Strap, 5500, 4},
	} {
		row, err := fixings.Run(c.what, c.run)
		require.NoError(t, err)
		assert.Equal(t, c.want, row.Count, "%s %v", c.what, c.run)
	}
}

func TestDeckScrewsOfTheWorkedDeck(t *testing.T) {
	t.Parallel()
	deck := fixings.DeckLayout{SeamNoggins: true}
	for i := range 14 {
		deck.Lines = append(deck.Lines, unit.Length(float64(i)*400.5))
	}
	deck.Lines = append(deck.Lines, 5500)
	deck.Rows = []fixings.DeckRow{
		{Width: 1200, Joints: []int{6, 12}},
		{Width: 1200, Joints: []int{3, 9, 12}},
		{Width: 494, Joints: []int{6, 12}},
	}
	n, err := fixings.DeckScrews(deck)
	require.NoError(t, err)
	assert.Equal(t, 400, n)
	deck.OuterEdges = true
	n, err = fixings.DeckScrews(deck)
	require.NoError(t, err)
	assert.Equal(t, 456, n)
}

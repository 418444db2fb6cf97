package takeoff_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/takeoff"
)

type packs = []takeoff.Pack

// Against the three-wall sheet: 7.5 l ordered for 4.93 and 0.493; 17 joists of
// 3.3 m, two of them spare; a gutter in one length of 4 m.
func TestDelivered(t *testing.T) {
	t.Parallel()
	bill, err := takeoff.List(threeWalls())
	require.NoError(t, err)
	for _, c := range []struct {
		key   takeoff.Key
		came  packs
		want  takeoff.Arrival
		toGet packs
	}{
		{takeoff.DeckAdhesive, packs{{Size: 5, Count: 1}, {Size: 2.5, Count: 1}}, takeoff.Whole, nil},
		{takeoff.DeckAdhesive, packs{{Size: 2.5, Count: 3}}, takeoff.Whole, nil},
		{takeoff.DeckAdhesive, packs{{Size: 6, Count: 1}}, takeoff.Enough, nil},
		{takeoff.DeckAdhesive, packs{{Size: 5, Count: 1}}, takeoff.IntoWaste, packs{{Size: 2.5, Count: 1}}},
		{takeoff.DeckAdhesive, packs{{Size: 2.5, Count: 1}}, takeoff.Short, packs{{Size: 5, Count: 1}}}, // 2.923 still to get
		{takeoff.DeckAdhesive, nil, takeoff.Short, packs{{Size: 5, Count: 1}, {Size: 2.5, Count: 1}}},
		{takeoff.JoistTimber, packs{{Size: 3.3, Count: 17}}, takeoff.Whole, nil},
		{takeoff.JoistTimber, packs{{Size: 3.6, Count: 2}, {Size: 3.3, Count: 15}}, takeoff.Whole, nil},
		{takeoff.JoistTimber, packs{{Size: 3.3, Count: 15}}, takeoff.IntoWaste, packs{{Size: 3.3, Count: 2}}},
		{takeoff.JoistTimber, packs{{Size: 3.3, Count: 14}}, takeoff.Short, packs{{Size: 3.3, Count: 3}}},
		{takeoff.JoistTimber, packs{{Size: 3.0, Count: 30}}, takeoff.Short, packs{{Size: 3.3, Count: 17}}}, // none is long enough
		{takeoff.Gutter, packs{{Size: 2, Count: 2}}, takeoff.Short, packs{{Size: 4, Count: 1}}},
		{takeoff.Gutter, packs{{Size: 6, Count: 1}}, takeoff.Whole, nil},
		{takeoff.PlateTimber, packs{{Size: 6, Count: 1}, {Size: 5.4, Count: 1}}, takeoff.Short, packs{{Size: 6, Count: 1}}},
		{takeoff.Sheet, packs{{Size: 20, Count: 1}}, takeoff.Short, packs{{Size: 21.46, Count: 1}}},
		{takeoff.UpstandBoard, nil, takeoff.Short, nil},
	} {
		d, err := takeoff.Delivered(line(t, bill, c.key), c.came)
		require.NoError(t, err)
		assert.Equal(t, c.want, d.Arrival, "%s %v", c.key, c.came)
		assert.Equal(t, c.toGet, d.ToGet, "%s %v", c.key, c.came)
	}
}

// More never makes it worse.
func TestDeliveredShape(t *testing.T) {
	t.Parallel()
	bill, err := takeoff.List(fourFreeEdges())
	require.NoError(t, err)
	rank := map[takeoff.Arrival]int{takeoff.Short: 0, takeoff.IntoWaste: 1, takeoff.Enough: 2, takeoff.Whole: 3}
	for _, l := range bill.Lines {
		if len(l.Packs) == 0 {
			continue
		}
		last := 0
		all := l.Packs[0].Count
		for n := 0; n <= all; n++ {
			came := append(packs{{Size: l.Packs[0].Size, Count: n}}, l.Packs[1:]...)
			d, err := takeoff.Delivered(l, came)
			require.NoError(t, err)
			require.GreaterOrEqual(t, rank[d.Arrival], last, "%s %d", l.Key, n)
			last = rank[d.Arrival]
		}
		require.Equal(t, 3, last, l.Key)
	}
}

func TestDeliveredDomain(t *testing.T) {
	t.Parallel()
	_, err := takeoff.Delivered(takeoff.Line{}, packs{{Size: 0, Count: 1}})
	assertDomain(t, err, "size")
	_, err = takeoff.Delivered(takeoff.Line{}, packs{{Size: 1, Count: -1}})
	assertDomain(t, err, "count")
	d, err := takeoff.Delivered(takeoff.Line{}, nil)
	require.NoError(t, err)
	assert.Equal(t, takeoff.Whole, d.Arrival)
}

package takeoff_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/takeoff"
)

// The four adhesive purchases of the two worked roofs in testdata/worked/takeoff.
func TestPacksOfTheWorkedRoofs(t *testing.T) {
	t.Parallel()
	deck := []takeoff.PackSize{{Size: 2.5}, {Size: 5}, {Size: 10}, {Size: 15}}
	contact := []takeoff.PackSize{{Size: 5}, {Size: 1}, {Size: 2.5}}
	for _, c := range []struct {
		name          string
		need, waste   float64
		sizes         []takeoff.PackSize
		packs         []takeoff.Pack
		tight, surplu bool
	}{
		{"field 13.5 m²", 4.5, 0.45, deck, []takeoff.Pack{{Size: 5, Count: 1}}, true, false},
		{"contact 4.1 m²", 4.1 / 1.5, 4.1 / 1.5 * .15, contact, []takeoff.Pack{{Size: 2.5, Count: 1}, {Size: 1, Count: 1}}, false, false},
		{"field 14.8 m²", 14.8 / 3, 1.48 / 3, deck, []takeoff.Pack{{Size: 5, Count: 1}, {Size: 2.5, Count: 1}}, false, false},
		{"contact 4.9 m²", 4.9 / 1.5, 4.9 / 1.5 * .15, contact, []takeoff.Pack{{Size: 2.5, Count: 1}, {Size: 1, Count: 2}}, false, false},
	} {
		p, err := takeoff.Packs(c.need, c.waste, c.sizes)
		require.NoError(t, err, c.name)
		assert.Equal(t, c.packs, p.Packs, c.name)
		assert.Equal(t, c.tight, p.Tight(), c.name)
		assert.Equal(t, c.surplu, p.Surplus(), c.name)
		assert.Nil(t, p.Cost)
	}
}

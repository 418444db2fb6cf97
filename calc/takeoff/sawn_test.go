package takeoff_test

import (
	"errors"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/takeoff"
)

// Twelve joists of 3150 and two spare from fourteen lengths of 3.3 m, worked by
// hand: 12 x 3.15 = 37.8, 2 x 3.15 = 6.3, 14 x 3.3 = 46.2, left 2.1.
func TestASawnLineIsAsItsCutListHasIt(t *testing.T) {
	price := takeoff.Money(1200)
	b, err := takeoff.List(takeoff.Input{
		Sawn: map[takeoff.Key]takeoff.Sawn{takeoff.JoistTimber: {
			Needed: 37800, Spare: 6300, Packs: []takeoff.Pack{{Size: 3.3, Count: 14}}}},
		Packs: map[takeoff.Key][]takeoff.PackSize{takeoff.JoistTimber: {{Size: 3.3, Price: &price}}},
	})
	require.NoError(t, err)
	require.NotContains(t, b.Missing, takeoff.JoistTimber)
	i := slices.IndexFunc(b.Lines, func(l takeoff.Line) bool { return l.Key == takeoff.JoistTimber })
	require.GreaterOrEqual(t, i, 0)
	l := b.Lines[i]
	assert.InDelta(t, 46.2, l.ToBuy, 1e-9)
	assert.InDelta(t, 2.1, l.LeftOver, 1e-9)
	require.NotNil(t, l.Cost)
	assert.EqualValues(t, 14*1200, *l.Cost)
}

func TestASawnLineThatIsTooShortIsRefused(t *testing.T) {
	_, err := takeoff.List(takeoff.Input{Sawn: map[takeoff.Key]takeoff.Sawn{takeoff.Battens: {Needed: 5000, Packs: []takeoff.Pack{{Size: 4.8, Count: 1}}}}})
	var d *calc.DomainError
	require.True(t, errors.As(err, &d))
	assert.Equal(t, "sawn", d.Field)
}

// Boards cut from the deck leave only plugs to buy: a run of 4200 at 178 takes
// two rows of ceil(4100/400) + 1 = 12.
func TestUpstandBoardsFromTheDeckLeaveOnlyPlugs(t *testing.T) {
	b, err := takeoff.List(takeoff.Input{FromDeck: true, Upstands: []takeoff.Upstand{{Run: 4200, Height: 178}}})
	require.NoError(t, err)
	for _, l := range b.Lines {
		assert.NotEqual(t, takeoff.UpstandBoard, l.Key)
		if l.Key == takeoff.UpstandPlugs {
			assert.EqualValues(t, 24, l.Needed)
		}
	}
}

func TestUsualSizesAndUnits(t *testing.T) {
	joists := takeoff.Usual(takeoff.JoistTimber)
	assert.InDelta(t, 2.4, joists[0], 1e-9)
	assert.InDelta(t, 7.2, joists[len(joists)-1], 1e-9)
	assert.Equal(t, []float64{2.5, 5, 10, 15}, takeoff.Usual(takeoff.DeckAdhesive))
	assert.Empty(t, takeoff.Usual(takeoff.Sheet))
	for _, k := range takeoff.Keys() {
		assert.NotEmpty(t, takeoff.UnitOf(k), string(k))
	}
	assert.Equal(t, takeoff.SquareMetre, takeoff.UnitOf(takeoff.Sheet))
}

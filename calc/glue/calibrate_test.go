package glue_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"chargehand/calc"
	"chargehand/calc/glue"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Regression of our own rule: model 13, wet at 6, skinned at 9, so the factor is
// 0.46 to 0.69 and 0.46 is planned with, which is 6 minutes again.
func TestOneSquarePlansWithItsSafeEnd(t *testing.T) {
	t.Parallel()
	c, err := glue.Calibrate(glue.Square{Model: 13, LastWet: 6, FirstGone: 9})
	require.NoError(t, err)
	assert.True(t, c.Bracketed)
	assert.InDelta(t, 0.46, c.Low, 0.005)
	assert.InDelta(t, 0.69, c.High, 0.005)
	assert.Equal(t, c.Low, c.Factor)
	assert.InDelta(t, 6, c.Factor*13, 1e-12)
	assert.Zero(t, c.Likely, "one bracket is not averaged with itself")
}

func TestSquaresAreIntersected(t *testing.T) {
	t.Parallel()
	c, err := glue.Calibrate(
		glue.Square{Model: 13, LastWet: 6, FirstGone: 9}, // 0.46..0.69
		glue.Square{Model: 10, LastWet: 5, FirstGone: 8}, // 0.5..0.8
		glue.Square{Model: 20, LastWet: 4},               // from 0.2
		glue.Square{Model: 20, FirstGone: 13},            // to 0.65
	)
	require.NoError(t, err)
	assert.True(t, c.Bracketed)
	assert.InDelta(t, 0.5, c.Low, 1e-12)
	assert.InDelta(t, 0.65, c.High, 1e-12)
	assert.Equal(t, c.Low, c.Factor)
	assert.InDelta(t, math.Sqrt(0.5*0.65), c.Likely, 1e-12)

	c, err = glue.Calibrate(glue.Square{Model: 10, LastWet: 4, FirstGone: 5}, glue.Square{Model: 10, LastWet: 8, FirstGone: 9})
	require.NoError(t, err)
	assert.True(t, c.Conflict)
	assert.False(t, c.Bracketed)
	assert.InDelta(t, 0.4, c.Factor, 1e-12, "the shortest-lived")
	assert.Zero(t, c.Likely)
}

func TestSquaresSeenFromOneSide(t *testing.T) {
	t.Parallel()
	c, err := glue.Calibrate(glue.Square{Model: 10, LastWet: 15})
	require.NoError(t, err)
	assert.False(t, c.Bracketed)
	assert.Equal(t, 1.0, c.Factor, "nobody saw it go")
	c, err = glue.Calibrate(glue.Square{Model: 10, FirstGone: 6})
	require.NoError(t, err)
	assert.False(t, c.Bracketed)
	assert.InDelta(t, 0.6, c.Factor, 1e-12)
	c, err = glue.Calibrate(glue.Square{Model: 10, FirstGone: 16})
	require.NoError(t, err)
	assert.Equal(t, 1.0, c.Factor)
	c, err = glue.Calibrate(glue.Square{Model: 10, LastWet: 25, FirstGone: 30})
	require.NoError(t, err)
	assert.True(t, c.AtCeiling)
	assert.Equal(t, 2.0, c.Factor)
}

func TestCalibrateShape(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 10))
	square := func() glue.Square {
		s := glue.Square{Model: unit.Minutes(5 + 20*r.Float64())}
		s.LastWet = s.Model * unit.Minutes(0.4+0.6*r.Float64())
		s.FirstGone = s.LastWet * unit.Minutes(1.05+r.Float64())
		return s
	}
	for range 2000 {
		a, b := square(), square()
		one, err := glue.Calibrate(a)
		require.NoError(t, err)
		// Planned with the factor, no square was ever seen gone.
		require.LessOrEqual(t, one.Factor*float64(a.Model), float64(a.LastWet)+1e-9)
		both, err := glue.Calibrate(a, b)
		require.NoError(t, err)
		if !both.Conflict {
			require.GreaterOrEqual(t, both.Low, one.Low)
			require.LessOrEqual(t, both.High, one.High)
			require.GreaterOrEqual(t, both.Likely, both.Factor)
		}
		for _, s := range []glue.Square{a, b} {
			require.Less(t, both.Factor*float64(s.Model), float64(s.FirstGone))
		}
		scaled := glue.Square{Model: a.Model * 2, LastWet: a.LastWet * 2, FirstGone: a.FirstGone * 2}
		again, err := glue.Calibrate(scaled)
		require.NoError(t, err)
		require.InDelta(t, one.Factor, again.Factor, 1e-12)
	}
}

func TestCalibrateRefuses(t *testing.T) {
	t.Parallel()
	for name, squares := range map[string][]glue.Square{
		"squares":        {},
		"model_min":      {{LastWet: 5}},
		"last_wet_min":   {{Model: 10}},
		"first_gone_min": {{Model: 10, LastWet: 9, FirstGone: 9}},
		"job_factor":     {{Model: 13, LastWet: 2, FirstGone: 3}}, // a floor of 0.3 would plan 3.9 min on a film gone at 3
	} {
		_, err := glue.Calibrate(squares...)
		var domain *calc.DomainError
		require.ErrorAs(t, err, &domain, name)
		assert.Equal(t, name, domain.Field)
	}
	_, err := glue.Calibrate(glue.Square{Model: 10, LastWet: unit.Minutes(math.Inf(1))})
	require.Error(t, err)
	_, err = glue.Calibrate(glue.Square{Model: 10, FirstGone: -1})
	require.Error(t, err)
}

func TestShareOfTheWindow(t *testing.T) {
	t.Parallel()
	assert.Equal(t, 0.6, glue.Share(false, false, 0))
	assert.Equal(t, 0.7, glue.Share(false, false, 1))
	assert.Equal(t, 0.85, glue.Share(false, true, 0))
	assert.Equal(t, 0.6, glue.Share(true, true, 4))
}

func TestContactLearnsOnlyTheCautiousWay(t *testing.T) {
	t.Parallel()
	k, err := glue.DryFactor(15, 21)
	require.NoError(t, err)
	assert.InDelta(t, 1.4, k, 1e-12)
	k, err = glue.DryFactor(15, 9)
	require.NoError(t, err)
	assert.Equal(t, 1.0, k)
	k, err = glue.LifeFactor(45, 36)
	require.NoError(t, err)
	assert.InDelta(t, 0.8, k, 1e-12)
	k, err = glue.LifeFactor(45, 60)
	require.NoError(t, err)
	assert.Equal(t, 1.0, k)
	for _, bad := range []func(unit.Minutes, unit.Minutes) (float64, error){glue.DryFactor, glue.LifeFactor} {
		_, err := bad(0, 10)
		require.Error(t, err)
		_, err = bad(10, 0)
		require.Error(t, err)
	}
	_, err = glue.DryFactor(10, 51)
	require.Error(t, err)
	_, err = glue.LifeFactor(100, 10)
	require.Error(t, err)
}

// Invented: 2.5 l on 7.1 m² at 3 m²/l is as it should be; 2 m²/l is thick.
func TestLitresAgainstArea(t *testing.T) {
	t.Parallel()
	m2 := unit.SquareMetre
	c, err := glue.Consumption(2.5*unit.Litre, 7.1*m2, glue.WetCoverage)
	require.NoError(t, err)
	assert.Equal(t, glue.NormalFilm, c.Film)
	assert.InDelta(t, 2.84, float64(c.Coverage), 1e-9)
	for _, x := range []struct {
		litres float64
		want   glue.Film
	}{{1.59, glue.Thin}, {1.6, glue.NormalFilm}, {2, glue.NormalFilm}, {2.4, glue.NormalFilm}, {2.41, glue.Thick}, {3, glue.Thick}} {
		c, err := glue.Consumption(unit.Volume(x.litres)*unit.Litre, 6*m2, glue.WetCoverage)
		require.NoError(t, err)
		assert.Equal(t, x.want, c.Film, "%g l", x.litres)
		assert.InDelta(t, x.litres/2, c.Share, 1e-12)
	}
	_, err = glue.Consumption(0, 6*m2, 3)
	require.Error(t, err)
	_, err = glue.Consumption(2*unit.Litre, 0, 3)
	require.Error(t, err)
	_, err = glue.Consumption(2*unit.Litre, 6*m2, 0)
	require.Error(t, err)
}

// A batch laid at the planned rates gives the planned rates back.
func TestRatesAreThoseOfTheBatch(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 11))
	for range 1000 {
		roll, lay := 0.3+2*r.Float64(), 0.3+2*r.Float64()
		turn := unit.Minutes(3 * r.Float64())
		area := 4 + 10*r.Float64()
		got, err := glue.Learn(glue.Watched{
			Area: unit.Area(area) * unit.SquareMetre, Spread: unit.Minutes(area / roll), Turn: turn, Laid: turn + unit.Minutes(area/lay),
		})
		require.NoError(t, err)
		require.InDelta(t, roll, float64(got.Roll), 1e-9)
		if area/lay >= float64(turn) {
			require.InDelta(t, lay, float64(got.Lay), 1e-9)
		} else {
			require.LessOrEqual(t, float64(got.Lay), lay, "a quick batch is not credited with more than twice its pace")
		}
	}
	slow := glue.Rates{Roll: 1, Lay: 2}.Slower(glue.Rates{Roll: 2, Lay: 1})
	assert.Equal(t, glue.Rates{Roll: 1, Lay: 1}, slow)
	for _, bad := range []glue.Watched{
		{Area: 0, Spread: 5, Laid: 5}, {Area: unit.SquareMetre, Spread: 0, Laid: 5}, {Area: unit.SquareMetre, Spread: 5, Laid: 0},
		{Area: unit.SquareMetre, Spread: 100, Laid: 5}, {Area: 100 * unit.SquareMetre, Spread: 50, Laid: 1}, {Area: unit.SquareMetre, Spread: 5, Laid: 5, Turn: -1},
	} {
		_, err := glue.Learn(bad)
		require.Error(t, err, "%+v", bad)
	}
}

func TestAlarmsOfABatch(t *testing.T) {
	t.Parallel()
	a, err := glue.AlarmsOf(13, 0.7)
	require.NoError(t, err)
	assert.InDelta(t, 5.46, float64(a.HeadsUp), 1e-9)
	assert.InDelta(t, 9.1, float64(a.Down), 1e-9)
	assert.Equal(t, unit.Minutes(13), a.Dead)
	_, err = glue.AlarmsOf(-1, 0.7)
	require.Error(t, err)
	_, err = glue.AlarmsOf(13, 1.1)
	require.Error(t, err)
}

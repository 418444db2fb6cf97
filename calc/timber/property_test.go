package timber_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/timber"
	"chargehand/calc/unit"
)

// someJoist draws a joist of a small roof by any method.
func someJoist(r *rand.Rand) timber.Joist {
	kn := func(most float64) unit.AreaLoad { return unit.AreaLoad(most*r.Float64()) * unit.KilonewtonPerM2 }
	j := timber.Joist{Dead: kn(0.8), Imposed: 0.1*unit.KilonewtonPerM2 + kn(1.5), Point: unit.Force(900 * r.Float64()), Snow: kn(1.5),
		Centres: unit.Length(300 + 400*r.Float64()), Bearing: unit.Length(40 + 60*r.Float64())}
	if r.IntN(2) == 0 {
		j.Drifts = []timber.Drift{{Peak: kn(4), Far: kn(0.8), Length: unit.Length(1000 + 5000*r.Float64())}}
	}
	switch r.IntN(4) {
	case 0:
		j.Method, j.Grade = timber.BS5268, []string{"C14", "C16", "C24", "C30"}[r.IntN(4)]
	case 1:
		j.Method, j.Grade = timber.NDS, []string{"DF-L #2", "SPF #3", "Southern Pine #1", "Hem-Fir SS"}[r.IntN(4)]
		j.Section = timber.Section{B: 38.1, H: depthsUS[r.IntN(len(depthsUS))]}
		return j
	default:
		j.Grade, j.ServiceClass = []string{"C14", "C16", "C24", "C30"}[r.IntN(4)], 1+r.IntN(3)
		j.Drifts = append(j.Drifts, timber.Drift{Peak: kn(6), Length: unit.Length(1000 + 3000*r.Float64()), Accidental: true})
		if r.IntN(3) == 0 {
			j.Unbraced = unit.Length(400 + 1500*r.Float64())
		}
		if r.IntN(3) == 0 {
			j.WindUp = kn(2)
		}
	}
	j.Section = timber.Section{B: unit.Length(38 + 40*r.Float64()), H: unit.Length(90 + 150*r.Float64())}
	return j
}

var depthsUS = []unit.Length{88.9, 139.7, 184.15, 234.95, 285.75}

const rounds = 80

func TestLongerNeverUsesLess(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 1))
	for range rounds {
		j := someJoist(r)
		last := 0.0
		for clear := unit.Length(2 * j.Section.H); clear < 6000; clear += 400 {
			res, err := timber.Check(j, clear)
			require.NoError(t, err, "%+v", j)
			assert.GreaterOrEqual(t, res.Utilisation, last*(1-1e-9), "%+v at %v", j, clear)
			last = res.Utilisation
		}
	}
}

func TestDeeperNeverUsesMore(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(2, 2))
	for range rounds {
		j := someJoist(r)
		deeper := j
		if j.Method == timber.NDS {
			i := r.IntN(len(depthsUS) - 1)
			j.Section.H, deeper.Section.H = depthsUS[i], depthsUS[i+1]
		} else {
			deeper.Section.H += unit.Length(5 + 60*r.Float64())
		}
		clear := 2*deeper.Section.H + unit.Length(3500*r.Float64())
		a, err := timber.Check(j, clear)
		require.NoError(t, err)
		b, err := timber.Check(deeper, clear)
		require.NoError(t, err)
		uses := map[string]float64{}
		for _, c := range a.Conditions {
			uses[c.Name] = c.Utilisation()
		}
		for _, c := range b.Conditions {
			switch {
			case c.Name == timber.Bearing:
				// A deeper joist weighs more where it bears; only that is added.
				own := 1.35 * float64(b.OwnWeight-a.OwnWeight) * float64(b.Span) / 2
				more := own / float64(j.Section.B) / float64(j.Bearing)
				assert.LessOrEqual(t, c.Demand, uses[c.Name]*c.Limit+more+1e-9, "%+v", j)
			case c.Name == timber.Stability && (j.Unbraced > 0 || j.WindUp > 0):
				// Slender joists buckle sideways before they bend: depth helps
				// less, and past λ = 1.4 hardly at all, but it never harms.
				assert.LessOrEqual(t, c.Utilisation(), uses[c.Name]*(1+1e-9), "%+v", j)
			default:
				assert.LessOrEqual(t, c.Utilisation(), uses[c.Name]*(1+1e-9), "%s %+v", c.Name, j)
			}
		}
	}
}

func TestMoreLoadOrWiderCentresNeverHelp(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 3))
	for range rounds {
		j := someJoist(r)
		j.WindUp = 0 // weight helps against uplift
		clear := 2*j.Section.H + unit.Length(3500*r.Float64())
		a, err := timber.Check(j, clear)
		require.NoError(t, err)
		for _, more := range []func(*timber.Joist){
			func(j *timber.Joist) { j.Dead += 0.2 * unit.KilonewtonPerM2 },
			func(j *timber.Joist) { j.Imposed += 0.2 * unit.KilonewtonPerM2 },
			func(j *timber.Joist) { j.Point += 200 },
			func(j *timber.Joist) { j.Snow += 0.3 * unit.KilonewtonPerM2 },
			func(j *timber.Joist) { j.Centres += 50 },
			func(j *timber.Joist) {
				j.Drifts = append([]timber.Drift{{Peak: 2 * unit.KilonewtonPerM2, Length: 2000}}, j.Drifts...)
			},
		} {
			heavier := j
			more(&heavier)
			b, err := timber.Check(heavier, clear)
			require.NoError(t, err)
			assert.GreaterOrEqual(t, b.Utilisation, a.Utilisation*(1-1e-9), "%+v", j)
			assert.LessOrEqual(t, b.MaxClear, a.MaxClear, "%+v", j)
		}
	}
}

func TestLongestIsTheLimit(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(4, 4))
	for range rounds {
		j := someJoist(r)
		longest, by, err := timber.MaxClearSpan(j)
		require.NoError(t, err)
		if longest == 0 {
			res, err := timber.Check(j, 2*j.Section.H)
			require.NoError(t, err)
			assert.Equal(t, calc.Over, res.Status)
			continue
		}
		under, err := timber.Check(j, longest)
		require.NoError(t, err)
		assert.LessOrEqual(t, under.Utilisation, 1.0, "%+v", j)
		assert.NotEqual(t, calc.Over, under.Status)
		over, err := timber.Check(j, longest+0.03)
		require.NoError(t, err)
		assert.Greater(t, over.Utilisation, 1.0, "%+v", j)
		assert.Equal(t, by, over.GovernedBy)
		assert.Equal(t, longest, under.MaxClear)
	}
}

func TestScale(t *testing.T) {
	t.Parallel()
	// Twice the width under twice the load bends, shears and sags the same.
	j := timber.Joist{Section: timber.Section{B: 38, H: 145}, Centres: 300, Dead: 0.4 * unit.KilonewtonPerM2, NoPoint: true}
	twice := j
	twice.Section.B *= 2
	twice.Centres *= 2
	a, err := timber.Check(j, 2600)
	require.NoError(t, err)
	b, err := timber.Check(twice, 2600)
	require.NoError(t, err)
	for i, c := range a.Conditions {
		assert.InEpsilon(t, c.Utilisation(), b.Conditions[i].Utilisation(), 1e-12, c.Name)
	}
	assert.False(t, math.IsNaN(a.Utilisation))
}

package glue_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"chargehand/calc/glue"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// roof is a field cut into slices along its depth, each bare, wet or bonded. It
// knows nothing of the formulas under test: it is spread and covered slice by
// slice at given rates, and it says what each hand could still walk over.
type roof struct {
	slice  float64 // mm
	wetAt  []float64
	downAt []float64 // NaN = not yet
}

func newRoof(depth, slice float64) *roof {
	n := int(math.Round(depth / slice))
	r := &roof{slice: depth / float64(n), wetAt: make([]float64, n), downAt: make([]float64, n)}
	for i := range n {
		r.wetAt[i], r.downAt[i] = math.NaN(), math.NaN()
	}
	return r
}

// wet says whether slice i is wet film at time t.
func (r *roof) wet(i int, t float64) bool {
	return r.wetAt[i] <= t && !(r.downAt[i] <= t)
}

// reaches says whether a hand standing before slice at (0 = the far edge, n =
// the ladder edge) can walk to the ladder, or to the far edge, without stepping
// in wet film.
func (r *roof) reaches(at int, t float64, ladder bool) bool {
	if ladder {
		for i := at; i < len(r.wetAt); i++ {
			if r.wet(i, t) {
				return false
			}
		}
		return true
	}
	for i := at - 1; i >= 0; i-- {
		if r.wet(i, t) {
			return false
		}
	}
	return true
}

// work lays one strip from time t on and returns when it is down. It checks at
// every slice that whoever works has the way off that the plan names.
func (r *roof) work(t *testing.T, s glue.Strip, fold, rs, rl float64, start float64, far bool) float64 {
	t.Helper()
	lo, hi := float64(min(s.Start, s.End)), float64(max(s.Start, s.End))
	first, last := int(math.Round(lo/r.slice)), int(math.Round(hi/r.slice)) // slices [first, last)
	perSlice := r.slice * fold / 1e6                                        // m²
	up := s.End > s.Start                                                   // rolling towards the ladder
	order := make([]int, 0, last-first)
	for i := first; i < last; i++ {
		order = append(order, i)
	}
	if !up {
		for i, j := 0, len(order)-1; i < j; i, j = i+1, j-1 {
			order[i], order[j] = order[j], order[i]
		}
	}
	foldAt := first // the side of the fold: far half lies before it, near half after
	if s.Half == glue.FarHalf {
		foldAt = last
	}
	way := func(at int, now float64, w glue.Way, who string) {
		switch w {
		case glue.ByLadder:
			require.True(t, r.reaches(at, now, true), "%s cut off from the ladder: %+v at %.1f min", who, s, now-start)
		case glue.ByFar:
			require.True(t, far, "no second way off was there: %+v", s)
			require.True(t, r.reaches(at, now, false), "%s cut off from the far edge: %+v at %.1f min", who, s, now-start)
		case glue.ByStrip:
			require.False(t, far, "a second way off leaves nobody behind film: %+v", s)
		default:
			t.Fatalf("no way named: %+v", s)
		}
	}
	now := start
	for _, i := range order {
		r.wetAt[i] = now // wet from when its rolling begins
		now += perSlice / rs
		// The roller stands past the slice on the side he is moving to.
		at := i
		if up {
			at = i + 1
		}
		way(at, now, s.RollerWay, "roller")
		way(foldAt, now, s.FoldWay, "hand at the fold")
	}
	if s.RollerWay == glue.ByStrip || s.FoldWay == glue.ByStrip {
		require.Positive(t, s.Behind)
	} else {
		require.Zero(t, s.Behind)
	}
	now += float64(s.Turn)
	// Laying always runs from the fold outward, standing on what is down.
	if s.Half == glue.FarHalf {
		for i := last - 1; i >= first; i-- {
			now += perSlice / rl
			r.downAt[i] = now
			way(i, now, map[bool]glue.Way{true: s.FoldWay, false: glue.ByLadder}[s.FoldWay == glue.ByFar], "layer")
		}
	} else {
		for i := first; i < last; i++ {
			now += perSlice / rl
			r.downAt[i] = now
			if s.FoldWay == glue.ByFar {
				way(i+1, now, glue.ByFar, "layer")
			}
		}
	}
	if s.FoldWay == glue.ByStrip {
		require.True(t, r.reaches(foldAt, now, true), "the strip is down and the way is still shut: %+v", s)
		require.InDelta(t, now-start, float64(s.Behind), 1e-6)
	}
	return now
}

// Thousands of random days, roofs and hands: laid in the order and sizes
// proposed, at the planned rates, slice by slice, no film is covered later than
// the usable time, the whole field is bonded once, and whoever works has the way
// off that the plan names.
func TestLaidAsPlannedNothingIsLateAndNobodyIsTrapped(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 3))
	planned, stopped, noGo, behind := 0, 0, 0, 0
	for range 6000 {
		wet := randomDay(r)
		w, err := glue.Window(wet)
		require.NoError(t, err)
		if w.Stop != "" {
			stopped++
			continue
		}
		b := glue.BatchInput{Window: w.Usable, Hands: 1 + r.IntN(3), Factor: []float64{0, glue.FirstBatch, glue.AfterGood, glue.AfterBracket}[r.IntN(4)]}
		b.Rollers = r.IntN(b.Hands + 1)
		if r.IntN(2) == 0 {
			b.Roll, b.Lay, b.Turn = glue.Rate(0.3+2*r.Float64()), glue.Rate(0.3+2*r.Float64()), unit.Minutes(0.5+3*r.Float64())
		}
		in := glue.FieldInput{
			Batch: b, Fold: unit.Length(1500 + 5000*r.Float64()), Depth: unit.Length(1500 + 4000*r.Float64()), FarWayOff: r.IntN(2) == 0,
		}
		plan, err := glue.Lay(in)
		require.NoError(t, err)
		if plan.NoGo != "" {
			assert.Empty(t, plan.Strips)
			noGo++
			continue
		}
		planned++
		simulate(t, in, plan, float64(w.Usable), &behind)
	}
	t.Logf("%d laid, %d without a window, %d too short to work; %d strips with a hand behind film", planned, stopped, noGo, behind)
	assert.Greater(t, planned, 2000)
	assert.Positive(t, stopped)
	assert.Positive(t, noGo)
}

func simulate(t *testing.T, in glue.FieldInput, plan glue.LayPlan, window float64, behind *int) {
	t.Helper()
	// Slices divide every strip whole: both halves have whole numbers of strips.
	nf, nn := 0, 0
	for _, s := range plan.Strips {
		if s.Half == glue.FarHalf {
			nf++
		} else {
			nn++
		}
	}
	require.Positive(t, nf)
	require.Positive(t, nn)
	field := newRoof(float64(in.Depth), float64(in.Depth)/2/float64(nf*nn*12))
	half := float64(in.Depth) / 2
	share := in.Batch.Factor
	if share == 0 {
		share = glue.FirstBatch
	}
	now := 0.0
	for k, s := range plan.Strips {
		if s.Half == glue.NearHalf {
			require.GreaterOrEqual(t, k, nf, "the far half comes first")
		}
		if s.FoldWay == glue.ByStrip {
			*behind++
		}
		rs := s.Area.In(unit.SquareMetre) / float64(s.Spread)
		rl := s.Area.In(unit.SquareMetre) / float64(s.Laying)
		began := now
		now = field.work(t, s, float64(in.Fold), rs, rl, now, in.FarWayOff)
		oldest := 0.0
		for i := range field.wetAt {
			if field.wetAt[i] >= began {
				require.False(t, math.IsNaN(field.downAt[i]))
				oldest = math.Max(oldest, field.downAt[i]-field.wetAt[i])
			}
		}
		// A slice is a dozenth of a strip: the simulation's own grain.
		grain := (float64(s.Spread) + float64(s.Laying)) / 12
		require.LessOrEqual(t, oldest, float64(s.Oldest)+grain, "%+v", s)
		require.GreaterOrEqual(t, oldest, float64(s.Oldest)-1e-9, "%+v", s)
		require.LessOrEqual(t, float64(s.Oldest), share*window+1e-9, "%+v", s)
		require.LessOrEqual(t, oldest, window+1e-9, "%+v", s)
		now += 5 // fold back, open a tin
	}
	for i := range field.downAt {
		require.False(t, math.IsNaN(field.downAt[i]), "slice %d of the field was never bonded", i)
	}
	last := plan.Strips[len(plan.Strips)-1]
	require.InDelta(t, float64(in.Depth), float64(max(last.Start, last.End)), 1e-6, "the last strip ends at the ladder")
	require.InDelta(t, half, float64(plan.FoldAt), 1e-9)
}

// randomDay is a wet-lay day anywhere in the range of the model.
func randomDay(r *rand.Rand) glue.WetInput {
	air := 5 + 28*r.Float64()
	in := glue.WetInput{
		Label:     glue.Label{Point: glue.Point{Time: unit.Minutes(8 + 25*r.Float64()), Temperature: unit.Celsius(15 + 10*r.Float64())}},
		Surface:   unit.Celsius(math.Min(59, air-3+25*r.Float64())),
		Air:       unit.Celsius(air),
		RH:        unit.Percent(20 + 75*r.Float64()),
		Wind:      unit.Speed(9 * r.Float64()),
		Substrate: []glue.Substrate{glue.Sealed, glue.Board, glue.Thirsty, glue.VeryThirsty}[r.IntN(4)],
	}
	if r.IntN(3) == 0 {
		in.Label.Upper = in.Label.Time + unit.Minutes(15*r.Float64())
	}
	if r.IntN(3) == 0 {
		in.JobFactor, in.SquareToday = 0.3+1.7*r.Float64(), r.IntN(2) == 0
	}
	if r.IntN(4) == 0 {
		in.Label.Second = &glue.Point{Time: in.Label.Time * unit.Minutes(0.4+0.6*r.Float64()), Temperature: in.Label.Temperature + unit.Celsius(8+10*r.Float64())}
	}
	return in
}

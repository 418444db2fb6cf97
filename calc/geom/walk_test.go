package geom_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

func nan() unit.Length { return unit.Length(math.NaN()) }

func step(l unit.Length, turn geom.Turn, kind geom.Kind) geom.Step {
	return geom.Step{Length: l, Turn: turn, Kind: kind}
}

// uShape goes round a chimney that stands in the back edge.
func uShape() []geom.Step {
	return []geom.Step{
		{Length: 5200, Turn: geom.Right, Kind: geom.Gutter},
		{Length: 3100, Turn: geom.Right, Kind: geom.Verge},
		{Length: 2100, Turn: geom.Right, Kind: geom.Wall},
		{Length: 600, Turn: geom.Left, Kind: geom.Wall},
		{Length: 900, Turn: geom.Left, Kind: geom.Wall},
		{Length: 600, Turn: geom.Right, Kind: geom.Wall},
		{Length: 2200, Turn: geom.Right, Kind: geom.Wall},
		{Length: 3100, Turn: geom.Right, Kind: geom.Verge},
	}
}

func TestWalkRoundAChimney(t *testing.T) {
	t.Parallel()
	w, err := geom.Walk(uShape())
	require.NoError(t, err)
	o := w.Outline
	assert.InDelta(t, 5.2*3.1-0.9*0.6, o.Area().In(unit.SquareMetre), 1e-12)
	assert.Equal(t, 2, o.CountCorners(geom.Internal))
	assert.Equal(t, 6, o.CountCorners(geom.External))
	assert.Equal(t, unit.Length(6400), o.PerimeterOf(geom.Wall))
	assert.True(t, o.IsRightAngled())
	assert.Equal(t, geom.Point{}, o.Vertices[1], "the gutter's left end is the origin")
	assert.Equal(t, geom.Point{X: 2100, Y: 2500}, o.Vertices[4])
	corner := o.Corners()[4]
	assert.Equal(t, geom.Internal, corner.Kind)
	assert.InDelta(t, 270, corner.Angle.In(unit.Degree), 1e-9)
	assert.Equal(t, [2]int{3, 4}, [2]int{corner.Before, corner.After})
}

func TestWalkWithAChangeOfKindAlongTheEdge(t *testing.T) {
	t.Parallel()
	w, err := geom.Walk([]geom.Step{
		{Length: 5000, Turn: geom.Right, Kind: geom.Gutter},
		{Length: 1000, Turn: geom.Straight, Kind: geom.Verge},
		{Length: 2000, Turn: geom.Right, Kind: geom.Wall},
		{Length: 5000, Turn: geom.Right, Kind: geom.Wall},
		{Length: 3000, Turn: geom.Right, Kind: geom.Verge},
	})
	require.NoError(t, err)
	assert.Equal(t, 1, w.Outline.CountCorners(geom.Inline))
	assert.Equal(t, 4, w.Outline.CountCorners(geom.External))
	assert.Equal(t, unit.Length(4000), w.Outline.PerimeterOf(geom.Verge))
}

func TestWalkRefusesWithTheEdgeNamed(t *testing.T) {
	t.Parallel()
	change := func(f func([]geom.Step) []geom.Step) []geom.Step { return f(uShape()) }
	for name, c := range map[string]struct {
		steps    []geom.Step
		fault    geom.Fault
		edge     int
		field    string
		miss     unit.Length
		suspects []int
	}{
		"a side taped 300 long": {change(func(s []geom.Step) []geom.Step { s[2].Length += 300; return s }),
			geom.FaultOpen, 7, "walk[7]", 300, []int{0, 2, 4, 6}},
		"just over the limit": {change(func(s []geom.Step) []geom.Step { s[0].Length += 20.01; return s }),
			geom.FaultOpen, 7, "walk[7]", 20.01, []int{0, 2, 4, 6}},
		"a depth forgotten": {change(func(s []geom.Step) []geom.Step { s[1].Length = 2500; return s }),
			geom.FaultOpen, 7, "walk[7]", 600, []int{1, 5, 7}}, // edge 3 would have to shrink to nothing
		// Longer edges would run through the gutter, edge 5 cannot be shorter than nothing.
		"only one can be wrong": {change(func(s []geom.Step) []geom.Step { s[7].Length = 400; return s }),
			geom.FaultOpen, 7, "walk[7]", 2700, []int{7}},
		// Edge 3 upwards instead of down would close too, but that is another walk.
		"a length is never negative": {[]geom.Step{
			step(5000, geom.Right, geom.Gutter), step(2800, geom.Right, geom.Verge), step(2200, geom.Right, geom.Wall),
			step(1800, geom.Left, geom.Wall), step(2800, geom.Right, geom.Wall), step(3000, geom.Right, geom.Verge),
		}, geom.FaultOpen, 5, "walk[5]", 2000, []int{1, 5}},
		"two wrong": {change(func(s []geom.Step) []geom.Step { s[0].Length -= 40; s[1].Length += 30; return s }),
			geom.FaultOpen, 7, "walk[7]", 50, []int{0, 1, 2, 3, 4, 5, 6, 7}},
		"a left taken for a right": {change(func(s []geom.Step) []geom.Step { s[3].Turn = geom.Right; return s }),
			geom.FaultCrossing, 6, "walk[6]", 0, nil}, // it runs out through the left verge
		"a right taken for a left": {change(func(s []geom.Step) []geom.Step { s[6].Turn = geom.Left; return s }),
			geom.FaultTurn, 7, "walk[7].turn", 0, []int{6}},
		"the wrong way round": {[]geom.Step{step(5000, geom.Left, geom.Gutter), step(3000, geom.Left, geom.Verge), step(5000, geom.Left, geom.Wall), step(3000, geom.Left, geom.Verge)},
			geom.FaultAnticlockwise, 3, "walk", 0, nil},
		"three edges": {uShape()[:3], geom.FaultCount, 2, "walk", 0, nil},
		"none":        {nil, geom.FaultCount, 0, "walk", 0, nil},
		"no length": {change(func(s []geom.Step) []geom.Step { s[4].Length = 0; return s }),
			geom.FaultLength, 4, "walk[4].length_mm", 0, nil},
		"not a number": {change(func(s []geom.Step) []geom.Step { s[4].Length = nan(); return s }),
			geom.FaultLength, 4, "walk[4].length_mm", 0, nil},
		"unknown kind": {change(func(s []geom.Step) []geom.Step { s[5].Kind = "hedge"; return s }),
			geom.FaultKind, 5, "walk[5].kind", 0, nil},
		"no turn": {change(func(s []geom.Step) []geom.Step { s[5].Turn = ""; return s }),
			geom.FaultTurn, 5, "walk[5].turn", 0, nil},
		"an arm through an arm": {[]geom.Step{
			step(5000, geom.Right, geom.Gutter), step(3000, geom.Right, geom.Verge), step(2000, geom.Right, geom.Wall), step(1000, geom.Left, geom.Wall),
			step(1000, geom.Left, geom.Wall), step(500, geom.Left, geom.Wall), step(2000, geom.Right, geom.Wall), step(500, geom.Right, geom.Wall),
			step(4000, geom.Right, geom.Wall), step(3000, geom.Right, geom.Verge),
		}, geom.FaultCrossing, 6, "walk[6]", 0, nil},
	} {
		_, err := geom.Walk(c.steps)
		var fault *geom.WalkError
		require.True(t, errors.As(err, &fault), "%s: %v", name, err)
		assert.Equal(t, c.fault, fault.Fault, name)
		assert.Equal(t, c.edge, fault.Edge, name)
		assert.Equal(t, c.suspects, fault.Suspects, name)
		if c.miss > 0 {
			assert.InDelta(t, float64(c.miss), float64(fault.Misclosure), 1e-9, name)
		}
		assertField(t, err, c.field)
	}
}

func TestWalkLastTurnMayBeLeftOut(t *testing.T) {
	t.Parallel()
	told := uShape()
	left := uShape()
	left[7].Turn = ""
	a, err := geom.Walk(told)
	require.NoError(t, err)
	b, err := geom.Walk(left)
	require.NoError(t, err)
	assert.Equal(t, a, b)
	left = left[:7]
	left[6].Turn = ""
	_, err = geom.Walk(left)
	assert.Error(t, err, "a forgotten edge is not made up for")
}

func TestWalkSharesASmallGap(t *testing.T) {
	t.Parallel()
	steps := uShape()
	steps[0].Length += 12 // 5212 against 5200
	w, err := geom.Walk(steps)
	require.NoError(t, err)
	assert.Equal(t, unit.Length(12), w.Misclosure)
	assert.True(t, w.Outline.IsRightAngled())
	// Σl along the gutter = 5212 + 2100 + 900 + 2200 = 10412.
	assert.InDelta(t, -12*5212/10412.0, float64(w.Corrections[0]), 1e-9)
	assert.InDelta(t, +12*2100/10412.0, float64(w.Corrections[2]), 1e-9)
	assert.Zero(t, w.Corrections[1])
	steps[0].Length = 5220
	_, err = geom.Walk(steps)
	assert.NoError(t, err, "the limit itself closes")
}

// Whoever begins in the middle of the gutter ends on it.
func TestWalkBegunInTheMiddleOfTheGutter(t *testing.T) {
	t.Parallel()
	w, err := geom.Walk([]geom.Step{
		step(2000, geom.Right, geom.Gutter), step(3001, geom.Right, geom.Verge), step(5007, geom.Right, geom.Wall),
		step(2990, geom.Right, geom.Verge), step(3000, geom.Straight, geom.Gutter),
	})
	require.NoError(t, err)
	o := w.Outline
	assert.InDelta(t, math.Hypot(7, 11), float64(w.Misclosure), 1e-9)
	assert.True(t, o.IsRightAngled())
	assert.Equal(t, 1, o.CountCorners(geom.Inline))
	assert.Zero(t, o.Vertices[4].Y)
}

func TestWalkWithoutRoomForItsShare(t *testing.T) {
	t.Parallel()
	_, err := geom.Walk([]geom.Step{
		step(5000, geom.Right, geom.Gutter), step(3000, geom.Right, geom.Verge), step(4999, geom.Right, geom.Wall),
		step(1, geom.Left, geom.Wall), step(1, geom.Right, geom.Wall), step(3010, geom.Right, geom.Verge),
	})
	assertField(t, err, "walk[3].length_mm")
	assert.ErrorContains(t, err, "got 0.99")
}

func TestWalkWithNoLastTurnAndTooManyLefts(t *testing.T) {
	t.Parallel()
	steps := uShape()
	steps[1].Turn, steps[7].Turn = geom.Left, ""
	_, err := geom.Walk(steps)
	var fault *geom.WalkError
	require.True(t, errors.As(err, &fault))
	assert.Equal(t, geom.FaultTurn, fault.Fault)
	assert.Equal(t, []int{1}, fault.Suspects)
}

// The share-out against the least squares answer with variances in proportion
// to length, by the normal equations of the two closing conditions.
func TestWalkAdjustmentAgainstLinearAlgebra(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 1))
	for range 200 {
		steps, _ := randomGrid(r).steps(r)
		n := len(steps)
		for i := range steps {
			steps[i].Length += unit.Length(r.NormFloat64() * 2)
		}
		w, err := geom.Walk(steps)
		if err != nil {
			continue // the noise reached the limit
		}
		a, q := mat.NewDense(2, n, nil), mat.NewDiagDense(n, nil)
		gap := mat.NewVecDense(2, nil)
		bearing := 270.0
		for i, s := range steps {
			sin, cos := math.Sincos(bearing * math.Pi / 180)
			a.Set(0, i, sin)
			a.Set(1, i, cos)
			q.SetDiag(i, float64(s.Length))
			gap.SetVec(0, gap.AtVec(0)+sin*float64(s.Length))
			gap.SetVec(1, gap.AtVec(1)+cos*float64(s.Length))
			if s.Turn == geom.Right {
				bearing += 90
			} else {
				bearing -= 90
			}
		}
		var aq, normal mat.Dense
		aq.Mul(a, q)
		normal.Mul(&aq, a.T())
		var k, v mat.VecDense
		require.NoError(t, k.SolveVec(&normal, gap))
		v.MulVec(aq.T(), &k)
		for i := range steps {
			assert.InDelta(t, -v.AtVec(i), float64(w.Corrections[i]), 1e-6)
		}
		assert.InDelta(t, mat.Norm(gap, 2), float64(w.Misclosure), 1e-6)
	}
}

// One length wrong by more than the limit: refused, and the wrong edge is among
// the suspects. One turn wrong: refused.
func TestWalkNeverSwallowsOneMistake(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 2))
	for range 400 {
		steps, _ := randomGrid(r).steps(r)
		k := r.IntN(len(steps))
		wrong := append([]geom.Step(nil), steps...)
		wrong[k].Length += unit.Length(25 + r.Float64()*2000)
		_, err := geom.Walk(wrong)
		var fault *geom.WalkError
		require.True(t, errors.As(err, &fault))
		assert.Equal(t, geom.FaultOpen, fault.Fault)
		assert.Contains(t, fault.Suspects, k)

		wrong = append([]geom.Step(nil), steps...)
		if wrong[k].Turn == geom.Right {
			wrong[k].Turn = geom.Left
		} else {
			wrong[k].Turn = geom.Right
		}
		_, err = geom.Walk(wrong)
		require.True(t, errors.As(err, &fault))
		assert.Contains(t, []geom.Fault{geom.FaultTurn, geom.FaultCrossing}, fault.Fault)
		if fault.Fault == geom.FaultTurn {
			assert.Contains(t, fault.Suspects, k)
		} else {
			assert.Less(t, fault.With, fault.Edge)
		}
	}
}

package glue_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"chargehand/calc"
	"chargehand/calc/glue"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func joint(t *testing.T, in glue.ContactInput) glue.JointWindow {
	t.Helper()
	j, err := glue.Contact(in)
	require.NoError(t, err, "%+v", in)
	return j
}

func randomJoint(r *rand.Rand) glue.ContactInput {
	films := []glue.Film{glue.Thin, glue.NormalFilm, glue.Thick}
	in := glue.ContactInput{
		Dry: unit.Minutes(5 + 20*r.Float64()), Temperature: 20, Wind: unit.Speed(8 * r.Float64()),
		A: glue.Face{Surface: unit.Celsius(-5 + 60*r.Float64()), Coated: unit.Minutes(30 * r.Float64()), Film: films[r.IntN(3)]},
		B: glue.Face{Surface: unit.Celsius(-5 + 60*r.Float64()), Coated: unit.Minutes(30 * r.Float64()), Film: films[r.IntN(3)]},
	}
	in.Max = in.Dry * unit.Minutes(1.2+3*r.Float64())
	return in
}

// Waiting the best time opens every window that can be opened, waiting less than
// the least opens none, and swapping the faces swaps the answer.
func TestContactWaits(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 7))
	opened, never := 0, 0
	for range 2000 {
		in := randomJoint(r)
		in.A.Coated, in.B.Coated = 0, 0
		j := joint(t, in)
		swapped := in
		swapped.A, swapped.B = in.B, in.A
		k := joint(t, swapped)
		require.Equal(t, j.From, k.From)
		require.Equal(t, j.Until, k.Until)
		require.Equal(t, j.A, k.B)
		require.Equal(t, j.Empty, j.Until <= j.From)

		fast := &in.B
		if j.First == glue.FaceB {
			fast = &in.A
		}
		fast.Coated = j.Wait
		best := joint(t, in)
		require.Equal(t, j.NeverOpens, best.Empty, "%+v", in)
		if j.NeverOpens {
			never++
			require.Zero(t, j.Open)
			continue
		}
		opened++
		require.InDelta(t, float64(j.Open), float64(best.Until-best.From), 1e-9)
		require.InDelta(t, float64(best.A.Ready), float64(best.B.Ready), 1e-9, "both ready together")
		if j.LeastWait > 0.01 {
			fast.Coated = j.LeastWait - 0.005
			require.True(t, joint(t, in).Empty)
			fast.Coated = j.LeastWait + 0.005
			require.False(t, joint(t, in).Empty)
		} else if j.LeastWait == 0 {
			require.False(t, j.Empty)
		}
	}
	assert.Greater(t, opened, 800)
	assert.Positive(t, never)
}

func TestContactShape(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 8))
	for range 2000 {
		in := randomJoint(r)
		j := joint(t, in)
		warmer, windier, thicker := in, in, in
		warmer.A.Surface += 5
		windier.Wind += 2
		thicker.A.Film = glue.Thick
		for _, k := range []glue.JointWindow{joint(t, warmer), joint(t, windier)} {
			require.LessOrEqual(t, k.A.Ready, j.A.Ready)
			require.LessOrEqual(t, k.A.Dead, j.A.Dead)
		}
		require.GreaterOrEqual(t, joint(t, thicker).A.Ready, j.A.Ready)
		require.Equal(t, j.A.Dead, joint(t, thicker).A.Dead)
		learned := in
		learned.DryFactor, learned.MaxFactor = 1.5, 0.8
		k := joint(t, learned)
		require.GreaterOrEqual(t, k.From, j.From)
		require.LessOrEqual(t, k.Until, j.Until)
	}
}

func TestContactRefuses(t *testing.T) {
	t.Parallel()
	for field, spoil := range map[string]func(*glue.ContactInput){
		"label_min":       func(in *glue.ContactInput) { in.Dry = 241 },
		"max_min":         func(in *glue.ContactInput) { in.Dry, in.Max = 20, 20 },
		"label_c":         func(in *glue.ContactInput) { in.Temperature = 46 },
		"wind_m_s":        func(in *glue.ContactInput) { in.Wind = -1 },
		"surface_c":       func(in *glue.ContactInput) { in.A.Surface = 200 },
		"other_surface_c": func(in *glue.ContactInput) { in.B.Surface = unit.Celsius(math.NaN()) },
		"film":            func(in *glue.ContactInput) { in.B.Film = "dripping" },
		"dry_factor":      func(in *glue.ContactInput) { in.DryFactor = 0.9 },
		"max_factor":      func(in *glue.ContactInput) { in.MaxFactor = 1.1 },
		"coated_a":        func(in *glue.ContactInput) { in.A.Coated = unit.Minutes(math.Inf(1)) },
	} {
		in := glue.ContactInput{Temperature: 20}
		in.A.Surface, in.B.Surface = 20, 20
		spoil(&in)
		_, err := glue.Contact(in)
		var domain *calc.DomainError
		require.ErrorAs(t, err, &domain, field)
		assert.Equal(t, field, domain.Field)
	}
}

// Regression of our own model: with a short label (8/15 min) time binds, 2.7 m at
// 20 °C and 1.9 m at 35 °C; with the silent label handling does.
func TestRunLengthRegressionOfOwnModel(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		at   unit.Celsius
		want float64 // m
	}{{20, 2.7}, {35, 1.9}} {
		f := glue.Face{Surface: c.at}
		l, why, err := glue.RunLength(2, joint(t, glue.ContactInput{Dry: 8, Max: 15, Temperature: 20, A: f, B: f}).Open)
		require.NoError(t, err)
		assert.InDelta(t, c.want, l.In(unit.Metre), 0.051)
		assert.Equal(t, glue.ByTime, why)
	}
	f := glue.Face{Surface: 20}
	open := joint(t, glue.ContactInput{Temperature: 20, A: f, B: f}).Open
	for hands, want := range map[int]float64{1: 1.5, 2: 3, 3: 3} {
		l, why, err := glue.RunLength(hands, open)
		require.NoError(t, err)
		assert.Equal(t, want, l.In(unit.Metre))
		assert.Equal(t, glue.ByHandling, why)
	}
	l, _, err := glue.RunLength(2, 0.2)
	require.NoError(t, err)
	assert.Zero(t, l, "too short to coat a foot of it")
	_, _, err = glue.RunLength(0, 10)
	require.Error(t, err)
	_, _, err = glue.RunLength(1, -1)
	require.Error(t, err)
}

func TestRunsCoverEveryEdgeOnceAndEndAtTheLadder(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 9))
	for range 2000 {
		n := 3 + r.IntN(6)
		edges := make([]unit.Length, n)
		for i := range edges {
			if r.IntN(4) > 0 {
				edges[i] = unit.Length(200 + 6000*r.Float64())
			}
		}
		ladder := r.IntN(n)
		longest := unit.Length(300 + 3000*r.Float64())
		runs, err := glue.Runs(edges, ladder, longest)
		require.NoError(t, err)
		covered := make([]unit.Length, n)
		seen := -1
		for _, run := range runs {
			require.InDelta(t, float64(covered[run.Edge]), float64(run.From), 1e-6, "runs join")
			require.LessOrEqual(t, float64(run.To-run.From), float64(longest)+1e-6)
			covered[run.Edge] = run.To
			round := (run.Edge - ladder - 1 + n) % n
			require.GreaterOrEqual(t, round, seen, "clockwise, the ladder edge last")
			seen = round
		}
		for i := range edges {
			require.InDelta(t, float64(edges[i]), float64(covered[i]), 1e-6)
		}
	}
	for _, bad := range []func() error{
		func() error { _, err := glue.Runs([]unit.Length{1, 2}, 0, 1000); return err },
		func() error { _, err := glue.Runs(make([]unit.Length, 4), 4, 1000); return err },
		func() error { _, err := glue.Runs(make([]unit.Length, 4), 0, 100); return err },
		func() error { _, err := glue.Runs([]unit.Length{1, 2, -3}, 0, 1000); return err },
	} {
		require.Error(t, bad())
	}
	// Exactly three metres in runs of one are three.
	runs, err := glue.Runs([]unit.Length{3000, 0, 0}, 2, 1000)
	require.NoError(t, err)
	assert.Len(t, runs, 3)
}

func TestPrimerAndPatch(t *testing.T) {
	t.Parallel()
	in := glue.PrimerInput{Temperature: 20, Surface: 20, Wind: 0.5}
	w, err := glue.Primer(in)
	require.NoError(t, err)
	assert.Equal(t, glue.PrimerWindow{Touch: 5, From: 10, Until: 30}, w)
	cold := in
	cold.Surface = 9
	c, err := glue.Primer(cold)
	require.NoError(t, err)
	assert.True(t, c.Cold)
	assert.Greater(t, c.From, w.From)
	windy := in
	windy.Wind = 5
	v, err := glue.Primer(windy)
	require.NoError(t, err)
	assert.Less(t, v.Until, w.Until)
	short := in
	short.DryTo, short.Open = 30, 20
	s, err := glue.Primer(short)
	require.NoError(t, err)
	assert.True(t, s.Empty)
	assert.Equal(t, unit.Minutes(30), s.Touch, "one number on the tin is both ends")
	only := in
	only.DryFrom = 12
	o, err := glue.Primer(only)
	require.NoError(t, err)
	assert.Equal(t, unit.Minutes(12), o.From)
	for _, bad := range []glue.PrimerInput{
		{DryFrom: 20, DryTo: 10, Temperature: 20}, {Open: 500, Temperature: 20}, {Temperature: 60}, {Temperature: 20, Surface: 200}, {Temperature: 20, Wind: 60},
	} {
		_, err := glue.Primer(bad)
		require.Error(t, err, "%+v", bad)
	}
}

func TestKnucklePrompts(t *testing.T) {
	t.Parallel()
	got, err := glue.Prompts(20, 4)
	require.NoError(t, err)
	for i, want := range []float64{14, 17, 20, 23} {
		assert.InDelta(t, want, float64(got[i]), 1e-9)
	}
	_, err = glue.Prompts(20, 0)
	require.Error(t, err)
	_, err = glue.Prompts(0, 1)
	require.Error(t, err)
}

func ExampleContact() {
	// Wall at 10 °C, black rubber in the sun at 45 °C.
	j, err := glue.Contact(glue.ContactInput{Temperature: 20, A: glue.Face{Surface: 10}, B: glue.Face{Surface: 45}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("empty %t; coat face %s first, the other %.1f min later (at least %.1f)\n", j.Empty, j.First, float64(j.Wait), float64(j.LeastWait))
	// Output: empty true; coat face a first, the other 21.5 min later (at least 12.4)
}

package setout_test

import (
	"fmt"
	"math"
	"testing"

	"chargehand/calc"
	"chargehand/calc/setout"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Worked by hand, common practice, no source: 38 + 10 − 18 = 30; 25 + 5 − 18 =
// 12; on the fascia 38 + 10 = 48, too far for a 75 mm gutter, whose half is
// 37.5.
func TestDripsByHand(t *testing.T) {
	for _, c := range []struct {
		in    setout.DripInput
		past  unit.Length
		reach setout.Reach
		least unit.Length // batten
	}{
		{setout.DripInput{Fascia: 18, Batten: 38, Trim: 10, Gutter: 112}, 30, setout.Reaches, 38},
		{setout.DripInput{Fascia: 18, Batten: 25, Trim: 5, Gutter: 112}, 12, setout.Short, 43},
		{setout.DripInput{Fascia: 18, Batten: 38, Trim: 10, Gutter: 112, BattenOnFascia: true}, 48, setout.Reaches, 20},
		{setout.DripInput{Fascia: 18, Batten: 38, Trim: 10, Gutter: 75, BattenOnFascia: true}, 48, setout.Beyond, 20},
	} {
		d, err := setout.DripPast(c.in)
		require.NoError(t, err)
		assert.Equal(t, c.past, d.Past)
		assert.Equal(t, c.reach, d.Reach)
		assert.Equal(t, c.least, d.BattenLeast)
		c.in.Batten = d.BattenLeast
		again, err := setout.DripPast(c.in)
		require.NoError(t, err)
		assert.Equal(t, setout.Reaches, again.Reach)
	}
	for field, in := range map[string]setout.DripInput{
		"fascia_mm": {Fascia: -1, Gutter: 112},
		"batten_mm": {Batten: 101, Gutter: 112},
		"trim_mm":   {Trim: 51, Gutter: 112},
		"gutter_mm": {Gutter: 59},
	} {
		_, err := setout.DripPast(in)
		assertField(t, err, field)
	}
}

func TestFrontLine(t *testing.T) {
	f, err := setout.FrontLine(setout.FrontInput{
		Drip: setout.DripInput{Fascia: 18, Batten: 38, Trim: 10, Gutter: 112},
		Face: 168, Tails: []unit.Length{200, 150, 145}, Span: 2600,
	})
	require.NoError(t, err)
	assert.Equal(t, unit.Length(150), f.Cut)
	assert.Equal(t, unit.Length(198), f.DripLine)
	assert.Equal(t, unit.Length(280), f.GutterTo)
	assert.Equal(t, []setout.TailCut{{Off: 50}, {}, {Short: 5}}, f.Tails)
	assert.Equal(t, 1, f.Short)
	assert.Equal(t, unit.Length(450), f.MostTail) // a quarter of 2600 is 650
	assert.False(t, f.TooLong)
	f, err = setout.FrontLine(setout.FrontInput{Drip: setout.DripInput{Fascia: 18, Batten: 38, Trim: 10, Gutter: 112}, Face: 450, Span: 1600})
	require.NoError(t, err)
	assert.True(t, f.TooLong) // 432 past a quarter of 1600
	_, err = setout.FrontLine(setout.FrontInput{Drip: setout.DripInput{Fascia: 18, Gutter: 112}, Face: 17})
	assertField(t, err, "face_mm")
}

// BS 6229:2018 and NHBC: design 1:40, finished nowhere under 1:80.
func TestFalls(t *testing.T) {
	for _, c := range []struct {
		in     setout.FallInput
		drop   unit.Length
		status calc.Status
	}{
		{setout.FallInput{Depth: 2900}, 72.5, calc.Within},
		{setout.FallInput{Depth: 2900, Drop: 73}, 73, calc.Within},
		{setout.FallInput{Depth: 2900, Drop: 72}, 72, calc.Close},
		{setout.FallInput{Depth: 3200, Drop: 40}, 40, calc.Close}, // 1:80 itself
		{setout.FallInput{Depth: 3200, Drop: 39.9}, 39.9, calc.Over},
		{setout.FallInput{Depth: 3000, Ratio: 1.0 / 60}, 50, calc.Close},
	} {
		f, err := setout.FallOf(c.in)
		require.NoError(t, err)
		assert.InDelta(t, float64(c.drop), float64(f.Drop), 1e-9)
		assert.Equal(t, c.status, f.Status, "%+v", c.in)
		assert.InDelta(t, float64(f.Drop), float64(f.Ratio)*float64(c.in.Depth), 1e-9)
	}
}

func TestFirrings(t *testing.T) {
	f, err := setout.FallOf(setout.FallInput{Depth: 2400, JoistDrop: 20, Thin: 10})
	require.NoError(t, err)
	assert.Equal(t, []unit.Length{0, 600, 1200, 1800, 2400}, f.Stations)
	assert.Equal(t, []unit.Length{10, 20, 30, 40, 50}, f.Firrings) // 60 − 20 over 2400, 10 at the thin end
	f, err = setout.FallOf(setout.FallInput{Depth: 2400, JoistDrop: 60})
	require.NoError(t, err)
	assert.Empty(t, f.Firrings)

	for field, in := range map[string]setout.FallInput{
		"depth_mm":        {Depth: 499},
		"drop_mm":         {Depth: 2400, Drop: -1},
		"ratio":           {Depth: 2400, Drop: 60, Ratio: 1.0 / 80},
		"joist_drop_mm":   {Depth: 2400, JoistDrop: 61},
		"firring_thin_mm": {Depth: 2400, Thin: 101},
		"stations_mm":     {Depth: 2400, Stations: []unit.Length{2401}},
	} {
		_, err := setout.FallOf(in)
		assertField(t, err, field)
	}
}

func TestReckonFall(t *testing.T) {
	f := func(v float64) *float64 { return &v }
	for _, ratio := range []float64{0.025, 40} { // both ways of writing 1:40
		out, err := setout.ReckonFall(setout.FallIn{Depth: 3000, Ratio: f(ratio)})
		require.NoError(t, err)
		assert.InDelta(t, 75, out.Drop, 1e-9)
		assert.InDelta(t, 40, out.OneIn, 1e-9)
		assert.InDelta(t, 0.025, out.Ratio, 1e-12)
	}
	out, err := setout.ReckonFall(setout.FallIn{Depth: 3000, Drop: f(0)})
	require.NoError(t, err)
	assert.Equal(t, setout.FallOut{Status: calc.Over}, out)
	_, err = setout.ReckonFall(setout.FallIn{Depth: 3000, Ratio: f(math.Inf(1))})
	assertField(t, err, "ratio")
	_, err = setout.ReckonFall(setout.FallIn{Depth: 3000, Ratio: f(3)})
	assertField(t, err, "ratio")
}

// A lean-to whose bed joints lie 38, 113 and 188 above the roof at its high
// end, by hand: the lowest from 150 + 10 up is 188, the board ends at 178.
func TestChaseByHand(t *testing.T) {
	in := setout.ChaseInput{Upstand: 150, Joint: 38, Length: 4200}
	c, err := setout.ChaseFor(in)
	require.NoError(t, err)
	assert.Equal(t, unit.Length(188), c.Joint)
	assert.Equal(t, unit.Length(178), c.BoardTop)
	assert.Equal(t, unit.Length(178), c.Rubber)
	assert.Len(t, c.Steps, 1)

	// A joint just high enough serves; one raked out of bounds gives the next.
	in.Joint = 160
	c, err = setout.ChaseFor(in)
	require.NoError(t, err)
	assert.Equal(t, unit.Length(160), c.Joint)
	in.Avoid = []unit.Length{161}
	c, err = setout.ChaseFor(in)
	require.NoError(t, err)
	assert.Equal(t, unit.Length(235), c.Joint)
}

// A side wall of 6 m falling 150: level, the rubber grows from 178 to 328;
// stepping, a course down where the roof lies 47 and 122 lower: 188 − 75 + 47 =
// 160 again.
func TestChaseStepsDownASideWall(t *testing.T) {
	c, err := setout.ChaseFor(setout.ChaseInput{Upstand: 150, Joint: 38, Length: 6000, Drop: 150})
	require.NoError(t, err)
	assert.Equal(t, unit.Length(328), c.Rubber)
	require.Len(t, c.Steps, 3)
	assert.InDelta(t, 6000*47.0/150, float64(c.Steps[1].From), 1e-9)
	assert.InDelta(t, 6000*122.0/150, float64(c.Steps[2].From), 1e-9)
	for i, s := range c.Steps {
		assert.GreaterOrEqual(t, float64(s.Least), 160-1e-9)
		assert.LessOrEqual(t, float64(s.Most), 160+75+1e-9)
		if i > 0 {
			assert.Equal(t, c.Steps[i-1].To, s.From)
		}
	}
	assert.InDelta(t, 225, float64(c.Stepped), 1e-9)
}

func FuzzChase(f *testing.F) {
	f.Add(150.0, 38.0, 75.0, 6000.0, 150.0, 188.0)
	f.Add(math.NaN(), math.Inf(-1), 0.0, 1e9, -1.0, 0.0)
	f.Fuzz(func(t *testing.T, upstand, joint, course, length, drop, avoid float64) {
		in := setout.ChaseInput{
			Upstand: unit.Length(upstand), Joint: unit.Length(joint), Course: unit.Length(course),
			Length: unit.Length(length), Drop: unit.Length(drop), Avoid: []unit.Length{unit.Length(avoid)},
		}
		c, err := setout.ChaseFor(in)
		if err != nil {
			return
		}
		from := unit.Length(0)
		for _, s := range c.Steps {
			require.Equal(t, from, s.From)
			require.GreaterOrEqual(t, float64(s.To), float64(s.From))
			require.GreaterOrEqual(t, float64(s.Least), upstand+10-1e-6)
			from = s.To
		}
		require.Equal(t, in.Length, from)
		require.LessOrEqual(t, float64(c.Stepped), float64(c.Rubber)+1e-6)
	})
}

// Approved Document A: a sixth of the leaf across, a third up; 102.5 mm gives 17
// and 34. Raking a bed joint is no chase in the brick.
func TestChaseDepths(t *testing.T) {
	for _, c := range []struct {
		in   setout.DepthInput
		most float64
		ok   bool
	}{
		{setout.DepthInput{Leaf: 102.5, Depth: 17}, 17.08, true},
		{setout.DepthInput{Leaf: 102.5, Depth: 25}, 17.08, false},
		{setout.DepthInput{Leaf: 102.5, Depth: 34, Vertical: true}, 34.17, true},
		{setout.DepthInput{Leaf: 102.5, Depth: 25, Raked: true}, 25, true},
		{setout.DepthInput{Leaf: 102.5, Depth: 26, Raked: true}, 25, false},
		{setout.DepthInput{Leaf: 102.5, Depth: 10, Shell: 14}, 17.08, false},
	} {
		d, err := setout.ChaseDepth(c.in)
		require.NoError(t, err)
		assert.InDelta(t, c.most, float64(d.Most), 0.01)
		assert.Equal(t, c.ok, d.OK, "%+v", c.in)
	}
	_, err := setout.ChaseDepth(setout.DepthInput{Leaf: 74})
	assertField(t, err, "leaf_mm")
}

// By hand: a 215 wall under a 305 coping, 45 out and 45 in, throat 10 from the
// edge: 35 clear, short of 40; 315 would do.
func TestCopings(t *testing.T) {
	in := setout.CopingInput{Wall: 215, Coping: 305, Outside: 45, Throat: 10, Run: 5000, Piece: 600}
	c, err := setout.CopingFor(in)
	require.NoError(t, err)
	assert.Equal(t, unit.Length(45), c.Inside)
	assert.Equal(t, unit.Length(35), c.ClearOutside)
	assert.False(t, c.OK)
	assert.Equal(t, unit.Length(315), c.LeastCoping)
	assert.Equal(t, 9, c.Pieces) // 8 × 610 = 4880
	assert.Equal(t, unit.Length(120), c.Last)
	assert.Equal(t, unit.Length(215), c.DPC)
	in.Coping, in.Outside = c.LeastCoping, 50
	c, err = setout.CopingFor(in)
	require.NoError(t, err)
	assert.True(t, c.OK)
	for run := unit.Length(300); run < 7000; run += 13 {
		in.Run = run
		c, err := setout.CopingFor(in)
		require.NoError(t, err)
		require.True(t, c.Last > 0 && c.Last <= in.Piece, "%v: %v", run, c.Last)
	}
	in.Run = 299
	_, err = setout.CopingFor(in)
	assertField(t, err, "run_mm")
}

func ExampleDripPast() {
	d, _ := setout.DripPast(setout.DripInput{Fascia: 18, Batten: 25, Trim: 5, Gutter: 112})
	fmt.Println(d.Past, d.Reach, "batten from", d.BattenLeast)
	// Output: 12 mm short batten from 43 mm
}

package drain

import (
	"fmt"
	"math"
	"testing"

	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// By hand: 5.5 m, first 100 from the ends, at most 800 apart: 5300/800 rounds up
// to 7 bays, 8 brackets 757 apart; 1:500 drops 10.8 mm to the last.
func TestBracketsByHand(t *testing.T) {
	b, err := Brackets(BracketsInput{Run: 5500, Fall: UsualFall, Spacing: BracketSpacing, First: BracketFirst})
	require.NoError(t, err)
	require.Len(t, b, 8)
	assert.InDelta(t, 757.14, float64(b[1].At-b[0].At), 0.01)
	assert.Equal(t, unit.Length(5400), b[7].At)
	assert.InDelta(t, 10.8, float64(b[7].Below), 1e-9)
}

func TestBracketsAtJointsAndOutlets(t *testing.T) {
	in := BracketsInput{Run: 6000, Fall: UsualFall, Spacing: 900, First: 100, Joints: []unit.Length{3900}, Outlet: AtMiddle}
	b, err := Brackets(in)
	require.NoError(t, err)
	joint := false
	for i, x := range b {
		joint = joint || x.At == 3900
		if i > 0 {
			assert.LessOrEqual(t, x.At-b[i-1].At, in.Spacing)
			assert.Greater(t, x.At, b[i-1].At)
		}
		assert.LessOrEqual(t, x.Below, unit.Length(6)) // 3 m at 1:500
	}
	assert.True(t, joint)
	assert.Equal(t, b[0].Below, b[len(b)-1].Below) // high at both ends

	in.Outlet = AtBothEnds
	b, err = Brackets(in)
	require.NoError(t, err)
	assert.InDelta(t, 5.8, float64(b[0].Below), 1e-9)

	for field, change := range map[string]func(*BracketsInput){
		"run_mm":             func(in *BracketsInput) { in.Run = 299 },
		"bracket_spacing_mm": func(in *BracketsInput) { in.Spacing = 199 },
		"first_mm":           func(in *BracketsInput) { in.First = 901 },
		"fall":               func(in *BracketsInput) { in.Fall = -0.001 },
		"joints_mm":          func(in *BracketsInput) { in.Joints = []unit.Length{2000, 1000} },
		"outlet":             func(in *BracketsInput) { in.Outlet = "no" },
	} {
		bad := in
		change(&bad)
		_, err := Brackets(bad)
		assertField(t, err, field)
	}
}

func TestWaysOut(t *testing.T) {
	for _, c := range []struct {
		in     Closed
		enough bool
		ok     bool
	}{
		{Closed{Outlets: 2}, true, true},
		{Closed{Outlets: 1}, false, false},
		{Closed{Outlets: 1, Overflows: 1, Overflow: 50, Limits: []unit.Length{150, 75}}, true, true},
		{Closed{Outlets: 1, Overflows: 1, Overflow: 75, Limits: []unit.Length{150, 75}}, true, false},
		{Closed{Overflows: 2, Overflow: 50, Limits: []unit.Length{150}}, false, false},
	} {
		w, err := WaysOut(c.in)
		require.NoError(t, err)
		assert.Equal(t, c.enough, w.Enough, "%+v", c.in)
		assert.Equal(t, c.ok, w.OK, "%+v", c.in)
	}
	_, err := WaysOut(Closed{Outlets: 1, Overflows: 1, Overflow: 50})
	assertField(t, err, "limits_mm")
}

func FuzzReckonGutter(f *testing.F) {
	f.Add(16.0, 0.0, 0.0208, 100.0, 5.5, 500.0)
	f.Add(math.NaN(), math.Inf(1), -1.0, 1e300, 0.0, 1.0)
	f.Add(60.0, 30.0, 0.042, 150.0, 22.5, 0.002)
	f.Fuzz(func(t *testing.T, area, wall, rain, size, length, fall float64) {
		out, err := ReckonGutter(GutterIn{Area: area, Wall: &wall, Rain: rain, Size: &size, Length: length, Fall: &fall})
		if err != nil {
			return
		}
		for _, v := range []float64{out.Flow, out.Capacity, out.Drop, out.LengthFactor} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0) || v < 0)
		}
		require.NotEmpty(t, out.Brackets)
	})
}

func ExampleGutterFor() {
	g, _ := GutterFor(GutterInput{Roof: 16 * unit.SquareMetre, Rain: 75 * MillimetrePerHour, Length: 5500})
	fmt.Printf("%.2f l/s of %.2f, %v gutter, %v outlet, %s\n", g.Flow, g.Capacity, g.Size.Nominal, g.Size.Outlet, g.Status)
	// Output: 0.33 l/s of 0.71, 100 mm gutter, 63 mm outlet, within
}

func BenchmarkGutterFor(b *testing.B) {
	in := GutterInput{Roof: 16 * unit.SquareMetre, Rain: 0.0208, Length: 5500}
	for b.Loop() {
		if _, err := GutterFor(in); err != nil {
			b.Fatal(err)
		}
	}
}

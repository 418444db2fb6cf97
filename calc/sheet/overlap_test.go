package sheet_test

import (
	"fmt"
	"math"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/sheet"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func lean(t testing.TB) sheet.Input {
	return sheet.Input{Outline: rectangle(t, 4200, 3000, geom.Gutter, geom.Verge, geom.Wall, geom.Verge)}
}

// A lean-to of 4200 by 3000 by hand: along the gutter 150+4200+150 wanted,
// 88+4200+88 = 4376 at least; up the fall 150+3000+250 wanted, 88+3000+150 =
// 3238 at least. Common practice, no source.
func TestDeliveredByHand(t *testing.T) {
	for _, c := range []struct {
		name          string
		length, width unit.Length
		grades        []sheet.Grade
		short         []unit.Length
	}{
		{"as ordered", 4500, 3400, []sheet.Grade{"enough", "enough", "enough", "enough"}, []unit.Length{0, 0, 0, 0}},
		{"to the least", 4376, 3238, []sheet.Grade{"tight", "tight", "tight", "tight"}, []unit.Length{0, 0, 0, 0}},
		{"40 narrow", 4376, 3198, []sheet.Grade{"tight", "tight", "short", "tight"}, []unit.Length{0, 0, 40, 0}},
		{"60 short", 4316, 3400, []sheet.Grade{"enough", "short", "enough", "short"}, []unit.Length{0, 30, 0, 30}},
	} {
		got, err := sheet.Overlaps(lean(t), sheet.Delivered{Length: c.length, Width: c.width})
		require.NoError(t, err)
		for i, o := range got {
			assert.Equal(t, c.grades[i], o.Grade, "%s, edge %d", c.name, i)
			assert.InDelta(t, float64(c.short[i]), float64(o.Short), 1e-6, "%s, edge %d", c.name, i)
		}
	}
}

func TestASheetTurned(t *testing.T) {
	d, err := sheet.Deliver(lean(t), sheet.Delivered{Length: 3400, Width: 4500})
	require.NoError(t, err)
	assert.True(t, d.Turned)
	assert.Empty(t, d.Remedies)
}

func TestRemedies(t *testing.T) {
	in := lean(t)
	in.Edges = []sheet.Edge{{}, {}, {Rubber: 200}, {}}
	read := func(overlaps ...unit.Length) []sheet.Remedy {
		m, err := sheet.Measured(in, overlaps)
		require.NoError(t, err)
		r, err := sheet.Remedies(in, m)
		require.NoError(t, err)
		return r
	}
	assert.Empty(t, read(88, 88, 200, 88))
	// 30 short at the wall, 40 to spare at the gutter: move it.
	assert.Equal(t, []sheet.Remedy{
		{Edge: 2, Act: sheet.Shift, By: 30}, {Edge: 2, Act: sheet.Lower, By: 30}, {Edge: 2, Act: sheet.AddTo, By: 130}, {Edge: 2, Act: sheet.Reorder},
	}, read(128, 88, 170, 88))
	// 60 short there: the wall cannot come below 150, the gutter has 40 only.
	assert.Equal(t, []sheet.Remedy{{Edge: 2, Act: sheet.AddTo, By: 160}, {Edge: 2, Act: sheet.Reorder}}, read(128, 88, 140, 88))
	// Never a strip at the gutter.
	assert.Equal(t, []sheet.Remedy{{Edge: 0, Act: sheet.Reorder}}, read(60, 88, 200, 88))
}

// What is shared out adds up to what came, and a larger sheet never takes from
// an edge.
func FuzzOverlaps(f *testing.F) {
	f.Add(4500.0, 3400.0, 0.0, 150.0)
	f.Add(4376.0, 3198.0, 45.0, 400.0)
	f.Add(math.Inf(1), math.NaN(), -1e300, 0.0)
	f.Fuzz(func(t *testing.T, length, width, skew, rubber float64) {
		in := lean(t)
		in.Skew = unit.Length(skew)
		in.Edges = []sheet.Edge{{}, {}, {Rubber: unit.Length(rubber)}, {}}
		d := sheet.Delivered{Length: unit.Length(length), Width: unit.Length(width)}
		got, err := sheet.Overlaps(in, d)
		if err != nil {
			return
		}
		for _, o := range got {
			require.False(t, math.IsNaN(float64(o.Have)) || math.IsInf(float64(o.Have), 0))
		}
		require.InDelta(t, width, 3000+float64(got[0].Have+got[2].Have), 1e-6)
		require.InDelta(t, length, 4200+math.Abs(skew)+float64(got[1].Have+got[3].Have), 1e-6)
		d.Width++
		if more, err := sheet.Overlaps(in, d); err == nil {
			for i := range more {
				require.GreaterOrEqual(t, float64(more[i].Have), float64(got[i].Have)-1e-9)
			}
		}
	})
}

func FuzzReckonSheet(f *testing.F) {
	f.Add(5500.0, 2900.0, 150.0, 0.0, 100.0, 3000.0, 0.0)
	f.Add(3200.0, 5400.0, 250.0, 215.0, 250.0, 900.0, -45.0)
	f.Add(math.MaxFloat64, math.NaN(), -1.0, math.Inf(1), 0.0, 1e-9, 7.0)
	f.Fuzz(func(t *testing.T, length, depth, rubber, top, step, width, skew float64) {
		out, err := sheet.ReckonSheet(sheet.SheetIn{
			Length: &length, Depth: &depth, Edges: []string{"gutter", "wall", "parapet", "verge"},
			Rubber: []float64{0, rubber, rubber, 0}, Tops: []float64{0, 0, top, 0},
			Step: &step, Skew: &skew, Widths: []float64{width},
		})
		if err != nil {
			return
		}
		for _, v := range []float64{out.Length, out.Width, out.Mass, out.Area} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0) || v <= 0)
		}
		require.GreaterOrEqual(t, out.Area, out.Roof)
	})
}

func TestReckonSheet(t *testing.T) {
	f := func(v float64) *float64 { return &v }
	yes := true
	out, err := sheet.ReckonSheet(sheet.SheetIn{
		Length: f(3200), Depth: f(5400), Edges: []string{"gutter", "wall", "wall", "wall"}, Tuck: &yes,
		Delivered: []float64{3700, 5600},
	})
	require.NoError(t, err)
	assert.Equal(t, 3700.0, out.Length)
	assert.Equal(t, 5900.0, out.Width)
	assert.Equal(t, map[string]float64{"gutter": 200, "wall": 250}, out.Allowances)
	assert.Equal(t, []float64{200, 250, 250, 250}, out.ByEdge)
	assert.Equal(t, []sheet.SeamOut{}, out.Seams)
	require.Len(t, out.Served, 4)
	assert.Equal(t, sheet.Lacks, out.Served[2].Grade) // 5600 − 5400 is 200 for two edges that need 138 and 150
	assert.InDelta(t, 88, out.Served[2].Short, 1e-9)

	for field, in := range map[string]sheet.SheetIn{
		"length_mm":         {Depth: f(3000), Edges: []string{"gutter", "verge", "verge", "verge"}},
		"depth_mm":          {Length: f(3000), Edges: []string{"gutter", "verge", "verge", "verge"}},
		"edges":             {Length: f(3000), Depth: f(3000), Edges: []string{"gutter"}},
		"outline":           {Edges: []string{"gutter"}},
		"edges[1]":          {Length: f(3000), Depth: f(3000), Edges: []string{"gutter", "hedge", "verge", "verge"}},
		"step_mm":           {Length: f(3000), Depth: f(3000), Edges: []string{"gutter", "verge", "verge", "verge"}, Step: f(0)},
		"rubber_heights_mm": {Length: f(3000), Depth: f(3000), Edges: []string{"gutter", "verge", "verge", "verge"}, Rubber: []float64{1}},
		"delivered_mm":      {Length: f(3000), Depth: f(3000), Edges: []string{"gutter", "verge", "verge", "verge"}, Delivered: []float64{1}},
		"outline[1].length_mm": {Edges: []string{"gutter", "verge", "verge", "verge"}, Outline: []sheet.WalkedEdge{
			{3000, "right"}, {0, "right"}, {3000, "right"}, {3000, "right"}}},
	} {
		_, err := sheet.ReckonSheet(in)
		assertField(t, err, field)
	}
}

func ExampleDeliver() {
	roof, _ := geom.Rectangle(4200, 3000, [4]geom.Kind{geom.Gutter, geom.Verge, geom.Wall, geom.Verge})
	d, _ := sheet.Deliver(sheet.Input{Outline: roof}, sheet.Delivered{Length: 4500, Width: 3138})
	for _, r := range d.Remedies {
		fmt.Println("edge", r.Edge+1, r.Act)
	}
	// Output:
	// edge 3 strip
	// edge 3 reorder
}

func BenchmarkLay(b *testing.B) {
	in := sheet.Input{Outline: theL(b), Widths: []unit.Length{1400, 3000}}
	for b.Loop() {
		if _, err := sheet.Lay(in); err != nil {
			b.Fatal(err)
		}
	}
}

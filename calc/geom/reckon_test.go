package geom_test

import (
	"encoding/json"
	"math"
	"testing"

	"chargehand/calc/geom"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ptr(v float64) *float64 { return &v }

var gvwv = []string{"gutter", "verge", "wall", "verge"}

func TestReckonRoofOfLengthAndDepth(t *testing.T) {
	t.Parallel()
	out, err := geom.ReckonRoof(geom.RoofIn{LengthMM: ptr(5500), DepthMM: ptr(2900), Edges: gvwv,
		Pipes: []geom.RoofPipe{{XMM: 300, YMM: 400, DiaMM: 110}}})
	require.NoError(t, err)
	assert.InDelta(t, 15.95, out.AreaM2, 1e-12)
	assert.Equal(t, geom.RoofPerimeter{GutterMM: 5500, VergeMM: 5800, WallMM: 5500, TotalMM: 16800}, out.Perimeter)
	assert.Equal(t, [2]int{0, 4}, [2]int{out.CornersInternal, out.CornersExternal})
	// Both diagonals of the trade's example tape: 6218.
	assert.InDelta(t, 6218, out.DiagonalsMM[0], 0.5)
	assert.Equal(t, "square", out.Squareness)
	assert.True(t, out.Closes)
	assert.Len(t, out.Taper, 3)
	require.Len(t, out.Clearances, 4)
	assert.Equal(t, geom.RoofClearance{From: "pipe 1", To: "edge 2", GapMM: 245, Room: "ample"}, out.Clearances[1])
	assert.Equal(t, geom.RoofVertex{XMM: 5500}, out.VerticesMM[0])
}

func TestReckonRoofOutOfSquare(t *testing.T) {
	t.Parallel()
	out, err := geom.ReckonRoof(geom.RoofIn{SidesMM: []float64{5500, 2900, 5500, 2900}, DiagonalsMM: []float64{6258, 6178}, Edges: gvwv, RowMM: ptr(1200)})
	require.NoError(t, err)
	assert.InDelta(t, 45, out.SkewMM, 0.5)
	assert.Equal(t, "taper", out.Squareness)
	assert.True(t, out.Closes)
	assert.Empty(t, out.Remeasure)
	assert.Len(t, out.ResidualsMM, 6)
	assert.Len(t, out.TaperRows, 3)

	out, err = geom.ReckonRoof(geom.RoofIn{SidesMM: []float64{5500, 2900, 5450, 2900}, DiagonalsMM: []float64{6258, 6178}, Edges: gvwv})
	require.NoError(t, err)
	assert.False(t, out.Closes)
	assert.Greater(t, out.MisclosureMM, 20.0)
	assert.Equal(t, []string{"diagonals", "sides"}, out.Remeasure)
}

func TestReckonRoofWalked(t *testing.T) {
	t.Parallel()
	out, err := geom.ReckonRoof(geom.RoofIn{
		Walk: []geom.RoofStep{
			{LengthMM: 5000, Turn: "right", Kind: "gutter"}, {LengthMM: 4800, Turn: "right", Kind: "verge"},
			{LengthMM: 2200, Turn: "right", Kind: "wall"}, {LengthMM: 1800, Turn: "left", Kind: "wall"},
			{LengthMM: 2800, Turn: "right", Kind: "wall"}, {LengthMM: 3000, Kind: "verge"},
		},
		Pipes:      []geom.RoofPipe{{XMM: 90, YMM: 4705, DiaMM: 110}},
		Rooflights: []geom.RoofLight{{XMM: 3000, YMM: 1000, LengthMM: 900, DepthMM: 900}},
	})
	require.NoError(t, err)
	assert.InDelta(t, 18.96, out.AreaM2, 1e-12)
	assert.Equal(t, [2]int{1, 5}, [2]int{out.CornersInternal, out.CornersExternal})
	assert.Nil(t, out.DiagonalsMM)
	assert.Empty(t, out.Squareness)
	require.Len(t, out.Clearances, 13)
	assert.Equal(t, geom.RoofClearance{From: "pipe 1", To: "edge 3", GapMM: 40, Room: "tight"}, out.Clearances[2])
	assert.Equal(t, "rooflight 1", out.Clearances[6].To)
	_, err = json.Marshal(out)
	assert.NoError(t, err)
}

func TestReckonRoofRefusals(t *testing.T) {
	t.Parallel()
	walk := []geom.RoofStep{{LengthMM: 5000, Turn: "right", Kind: "gutter"}, {LengthMM: 3000, Turn: "right", Kind: "verge"},
		{LengthMM: 5000, Turn: "right", Kind: "wall"}, {LengthMM: 3300, Turn: "right", Kind: "verge"}}
	rect := func(change func(*geom.RoofIn)) geom.RoofIn {
		in := geom.RoofIn{LengthMM: ptr(5000), DepthMM: ptr(3000), Edges: gvwv}
		change(&in)
		return in
	}
	sides := []float64{5500, 2900, 5500, 2900}
	for name, c := range map[string]struct {
		in    geom.RoofIn
		field string
	}{
		"nothing":          {geom.RoofIn{}, "length_mm"},
		"two forms":        {rect(func(in *geom.RoofIn) { in.SidesMM = sides }), "length_mm"},
		"no depth":         {rect(func(in *geom.RoofIn) { in.DepthMM = nil }), "depth_mm"},
		"no length":        {rect(func(in *geom.RoofIn) { in.LengthMM = nil }), "length_mm"},
		"no edges":         {rect(func(in *geom.RoofIn) { in.Edges = nil }), "edges"},
		"five edges":       {rect(func(in *geom.RoofIn) { in.Edges = append(in.Edges[:4:4], "wall") }), "edges"},
		"unknown edge":     {rect(func(in *geom.RoofIn) { in.Edges = []string{"gutter", "verge", "wall", "hedge"} }), "edges[3]"},
		"not a number":     {rect(func(in *geom.RoofIn) { *in.DepthMM = math.NaN() }), "depth_mm"},
		"three sides":      {geom.RoofIn{SidesMM: sides[:3], DiagonalsMM: []float64{6218, 6218}, Edges: gvwv}, "sides_mm"},
		"no diagonals":     {geom.RoofIn{SidesMM: sides, Edges: gvwv}, "diagonals_mm"},
		"braced, no edges": {geom.RoofIn{SidesMM: sides, DiagonalsMM: []float64{6218, 6218}}, "edges"},
		"cannot close":     {geom.RoofIn{SidesMM: sides, DiagonalsMM: []float64{9218, 6218}, Edges: gvwv}, "sides_mm"},
		"open walk":        {geom.RoofIn{Walk: walk}, "walk[3]"},
		"walk with edges":  {geom.RoofIn{Walk: walk, Edges: gvwv}, "edges"},
		"empty walk":       {geom.RoofIn{Walk: []geom.RoofStep{}}, "walk"},
		"row too narrow":   {rect(func(in *geom.RoofIn) { in.RowMM = ptr(20) }), "row_mm"},
		"pipe off":         {rect(func(in *geom.RoofIn) { in.Pipes = []geom.RoofPipe{{XMM: -300, YMM: 40, DiaMM: 110}} }), "pipes[0]"},
		"pipe of nothing":  {rect(func(in *geom.RoofIn) { in.Pipes = []geom.RoofPipe{{XMM: 300, YMM: 400}} }), "pipes[0].dia_mm"},
		"rooflight off": {rect(func(in *geom.RoofIn) {
			in.Rooflights = []geom.RoofLight{{XMM: 4500, YMM: 400, LengthMM: 800, DepthMM: 800}}
		}), "rooflights[0]"},
	} {
		out, err := geom.ReckonRoof(c.in)
		require.Error(t, err, name)
		assertField(t, err, c.field)
		assert.Equal(t, geom.RoofOut{}, out, name)
	}
}

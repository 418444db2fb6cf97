package setout_test

import (
	"math"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/setout"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func f(v float64) *float64 { return &v }

func TestReckonJoistsWithTape(t *testing.T) {
	in := setout.JoistsIn{Length: 5500, Board: 2440, Gap: 3, Joist: 47, MaxCentres: 410}
	plain, err := setout.ReckonJoists(in)
	require.NoError(t, err)
	assert.Nil(t, plain.Checked)
	assert.Equal(t, 22.0, plain.JointBearing)
	assert.Equal(t, []float64{1220, 3663}, plain.StaggerLines)
	in.Measured = plain.Exact
	out, err := setout.ReckonJoists(in)
	require.NoError(t, err)
	assert.True(t, out.Checked.OK)
	assert.Len(t, out.Checked.Joints, 4)
	in.Measured[6] += 5 // the joist under the first joint, 4 allowed
	out, err = setout.ReckonJoists(in)
	require.NoError(t, err)
	assert.False(t, out.Checked.OK)
	assert.Equal(t, 7, out.Checked.Joints[1].Joist)
	assert.InDelta(t, 17, out.Checked.Joints[1].Before, 1e-9)
}

func TestReckonWalls(t *testing.T) {
	out, err := setout.ReckonChase(setout.ChaseIn{Joint: 38, Length: 4200, Depth: f(25)})
	require.NoError(t, err)
	assert.Equal(t, 188.0, out.Joint)
	assert.Equal(t, 178.0, out.BoardTop)
	assert.False(t, *out.DepthOK)
	_, err = setout.ReckonChase(setout.ChaseIn{Joint: 38, Length: 4200, Course: f(0)})
	assertField(t, err, "course_mm")
	c, err := setout.ReckonCoping(setout.CopingIn{Wall: 215, Coping: 315, Outside: 50, Throat: 10, Run: 3000, Piece: 600})
	require.NoError(t, err)
	assert.True(t, c.OK)
}

func TestReckonFront(t *testing.T) {
	in := setout.FrontIn{Fascia: 18, Batten: 38, Trim: 10, Gutter: 112}
	out, err := setout.ReckonFront(in)
	require.NoError(t, err)
	assert.Equal(t, 30.0, out.Drip)
	assert.Nil(t, out.Cut)
	in.Tails = []float64{200}
	_, err = setout.ReckonFront(in)
	assertField(t, err, "face_mm")
	in.Face = f(168)
	out, err = setout.ReckonFront(in)
	require.NoError(t, err)
	assert.Equal(t, 150.0, *out.Cut)
	assert.Equal(t, []setout.TailSpan{{Off: 50}}, out.Tails)
}

func TestReckonLevelsCountsFromOne(t *testing.T) {
	out, err := setout.ReckonLevels(setout.LevelsIn{
		Centres: []float64{24, 424, 824, 1224}, Stations: []float64{0, 2000},
		Tops: [][]float64{{0, 50}, {0, 50}, {-7, 43}, {0, 50}},
	})
	require.NoError(t, err)
	assert.Equal(t, []int{3}, out.Low)
	assert.Equal(t, []float64{7, 7}, out.Joists[2].Packer)
	assert.InDelta(t, 0.025, out.Joists[0].Whole, 1e-12)
}

func TestReckonStanding(t *testing.T) {
	in := shed()
	var measured []float64
	for _, c := range in.Centres {
		measured = append(measured, float64(c))
	}
	out, err := setout.ReckonStanding(setout.StandingIn{
		Measured: measured, Joist: 47, Gap: 3, MaxCentres: 399, Length: 5500, Depth: 2900, Board: 2440, BoardWidth: 1220,
	})
	require.NoError(t, err)
	assert.NotEmpty(t, out.Options)
	assert.NotEmpty(t, out.Wide)
	_, err = setout.ReckonStanding(setout.StandingIn{
		Measured: measured, Joist: 47, Gap: 3, MaxCentres: 410, Length: 5500, Depth: 2900, Board: 2440, BoardWidth: 1220, Batten: f(0),
	})
	assertField(t, err, "batten_mm")
}

func TestReckonRegions(t *testing.T) {
	timber := setout.RegionsIn{Board: 2440, Gap: 3, Joist: 47, MaxCentres: 410}
	_, err := setout.ReckonRegions(timber)
	assertField(t, err, "walk")

	skewed := timber
	// 5500 by 2900 with the back 45 mm to the right: diagonals from the corners.
	skewed.Sides = []float64{5500, math.Hypot(45, 2900), 5500, math.Hypot(45, 2900)}
	skewed.Diagonals = []float64{math.Hypot(5545, 2900), math.Hypot(5455, 2900)}
	out, err := setout.ReckonRegions(skewed)
	require.NoError(t, err)
	require.Len(t, out.Flanks, 2)
	assert.InDelta(t, 45, out.Flanks[0].Lean, 1e-6)
	assert.Equal(t, 15, out.Count)
	assert.Equal(t, out.Joists[0].Low-45, out.Joists[0].High)

	walked := timber
	walked.Walk = []geom.RoofStep{
		{LengthMM: 5500, Turn: "right", Kind: "gutter"}, {LengthMM: 2900, Turn: "right", Kind: "verge"},
		{LengthMM: 5500, Turn: "right", Kind: "verge"}, {LengthMM: 2900, Turn: "right", Kind: "verge"},
	}
	out, err = setout.ReckonRegions(walked)
	require.NoError(t, err)
	require.Len(t, out.Regions, 1)
	assert.Equal(t, 15, out.Count)
	assert.Equal(t, "up", out.Regions[0].Joists)
	walked.Walk[1].LengthMM = 0
	_, err = setout.ReckonRegions(walked)
	assertField(t, err, "walk[1].length_mm")
}

func FuzzReckonFall(fz *testing.F) {
	fz.Add(2900.0, 73.0, 0.0, 0.0)
	fz.Add(math.NaN(), math.Inf(1), -1.0, 40.0)
	fz.Add(2900.0, 0.0, 5e-324, 0.0)
	fz.Fuzz(func(t *testing.T, depth, drop, ratio, have float64) {
		out, err := setout.ReckonFall(setout.FallIn{Depth: depth, Drop: &drop, Ratio: &ratio, JoistDrop: &have})
		if err != nil {
			return
		}
		for _, v := range append(out.Firrings, out.Drop, out.Ratio, out.OneIn) {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0) || v < 0)
		}
	})
}

func FuzzLevels(fz *testing.F) {
	fz.Add(25.0, -7.0, 3.0, 1e9)
	fz.Fuzz(func(t *testing.T, a, b, c, d float64) {
		out, err := setout.ReckonLevels(setout.LevelsIn{
			Centres: []float64{0, 400, 800}, Stations: []float64{0, 1000, 2000},
			Tops: [][]float64{{0, a, b}, {c, d, a}, {b, c, d}},
		})
		if err != nil {
			return
		}
		for _, p := range out.Ponds {
			require.Positive(t, p.Depth)
		}
	})
}

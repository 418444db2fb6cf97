package geom_test

import (
	"math/rand/v2"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Leaning 35 to the right over 3100, in rows of 1200: by similar triangles.
func TestTaperOfALeaningRoof(t *testing.T) {
	t.Parallel()
	four, err := geom.FourSider(taped(lengthsOf([4][2]float64{{5200, 0}, {0, 0}, {35, 3100}, {5235, 3100}})), wallAtBack)
	require.NoError(t, err)
	edges := four.Outline.Tapers()
	require.Len(t, edges, 3)
	assert.Equal(t, 1, edges[0].Edge)
	assert.InDelta(t, 3100, float64(edges[0].Run), 1e-6)
	assert.InDelta(t, 35, float64(edges[0].CutTo), 1e-6, "left verge: cut at the back")
	assert.InDelta(t, 0, float64(edges[0].CutFrom), 1e-6)
	assert.InDelta(t, 0, float64(edges[1].Off()), 1e-6, "back parallel to the gutter")
	assert.InDelta(t, 35, float64(edges[2].CutTo), 1e-6, "right verge: cut at the gutter")

	rows, err := four.Outline.TaperRows(1200)
	require.NoError(t, err)
	require.Len(t, rows, 3)
	per := 35.0 * 1200 / 3100
	for k, row := range rows[:2] {
		assert.InDelta(t, float64(k)*per, float64(row.Left), 1e-6)
		assert.InDelta(t, 5200+per, float64(row.Length), 1e-6)
		assert.InDelta(t, 0, float64(row.LeftLow), 1e-6)
		assert.InDelta(t, per, float64(row.LeftHigh), 1e-6)
		assert.InDelta(t, per, float64(row.RightLow), 1e-6)
		assert.InDelta(t, 0, float64(row.RightHigh), 1e-6)
		assert.Equal(t, unit.Length(1200), row.HeightLeft)
	}
	assert.InDelta(t, 700, float64(rows[2].HeightLeft), 1e-6)
	assert.InDelta(t, 700, float64(rows[2].HeightRight), 1e-6)
}

// A notch whose floor, walked from right to left, climbs: its outermost point
// is its lowest, where it ends, so it is cut at its start.
func TestTaperOfAnEdgeWalkedTowardsTheLeft(t *testing.T) {
	t.Parallel()
	kinds := []geom.Kind{geom.Gutter, geom.Verge, geom.Wall, geom.Verge, geom.Verge, geom.Verge}
	o, err := geom.NewOutline([]geom.Point{{X: 3000}, {}, {Y: 3000}, {X: 5000, Y: 3000}, {X: 5000, Y: 1020}, {X: 3000, Y: 1000}}, kinds)
	require.NoError(t, err)
	floor := o.Tapers()[3]
	assert.Equal(t, geom.EdgeTaper{Edge: 4, Run: 2000, CutFrom: 20}, floor)
}

func TestNoTaperOnSquareRoofs(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(10, 1))
	for range 50 {
		w, _ := randomGrid(r).walked(t, r)
		for _, e := range w.Outline.Tapers() {
			assert.Zero(t, e.Off())
			assert.Equal(t, w.Outline.Edges[e.Edge].Length, e.Run)
		}
	}
	o, err := geom.Rectangle(5000, 2400, wallAtBack)
	require.NoError(t, err)
	rows, err := o.TaperRows(1200)
	require.NoError(t, err)
	assert.Equal(t, []geom.TaperRow{
		{Low: 0, High: 1200, Length: 5000, HeightLeft: 1200, HeightRight: 1200},
		{Low: 1200, High: 2400, Length: 5000, HeightLeft: 1200, HeightRight: 1200},
	}, rows)
}

// The rows less their cuts are the roof. A row is a quadrilateral between its
// two ends; the last ones are ripped by the back edge.
func TestTaperRowsCoverTheRoof(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(10, 2))
	for range 500 {
		four, err := geom.FourSider(taped(lengthsOf(trueFourSider(r, 300))), wallAtBack)
		require.NoError(t, err)
		o := four.Outline
		rows, err := o.TaperRows(unit.Length(300 + r.IntN(1000)))
		require.NoError(t, err)
		back := func(x unit.Length) unit.Length {
			a, b := o.Side(2)
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
		sum := 0.0
		for _, row := range rows {
			assert.GreaterOrEqual(t, min(row.LeftLow, row.LeftHigh, row.RightLow, row.RightHigh), unit.Length(0))
			right := row.Left + row.Length
			p := geom.Polygon{
				{X: right - row.RightLow, Y: row.Low}, {X: row.Left + row.LeftLow, Y: row.Low},
				{X: row.Left + row.LeftHigh, Y: row.Low + row.HeightLeft}, {X: right - row.RightHigh, Y: row.Low + row.HeightRight},
			}
			// Where the back edge leaves the row through its high arris, the row has a fifth corner.
			for _, ripped := range []bool{row.HeightLeft < row.High-row.Low, row.HeightRight < row.High-row.Low} {
				full := row.HeightLeft == row.High-row.Low || row.HeightRight == row.High-row.Low
				if ripped && full {
					a, b := o.Side(2)
					x := a.X + (b.X-a.X)*(row.High-a.Y)/(b.Y-a.Y)
					p = geom.Polygon{p[0], p[1], p[2], {X: x, Y: row.High}, p[3]}
				}
			}
			if row.HeightLeft < row.High-row.Low && row.HeightLeft > 0 {
				assert.InDelta(t, float64(row.Low+row.HeightLeft), float64(back(row.Left+row.LeftHigh)), 1e-6)
			}
			sum += float64(p.Area())
		}
		assert.InEpsilon(t, float64(o.Area()), sum, 1e-9)
	}
}

func TestTaperRowRefusals(t *testing.T) {
	t.Parallel()
	_, err := lShape(t).TaperRows(1200)
	assertField(t, err, "outline")
	o, err := geom.Rectangle(5000, 2400, wallAtBack)
	require.NoError(t, err)
	for _, w := range []unit.Length{0, 49, nan(), geom.MaxEdge + 1} {
		_, err = o.TaperRows(w)
		assertField(t, err, "row_mm")
	}
	tilted, err := geom.NewOutline([]geom.Point{{X: 5000, Y: 100}, {}, {X: 0, Y: 3000}, {X: 5000, Y: 3000}}, fourFree())
	require.NoError(t, err)
	_, err = tilted.TaperRows(1200)
	assertField(t, err, "outline")
}

package geom_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Published areas by coordinates: J. Mahun, open-access surveying text, see
// testdata/worked/survey/area.csv. The printed cross products are rounded, to
// 1 sq ft (ten of them) and to 0.1 sq ft (eight): half a unit each, halved.
func TestAreaAgainstSurveyingText(t *testing.T) {
	t.Parallel()
	tolerance := map[string]float64{"A1": 2.5, "A2": 0.2} // sq ft
	figures := map[string]geom.Polygon{}
	printed := map[string]float64{}
	for _, row := range readCSV(t, "area.csv") {
		name := row["figure"]
		figures[name] = append(figures[name], geom.Point{X: feet(t, row["east"]), Y: feet(t, row["north"])})
		if row["down"] != "" {
			printed[name] = math.Abs(number(t, row["down"])-number(t, row["up"])) / 2
		}
	}
	require.Len(t, figures, 2)
	for name, p := range figures {
		got := float64(p.Area()) / float64(unit.Foot.By(unit.Foot))
		assert.InDelta(t, printed[name], got, tolerance[name], name)
		assert.True(t, p.IsSimple(), name)
	}
}

// The roofs of the trade's own examples.
func TestAreaOfKnownRoofs(t *testing.T) {
	t.Parallel()
	o, err := geom.Rectangle(5500, 2900, [4]geom.Kind{geom.Gutter, geom.Verge, geom.Wall, geom.Verge})
	require.NoError(t, err)
	assert.InDelta(t, 15.95, o.Area().In(unit.SquareMetre), 1e-12)
	assert.Equal(t, unit.Length(16800), o.Perimeter())
	assert.Equal(t, unit.Length(5800), o.PerimeterOf(geom.Verge))
	assert.Zero(t, o.PerimeterOf(geom.Parapet))

	l := lShape(t)
	assert.InDelta(t, 5*3+2.2*1.8, l.Area().In(unit.SquareMetre), 1e-12)
	assert.InDelta(t, 24.0, l.Bounds().Area().In(unit.SquareMetre), 1e-12)
	assert.Equal(t, 1, l.CountCorners(geom.Internal))
	assert.Equal(t, 5, l.CountCorners(geom.External))
}

// lShape is 5000 by 3000 with a leg of 2200 by 1800 on its back at the left.
func lShape(t testing.TB) geom.Outline {
	t.Helper()
	w, err := geom.Walk([]geom.Step{
		{Length: 5000, Turn: geom.Right, Kind: geom.Gutter},
		{Length: 4800, Turn: geom.Right, Kind: geom.Verge},
		{Length: 2200, Turn: geom.Right, Kind: geom.Wall},
		{Length: 1800, Turn: geom.Left, Kind: geom.Wall},
		{Length: 2800, Turn: geom.Right, Kind: geom.Wall},
		{Length: 3000, Kind: geom.Verge},
	})
	require.NoError(t, err)
	return w.Outline
}

// byStrips integrates the width over the depth: between two neighbouring corner
// heights the width is a straight line, so the trapezoid is exact.
func byStrips(p geom.Polygon) float64 {
	var ys []unit.Length
	for _, v := range p {
		ys = append(ys, v.Y)
	}
	slices.Sort(ys)
	sum := 0.0
	for i := 1; i < len(ys); i++ {
		middle := 0.0
		for _, s := range p.AlongGutter(ys[i-1] + (ys[i]-ys[i-1])/2) {
			middle += float64(s.Length())
		}
		sum += middle * float64(ys[i]-ys[i-1])
	}
	return sum
}

func TestAreasByFourRoutesAgree(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 1))
	for range 400 {
		w, g := randomGrid(r).walked(t, r)
		o := w.Outline
		want := g.area()
		assert.InEpsilon(t, want, float64(o.Area()), 1e-12)
		assert.InEpsilon(t, want, byStrips(o.Vertices), 1e-12)
		for _, axis := range []geom.Axis{geom.AlongGutterAxis, geom.UpRoofAxis} {
			rects, err := o.Rectangles(axis)
			require.NoError(t, err)
			sum := 0.0
			for _, q := range rects {
				sum += float64(q.Area())
			}
			assert.InEpsilon(t, want, sum, 1e-12)
			assert.LessOrEqual(t, len(rects), o.CountCorners(geom.Internal)+1)
		}
		assert.Equal(t, o.CountCorners(geom.Internal)+4, o.CountCorners(geom.External))
		assert.Zero(t, w.Misclosure)
	}
}

func TestAreaOfRandomStarsByStrips(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 2))
	for range 500 {
		p := star(r, 3+r.IntN(12))
		assert.InEpsilon(t, byStrips(p), float64(p.Area()), 1e-9)
		turned, shifted := turnedBy(p, r.Float64()*6), p
		assert.InEpsilon(t, float64(p.Area()), float64(turned.Area()), 1e-9)
		shifted = append(shifted[1:len(shifted):len(shifted)], shifted[0])
		assert.InEpsilon(t, float64(p.Area()), float64(shifted.Area()), 1e-9)
		assert.Equal(t, geom.Clockwise, p.Orientation())
	}
}

// star returns a clockwise polygon whose corners go round a point in between.
func star(r *rand.Rand, n int) geom.Polygon {
	for {
		bearings := make([]float64, n)
		for i := range bearings {
			bearings[i] = r.Float64() * 2 * math.Pi
		}
		slices.Sort(bearings)
		var p geom.Polygon
		widest := bearings[0] + 2*math.Pi - bearings[n-1]
		for i, b := range bearings {
			if i > 0 {
				widest = max(widest, b-bearings[i-1])
			}
			radius := 500 + 4000*r.Float64()
			p = append(p, geom.Point{X: unit.Length(radius * math.Sin(b)), Y: unit.Length(radius * math.Cos(b))})
		}
		if widest < math.Pi-0.05 && p.IsSimple() {
			return p
		}
	}
}

func turnedBy(p geom.Polygon, a float64) geom.Polygon {
	sin, cos := math.Sincos(a)
	var q geom.Polygon
	for _, v := range p {
		x, y := float64(v.X), float64(v.Y)
		q = append(q, geom.Point{X: unit.Length(cos*x - sin*y), Y: unit.Length(sin*x + cos*y)})
	}
	return q
}

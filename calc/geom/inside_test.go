package geom_test

import (
	"math/rand/v2"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every point, scan line and rectangle of a roof made of cells, against the
// cells themselves.
func TestInsideAndScanLinesAgainstCells(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(4, 1))
	for range 150 {
		w, g := randomGrid(r).walked(t, r)
		p := w.Outline.Vertices
		for x := range gridSide {
			at := g.xs[x] + (g.xs[x+1]-g.xs[x])/3
			var want []geom.Span
			for y := range gridSide {
				in := g.at(y, x)
				assert.Equal(t, in, p.Contains(geom.Point{X: at, Y: g.ys[y] + 1}))
				if in && g.at(y-1, x) {
					want[len(want)-1].To = g.ys[y+1]
				} else if in {
					want = append(want, geom.Span{From: g.ys[y], To: g.ys[y+1]})
				}
			}
			assert.Equal(t, want, p.UpRoof(at))
		}
		for y := range gridSide {
			at := g.ys[y] + (g.ys[y+1]-g.ys[y])/3
			var want []geom.Span
			for x := range gridSide {
				if in := g.at(y, x); in && g.at(y, x-1) {
					want[len(want)-1].To = g.xs[x+1]
				} else if in {
					want = append(want, geom.Span{From: g.xs[x], To: g.xs[x+1]})
				}
			}
			assert.Equal(t, want, p.AlongGutter(at))
		}
		for _, v := range p {
			assert.True(t, p.Contains(v), "a corner belongs to the roof")
		}
	}
}

func TestRectanglesAreTheCells(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(4, 2))
	for range 150 {
		w, g := randomGrid(r).walked(t, r)
		for _, axis := range []geom.Axis{geom.AlongGutterAxis, geom.UpRoofAxis} {
			rects, err := w.Outline.Rectangles(axis)
			require.NoError(t, err)
			for y := range gridSide {
				for x := range gridSide {
					holders := 0
					for _, q := range rects {
						if q.Min.X <= g.xs[x] && g.xs[x+1] <= q.Max.X && q.Min.Y <= g.ys[y] && g.ys[y+1] <= q.Max.Y {
							holders++
						}
					}
					want := 0
					if g.at(y, x) {
						want = 1
					}
					assert.Equal(t, want, holders, "each cell in one rectangle, whole")
				}
			}
		}
	}
}

func TestScanLineOnAnEdge(t *testing.T) {
	t.Parallel()
	p := lShape(t).Vertices
	assert.Equal(t, []geom.Span{{From: 0, To: 4800}}, p.UpRoof(2200), "the inside of the L belongs to the long stretch")
	assert.Equal(t, []geom.Span{{From: 0, To: 3000}}, p.UpRoof(2200.001))
	assert.Equal(t, []geom.Span{{From: 0, To: 4800}}, p.UpRoof(0))
	assert.Equal(t, []geom.Span{{From: 0, To: 5000}}, p.AlongGutter(3000))
	assert.Equal(t, []geom.Span{{From: 0, To: 2200}}, p.AlongGutter(4800))
	assert.Empty(t, p.UpRoof(-0.001))
	assert.Empty(t, p.UpRoof(5000.001))

	// 474.8 + (35.3 - 474.8) is not 35.3 in floating point; the corner itself is.
	slant := geom.Polygon{{}, {X: 474.8}, {X: 35.3, Y: 100}, {Y: 100}}
	assert.Equal(t, []geom.Span{{From: 0, To: 35.3}}, slant.AlongGutter(100))

	tip := geom.Polygon{{X: 0, Y: 0}, {X: 1000, Y: 1000}, {X: 2000, Y: 0}}
	assert.Empty(t, tip.AlongGutter(1000), "touched in a point only")
	assert.Equal(t, []geom.Span{{From: 500, To: 1500}}, tip.AlongGutter(500))
	assert.Equal(t, unit.Length(1000), tip.AlongGutter(500)[0].Length())
}

func TestRectanglesRefuseASkewRoof(t *testing.T) {
	t.Parallel()
	o, err := geom.NewOutline([]geom.Point{{X: 5000}, {}, {X: 40, Y: 3000}, {X: 5040, Y: 3000}}, fourFree())
	require.NoError(t, err)
	_, err = o.Rectangles(geom.AlongGutterAxis)
	assertField(t, err, "outline")
	_, err = lShape(t).Rectangles("sideways")
	assertField(t, err, "axis")
}

func TestSimpleRings(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		p    geom.Polygon
		want bool
	}{
		"triangle":        {geom.Polygon{{X: 0, Y: 0}, {X: 0, Y: 9}, {X: 9, Y: 0}}, true},
		"two points":      {geom.Polygon{{X: 0, Y: 0}, {X: 0, Y: 9}}, false},
		"none":            {nil, false},
		"bow tie":         {geom.Polygon{{X: 0, Y: 0}, {X: 9, Y: 9}, {X: 9, Y: 0}, {X: 0, Y: 9}}, false},
		"spike":           {geom.Polygon{{X: 0, Y: 0}, {X: 0, Y: 9}, {X: 0, Y: 4}, {X: 9, Y: 0}}, false},
		"spike at start":  {geom.Polygon{{X: 0, Y: 0}, {X: 4, Y: 0}, {X: 4, Y: 4}, {X: 9, Y: 0}}, false},
		"flat triangle":   {geom.Polygon{{X: 4, Y: 0}, {X: 9, Y: 0}, {X: 0, Y: 0}}, false},
		"flat from end":   {geom.Polygon{{X: 0, Y: 0}, {X: 9, Y: 0}, {X: 4, Y: 0}}, false},
		"repeated corner": {geom.Polygon{{X: 0, Y: 0}, {X: 0, Y: 0}, {X: 0, Y: 9}, {X: 9, Y: 0}}, false},
		"corner on side":  {geom.Polygon{{X: 0, Y: 0}, {X: 0, Y: 9}, {X: 4, Y: 0}, {X: 9, Y: 9}, {X: 9, Y: 0}}, false},
		"inline corner":   {geom.Polygon{{X: 0, Y: 0}, {X: 0, Y: 9}, {X: 9, Y: 0}, {X: 5, Y: 0}}, true},
		"touching corner": {geom.Polygon{{X: 0, Y: 0}, {X: 2, Y: 2}, {X: 0, Y: 4}, {X: 4, Y: 4}, {X: 2, Y: 2}, {X: 4, Y: 0}}, false},
	} {
		assert.Equal(t, c.want, c.p.IsSimple(), name)
	}
}

func TestConvex(t *testing.T) {
	t.Parallel()
	assert.True(t, geom.Polygon{{X: 9}, {}, {Y: 9}, {X: 9, Y: 9}}.IsConvex())
	assert.False(t, lShape(t).Vertices.IsConvex())
	assert.False(t, geom.Polygon{{X: 0, Y: 0}, {X: 9, Y: 9}, {X: 9, Y: 0}, {X: 0, Y: 9}}.IsConvex(), "a bow tie")
	assert.Equal(t, geom.Anticlockwise, geom.Polygon{{}, {X: 3}, {Y: 4}}.Orientation())
	assert.Equal(t, unit.Length(12), geom.Polygon{{}, {X: 3}, {Y: 4}}.Perimeter())
	assert.Equal(t, unit.Length(5), geom.Polygon{{}, {}, {X: 9}}.ToSide(geom.Point{X: 3, Y: 4}, 0), "a side of no length")
	assert.Equal(t, geom.Flat, geom.Polygon{{X: 1}, {X: 2}}.Orientation())
	assert.Equal(t, geom.Rect{}, geom.Polygon(nil).Bounds())
}

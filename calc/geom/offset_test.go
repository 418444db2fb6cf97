package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func all(o geom.Outline, a unit.Length) []unit.Length {
	list := make([]unit.Length, len(o.Edges))
	for i := range list {
		list[i] = a
	}
	return list
}

func TestOffsetOfARectangle(t *testing.T) {
	t.Parallel()
	o, err := geom.Rectangle(5400, 3200, wallAtBack)
	require.NoError(t, err)
	// Each side grows by the allowances at its two ends.
	p, err := o.Offset([]unit.Length{150, 200, 250, 200})
	require.NoError(t, err)
	assert.Equal(t, geom.Rect{Min: geom.Point{X: -200, Y: -150}, Max: geom.Point{X: 5600, Y: 3450}}, p.Bounds())
	assert.InDelta(t, 5.8*3.6, p.Area().In(unit.SquareMetre), 1e-9)

	p, err = o.Offset(all(o, 0))
	require.NoError(t, err)
	assert.Equal(t, o.Vertices, p)

	p, err = o.Offset([]unit.Length{0, -10, -10, -10}) // the deck kept off three walls
	require.NoError(t, err)
	assert.Equal(t, unit.Length(5380), p.Bounds().Length())
	assert.Equal(t, unit.Length(3190), p.Bounds().Depth())
}

// A ring offset by the same amount all round grows by its perimeter times the
// amount and a kite at every corner: ΔA = a·P + a²·Σ tan(bend/2).
func TestOffsetAreaByTheCornerKites(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(8, 1))
	grown := 0
	for range 500 {
		o := starOutline(t, r)
		a := 200*r.Float64() - 60
		p, err := o.Offset(all(o, unit.Length(a)))
		if err != nil {
			continue
		}
		grown++
		want := float64(o.Area()) + a*float64(o.Perimeter())
		for _, c := range o.Corners() {
			want += a * a * math.Tan((math.Pi-float64(c.Angle))/2)
		}
		assert.InEpsilon(t, want, float64(p.Area()), 1e-9)
		assertOffsetEdges(t, o, all(o, unit.Length(a)), p)
	}
	assert.Greater(t, grown, 200)
}

func starOutline(t testing.TB, r *rand.Rand) geom.Outline {
	t.Helper()
	for {
		p := star(r, 4+r.IntN(5))
		kinds := make([]geom.Kind, len(p))
		for i := range kinds {
			kinds[i] = geom.Verge
		}
		o, err := geom.NewOutline(p, kinds)
		if err == nil {
			return o
		}
	}
}

// assertOffsetEdges checks, without any mitre, that the ring is simple and that each edge
// of the outline has exactly one side of the ring, parallel to it, running the
// same way, at its allowance.
func assertOffsetEdges(t testing.TB, o geom.Outline, allowances []unit.Length, p geom.Polygon) {
	t.Helper()
	require.True(t, p.IsSimple())
	require.Equal(t, geom.Clockwise, p.Orientation())
	for i := range o.Edges {
		from, to := o.Side(i)
		l := float64(from.To(to))
		ux, uy := float64(to.X-from.X)/l, float64(to.Y-from.Y)/l
		found := 0
		for k := range p {
			a, b := p[k], p[(k+1)%len(p)]
			out := func(q geom.Point) float64 { // to the left of the edge
				return ux*float64(q.Y-from.Y) - uy*float64(q.X-from.X)
			}
			forward := ux*float64(b.X-a.X) + uy*float64(b.Y-a.Y)
			want := float64(allowances[i])
			if math.Abs(out(a)-want) < 1e-4 && math.Abs(out(b)-want) < 1e-4 && forward > 0 {
				found++
			}
		}
		require.GreaterOrEqual(t, found, 1, "edge %d has lost its line", i)
	}
}

// Roofs of cells with any allowances: refused or right, never crossed in
// silence.
func TestOffsetNeverCrossesInSilence(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(8, 2))
	done, refused := 0, 0
	for range 600 {
		w, _ := randomGrid(r).walked(t, r)
		allowances := all(w.Outline, 0)
		for i := range allowances {
			allowances[i] = unit.Length(r.IntN(700) - 200)
		}
		p, err := w.Outline.Offset(allowances)
		if err != nil {
			refused++
			continue
		}
		done++
		assertOffsetEdges(t, w.Outline, allowances, p)
	}
	assert.Greater(t, done, 100)
	assert.Greater(t, refused, 100)
}

func TestOffsetRefusesClosingArms(t *testing.T) {
	t.Parallel()
	w, err := geom.Walk(uShape())
	require.NoError(t, err)
	allowances := all(w.Outline, 150)
	p, err := w.Outline.Offset(allowances)
	require.NoError(t, err)
	assert.InDelta(t, 600, float64(p[4].To(p[5])), 1e-9, "900 between the arms less 150 from each side")

	allowances[3], allowances[5] = 450, 450 // the chimney's slot is 900 wide
	_, err = w.Outline.Offset(allowances)
	assertField(t, err, "allowances[4]")
	allowances[3], allowances[5] = 449, 450
	_, err = w.Outline.Offset(allowances)
	assert.NoError(t, err)
	_, err = w.Outline.Offset(all(w.Outline, -1600)) // more than half the depth
	assert.Error(t, err)
	_, err = w.Outline.Offset(allowances[1:])
	assertField(t, err, "allowances")
	allowances[6] = nan()
	_, err = w.Outline.Offset(allowances)
	assertField(t, err, "allowances[6]")
}

func TestOffsetStepsWhereTheKindChanges(t *testing.T) {
	t.Parallel()
	w, err := geom.Walk([]geom.Step{
		step(5000, geom.Right, geom.Gutter), step(1000, geom.Straight, geom.Verge), step(2000, geom.Right, geom.Wall),
		step(5000, geom.Right, geom.Wall), step(3000, geom.Right, geom.Verge),
	})
	require.NoError(t, err)
	p, err := w.Outline.Offset([]unit.Length{200, 150, 250, 250, 150})
	require.NoError(t, err)
	require.Len(t, p, 6)
	assert.Equal(t, geom.Point{X: -150, Y: 1000}, p[2])
	assert.Equal(t, geom.Point{X: -250, Y: 1000}, p[3])
	assert.InDelta(t, 5000*3000+200*5000+150*1000+250*2000+250*5000+150*3000+ // edges
		200*150+250*250+250*150+150*200, float64(p.Area()), 1e-6) // corners
	p, err = w.Outline.Offset(all(w.Outline, 150))
	require.NoError(t, err)
	assert.Len(t, p, 5, "no step without a difference")
}

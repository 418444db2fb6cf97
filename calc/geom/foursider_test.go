package geom_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// gaussNewton adjusts the same six readings by another route: five unknown
// coordinates, observation equations, orthogonal decomposition of the
// linearised system, no condition and no gradient of one.
func gaussNewton(t testing.TB, read geom.Taped, start [4][2]float64) (fit geom.Taped, at [4][2]float64) {
	t.Helper()
	ends := [6][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {1, 3}, {0, 2}}
	unknown := [][2]int{{0, 0}, {2, 0}, {2, 1}, {3, 0}, {3, 1}} // corner 1 is the origin, corner 0 on the axis
	l := readings(read)
	at = start
	for range 100 {
		a, b := mat.NewDense(6, 5, nil), mat.NewVecDense(6, nil)
		for i, e := range ends {
			p, q := at[e[0]], at[e[1]]
			d := math.Hypot(q[0]-p[0], q[1]-p[1])
			b.SetVec(i, l[i]-d)
			for j, u := range unknown {
				switch u[0] {
				case e[0]:
					a.Set(i, j, (p[u[1]]-q[u[1]])/d)
				case e[1]:
					a.Set(i, j, (q[u[1]]-p[u[1]])/d)
				}
			}
		}
		var qr mat.QR
		qr.Factorize(a)
		var dx mat.VecDense
		require.NoError(t, qr.SolveVecTo(&dx, false, b))
		for j, u := range unknown {
			at[u[0]][u[1]] += dx.AtVec(j)
		}
		if mat.Norm(&dx, 2) < 1e-10 {
			var out [6]float64
			for i, e := range ends {
				out[i] = math.Hypot(at[e[1]][0]-at[e[0]][0], at[e[1]][1]-at[e[0]][1])
			}
			return taped(out), at
		}
	}
	t.Fatalf("no convergence from %v", read)
	return fit, at
}

func readings(t geom.Taped) (l [6]float64) {
	for i, v := range t.Sides {
		l[i] = float64(v)
	}
	l[4], l[5] = float64(t.Diagonals[0]), float64(t.Diagonals[1])
	return l
}

func taped(l [6]float64) (t geom.Taped) {
	for i := range t.Sides {
		t.Sides[i] = unit.Length(l[i])
	}
	t.Diagonals = [2]unit.Length{unit.Length(l[4]), unit.Length(l[5])}
	return t
}

// trueFourSider is a roof that is known: a rectangle with every corner pushed
// about, laid down as FourSider lays it.
func trueFourSider(r *rand.Rand, push float64) [4][2]float64 {
	length, depth := 1500+r.Float64()*8000, 1000+r.Float64()*4000
	off := func() float64 { return (2*r.Float64() - 1) * push }
	return [4][2]float64{{length + off(), 0}, {0, 0}, {off(), depth + off()}, {length + off(), depth + off()}}
}

func lengthsOf(at [4][2]float64) (l [6]float64) {
	for i, e := range [6][2]int{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {1, 3}, {0, 2}} {
		l[i] = math.Hypot(at[e[0]][0]-at[e[1]][0], at[e[0]][1]-at[e[1]][1])
	}
	return l
}

var wallAtBack = [4]geom.Kind{geom.Gutter, geom.Verge, geom.Wall, geom.Verge}

func TestFourSiderFindsAKnownRoof(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 1))
	for range 1000 {
		truth := trueFourSider(r, 300)
		four, err := geom.FourSider(taped(lengthsOf(truth)), wallAtBack)
		require.NoError(t, err)
		assert.True(t, four.Closes)
		assert.InDelta(t, 0, float64(four.Misclosure), 1e-6)
		for i, v := range four.Outline.Vertices {
			assert.InDelta(t, truth[i][0], float64(v.X), 1e-6)
			assert.InDelta(t, truth[i][1], float64(v.Y), 1e-6)
		}
	}
}

func TestFourSiderAgainstGaussNewton(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 2))
	for k := range 1000 {
		truth := trueFourSider(r, 250)
		read := lengthsOf(truth)
		sigma := []float64{1, 5, 40}[k%3] // tape, careless tape, blunders
		for i := range read {
			read[i] += sigma * r.NormFloat64()
		}
		four, err := geom.FourSider(taped(read), wallAtBack)
		require.NoError(t, err)
		wantFit, at := gaussNewton(t, taped(read), truth)
		want, got := readings(wantFit), readings(four.Adjusted)
		for i := range want {
			assert.InDelta(t, want[i], got[i], 1e-6)
			assert.InDelta(t, got[i]-read[i], readings(four.Residuals)[i], 1e-9)
		}
		for i, v := range four.Outline.Vertices {
			assert.InDelta(t, at[i][0], float64(v.X), 1e-5)
			assert.InDelta(t, at[i][1], float64(v.Y), 1e-5)
		}
	}
}

// What least squares promises about errors of known size: one redundant reading,
// so the squared residuals sum to σ² on average, and the adjusted lengths are
// nearer to the truth than the readings by exactly that.
func TestFourSiderErrorsOfKnownSize(t *testing.T) {
	t.Parallel()
	const roofs, sigma = 4000, 3.0 // mm
	r := rand.New(rand.NewPCG(6, 3))
	residual, before, after := 0.0, 0.0, 0.0
	for range roofs {
		truth := lengthsOf(trueFourSider(r, 100))
		read := truth
		for i := range read {
			read[i] += sigma * r.NormFloat64()
		}
		four, err := geom.FourSider(taped(read), wallAtBack)
		require.NoError(t, err)
		for i, v := range readings(four.Residuals) {
			residual += v * v
			before += (read[i] - truth[i]) * (read[i] - truth[i])
			fit := read[i] + v
			after += (fit - truth[i]) * (fit - truth[i])
		}
	}
	// The mean of 4000 χ² of one degree has a standard error of √(2/4000) = 2.2 %.
	assert.InEpsilon(t, sigma*sigma, residual/roofs, 0.08)
	assert.InEpsilon(t, before-after, residual, 1e-2)
}

// The misclosure is seen on a diagonal; which reading was wrong is not seen.
func TestFourSiderMisTaped(t *testing.T) {
	t.Parallel()
	good := [6]float64{5500, 2900, 5500, 2900, 6218, 6218}
	four, err := geom.FourSider(taped(good), wallAtBack)
	require.NoError(t, err)
	assert.True(t, four.Closes)
	assert.Less(t, four.Misclosure, unit.Length(1))

	for i := range good {
		bad := good
		bad[i] += 60
		four, err := geom.FourSider(taped(bad), wallAtBack)
		require.NoError(t, err)
		assert.False(t, four.Closes, "reading %d", i)
		// 60 mm on a side shows on a diagonal as 60·l/d.
		want := 60.0
		if i < 4 {
			want = 60 * good[i] / 6218
		}
		assert.InDelta(t, want, float64(four.Misclosure), 1.5, "reading %d", i)
		// No reading takes the blame: the corrections go by the shape alone.
		assert.InDelta(t, 1, math.Abs(float64(four.Residuals.Diagonals[0]/four.Residuals.Diagonals[1])), 0.05)
	}

	// In the order "both sides, both ends" the readings do not go round: no roof.
	_, err = geom.FourSider(taped([6]float64{5500, 5500, 2900, 2900, 6218, 6218}), wallAtBack)
	assertField(t, err, "sides_mm")
}

func TestMisclosureLimit(t *testing.T) {
	t.Parallel()
	exact := math.Hypot(5500, 2900)
	within, err := geom.FourSider(taped([6]float64{5500, 2900, 5500, 2900, exact + 19.9, exact}), wallAtBack)
	require.NoError(t, err)
	assert.True(t, within.Closes)
	over, err := geom.FourSider(taped([6]float64{5500, 2900, 5500, 2900, exact + 20.1, exact}), wallAtBack)
	require.NoError(t, err)
	assert.False(t, over.Closes)
}

func TestSkewOfKnownRoofs(t *testing.T) {
	t.Parallel()
	// Trade, no source: diagonals 80 mm apart on 5.5 m by 2.9 m are a skew of 45 mm.
	s, err := geom.ParallelogramSkew(6258, 6178, 5500)
	require.NoError(t, err)
	assert.InDelta(t, 45, float64(s), 0.5)

	// A parallelogram leaning 35 mm to the right over its depth.
	lean := lengthsOf([4][2]float64{{5200, 0}, {0, 0}, {35, 3100}, {5235, 3100}})
	s, err = geom.ParallelogramSkew(unit.Length(lean[4]), unit.Length(lean[5]), 5200)
	require.NoError(t, err)
	assert.InDelta(t, 35, float64(s), 1e-9)
	four, err := geom.FourSider(taped(lean), wallAtBack)
	require.NoError(t, err)
	assert.InDelta(t, 35, float64(four.Skew), 1e-7)
	assert.Equal(t, geom.Taper, geom.GradeDiagonals(unit.Length(lean[4]), unit.Length(lean[5])))

	// A wedge has equal diagonals and is no rectangle: the tapers say so.
	wedge := lengthsOf([4][2]float64{{5200, 0}, {0, 0}, {40, 3100}, {5160, 3100}})
	four, err = geom.FourSider(taped(wedge), wallAtBack)
	require.NoError(t, err)
	assert.Equal(t, geom.Square, geom.GradeDiagonals(four.Adjusted.Diagonals[0], four.Adjusted.Diagonals[1]))
	assert.InDelta(t, 0, float64(four.Skew), 1e-7)
	assert.InDelta(t, 40, float64(four.Outline.Tapers()[0].Off()), 1e-7)
	assert.InDelta(t, 40, float64(four.Outline.Tapers()[2].Off()), 1e-7)

	assert.Zero(t, lShape(t).Skew())
	_, ok := lShape(t).Diagonals()
	assert.False(t, ok)
}

func TestSkewIsOddAndShared(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 4))
	for range 300 {
		read := lengthsOf(trueFourSider(r, 150))
		for i := range read {
			read[i] += r.NormFloat64()
		}
		mirrored := [6]float64{read[0], read[3], read[2], read[1], read[5], read[4]}
		a, err := geom.FourSider(taped(read), wallAtBack)
		require.NoError(t, err)
		b, err := geom.FourSider(taped(mirrored), wallAtBack)
		require.NoError(t, err)
		assert.InDelta(t, float64(a.Skew), -float64(b.Skew), 1e-6)
		assert.InDelta(t, float64(a.Misclosure), float64(b.Misclosure), 1e-6)
		assert.InEpsilon(t, float64(a.Outline.Area()), float64(b.Outline.Area()), 1e-9)

		var doubled [6]float64
		for i, v := range read {
			doubled[i] = 2 * v
		}
		c, err := geom.FourSider(taped(doubled), wallAtBack)
		require.NoError(t, err)
		assert.InDelta(t, 2*float64(a.Skew), float64(c.Skew), 1e-6)
		assert.InEpsilon(t, 4*float64(a.Outline.Area()), float64(c.Outline.Area()), 1e-9)
	}
}

func TestDiagonalRule(t *testing.T) {
	t.Parallel()
	for diff, want := range map[unit.Length]geom.Squareness{
		0: geom.Square, 10: geom.Square, 10.01: geom.Note, 25: geom.Note, 25.01: geom.Taper, 200: geom.Taper,
	} {
		assert.Equal(t, want, geom.GradeDiagonals(6000+diff, 6000), "%v", diff)
		assert.Equal(t, want, geom.GradeDiagonals(6000, 6000+diff), "%v", diff)
	}
}

func TestFourSiderRefusals(t *testing.T) {
	t.Parallel()
	good := [6]float64{5500, 2900, 5500, 2900, 6218, 6218}
	fields := []string{"sides_mm[0]", "sides_mm[1]", "sides_mm[2]", "sides_mm[3]", "diagonals_mm[0]", "diagonals_mm[1]"}
	for i, field := range fields {
		for _, v := range []float64{0, -5, math.NaN(), math.Inf(1), 300000} {
			bad := good
			bad[i] = v
			_, err := geom.FourSider(taped(bad), wallAtBack)
			assertField(t, err, field)
		}
	}
	// No triangle: the whole set is refused, no reading is blamed.
	for i := range good {
		bad := good
		bad[i] *= 4
		_, err := geom.FourSider(taped(bad), wallAtBack)
		assertField(t, err, "sides_mm")
	}
	// A dart closes, but its back right corner points inwards: no four-sider to deck.
	_, err := geom.FourSider(taped(lengthsOf([4][2]float64{{5000, 0}, {0, 0}, {0, 5000}, {1500, 1500}})), wallAtBack)
	assertField(t, err, "sides_mm")
	_, err = geom.FourSider(taped(good), [4]geom.Kind{geom.Gutter, geom.Verge, "hedge", geom.Verge})
	assertField(t, err, "edges[2]")

	_, err = geom.ParallelogramSkew(6000, 0, 5000)
	assertField(t, err, "d2")
	_, err = geom.ParallelogramSkew(9000, 100, 1000)
	assertField(t, err, "d1,d2")
}

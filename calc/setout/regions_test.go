package setout_test

import (
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/setout"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func outline(t testing.TB, steps ...geom.Step) geom.Outline {
	t.Helper()
	w, err := geom.Walk(steps)
	require.NoError(t, err)
	return w.Outline
}

func timber(o geom.Outline) setout.RegionsInput {
	return setout.RegionsInput{Outline: o, BoardLength: 2440, JointGap: 3, Joist: 47, MaxCentres: 410}
}

// An L of 5000 by 3000 with a leg of 2200 by 1800: joists up the main part (3000),
// along the leg (2200, its short way is 1800 up). Cut the other way the left arm
// is 2200 by 4800 and the joists of it run along.
func TestRegionsOfAnL(t *testing.T) {
	o := outline(t,
		geom.Step{Length: 5000, Turn: geom.Right, Kind: geom.Gutter},
		geom.Step{Length: 4800, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 2200, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 1800, Turn: geom.Left, Kind: geom.Verge},
		geom.Step{Length: 2800, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 3000, Turn: geom.Right, Kind: geom.Verge},
	)
	l, err := setout.Regions(timber(o))
	require.NoError(t, err)
	// Arms of 2200 by 4800 and 2800 by 3000 span 2200 and 2800: less than 3000.
	require.Len(t, l.Regions, 2)
	assert.Equal(t, unit.Length(2800), l.Longest)
	require.Len(t, l.Junctions, 1)
	assert.Equal(t, setout.Bearer, l.Junctions[0].Support) // joists of both arms end on the line between

	in := timber(o)
	in.Joists = geom.UpRoofAxis
	l, err = setout.Regions(in)
	require.NoError(t, err)
	var area unit.Area
	for _, r := range l.Regions {
		area += r.Rect.Area()
		assert.Equal(t, geom.UpRoofAxis, r.Joists)
	}
	assert.Equal(t, o.Area(), area)
}

// A T: a body of 6000 by 2400, a stem 1500 wide and 1000 deep on its back.
func TestRegionsOfAT(t *testing.T) {
	o := outline(t,
		geom.Step{Length: 6000, Turn: geom.Right, Kind: geom.Gutter},
		geom.Step{Length: 2400, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 2000, Turn: geom.Left, Kind: geom.Verge},
		geom.Step{Length: 1600, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 1500, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 1600, Turn: geom.Left, Kind: geom.Verge},
		geom.Step{Length: 2500, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 2400, Turn: geom.Right, Kind: geom.Verge},
	)
	l, err := setout.Regions(timber(o))
	require.NoError(t, err)
	require.Len(t, l.Regions, 2)
	assert.Equal(t, unit.Length(2400), l.Longest)
	assert.Equal(t, geom.UpRoofAxis, l.Regions[0].Joists)
	assert.Equal(t, geom.AlongGutterAxis, l.Regions[1].Joists) // 1500 is its short way
	require.Len(t, l.Junctions, 1)
	n := l.Junctions[0]
	assert.Equal(t, setout.Doubled, n.Support) // the body's joists end on the stem's edge joist
	assert.Equal(t, []int{0, 1}, []int{n.A, n.B})
	assert.Equal(t, unit.Length(1500), n.To.X-n.From.X)

	square, err := geom.Rectangle(5500, 2900, [4]geom.Kind{geom.Gutter, geom.Verge, geom.Verge, geom.Verge})
	require.NoError(t, err)
	one, err := setout.Regions(timber(square))
	require.NoError(t, err)
	assert.Len(t, one.Regions, 1)
	assert.Empty(t, one.Junctions)
	plan, err := setout.Joists(garage(2440, 410))
	require.NoError(t, err)
	assert.Equal(t, plan, one.Regions[0].Plan)

	narrow := outline(t,
		geom.Step{Length: 5000, Turn: geom.Right, Kind: geom.Gutter},
		geom.Step{Length: 3000, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 400, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 1000, Turn: geom.Left, Kind: geom.Verge},
		geom.Step{Length: 4600, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 2000, Turn: geom.Right, Kind: geom.Verge},
	)
	_, err = setout.Regions(timber(narrow))
	assertField(t, err, "outline")
}

func skew(t testing.TB, left, right unit.Length) setout.SkewedInput {
	t.Helper()
	o, err := geom.NewOutline([]geom.Point{{X: 5500}, {}, {X: left, Y: 2900}, {X: 5500 + right, Y: 2900}},
		[]geom.Kind{geom.Gutter, geom.Verge, geom.Verge, geom.Verge})
	require.NoError(t, err)
	return setout.SkewedInput{Outline: o, BoardLength: 2440, JointGap: 3, Joist: 47, MaxCentres: 410}
}

func TestSkewedOnASquareRoof(t *testing.T) {
	s, err := setout.SetSkewed(skew(t, 0, 0))
	require.NoError(t, err)
	p, err := setout.Joists(garage(2440, 410))
	require.NoError(t, err)
	require.Len(t, s.Joists, len(p.Marks)-2)
	for i, j := range s.Joists {
		assert.Equal(t, p.Marks[i+1], j.Low)
		assert.InDelta(t, float64(j.Low), float64(j.High), 1e-9)
		assert.Equal(t, unit.Length(2900), j.Length)
		assert.False(t, j.Jack)
	}
	assert.InDelta(t, 6217.7, float64(s.Diagonal), 0.05) // √(5500² + 2900²)
	assert.InDelta(t, float64(p.LastBay), float64(s.Flanks[1].BayLow), 1e-9)
}

// A head 45 mm to the right: at the back the marks lie 45 nearer the left
// corner, the first bay narrows by as much and the last one widens.
func TestSkewedToTheRight(t *testing.T) {
	s, err := setout.SetSkewed(skew(t, 45, 45))
	require.NoError(t, err)
	first, last := s.Joists[0], s.Joists[len(s.Joists)-1]
	assert.InDelta(t, float64(first.Low)-45, float64(first.High), 1e-9)
	assert.InDelta(t, 45, float64(s.Flanks[0].BayLow-s.Flanks[0].BayHigh), 1e-9)
	assert.InDelta(t, 45, float64(s.Flanks[1].BayHigh-s.Flanks[1].BayLow), 1e-9)
	assert.False(t, last.Jack)
	assert.Equal(t, unit.Length(45), s.Flanks[0].Lean)
}

// A back 600 longer at the right needs a jack out there, starting on the flank;
// mirrored it needs the same at the left.
func TestSkewedJacks(t *testing.T) {
	right, err := setout.SetSkewed(skew(t, 0, 900))
	require.NoError(t, err)
	jacks := 0
	for _, j := range right.Joists {
		if j.Jack {
			jacks++
			assert.Greater(t, j.From, unit.Length(0))
			assert.Less(t, j.Length, unit.Length(2900))
		}
		assert.LessOrEqual(t, float64(j.To), 2900+1e-9)
	}
	assert.Positive(t, jacks)
	left, err := setout.SetSkewed(skew(t, -900, 0))
	require.NoError(t, err)
	assert.Less(t, left.Joists[0].Low, unit.Length(0))
	in := skew(t, 0, 0)
	in.Outline.Vertices[0].Y = 5
	_, err = setout.SetSkewed(in)
	assertField(t, err, "outline")
}

package setout_test

import (
	"math"
	"math/rand"
	"testing"

	"chargehand/calc/setout"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCentresOneByOne(t *testing.T) {
	s := setout.Standing{
		Centres: []unit.Length{24, 406, 813, 1233, 1627, 2034, 2446, 2849},
		Joints:  []unit.Length{1220, 2441.5}, Joist: 47, JointGap: 3, MaxCentres: 410,
	}
	c, err := setout.CheckCentres(s)
	require.NoError(t, err)
	assert.False(t, c.OK)
	assert.Equal(t, unit.Length(10), c.Bays[2].Over) // 813 to 1233
	assert.False(t, c.Joints[0].Bearing.OK())        // 13 off
	assert.Equal(t, unit.Length(-13), c.Joints[0].Offset)
	assert.False(t, c.Joints[1].Bearing.OK()) // 4.5 off, 4 allowed
	for field, change := range map[string]func(*setout.Standing){
		"measured_mm":    func(s *setout.Standing) { s.Centres = []unit.Length{100, 90} },
		"joist_mm":       func(s *setout.Standing) { s.Joist = 24 },
		"joint_gap_mm":   func(s *setout.Standing) { s.JointGap = 21 },
		"max_centres_mm": func(s *setout.Standing) { s.MaxCentres = 1 },
		"joints_mm":      func(s *setout.Standing) { s.Joints = []unit.Length{unit.Length(math.NaN())} },
	} {
		bad := s
		change(&bad)
		_, err := setout.CheckCentres(bad)
		assertField(t, err, field)
	}
}

// plane is a deck of joists 400 apart falling by fall.
func plane(joists int, fall float64) setout.Levels {
	l := setout.Levels{Stations: []unit.Length{0, 1450, 2900}}
	for i := range joists {
		l.Centres = append(l.Centres, unit.Length(400*i+24))
		var row []unit.Length
		for _, s := range l.Stations {
			row = append(row, unit.Length(fall*float64(s)))
		}
		l.Tops = append(l.Tops, row)
	}
	return l
}

// One joist 7 mm low along its whole length: it is named, 7 mm of packing, and
// not its neighbours for standing high.
func TestALowJoist(t *testing.T) {
	l := plane(9, 1.0/40)
	for s := range l.Tops[5] {
		l.Tops[5][s] -= 7
	}
	c, err := setout.CheckLevels(l)
	require.NoError(t, err)
	assert.Equal(t, []int{5}, c.Low)
	assert.Empty(t, c.High)
	for _, p := range c.Joists[5].Packer {
		assert.InDelta(t, 7, float64(p), 1e-9)
	}
	assert.Equal(t, unit.Length(0), c.Joists[4].Packer[0])
	assert.Empty(t, c.Flat)
	assert.Empty(t, c.Ponds) // its own low end is lower still
}

func TestALevelRoofWithinTolerance(t *testing.T) {
	l := plane(9, 1.0/40)
	l.Tops[3][1] += 3
	c, err := setout.CheckLevels(l)
	require.NoError(t, err)
	assert.True(t, c.OK)
}

// A joist sagging 25 mm at its middle falls 11 mm backwards from there: flat,
// low, and it holds water 11 mm deep, less what the neighbours let through.
func TestASaggingJoistPonds(t *testing.T) {
	l := plane(5, 1.0/100)
	l.Tops[2][1] -= 25
	c, err := setout.CheckLevels(l)
	require.NoError(t, err)
	assert.Equal(t, []int{0, 1, 2, 3, 4}, c.Flat) // 1:100 everywhere
	assert.Equal(t, []int{2}, c.Low)
	require.Len(t, c.Ponds, 1)
	// 14.5 − 25 = −10.5 against the way out over its own low end at 0.
	assert.InDelta(t, 10.5, float64(c.Ponds[0].Depth), 1e-9)
	assert.Equal(t, setout.Pond{Joist: 2, Station: 1, Depth: c.Ponds[0].Depth}, c.Ponds[0])
}

// Water level by another route: raise each point again and again to the lowest
// neighbour's level until nothing moves.
func TestPondsBySweeping(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewSource(5))
	for range 60 {
		l := plane(2+r.Intn(8), 1.0/60)
		for i := range l.Tops {
			for s := range l.Tops[i] {
				l.Tops[i][s] += unit.Length(r.Intn(60) - 30)
			}
		}
		level := make([][]float64, len(l.Tops))
		for i := range level {
			level[i] = []float64{float64(l.Tops[i][0]), math.Inf(1), math.Inf(1)}
		}
		for moved := true; moved; {
			moved = false
			for i := range level {
				for s := range level[i] {
					for _, n := range [][2]int{{i - 1, s}, {i + 1, s}, {i, s - 1}, {i, s + 1}} {
						if n[0] < 0 || n[0] >= len(level) || n[1] < 0 || n[1] > 2 {
							continue
						}
						if v := math.Max(float64(l.Tops[i][s]), level[n[0]][n[1]]); v < level[i][s] {
							level[i][s], moved = v, true
						}
					}
				}
			}
		}
		want := map[[2]int]float64{}
		for i := range level {
			for s := range level[i] {
				if d := level[i][s] - float64(l.Tops[i][s]); d > 0 {
					want[[2]int{i, s}] = d
				}
			}
		}
		c, err := setout.CheckLevels(l)
		require.NoError(t, err)
		require.Len(t, c.Ponds, len(want))
		for _, p := range c.Ponds {
			require.InDelta(t, want[[2]int{p.Joist, p.Station}], float64(p.Depth), 1e-9)
		}
	}
}

// Lifting every top, or tilting them across the fall, moves no packer.
func TestPackersIgnoreTheDatum(t *testing.T) {
	l := plane(8, 1.0/40)
	l.Tops[3][0] -= 9
	l.Tops[6][2] -= 5
	a, err := setout.CheckLevels(l)
	require.NoError(t, err)
	for i := range l.Tops {
		for s := range l.Tops[i] {
			l.Tops[i][s] += 1000 + l.Centres[i]/200
		}
	}
	b, err := setout.CheckLevels(l)
	require.NoError(t, err)
	for i := range a.Joists {
		for s := range a.Joists[i].Packer {
			assert.InDelta(t, float64(a.Joists[i].Packer[s]), float64(b.Joists[i].Packer[s]), 1e-9)
		}
	}
	assert.Equal(t, []int{3, 6}, a.Low)

	l.Tops = l.Tops[:7]
	_, err = setout.CheckLevels(l)
	assertField(t, err, "tops_mm")
	l = plane(2, 0.025)
	l.Stations[1] = 5
	_, err = setout.CheckLevels(l)
	assertField(t, err, "stations_mm")
}

func BenchmarkCheckLevels(b *testing.B) {
	l := plane(15, 1.0/40)
	for b.Loop() {
		if _, err := setout.CheckLevels(l); err != nil {
			b.Fatal(err)
		}
	}
}

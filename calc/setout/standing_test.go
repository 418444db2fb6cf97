package setout_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"chargehand/calc/geom"
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

// shed is joists at a strict 400 under 2440 boards: the case of the joint that
// misses. Our own.
func shed() setout.Existing {
	in := setout.Existing{Joist: 47, JointGap: 3, MaxCentres: 410, Length: 5500, Depth: 2900, BoardLength: 2440, BoardWidth: 1220}
	for c := unit.Length(23.5); c < 5450; c += 400 {
		if c > 24 {
			c = unit.Length(math.Round(float64(c)/400) * 400)
		}
		in.Centres = append(in.Centres, c)
	}
	in.Centres = append(in.Centres, 5476.5)
	return in
}

func ways(options []setout.Option) (out []setout.Way) {
	for _, o := range options {
		out = append(out, o.Way)
	}
	return out
}

func TestJoistsThatStandAt400(t *testing.T) {
	options, err := setout.Choose(shed())
	require.NoError(t, err)
	got := ways(options)
	assert.ElementsMatch(t, []setout.Way{setout.Sister, setout.CutBoards, setout.Ladder, setout.Rearrange}, got)
	assert.NotContains(t, got, setout.AsTheyStand)
	for i := 1; i < len(options); i++ {
		assert.LessOrEqual(t, options[i-1].Cost, options[i].Cost)
	}
	fixed := shed()
	fixed.Fixed = true
	options, err = setout.Choose(fixed)
	require.NoError(t, err)
	assert.NotContains(t, ways(options), setout.Rearrange)

	// Dear boards send the cut boards to the end, dear work the noggins.
	dear := shed()
	dear.Prices = setout.Prices{Board: 1000, Hour: 1}
	options, err = setout.Choose(dear)
	require.NoError(t, err)
	cheapest, most := options[0], options[len(options)-1]
	assert.LessOrEqual(t, cheapest.Boards, most.Boards)
}

func TestJoistsOnTheModuleNeedNothing(t *testing.T) {
	in := shed()
	p, err := setout.Joists(garage(2440, 410))
	require.NoError(t, err)
	in.Centres = p.Marks
	options, err := setout.Choose(in)
	require.NoError(t, err)
	require.NotEmpty(t, options)
	assert.Equal(t, setout.AsTheyStand, options[0].Way)
	assert.NotContains(t, ways(options), setout.Rearrange)
}

// Whatever stands, every option bears, keeps pieces within a board, staggers
// its rows and covers the deck.
func TestEveryOptionBears(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewSource(9))
	seen := map[setout.Way]int{}
	for range 150 {
		in := setout.Existing{
			Joist: 47, JointGap: 3, MaxCentres: 450, Length: unit.Length(3000 + r.Intn(4000)), Depth: unit.Length(1000 + r.Intn(3000)),
			BoardLength: []unit.Length{2400, 2440, 2500}[r.Intn(3)], BoardWidth: 1220,
		}
		for c := unit.Length(23.5); c < in.Length-100; c += unit.Length(380 + r.Intn(60)) {
			in.Centres = append(in.Centres, c)
		}
		in.Centres = append(in.Centres, in.Length-23.5)
		options, err := setout.Choose(in)
		require.NoError(t, err)
		for _, o := range options {
			seen[o.Way]++
			assertBears(t, in, o)
		}
	}
	for _, w := range []setout.Way{setout.CutBoards, setout.Sister, setout.Ladder, setout.Rearrange} {
		require.Greater(t, seen[w], 10, w)
	}
}

func assertBears(t *testing.T, in setout.Existing, o setout.Option) {
	t.Helper()
	centres := in.Centres
	if o.Way == setout.Rearrange {
		centres = o.Marks
	}
	for k, joints := range o.Rows {
		if k == 1 && in.Depth <= in.BoardWidth {
			require.Empty(t, joints)
			continue
		}
		from := unit.Length(0)
		for i := 0; i <= len(joints); i++ {
			to := in.Length
			if i < len(joints) {
				to = joints[i] - in.JointGap/2
			}
			require.LessOrEqual(t, float64(to-from), float64(in.BoardLength)+1e-9, "%s %+v", o.Way, in)
			if i < len(joints) {
				from = joints[i] + in.JointGap/2
				require.True(t, served(in, o, centres, joints[i]), "%s joint %v of %v", o.Way, joints[i], centres)
			}
		}
		for _, x := range joints {
			for _, y := range o.Rows[1-k] {
				require.GreaterOrEqual(t, math.Abs(float64(x-y)), 400.0)
			}
		}
	}
	require.GreaterOrEqual(t, float64(o.Boards)*float64(in.BoardLength), float64(in.Length)*math.Ceil(float64(in.Depth/in.BoardWidth))*0.99)
}

// served looks for a joist, a joist with its batten, or a bearer under a joint.
func served(in setout.Existing, o setout.Option, centres []unit.Length, joint unit.Length) bool {
	for i, c := range centres {
		left, right := c-in.Joist/2, c+in.Joist/2
		for _, b := range o.Battens {
			if b.Joist == i && b.Beyond {
				right = c + in.Joist/2 + 47
			}
			if b.Joist == i && !b.Beyond {
				left = c - in.Joist/2 - 47
			}
		}
		if joint-in.JointGap/2-left >= 18-1e-6 && right-joint-in.JointGap/2 >= 18-1e-6 {
			return true
		}
	}
	for _, b := range o.Bearers {
		if b.Joint == joint {
			return true
		}
	}
	return false
}

func TestExistingRefusals(t *testing.T) {
	for field, change := range map[string]func(*setout.Existing){
		"measured_mm":     func(in *setout.Existing) { in.Centres = in.Centres[:2] },
		"length_mm":       func(in *setout.Existing) { in.Length = 5000 },
		"depth_mm":        func(in *setout.Existing) { in.Depth = 299 },
		"board_length_mm": func(in *setout.Existing) { in.BoardLength = 599 },
		"board_width_mm":  func(in *setout.Existing) { in.BoardWidth = 1301 },
		"batten_mm":       func(in *setout.Existing) { in.Batten = 24 },
		"work_min":        func(in *setout.Existing) { in.Work.Move = -1 },
		"price_board":     func(in *setout.Existing) { in.Prices.Board = math.NaN() },
	} {
		in := shed()
		change(&in)
		_, err := setout.Choose(in)
		assertField(t, err, field)
	}
}

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

func FuzzExisting(f *testing.F) {
	f.Add(int64(1), 5500.0, 2440.0, 47.0)
	f.Add(int64(2), 700.0, 600.0, 25.0)
	f.Fuzz(func(t *testing.T, seed int64, length, board, joist float64) {
		r := rand.New(rand.NewSource(seed))
		in := setout.Existing{
			Joist: unit.Length(joist), JointGap: 3, MaxCentres: 600, Length: unit.Length(length), Depth: 2900,
			BoardLength: unit.Length(board), BoardWidth: 1220,
		}
		for c := joist / 2; c < length && len(in.Centres) < 60; c += 100 + float64(r.Intn(500)) {
			in.Centres = append(in.Centres, unit.Length(c))
		}
		options, err := setout.Choose(in)
		if err != nil {
			return
		}
		for _, o := range options {
			require.False(t, math.IsNaN(o.Cost) || math.IsInf(o.Cost, 0) || o.Cost < 0)
			require.Positive(t, o.Boards)
		}
	})
}

func ExampleChoose() {
	in := setout.Existing{
		Centres: []unit.Length{24, 400, 800, 1200, 1600, 2000, 2400, 2800, 3200, 3600, 3976},
		Joist:   47, JointGap: 3, MaxCentres: 410, Length: 4000, Depth: 2440, BoardLength: 2440, BoardWidth: 1220,
	}
	options, _ := setout.Choose(in)
	for _, o := range options {
		fmt.Println(o.Way, "-", o.Boards, "boards")
	}
	// Output:
	// as they stand - 4 boards
	// cut boards - 4 boards
	// module - 4 boards
}

func BenchmarkChoose(b *testing.B) {
	in := shed()
	for b.Loop() {
		if _, err := setout.Choose(in); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCheckLevels(b *testing.B) {
	l := plane(15, 1.0/40)
	for b.Loop() {
		if _, err := setout.CheckLevels(l); err != nil {
			b.Fatal(err)
		}
	}
}

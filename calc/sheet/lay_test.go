package sheet_test

import (
	"fmt"
	"math/rand"
	"slices"
	"testing"

	"chargehand/calc/geom"
	"chargehand/calc/sheet"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOnePieceWhereASheetIsWideEnough(t *testing.T) {
	in := sheet.Input{Outline: rectangle(t, 5500, 2900, geom.Gutter, geom.Verge, geom.Verge, geom.Verge), Widths: []unit.Length{6100, 3500}}
	l, err := sheet.Lay(in)
	require.NoError(t, err)
	assert.Empty(t, l.Seams)
	require.Len(t, l.Strips, 1)
	assert.Equal(t, unit.Length(6100), l.Strips[0].Width) // 6.1 by 3.2 is 19.5 m², 3.5 by 5.8 is 20.3
	assert.Equal(t, unit.Length(3200), l.Strips[0].Length)
	assert.Equal(t, sheet.Down, l.Strips[0].Lies)
}

// 3 m sheets on a roof that needs 5800 by 3200: two strips down the fall meet
// in 3200 of seam, two across in 5800.
func TestStripsDownTheFall(t *testing.T) {
	in := sheet.Input{Outline: rectangle(t, 5500, 2900, geom.Gutter, geom.Verge, geom.Verge, geom.Verge), Widths: []unit.Length{3000}}
	l, err := sheet.Lay(in)
	require.NoError(t, err)
	assert.Equal(t, sheet.Down, l.Run)
	assert.Len(t, l.Strips, 2)
	require.Len(t, l.Seams, 1)
	assert.Equal(t, unit.Length(3200), l.Seams[0].Length)
	assert.Equal(t, unit.Length(100), l.Seams[0].To-l.Seams[0].From)
	assert.Equal(t, 2*3.0*3.2, l.Area.In(unit.SquareMetre))
}

// A pipe in the middle of where the seam would lie pushes it aside; a gutter
// edge keeps a seam across away.
func TestSeamsKeepClear(t *testing.T) {
	in := sheet.Input{Outline: rectangle(t, 5500, 3500, geom.Gutter, geom.Verge, geom.Verge, geom.Verge), Widths: []unit.Length{3300}}
	pipe := geom.Rect{Min: geom.Point{X: 2500, Y: 1000}, Max: geom.Point{X: 2900, Y: 1400}}
	in.Clear = []geom.Rect{pipe}
	l, err := sheet.Lay(in)
	require.NoError(t, err)
	require.Len(t, l.Seams, 1)
	s := l.Seams[0]
	assert.True(t, s.To <= pipe.Min.X || s.From >= pipe.Max.X, "%v", s)

	// With the whole roof barred there is no way at all.
	blocked := in
	blocked.Clear = []geom.Rect{{Min: geom.Point{X: -200, Y: -200}, Max: geom.Point{X: 5700, Y: 3700}}}
	_, err = sheet.Lay(blocked)
	assertField(t, err, "widths_mm")
}

func TestNoSeamAlongTheGutterEdge(t *testing.T) {
	// Long and shallow: 1 m sheets across leave seams, none in the first 300 mm.
	in := sheet.Input{Outline: rectangle(t, 2000, 5000, geom.Gutter, geom.Verge, geom.Verge, geom.Verge), Widths: []unit.Length{2000}}
	in.Clear = []geom.Rect{{Min: geom.Point{X: -200, Y: -200}, Max: geom.Point{X: 2200, Y: -150}}} // bars every seam down
	l, err := sheet.Lay(in)
	require.NoError(t, err)
	assert.Equal(t, sheet.Across, l.Run)
	for _, s := range l.Seams {
		assert.GreaterOrEqual(t, s.From, unit.Length(300))
	}
}

func TestARecessTooNarrowForTwoUpstands(t *testing.T) {
	w := geom.Wall
	u := walked(t,
		geom.Step{Length: 4000, Turn: geom.Right, Kind: geom.Gutter},
		geom.Step{Length: 3000, Turn: geom.Right, Kind: w},
		geom.Step{Length: 1800, Turn: geom.Right, Kind: w},
		geom.Step{Length: 1000, Turn: geom.Left, Kind: w},
		geom.Step{Length: 400, Turn: geom.Left, Kind: w},
		geom.Step{Length: 1000, Turn: geom.Right, Kind: w},
		geom.Step{Length: 1800, Turn: geom.Right, Kind: w},
		geom.Step{Length: 3000, Turn: geom.Right, Kind: w},
	)
	l, err := sheet.Lay(sheet.Input{Outline: u})
	require.NoError(t, err)
	assert.True(t, l.Recess)
	assert.Equal(t, 4500*3400*1e-6, l.Area.In(unit.SquareMetre))
}

func TestOffcutsOfAnL(t *testing.T) {
	in := sheet.Input{Outline: theL(t)}
	offcuts, err := sheet.Offcuts(in)
	require.NoError(t, err)
	require.Len(t, offcuts, 1)
	// 5000-2200 by 4800-3000 less the allowances of the two inner edges, plus
	// those of the outer ones: the same 2800 by 1800 shifted by 150.
	assert.Equal(t, unit.Length(2800), offcuts[0].Length())
	assert.Equal(t, unit.Length(1800), offcuts[0].Depth())
}

func TestRollsForStrips(t *testing.T) {
	in := sheet.Input{Outline: rectangle(t, 5500, 2900, geom.Gutter, geom.Verge, geom.Verge, geom.Verge), Widths: []unit.Length{1500}}
	l, err := sheet.Lay(in)
	require.NoError(t, err)
	rolls, err := sheet.FromRolls(l, 10*unit.Metre)
	require.NoError(t, err)
	require.Len(t, rolls, 1)
	assert.Len(t, l.Strips, 3) // across: 3200 by 5800 in 1500 less laps is 3 strips of 5.8 m
	assert.Equal(t, sheet.Across, l.Run)
	assert.Equal(t, 3, rolls[0].List.Count)
	_, err = sheet.FromRolls(l, 5*unit.Metre)
	assertField(t, err, "roll_mm")
}

// randomOutline is a staircase with up to three steps: right-angled, never
// crossing. Our own.
func randomOutline(r *rand.Rand) geom.Outline {
	grid := func(n int) unit.Length { return unit.Length(100 * (n + r.Intn(25))) }
	kinds := []geom.Kind{geom.Gutter, geom.Verge, geom.Wall}
	kind := func() geom.Kind { return kinds[r.Intn(3)] }
	steps := 1 + r.Intn(3)
	var dx, dy []unit.Length
	var length, depth unit.Length
	for range steps {
		x, y := grid(8), grid(8)
		dx, dy = append(dx, x), append(dy, y)
		length, depth = length+x, depth+y
	}
	walk := []geom.Step{{Length: length, Turn: geom.Right, Kind: geom.Gutter}, {Length: depth, Turn: geom.Right, Kind: kind()}}
	for k := range steps {
		walk = append(walk, geom.Step{Length: dx[k], Turn: geom.Right, Kind: kind()})
		turn := geom.Left
		if k == steps-1 {
			turn = geom.Right
		}
		walk = append(walk, geom.Step{Length: dy[k], Turn: turn, Kind: kind()})
	}
	w, err := geom.Walk(walk)
	if err != nil {
		panic(err)
	}
	return w.Outline
}

// The dynamic programme against every way of ending strips on a 50 mm grid:
// never more seams, never more seam.
func TestSeamsAgainstExhaustiveSearch(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewSource(7))
	seamed := 0
	for range 40 {
		in := sheet.Input{Outline: randomOutline(r), Widths: []unit.Length{unit.Length(1500 + 500*r.Intn(4))}}
		l, err := sheet.Lay(in)
		require.NoError(t, err)
		if len(l.Seams) == 0 {
			continue
		}
		seamed++
		seams, along := exhaustive(t, in, l)
		require.GreaterOrEqual(t, seams, len(l.Seams))
		if seams == len(l.Seams) {
			require.GreaterOrEqual(t, float64(along), float64(l.SeamLength())-1e-3, "%v", in.Outline.Vertices)
		}
	}
	require.Greater(t, seamed, 10)
}

// exhaustive walks every grid of strip ends in the direction l chose.
func exhaustive(t *testing.T, in sheet.Input, l sheet.Laid) (seams int, along unit.Length) {
	t.Helper()
	give := make([]unit.Length, len(in.Outline.Edges))
	for i, e := range in.Outline.Edges {
		a, err := sheet.AllowanceAt(e.Kind, sheet.Edge{})
		require.NoError(t, err)
		give[i] = a.Wanted
	}
	p, err := in.Outline.Offset(give)
	require.NoError(t, err)
	scan := p.UpRoof
	low, high := p.Bounds().Min.X, p.Bounds().Max.X
	if l.Run == sheet.Across {
		scan = p.AlongGutter
		low, high = p.Bounds().Min.Y, p.Bounds().Max.Y
	}
	lap, width := unit.Length(100), in.Widths[0]
	bar := func(unit.Length) bool { return false }
	if l.Run == sheet.Across {
		bar = func(end unit.Length) bool { return end-lap < 300 } // the gutter edge of these roofs is at 0
	}
	type cost struct {
		seams int
		along unit.Length
	}
	const grid = 50
	n := int((high - low) / grid)
	best := make([]*cost, n+1)
	for k := 1; k <= n; k++ {
		end := low + unit.Length(k)*grid
		if end-low <= width {
			best[k] = &cost{}
		}
		for j := 1; j < k; j++ {
			seam := low + unit.Length(j)*grid
			if best[j] == nil || end-(seam-lap) > width || seam-lap <= low || bar(seam) {
				continue
			}
			c := *best[j]
			// The lap's longest reach, felt along it every 25 mm.
			longest := map[int]unit.Length{}
			for x := seam - lap + 1; x < seam; x += 24.5 {
				for i, s := range scan(x) {
					longest[i] = max(longest[i], s.Length())
				}
			}
			for _, length := range longest {
				c.seams, c.along = c.seams+1, c.along+length
			}
			if b := best[k]; b == nil || c.seams < b.seams || c.seams == b.seams && c.along < b.along {
				best[k] = &c
			}
		}
	}
	require.NotNil(t, best[n])
	return best[n].seams, best[n].along
}

// Whatever is laid covers the shape, keeps its laps and buys at least the area.
func TestLaidStripsCover(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewSource(11))
	for range 60 {
		in := sheet.Input{Outline: randomOutline(r), Widths: []unit.Length{unit.Length(1000 + 500*r.Intn(5)), 3000}}
		l, err := sheet.Lay(in)
		require.NoError(t, err)
		assertCovers(t, in, l)
		wider := in
		wider.Widths = []unit.Length{in.Widths[0] + 1000, 4000}
		w, err := sheet.Lay(wider)
		require.NoError(t, err)
		require.LessOrEqual(t, len(w.Seams), len(l.Seams))
	}
}

func assertCovers(t testing.TB, in sheet.Input, l sheet.Laid) {
	t.Helper()
	var bought unit.Area
	for _, s := range l.Strips {
		bought += s.Width.By(s.Length)
		across, along := s.Place.Length(), s.Place.Depth()
		if s.Lies == sheet.Across {
			across, along = along, across
		}
		require.LessOrEqual(t, float64(across), float64(s.Width)+1e-3)
		require.LessOrEqual(t, float64(along), float64(s.Length)+1e-3)
		require.True(t, len(in.Widths) == 0 || slices.Contains(in.Widths, s.Width))
	}
	require.InDelta(t, float64(bought), float64(l.Area), 1)
	size, err := sheet.SizeOf(in)
	require.NoError(t, err)
	if len(l.Strips) > 1 {
		require.Greater(t, bought, in.Outline.Area())
	} else {
		require.GreaterOrEqual(t, float64(bought), float64(size.ExactLength.By(size.ExactWidth))-1)
	}
	box := in.Outline.Bounds()
	for x := box.Min.X + 37; x < box.Max.X; x += 211 {
		for y := box.Min.Y + 41; y < box.Max.Y; y += 223 {
			q := geom.Point{X: x, Y: y}
			if !in.Outline.Vertices.Contains(q) {
				continue
			}
			require.True(t, slices.ContainsFunc(l.Strips, func(s sheet.Strip) bool {
				return s.Place.Min.X <= x && x <= s.Place.Max.X && s.Place.Min.Y <= y && y <= s.Place.Max.Y
			}), "nothing covers %v", q)
		}
	}
}

// Offcuts lie on no sheet that is used and on no other offcut.
func TestOffcutsLieFree(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewSource(3))
	found := 0
	for range 60 {
		in := sheet.Input{Outline: randomOutline(r)}
		offcuts, err := sheet.Offcuts(in)
		require.NoError(t, err)
		found += len(offcuts)
		for i, a := range offcuts {
			require.GreaterOrEqual(t, min(a.Length(), a.Depth()), sheet.LeastOffcut)
			middle := geom.Point{X: (a.Min.X + a.Max.X) / 2, Y: (a.Min.Y + a.Max.Y) / 2}
			require.False(t, in.Outline.Vertices.Contains(middle))
			for _, b := range offcuts[i+1:] {
				apart := a.Max.X <= b.Min.X || b.Max.X <= a.Min.X || a.Max.Y <= b.Min.Y || b.Max.Y <= a.Min.Y
				require.True(t, apart)
				require.GreaterOrEqual(t, a.Area(), b.Area())
			}
		}
	}
	require.Greater(t, found, 20)
}

func TestCornerDetails(t *testing.T) {
	g, v, w := geom.Gutter, geom.Verge, geom.Wall
	details := func(o geom.Outline) (out []sheet.Detail) {
		for _, c := range sheet.Corners(o) {
			out = append(out, c.Detail)
		}
		return out
	}
	assert.Equal(t, []sheet.Detail{sheet.TrimEnd, sheet.TrimEnd, sheet.Fold, sheet.Fold}, details(rectangle(t, 3200, 5400, g, w, w, w)))
	assert.Equal(t, []sheet.Detail{sheet.TrimTurn, sheet.TrimTurn, sheet.TrimTurn, sheet.TrimTurn}, details(rectangle(t, 3200, 5400, g, v, v, v)))
	assert.Equal(t, sheet.CutPatch, details(theL(t))[4])
}

// Any walk that closes is laid or refused, never with a panic, and what is laid
// covers the deck.
func FuzzLayOutline(f *testing.F) {
	f.Add([]byte{50, 30, 20, 10, 30, 20}, []byte{0, 0, 0, 1, 0, 0}, uint16(3000))
	f.Add([]byte{40, 30, 18, 10, 4, 10, 18, 30}, []byte{0, 0, 0, 1, 1, 0, 0, 0}, uint16(900))
	f.Fuzz(func(t *testing.T, lengths, turns []byte, width uint16) {
		var steps []geom.Step
		for i := range min(len(lengths), len(turns), 12) {
			turn := geom.Right
			if turns[i]%2 == 1 {
				turn = geom.Left
			}
			kind := []geom.Kind{geom.Gutter, geom.Verge, geom.Wall}[turns[i]/2%3]
			steps = append(steps, geom.Step{Length: 100 * unit.Length(lengths[i]), Turn: turn, Kind: kind})
		}
		w, err := geom.Walk(steps)
		if err != nil {
			return
		}
		in := sheet.Input{Outline: w.Outline, Widths: []unit.Length{unit.Length(width)}}
		l, err := sheet.Lay(in)
		if err != nil {
			return
		}
		assertCovers(t, in, l)
		offcuts, err := sheet.Offcuts(in)
		require.NoError(t, err)
		var left unit.Area
		for _, r := range offcuts {
			left += r.Area()
		}
		require.LessOrEqual(t, float64(left+w.Outline.Area()), float64(l.Area)+1)
		require.Len(t, sheet.Corners(w.Outline), len(steps))
	})
}

func ExampleLay() {
	roof, _ := geom.Rectangle(5500, 2900, [4]geom.Kind{geom.Gutter, geom.Verge, geom.Verge, geom.Verge})
	l, _ := sheet.Lay(sheet.Input{Outline: roof, Widths: []unit.Length{3000}})
	for _, s := range l.Strips {
		fmt.Println("strip", s.Width, "by", s.Length)
	}
	fmt.Println("seam", l.Seams[0].Length, l.Run)
	// Output:
	// strip 3000 mm by 3200 mm
	// strip 3000 mm by 3200 mm
	// seam 3200 mm down
}

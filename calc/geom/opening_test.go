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

// A 110 mm pipe 40 from the back and 35 from the side: no flat patch will sit.
func TestPipeInTheCorner(t *testing.T) {
	t.Parallel()
	o := lShape(t)
	pipe, err := o.PlacePipe(geom.PipeGaps{Dia: 110, Edges: [2]int{2, 1}, Gaps: [2]unit.Length{40, 35}})
	require.NoError(t, err)
	assert.Equal(t, geom.Point{X: 90, Y: 4705}, pipe.Centre)
	gaps, err := o.Clearances([]geom.Opening{pipe})
	require.NoError(t, err)
	require.Len(t, gaps, 6)
	assert.Equal(t, geom.Clearance{Opening: 0, Edge: 2, Other: -1, Gap: 40}, gaps[2])
	assert.Equal(t, unit.Length(35), gaps[1].Gap)
	assert.Equal(t, geom.Tight, geom.RoomFor(gaps[1].Gap))
	// Edge 3 is the inner side of the leg: only its upper part is level with the pipe.
	assert.Equal(t, unit.Length(2200-90-55), gaps[3].Gap)
	// The internal corner is what edge 4 is nearest with.
	assert.InDelta(t, math.Hypot(2200-90, 4705-3000)-55, float64(gaps[4].Gap), 1e-9)
}

func TestPlacePipeOnASkewRoof(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(9, 1))
	for range 300 {
		four, err := geom.FourSider(taped(lengthsOf(trueFourSider(r, 200))), wallAtBack)
		require.NoError(t, err)
		first := r.IntN(4)
		g := geom.PipeGaps{Dia: unit.Length(50 + r.IntN(150)), Edges: [2]int{first, (first + 1) % 4},
			Gaps: [2]unit.Length{unit.Length(r.IntN(200)), unit.Length(r.IntN(200))}}
		pipe, err := four.Outline.PlacePipe(g)
		require.NoError(t, err)
		gaps, err := four.Outline.Clearances([]geom.Opening{pipe})
		require.NoError(t, err)
		for k, e := range g.Edges {
			assert.InDelta(t, float64(g.Gaps[k]), float64(gaps[e].Gap), 1e-6)
		}
	}
}

func TestPlacePipeRefusals(t *testing.T) {
	t.Parallel()
	o := lShape(t)
	good := geom.PipeGaps{Dia: 110, Edges: [2]int{2, 1}, Gaps: [2]unit.Length{40, 35}}
	for field, change := range map[string]func(*geom.PipeGaps){
		"dia_mm":     func(g *geom.PipeGaps) { g.Dia = 0 },
		"edges":      func(g *geom.PipeGaps) { g.Edges[1] = 6 },
		"gaps_mm[1]": func(g *geom.PipeGaps) { g.Gaps[1] = -1 },
		"gaps_mm[0]": func(g *geom.PipeGaps) { g.Gaps[0] = 40000 },
	} {
		g := good
		change(&g)
		_, err := o.PlacePipe(g)
		assertField(t, err, field)
	}
	parallel := good
	parallel.Edges = [2]int{1, 3}
	_, err := o.PlacePipe(parallel)
	assertField(t, err, "edges")
}

// outside samples the face of an opening.
func outside(o geom.Opening) []geom.Point {
	const n = 720
	var at []geom.Point
	for k := range n {
		if o.Kind == geom.PipeOpening {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / n)
			at = append(at, o.Centre.Add(unit.Length(cos)*o.Dia/2, unit.Length(sin)*o.Dia/2))
			continue
		}
		s := unit.Length(k%(n/4)) / (n / 4) // along one side
		x, y := o.Length, o.Depth
		low := o.Centre.Add(-x/2, -y/2)
		at = append(at, [4]geom.Point{low.Add(s*x, 0), low.Add(x, s*y), low.Add(x-s*x, y), low.Add(0, y-s*y)}[k*4/n])
	}
	return at
}

// Clearances against the nearest of many points on both faces.
func TestClearancesAgainstSampledFaces(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(9, 2))
	checked, refused := 0, 0
	for range 200 {
		w, g := randomGrid(r).walked(t, r)
		var openings []geom.Opening
		for range 3 {
			y, x := r.IntN(gridSide), r.IntN(gridSide)
			if !g.at(y, x) {
				continue
			}
			at := geom.Point{X: (g.xs[x] + g.xs[x+1]) / 2, Y: (g.ys[y] + g.ys[y+1]) / 2}
			size := unit.Length(20 + r.IntN(200))
			if r.IntN(2) == 0 {
				openings = append(openings, geom.Pipe(at, size))
			} else {
				openings = append(openings, geom.RooflightAt(geom.Rect{Min: at, Max: at.Add(size, size/2)}))
			}
		}
		gaps, err := w.Outline.Clearances(openings)
		p := w.Outline.Vertices
		on := true
		for _, o := range openings {
			for _, q := range outside(o) {
				on = on && p.Contains(q)
			}
		}
		if err != nil {
			assert.True(t, !on || overlapping(openings) || anyCornerIn(p, openings), "refused without a reason: %v", err)
			refused++
			continue
		}
		assert.True(t, on, "an opening that reaches past the edge was let through")
		for _, gap := range gaps {
			least := math.Inf(1)
			for _, q := range outside(openings[gap.Opening]) {
				if gap.Other < 0 {
					least = min(least, float64(p.ToSide(q, gap.Edge)))
					continue
				}
				for _, s := range outside(openings[gap.Other]) {
					least = min(least, float64(q.To(s)))
				}
			}
			// Sampling can only find too much, by at most about one step.
			assert.LessOrEqual(t, float64(gap.Gap), least+1e-9)
			assert.InDelta(t, least, float64(gap.Gap), 2.0)
			checked++
		}
	}
	assert.Greater(t, checked, 200)
	assert.Greater(t, refused, 10)
}

// covers reports whether q lies in the opening.
func covers(o geom.Opening, q geom.Point) bool {
	if o.Kind == geom.PipeOpening {
		return q.To(o.Centre) < o.Dia/2
	}
	return 2*max(q.X-o.Centre.X, o.Centre.X-q.X) < o.Length && 2*max(q.Y-o.Centre.Y, o.Centre.Y-q.Y) < o.Depth
}

func overlapping(openings []geom.Opening) bool {
	for i, a := range openings {
		for j, b := range openings {
			for _, q := range append(outside(b), b.Centre) {
				if i != j && covers(a, q) {
					return true
				}
			}
		}
	}
	return false
}

func anyCornerIn(p geom.Polygon, openings []geom.Opening) bool {
	for _, o := range openings {
		for _, v := range p {
			if covers(o, v) {
				return true
			}
		}
	}
	return false
}

func TestClearanceRefusals(t *testing.T) {
	t.Parallel()
	w, err := geom.Walk(uShape())
	require.NoError(t, err)
	rect := func(x0, y0, x1, y1 unit.Length) geom.Opening {
		return geom.RooflightAt(geom.Rect{Min: geom.Point{X: x0, Y: y0}, Max: geom.Point{X: x1, Y: y1}})
	}
	pipe := func(x, y, d unit.Length) geom.Opening { return geom.Pipe(geom.Point{X: x, Y: y}, d) }
	for name, c := range map[string]struct {
		openings []geom.Opening
		field    string
	}{
		"pipe off the roof":           {[]geom.Opening{pipe(-200, 300, 110)}, "openings[0]"},
		"pipe across the verge":       {[]geom.Opening{pipe(50, 300, 110)}, "openings[0]"},
		"pipe in the chimney":         {[]geom.Opening{pipe(2500, 2900, 110)}, "openings[0]"},
		"rooflight over the slot":     {[]geom.Opening{rect(1800, 2600, 3300, 3000)}, "openings[0]"},
		"rooflight over a corner":     {[]geom.Opening{rect(1800, 2200, 2300, 2600)}, "openings[0]"},
		"rooflight over the chimney":  {[]geom.Opening{rect(2000, 2000, 4000, 3050)}, "openings[0]"},
		"rooflight over everything":   {[]geom.Opening{rect(-100, -100, 5300, 3200)}, "openings[0]"},
		"pipe in a rooflight":         {[]geom.Opening{rect(500, 500, 1500, 1500), pipe(1000, 1000, 110)}, "openings[1]"},
		"pipe over a rooflight's rim": {[]geom.Opening{rect(500, 500, 1500, 1500), pipe(1540, 1000, 110)}, "openings[1]"},
		"two pipes":                   {[]geom.Opening{pipe(500, 500, 110), pipe(900, 900, 110), pipe(560, 560, 110)}, "openings[2]"},
		"two rooflights":              {[]geom.Opening{rect(500, 500, 1500, 1500), rect(1400, 1400, 1800, 1800)}, "openings[1]"},
		"one in the other":            {[]geom.Opening{rect(500, 500, 1500, 1500), rect(800, 800, 900, 900)}, "openings[1]"},
		"no kind":                     {[]geom.Opening{{Centre: geom.Point{X: 500, Y: 500}}}, "openings[0].kind"},
		"no diameter":                 {[]geom.Opening{pipe(500, 500, 0)}, "openings[0].dia_mm"},
		"no depth":                    {[]geom.Opening{rect(500, 500, 900, 500)}, "openings[0].depth_mm"},
		"no length":                   {[]geom.Opening{rect(500, 500, 500, 900)}, "openings[0].length_mm"},
		"nowhere":                     {[]geom.Opening{pipe(nan(), 500, 110)}, "openings[0].x_mm"},
		"no height":                   {[]geom.Opening{pipe(500, nan(), 110)}, "openings[0].y_mm"},
	} {
		_, err := w.Outline.Clearances(c.openings)
		require.Error(t, err, name)
		assertField(t, err, c.field)
	}
	gaps, err := w.Outline.Clearances([]geom.Opening{pipe(55, 300, 110), rect(110, 245, 400, 355), rect(500, 0, 700, 200)})
	require.NoError(t, err, "touching is a gap of nothing, not an overlap")
	assert.Zero(t, gaps[1].Gap)
	assert.Equal(t, geom.Clearance{Opening: 0, Edge: -1, Other: 1}, gaps[8])
	assert.Zero(t, gaps[len(gaps)-8].Gap, "a rooflight on the gutter line")
	gaps, err = w.Outline.Clearances([]geom.Opening{rect(4300, 2100, 5200, 3100)})
	require.NoError(t, err)
	assert.Zero(t, gaps[7].Gap, "against the right verge")
	assert.Zero(t, gaps[6].Gap, "against the back")
}

func TestRoomOnTheBoundaryIsTheBetter(t *testing.T) {
	t.Parallel()
	for gap, want := range map[unit.Length]geom.Room{
		0: geom.Unbondable, 24.9: geom.Unbondable, 25: geom.Tight, 74.9: geom.Tight, 75: geom.PatchFits, 149.9: geom.PatchFits, 150: geom.Ample, 2000: geom.Ample,
	} {
		assert.Equal(t, want, geom.RoomFor(gap), "%v", gap)
	}
}

package sheet_test

import (
	"fmt"
	"math"
	"testing"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/sheet"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func rectangle(t testing.TB, length, depth unit.Length, kinds ...geom.Kind) geom.Outline {
	t.Helper()
	o, err := geom.Rectangle(length, depth, [4]geom.Kind(kinds))
	require.NoError(t, err)
	return o
}

func walked(t testing.TB, steps ...geom.Step) geom.Outline {
	t.Helper()
	w, err := geom.Walk(steps)
	require.NoError(t, err)
	return w.Outline
}

// theL is 5000 by 3000 with a leg of 2200 by 1800 at the left of its back, free
// all round: our own roof.
func theL(t testing.TB) geom.Outline {
	return walked(t,
		geom.Step{Length: 5000, Turn: geom.Right, Kind: geom.Gutter},
		geom.Step{Length: 4800, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 2200, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 1800, Turn: geom.Left, Kind: geom.Verge},
		geom.Step{Length: 2800, Turn: geom.Right, Kind: geom.Verge},
		geom.Step{Length: 3000, Turn: geom.Right, Kind: geom.Verge},
	)
}

// Worked by hand from the allowances: common practice, no source.
//
//	four free edges 5500 x 2900: 5500+150+150 by 2900+150+150
//	walls on three sides of 3200 x 5400, rubber 150: 3200+250+250 by 5400+150+250
//	tucked at the gutter, parapet 250 high and 215 across at the back: 4000+150+150 by 3000+200+250+215+50 = 3715
//	an L of 5000 x 4800 over all: 5000+300 by 4800+300
func TestSizesByHand(t *testing.T) {
	g, v, w, p := geom.Gutter, geom.Verge, geom.Wall, geom.Parapet
	for _, c := range []struct {
		name          string
		in            sheet.Input
		length, width unit.Length
		mass          float64 // kg at 1.4 kg/m²
		hands         int
	}{
		{"free edges", sheet.Input{Outline: rectangle(t, 5500, 2900, g, v, v, v)}, 5800, 3200, 26.0, 2},
		{"three walls", sheet.Input{Outline: rectangle(t, 3200, 5400, g, w, w, w)}, 3700, 5800, 30.0, 2},
		{"tuck and parapet", sheet.Input{
			Outline: rectangle(t, 4000, 3000, g, v, p, v),
			Edges:   []sheet.Edge{{Tuck: true}, {}, {Rubber: 250, Top: 215}, {}},
		}, 4300, 3800, 22.9, 1},
		{"an L", sheet.Input{Outline: theL(t)}, 5300, 5100, 37.8, 2},
		{"skewed", sheet.Input{Outline: rectangle(t, 5500, 2900, g, v, v, v), Skew: -45}, 5900, 3200, 26.4, 2},
		{"step of a quarter metre", sheet.Input{Outline: rectangle(t, 5500, 2900, g, v, v, v), Step: 250}, 6000, 3250, 27.3, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := sheet.SizeOf(c.in)
			require.NoError(t, err)
			assert.Equal(t, c.length, s.Length)
			assert.Equal(t, c.width, s.Width)
			assert.InDelta(t, c.mass, float64(s.Mass), 0.05)
			assert.Equal(t, c.hands, s.Hands)
		})
	}
}

// A roof known by its corners needs no skew beside them: the box of the moved
// outline holds it. Two ways to the same length, the parallelogram's depth
// being a little less than its side.
func TestSkewAndCornersAgree(t *testing.T) {
	const skew = 45.0
	corners := []geom.Point{{X: 5500}, {}, {X: skew, Y: 2900}, {X: 5500 + skew, Y: 2900}}
	o, err := geom.NewOutline(corners, []geom.Kind{geom.Gutter, geom.Verge, geom.Verge, geom.Verge})
	require.NoError(t, err)
	byCorners, err := sheet.SizeOf(sheet.Input{Outline: o})
	require.NoError(t, err)
	bySkew, err := sheet.SizeOf(sheet.Input{Outline: rectangle(t, 5500, 2900, geom.Gutter, geom.Verge, geom.Verge, geom.Verge), Skew: skew})
	require.NoError(t, err)
	// The mitres of the acute corners reach 150·skew/2900 further: 2.3 mm a side.
	assert.InDelta(t, float64(bySkew.ExactLength), float64(byCorners.ExactLength), 6)
	assert.GreaterOrEqual(t, byCorners.ExactLength, bySkew.ExactLength)
	_, err = sheet.SizeOf(sheet.Input{Outline: o, Skew: skew})
	assertField(t, err, "skew_mm")
}

// Mass at the design density of ISO 10456 (1150 kg/m³, from memory) is 1.15,
// 1.31, 1.38 and 1.73 kg/m² for 1.0, 1.14, 1.2 and 1.5 mm; a lift is reckoned
// with the next tenth.
func TestMassPerSquareMetre(t *testing.T) {
	for thickness, want := range map[unit.Length]unit.SurfaceDensity{1.0: 1.2, 1.14: 1.4, 1.2: 1.4, 1.5: 1.8} {
		assert.InDelta(t, float64(want), float64(sheet.PerSquareMetre(thickness)), 1e-9, thickness)
	}
}

func TestSizeNeverShrinks(t *testing.T) {
	t.Parallel()
	base := func() sheet.Input {
		return sheet.Input{
			Outline: rectangle(t, 4200, 3000, geom.Gutter, geom.Verge, geom.Wall, geom.Parapet),
			Edges:   []sheet.Edge{{}, {}, {Rubber: 150}, {Rubber: 200, Top: 100}},
			Step:    1,
		}
	}
	small, err := sheet.SizeOf(base())
	require.NoError(t, err)
	for name, grow := range map[string]func(*sheet.Input){
		"longer": func(in *sheet.Input) {
			in.Outline = rectangle(t, 4201, 3000, geom.Gutter, geom.Verge, geom.Wall, geom.Parapet)
		},
		"deeper": func(in *sheet.Input) {
			in.Outline = rectangle(t, 4200, 3001, geom.Gutter, geom.Verge, geom.Wall, geom.Parapet)
		},
		"higher":  func(in *sheet.Input) { in.Edges[2].Rubber++ },
		"parapet": func(in *sheet.Input) { in.Edges[3].Top++ },
		"tucked":  func(in *sheet.Input) { in.Edges[0].Tuck = true },
		"skewed":  func(in *sheet.Input) { in.Skew = 1 },
	} {
		in := base()
		grow(&in)
		s, err := sheet.SizeOf(in)
		require.NoError(t, err, name)
		assert.Greater(t, s.Area, small.Area, name)
		assert.GreaterOrEqual(t, s.Length, small.Length, name)
		assert.GreaterOrEqual(t, s.Width, small.Width, name)
	}
}

func assertField(t testing.TB, err error, field string) {
	t.Helper()
	var domain *calc.DomainError
	if assert.ErrorAs(t, err, &domain) {
		assert.Equal(t, field, domain.Field)
	}
}

func TestRefusals(t *testing.T) {
	o := rectangle(t, 4200, 3000, geom.Gutter, geom.Verge, geom.Wall, geom.Parapet)
	parapet := sheet.Edge{Rubber: 200}
	ok := []sheet.Edge{{}, {}, {}, parapet}
	for field, in := range map[string]sheet.Input{
		"outline":              {},
		"edges":                {Outline: o, Edges: ok[:3]},
		"length_mm":            {Outline: rectangle(t, 499, 3000, geom.Gutter, geom.Verge, geom.Verge, geom.Verge)},
		"depth_mm":             {Outline: rectangle(t, 3000, 20001, geom.Gutter, geom.Verge, geom.Verge, geom.Verge)},
		"rubber_heights_mm[0]": {Outline: o, Edges: []sheet.Edge{{Rubber: 1}, {}, {}, parapet}},
		"rubber_heights_mm[2]": {Outline: o, Edges: []sheet.Edge{{}, {}, {Rubber: 74}, parapet}},
		"rubber_heights_mm[3]": {Outline: o, Edges: nil},
		"parapet_tops_mm[2]":   {Outline: o, Edges: []sheet.Edge{{}, {}, {Top: 1}, parapet}},
		"parapet_tops_mm[3]":   {Outline: o, Edges: []sheet.Edge{{}, {}, {}, {Rubber: 200, Top: 601}}},
		"tuck[1]":              {Outline: o, Edges: []sheet.Edge{{}, {Tuck: true}, {}, parapet}},
		"skew_mm":              {Outline: o, Edges: ok, Skew: unit.Length(math.NaN())},
		"step_mm":              {Outline: o, Edges: ok, Step: 0.5},
		"thickness_mm":         {Outline: o, Edges: ok, Thickness: 0.9},
		"lap_mm":               {Outline: o, Edges: ok, Lap: 74},
		"widths_mm[0]":         {Outline: o, Edges: ok, Widths: []unit.Length{899}},
	} {
		_, err := sheet.SizeOf(in)
		assertField(t, err, field)
	}
	_, err := sheet.AllowanceAt("hedge", sheet.Edge{})
	assertField(t, err, "edges")
}

func ExampleSizeOf() {
	roof, _ := geom.Rectangle(5500, 2900, [4]geom.Kind{geom.Gutter, geom.Verge, geom.Verge, geom.Verge})
	s, _ := sheet.SizeOf(sheet.Input{Outline: roof})
	fmt.Println(s.Length, "by", s.Width, s.Mass)
	// Output: 5800 mm by 3200 mm 25.98 kg
}

package fixings_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// NHBC Standards 6.4.15 Table 4: every row inside its band and at its upper end
// ("under 2.5 none, 2.5-4.5 one, over 4.5 two").
func TestStruttingRowsOfNHBC(t *testing.T) {
	t.Parallel()
	n := 0
	for _, row := range rows(t, "strutting-nhbc.csv") {
		if row["rule"] != "strutting_rows" {
			continue
		}
		n++
		from := number(t, row["from_m"]) * 1000
		got, err := fixings.StruttingRows(unit.Length(from + 1))
		require.NoError(t, err)
		assert.Equal(t, int(number(t, row["value"])), got, "just over %g", from)
		if from > 0 {
			got, err = fixings.StruttingRows(unit.Length(from - 1))
			require.NoError(t, err)
			assert.Equal(t, int(number(t, row["value"]))-1, got, "just under %g", from)
		}
	}
	require.Equal(t, 3, n)
	for span, want := range map[unit.Length]int{2499: 0, 2500: 1, 4500: 1, 4501: 2} {
		got, err := fixings.StruttingRows(span)
		require.NoError(t, err)
		assert.Equal(t, want, got, "%v", span)
	}
}

func centres(n int, apart float64) []unit.Length {
	list := make([]unit.Length, n)
	for i := range list {
		list[i] = unit.Length(float64(i) * apart)
	}
	return list
}

// By hand: 4.8 m span, 47 x 195 at 400: two rows at 1.6 and 3.2 m, 353 clear;
// 14 bays; solid 146 deep; crossed √(353² + 195²) = 403.3.
func TestStruttingByHand(t *testing.T) {
	t.Parallel()
	out, err := fixings.Strutting(fixings.StruttingIn{Span: 4800, Centres: centres(15, 400), Thick: 47, Depth: 195})
	require.NoError(t, err)
	assert.Equal(t, 2, out.Rows)
	assert.Equal(t, []unit.Length{1600, 3200}, out.At)
	assert.Equal(t, []fixings.Pieces{{Count: 28, Length: 353}}, out.Solid)
	assert.InDelta(t, 146.25, float64(out.Depth), 1e-9)
	require.Len(t, out.Crossed, 1)
	assert.Equal(t, 56, out.Crossed[0].Count)
	assert.InDelta(t, 403.28, float64(out.Crossed[0].Length), 0.01)
	assert.Equal(t, 4, out.Blocks)
	out, err = fixings.Strutting(fixings.StruttingIn{Span: 2400, Centres: centres(15, 400), Thick: 47, Depth: 145})
	require.NoError(t, err)
	assert.Zero(t, out.Rows)
	assert.Empty(t, out.Solid)
}

// The marks of a 5.5 m roof on 2440 boards: one short bay at each end.
func TestNogginsByHand(t *testing.T) {
	t.Parallel()
	marks := []unit.Length{24, 406, 813, 1220, 1627, 2034, 2442, 2849, 3256, 3663, 4070, 4477, 4885, 5292, 5477}
	groups, err := fixings.Noggins(marks, 47, 2)
	require.NoError(t, err)
	// bays 382, 407 twelve times (two of them 408), 185
	assert.Equal(t, []fixings.Pieces{{Count: 4, Length: 361}, {Count: 20, Length: 360}, {Count: 2, Length: 335}, {Count: 2, Length: 138}}, groups)
	groups, err = fixings.Noggins(marks, 47, 0)
	require.NoError(t, err)
	assert.Empty(t, groups)
}

func TestEnds(t *testing.T) {
	t.Parallel()
	out, err := fixings.Ends(15, 15)
	require.NoError(t, err)
	assert.Equal(t, fixings.EndsOut{Hangers: 15, SkewNails: 30, Clips: 15}, out)
	_, err = fixings.Ends(-1, 0)
	assertDomain(t, err, "hanger_ends")
	_, err = fixings.Ends(0, 1001)
	assertDomain(t, err, "plate_ends")
}

func TestJoistDomain(t *testing.T) {
	t.Parallel()
	_, err := fixings.StruttingRows(0)
	assertDomain(t, err, "clear_span_mm")
	_, err = fixings.StruttingRows(12001)
	assertDomain(t, err, "clear_span_mm")
	_, err = fixings.Strutting(fixings.StruttingIn{Span: 3000, Centres: centres(3, 400), Thick: 47})
	assertDomain(t, err, "joist_h_mm")
	_, err = fixings.Noggins(centres(1, 400), 47, 1)
	assertDomain(t, err, "lines_mm")
	_, err = fixings.Noggins(centres(3, 40), 47, 1)
	assertDomain(t, err, "lines_mm")
	_, err = fixings.Noggins(centres(3, 400), 10, 1)
	assertDomain(t, err, "joist_mm")
	_, err = fixings.Noggins(centres(3, 400), 47, -1)
	assertDomain(t, err, "board_lines")
}

// By hand: a 2.9 m wall, first joist 20 mm off it, 47 x 145 at 400: three straps
// of 100 + 20 + 800 + 47 = 967 mm, two noggins of 353 each, ten fixings each.
func TestRestraintByHand(t *testing.T) {
	t.Parallel()
	rule, err := fixings.RuleOf(fixings.LateralStrap)
	require.NoError(t, err)
	in := fixings.RestraintIn{Run: 2900, Gap: 20, Apart: 400, Thick: 47, Depth: 145, Rule: rule}
	out, err := fixings.Restraint(in)
	require.NoError(t, err)
	assert.Equal(t, 3, out.Row.Count)
	assert.Equal(t, unit.Length(967), out.StrapLength)
	assert.Equal(t, 6, out.Noggins)
	assert.Equal(t, unit.Length(353), out.NogginLength)
	assert.Equal(t, unit.Length(72.5), out.NogginDepth)
	assert.Equal(t, 3, out.Packers)
	assert.Equal(t, 30, out.Fixings)
	for field, change := range map[string]func(*fixings.RestraintIn){
		"gap_mm":           func(in *fixings.RestraintIn) { in.Gap = -1 },
		"joist_spacing_mm": func(in *fixings.RestraintIn) { in.Apart = 0 },
		"joist_mm":         func(in *fixings.RestraintIn) { in.Thick = 0 },
		"joist_h_mm":       func(in *fixings.RestraintIn) { in.Depth = 0 },
		"run_mm":           func(in *fixings.RestraintIn) { in.Run = 0 },
	} {
		bad := in
		change(&bad)
		_, err := fixings.Restraint(bad)
		assertDomain(t, err, field)
	}
}

// NHBC Standards 7.1.5: joists bearing 90 mm need no straps.
func TestJoistsRestrain(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		bearing, apart unit.Length
		want           bool
	}{{90, 400, true}, {89, 400, false}, {90, 1200, true}, {90, 1201, false}} {
		got, err := fixings.JoistsRestrain(c.bearing, c.apart)
		require.NoError(t, err)
		assert.Equal(t, c.want, got, "%v", c)
	}
	_, err := fixings.JoistsRestrain(-1, 400)
	assertDomain(t, err, "bearing_mm")
	_, err = fixings.JoistsRestrain(90, 0)
	assertDomain(t, err, "joist_spacing_mm")
}

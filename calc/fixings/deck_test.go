package fixings_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// workedDeck is the 5.5 x 2.9 m deck of testdata/worked/takeoff: 15 joists, two
// full rows and a ripped one, seven end joints.
func workedDeck() fixings.DeckLayout {
	d := fixings.DeckLayout{SeamNoggins: true}
	for i := range 14 {
		d.Lines = append(d.Lines, unit.Length(float64(i)*400.5))
	}
	d.Lines = append(d.Lines, 5500)
	d.Rows = []fixings.DeckRow{
		{Width: 1200, Joints: []int{6, 12}},
		{Width: 1200, Joints: []int{3, 9, 12}},
		{Width: 494, Joints: []int{6, 12}},
	}
	return d
}

func TestDeckScrewsOfTheWorkedDeck(t *testing.T) {
	t.Parallel()
	d := workedDeck()
	n, err := fixings.DeckScrews(d)
	require.NoError(t, err)
	assert.Equal(t, 400, n)
	d.OuterEdges = true
	n, err = fixings.DeckScrews(d)
	require.NoError(t, err)
	assert.Equal(t, 456, n)
}

// One 1220 mm board over seven lines: 2·9 + 5·5, as the trade counts it.
func TestDeckScrewsOfOneBoard(t *testing.T) {
	t.Parallel()
	d := fixings.DeckLayout{Rows: []fixings.DeckRow{{Width: 1220}}}
	for i := range 7 {
		d.Lines = append(d.Lines, unit.Length(i*407))
	}
	n, err := fixings.DeckScrews(d)
	require.NoError(t, err)
	assert.Equal(t, 43, n)
}

// placed puts every screw at a place and counts them, another way to the number.
func placed(d fixings.DeckLayout) int {
	n := 0
	line := func(w, most float64) {
		spaces := 1
		for (w-50)/float64(spaces) > most+1e-9 {
			spaces++
		}
		n += spaces + 1
	}
	for r, row := range d.Rows {
		joint := map[int]bool{0: true, len(d.Lines) - 1: true}
		for _, j := range row.Joints {
			joint[j] = true
			line(float64(row.Width), 150) // the second board's end on this joist
		}
		for i := range d.Lines {
			if joint[i] {
				line(float64(row.Width), 150)
			} else {
				line(float64(row.Width), 300)
			}
		}
		for _, edge := range []bool{r > 0 && d.SeamNoggins || r == 0 && d.OuterEdges,
			r < len(d.Rows)-1 && d.SeamNoggins || r == len(d.Rows)-1 && d.OuterEdges} {
			if !edge {
				continue
			}
			for i := 1; i < len(d.Lines); i++ {
				gap := float64(d.Lines[i] - d.Lines[i-1])
				spaces := 1
				for gap/float64(spaces) > 150+1e-9 {
					spaces++
				}
				n += max(spaces-1, 2)
			}
		}
	}
	return n
}

func TestDeckScrewsPlacedOneByOne(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(4, 6))
	for range 300 {
		d := fixings.DeckLayout{SeamNoggins: rng.IntN(2) == 0, OuterEdges: rng.IntN(2) == 0}
		at := 0.0
		for range 4 + rng.IntN(12) {
			d.Lines = append(d.Lines, unit.Length(at))
			at += 250 + rng.Float64()*360
		}
		for range 1 + rng.IntN(4) {
			row := fixings.DeckRow{Width: unit.Length(150 + rng.Float64()*1100)}
			for j := 1; j < len(d.Lines)-1; j++ {
				if rng.IntN(4) == 0 {
					row.Joints = append(row.Joints, j)
				}
			}
			d.Rows = append(d.Rows, row)
		}
		n, err := fixings.DeckScrews(d)
		require.NoError(t, err)
		require.Equal(t, placed(d), n, "%+v", d)
		more := d
		more.Rows = append([]fixings.DeckRow{}, d.Rows...)
		more.Rows[0].Width += 100
		m, err := fixings.DeckScrews(more)
		require.NoError(t, err)
		require.GreaterOrEqual(t, m, n)
		for j := 1; j < len(d.Lines)-1; j++ {
			if !slices.Contains(d.Rows[0].Joints, j) {
				more.Rows[0] = fixings.DeckRow{Width: d.Rows[0].Width, Joints: append(slices.Clone(d.Rows[0].Joints), j)}
				slices.Sort(more.Rows[0].Joints)
				m, err = fixings.DeckScrews(more)
				require.NoError(t, err)
				require.GreaterOrEqual(t, m, n)
				break
			}
		}
	}
}

func TestDeckDomain(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		change func(*fixings.DeckLayout)
		field  string
	}{
		"one line":     {func(d *fixings.DeckLayout) { d.Lines = d.Lines[:1] }, "lines_mm"},
		"falling":      {func(d *fixings.DeckLayout) { d.Lines[3] = 0 }, "lines_mm"},
		"not a number": {func(d *fixings.DeckLayout) { d.Lines[3] = unit.Length(math.NaN()) }, "lines_mm"},
		"no row":       {func(d *fixings.DeckLayout) { d.Rows = nil }, "rows"},
		"narrow":       {func(d *fixings.DeckLayout) { d.Rows[0].Width = 59 }, "width_mm"},
		"at the edge":  {func(d *fixings.DeckLayout) { d.Rows[0].Joints = []int{0} }, "joints"},
		"last line":    {func(d *fixings.DeckLayout) { d.Rows[0].Joints = []int{14} }, "joints"},
		"twice":        {func(d *fixings.DeckLayout) { d.Rows[0].Joints = []int{3, 3} }, "joints"},
	} {
		d := workedDeck()
		c.change(&d)
		_, err := fixings.DeckScrews(d)
		t.Run(name, func(t *testing.T) { assertDomain(t, err, c.field) })
	}
	_, err := fixings.DeckScrewEstimate(-1, true)
	assertDomain(t, err, "area_m2")
}

// 16 m², the trade's rates: 18/m² tongued, up to 29/m² square-edged.
func TestDeckScrewEstimate(t *testing.T) {
	t.Parallel()
	n, err := fixings.DeckScrewEstimate(16*unit.SquareMetre, false)
	require.NoError(t, err)
	assert.Equal(t, 288, n)
	n, err = fixings.DeckScrewEstimate(16*unit.SquareMetre, true)
	require.NoError(t, err)
	assert.Equal(t, 464, n)
}

// 18 mm boards: 50 mm screws; 22 mm: 55 (2.5 t governs above 20).
func TestDeckScrewSize(t *testing.T) {
	t.Parallel()
	l, d, err := fixings.DeckScrewSize(18)
	require.NoError(t, err)
	assert.Equal(t, unit.Length(50), l)
	assert.InDelta(t, 2.88, float64(d), 1e-9)
	l, _, err = fixings.DeckScrewSize(22)
	require.NoError(t, err)
	assert.Equal(t, unit.Length(55), l)
	_, _, err = fixings.DeckScrewSize(8)
	assertDomain(t, err, "board_t_mm")
}

func BenchmarkDeckScrews(b *testing.B) {
	d := workedDeck()
	for b.Loop() {
		_, _ = fixings.DeckScrews(d)
	}
}

package lead_test

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"chargehand/calc"
	"chargehand/calc/lead"
	"chargehand/calc/unit"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func assertField(t testing.TB, err error, field string) {
	t.Helper()
	var domain *calc.DomainError
	if assert.ErrorAs(t, err, &domain) {
		assert.Equal(t, field, domain.Field)
	}
}

// Codes, thickness, mass and colour of EN 12588 as tabulated in college
// plumbing notes, and the mass again as density times thickness (11.34 g/cm³,
// CIBSE Guide A Table 3.36).
func TestSheetTable(t *testing.T) {
	f, err := os.Open("../../testdata/worked/setout/lead-sheet.csv")
	require.NoError(t, err)
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, 7)
	for _, row := range rows[1:] {
		code, err := strconv.Atoi(row[0])
		require.NoError(t, err)
		thickness, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		mass, err := strconv.ParseFloat(row[2], 64)
		require.NoError(t, err)
		s, ok := lead.Code(code)
		require.True(t, ok)
		assert.Equal(t, unit.Length(thickness), s.Thickness)
		assert.Equal(t, unit.SurfaceDensity(mass), s.Mass)
		assert.Equal(t, row[3], s.Colour)
		assert.InDelta(t, 11.34*thickness, float64(s.Mass), 0.01)
		// One square metre through the formula.
		c, err := lead.Pieces(lead.Run{Length: 1000, Width: 1000, Code: code, Lap: 100})
		require.NoError(t, err)
		assert.InDelta(t, mass, float64(c.Mass), 1e-9)
	}
}

// Building Construction Handbook, 8th ed., lead sheet: 2.000 m over 45 K moves
// 2.67 mm at 29.7e-6. A piece is never that long; the same pull on 1.5 m.
func TestMovement(t *testing.T) {
	assert.InDelta(t, 2.67, lead.Expansion*2000*45, 0.005)
	c, err := lead.Pieces(lead.Run{Length: 1500, Width: 150, Code: 4, Lap: 100})
	require.NoError(t, err)
	assert.InDelta(t, 2.67*1.5/2, float64(c.Movement), 0.005)
}

// Worked by hand at 20.41 kg/m²:
//
//	4.2 m: (4200-100)/1400 rounds up to 3, 4400/3 = 1466.7, 4.4 m x 0.18 x 20.41 = 16.2 kg
//	3.2 m: 3 of 1133.3; 5.4 m: 4 of 1425; one of the first and two of the second 150 wide: 14.8 m, 45.3 kg
//	severe exposure, lap 150: (4200-150)/1350 = 3 exactly, 1500 each
func TestPiecesByHand(t *testing.T) {
	run := func(length, width, lap unit.Length) lead.Cut {
		c, err := lead.Pieces(lead.Run{Length: length, Width: width, Code: 4, Lap: lap})
		require.NoError(t, err)
		return c
	}
	c := run(4200, 180, 100)
	assert.Equal(t, 3, c.Pieces)
	assert.InDelta(t, 1466.7, float64(c.Piece), 0.05)
	assert.InDelta(t, 16.2, float64(c.Mass), 0.05)
	assert.Equal(t, 11, c.Wedges) // 4200/450 rounds up to 10
	assert.Equal(t, 10, c.Clips)  // 4200/500 rounds up to 9

	back, side := run(3200, 150, 100), run(5400, 150, 100)
	assert.Equal(t, []int{3, 4}, []int{back.Pieces, side.Pieces})
	assert.InDelta(t, 45.3, float64(back.Mass+2*side.Mass), 0.05)

	severe, err := lead.Pieces(lead.Run{Length: 4200, Width: 180, Code: 4, Lap: 150, Exposed: true})
	require.NoError(t, err)
	assert.Equal(t, 3, severe.Pieces)
	assert.Equal(t, unit.Length(1500), severe.Piece)
	assert.Equal(t, 15, severe.Clips)

	short := run(1500, 150, 100)
	assert.Equal(t, 1, short.Pieces)
	assert.Equal(t, 2, run(1501, 150, 100).Pieces)
}

// Laid in order, each lapping the one before, the pieces cover the run.
func TestPiecesCoverTheRun(t *testing.T) {
	before := 0
	for l := unit.Length(100); l <= 20000; l += 37 {
		c, err := lead.Pieces(lead.Run{Length: l, Width: 180, Code: 4, Lap: 100})
		require.NoError(t, err)
		require.GreaterOrEqual(t, c.Pieces, before)
		before = c.Pieces
		require.LessOrEqual(t, float64(c.Piece), 1500+1e-9)
		require.Len(t, c.Starts, c.Pieces)
		for k := 1; k < len(c.Starts); k++ {
			require.InDelta(t, 100, float64(c.Starts[k-1]+c.Piece-c.Starts[k]), 1e-6)
		}
		require.InDelta(t, float64(l), float64(c.Starts[c.Pieces-1]+c.Piece), 1e-6)
	}
}

func TestWidths(t *testing.T) {
	least, roll, err := lead.WidthFor(lead.TurnIn, lead.BoardGap, lead.Cover)
	require.NoError(t, err)
	assert.Equal(t, unit.Length(110), least)
	assert.Equal(t, unit.Length(150), roll)
	least, roll, err = lead.WidthFor(50, 100, 300)
	require.NoError(t, err)
	assert.Equal(t, least, roll)
	_, _, err = lead.WidthFor(lead.TurnIn, lead.BoardGap, 74)
	assertField(t, err, "cover_mm")

	perRoll, needed, err := lead.Cuts(1466, 3, 3000)
	require.NoError(t, err)
	assert.Equal(t, []int{2, 2}, []int{perRoll, needed})
	perRoll, needed, err = lead.Cuts(1500, 4, 6000)
	require.NoError(t, err)
	assert.Equal(t, []int{4, 1}, []int{perRoll, needed})
}

func TestRefusals(t *testing.T) {
	good := lead.Run{Length: 4200, Width: 180, Code: 4, Lap: 100}
	_, err := lead.Pieces(good)
	require.NoError(t, err)
	for field, change := range map[string]func(*lead.Run){
		"run_mm":       func(r *lead.Run) { r.Length = 99 },
		"width_mm":     func(r *lead.Run) { r.Width = unit.Length(math.NaN()) },
		"code":         func(r *lead.Run) { r.Code = 9 },
		"lap_mm":       func(r *lead.Run) { r.Lap = 49 },
		"max_piece_mm": func(r *lead.Run) { r.MaxPiece = 1501 },
		"range_k":      func(r *lead.Run) { r.Range = 121 },
	} {
		bad := good
		change(&bad)
		_, err := lead.Pieces(bad)
		assertField(t, err, field)
	}
	soaker := good
	soaker.Code = 3
	c, err := lead.Pieces(soaker)
	require.NoError(t, err)
	assert.True(t, c.Thin)
	assert.LessOrEqual(t, c.Piece, unit.Length(1000))

	zero := 0.0
	_, err = lead.ReckonLead(lead.LeadIn{Run: 4200, Code: 4, Width: 180, Lap: 100, MaxPiece: &zero})
	assertField(t, err, "max_piece_mm")
	_, err = lead.ReckonLead(lead.LeadIn{Run: 4200, Code: 4, Width: 180, Lap: 100, RangeK: &zero})
	assertField(t, err, "range_k")
}

func FuzzReckonLead(f *testing.F) {
	f.Add(4200.0, 4, 180.0, 100.0, 1500.0)
	f.Add(math.NaN(), -1, math.Inf(1), 0.0, 1e-300)
	f.Fuzz(func(t *testing.T, run float64, code int, width, lap, most float64) {
		out, err := lead.ReckonLead(lead.LeadIn{Run: run, Code: code, Width: width, Lap: lap, MaxPiece: &most})
		if err != nil {
			return
		}
		for _, v := range []float64{out.Piece, out.Mass, out.Movement} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0) || v <= 0)
		}
		require.LessOrEqual(t, out.Piece, most+1e-6)
	})
}

func ExamplePieces() {
	c, _ := lead.Pieces(lead.Run{Length: 4200, Width: 180, Code: 4, Lap: 100})
	fmt.Printf("%d pieces of %.0f mm, %.0f kg, each moves %.1f mm\n", c.Pieces, c.Piece, float64(c.Mass), c.Movement)
	// Output: 3 pieces of 1467 mm, 16 kg, each moves 2.0 mm
}

func BenchmarkPieces(b *testing.B) {
	for b.Loop() {
		if _, err := lead.Pieces(lead.Run{Length: 4200, Width: 180, Code: 4, Lap: 100}); err != nil {
			b.Fatal(err)
		}
	}
}

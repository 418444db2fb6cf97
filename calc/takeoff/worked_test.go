package takeoff_test

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

func ptr[T any](v T) *T { return &v }

func fourFreeEdges() takeoff.Input {
	return takeoff.Input{
		PlateRuns: []unit.Length{5500, 5500}, DPCRuns: []unit.Length{5500, 5500}, AnchorRuns: []unit.Length{5500, 5500},
		ResinHole: &takeoff.Hole{Diameter: 12, Depth: 70}, StrapRuns: []unit.Length{5500, 5500}, LateralRuns: []unit.Length{2900, 2900},
		HangerEnds: ptr(0), PlateEnds: ptr(30),
		Joists: []takeoff.Piece{{Count: 15, Length: 2900}}, Noggins: noggins(5476.5), Strutting: []takeoff.Piece{}, Firrings: []takeoff.Piece{},
		Boards: ptr(7), DeckScrews: ptr(400),
		Battens: []unit.Length{5500, 2900, 5500, 2900}, Fascias: []unit.Length{5500, 2900, 5500, 2900}, Corners: 4,
		Upstands: []takeoff.Upstand{}, Sheet: &takeoff.Size{Length: 5800, Width: 3200},
		FieldArea: ptr(13.52 * unit.SquareMetre), ContactArea: ptr(4.11 * unit.SquareMetre),
		Patches: []takeoff.Patch{{Count: 4, Length: 150, Width: 150}}, Pipes: ptr(0), PatchEdge: ptr(2400 * unit.Millimetre), BarRuns: []unit.Length{},
		Trims: []takeoff.TrimEdge{{Run: 5500}, {Run: 2900}, {Run: 5500}, {Run: 2900}}, TrimCorners: ptr(4), TrimEnds: ptr(0),
		GutterRuns: []unit.Length{5500}, Outlets: ptr(1), Downpipe: ptr(2200 * unit.Millimetre),
		LeadRuns: []takeoff.LeadRun{}, ChaseRuns: []unit.Length{},
		Deck: &takeoff.Size{Length: 5500, Width: 2900}, Batches: ptr(3), TowerDays: ptr(5.0), Rubbish: ptr(2 * unit.CubicMetre),
	}
}

func threeWalls() takeoff.Input {
	walls := []unit.Length{5400, 3200, 5400}
	in := takeoff.Input{
		PlateRuns: []unit.Length{5400, 5400}, DPCRuns: []unit.Length{}, AnchorRuns: []unit.Length{5400, 5400},
		ResinHole: &takeoff.Hole{Diameter: 12, Depth: 70}, StrapRuns: []unit.Length{}, LateralRuns: []unit.Length{3200},
		HangerEnds: ptr(30), PlateEnds: ptr(0), HangerHoles: ptr(12),
		Joists: []takeoff.Piece{{Count: 15, Length: 3106}}, Noggins: noggins(5376.5), Strutting: []takeoff.Piece{}, Firrings: []takeoff.Piece{},
		Boards: ptr(8), DeckArea: ptr(17.28 * unit.SquareMetre), DeckEdge: takeoff.SquareEdge,
		Battens: []unit.Length{3200}, Fascias: []unit.Length{3200},
		Sheet:     &takeoff.Size{Length: 3700, Width: 5800},
		FieldArea: ptr(14.79 * unit.SquareMetre), ContactArea: ptr(4.91 * unit.SquareMetre),
		Patches: []takeoff.Patch{{Count: 2, Length: 200, Width: 200}}, Pipes: ptr(1), PatchEdge: ptr(5600 * unit.Millimetre), BarRuns: walls,
		Trims: []takeoff.TrimEdge{{Run: 3200}}, TrimCorners: ptr(0), TrimEnds: ptr(2),
		GutterRuns: []unit.Length{3200}, Outlets: ptr(1), Downpipe: ptr(2400 * unit.Millimetre), ChaseRuns: walls,
		Deck: &takeoff.Size{Length: 3200, Width: 5400}, Batches: ptr(4), TowerDays: ptr(3.5), Rubbish: ptr(3 * unit.CubicMetre),
	}
	for _, w := range walls {
		in.Upstands = append(in.Upstands, takeoff.Upstand{Run: w, Height: 178})
		in.LeadRuns = append(in.LeadRuns, takeoff.LeadRun{Run: w, Width: 150, Density: 20.4})
	}
	return in
}

// noggins is two lines between the joists of the worked sheets.
func noggins(last float64) []takeoff.Piece {
	marks := []float64{23.5}
	for k := 1; k <= 13; k++ {
		marks = append(marks, 400.5*float64(k)-1.5)
	}
	marks = append(marks, last)
	var pieces []takeoff.Piece
	for i := 1; i < len(marks); i++ {
		pieces = append(pieces, takeoff.Piece{Count: 2, Length: unit.Length(marks[i] - marks[i-1] - 47)})
	}
	return pieces
}

// Every row of the two sheets worked by hand.
func TestWorkedSheets(t *testing.T) {
	t.Parallel()
	for name, in := range map[string]takeoff.Input{"four-free-edges": fourFreeEdges(), "three-walls": threeWalls()} {
		bill, err := takeoff.List(in)
		require.NoError(t, err, name)
		assert.Empty(t, bill.Missing, name)
		tables := sheet(t, name)
		require.Len(t, tables, 2, name)
		var keys, want []string
		offers := map[string]string{}
		for _, row := range tables[1] {
			offers[row["line"]] = row["packs"]
		}
		for i, row := range tables[0] {
			want = append(want, row["line"])
			if i >= len(bill.Lines) {
				continue
			}
			l := bill.Lines[i]
			at := name + " " + row["line"]
			assert.Equal(t, row["unit"], string(l.Unit), at)
			near(t, row["needed"], l.Needed, at+" needed")
			near(t, row["waste"], l.Waste, at+" waste")
			near(t, row["buy"], l.ToBuy, at+" buy")
			near(t, row["left"], l.LeftOver, at+" left")
			assert.Equal(t, row["packs"], written(l.Packs), at)
			assert.Equal(t, row["flag"], flag(l), at)
			assert.Equal(t, offers[row["line"]], written(l.Offer), at+" offer")
		}
		for _, l := range bill.Lines {
			keys = append(keys, string(l.Key))
		}
		assert.Equal(t, want, keys, name)
	}
}

func TestWorkedLeadMass(t *testing.T) {
	t.Parallel()
	bill, err := takeoff.List(threeWalls())
	require.NoError(t, err)
	assert.InDelta(t, 45.288, float64(line(t, bill, takeoff.LeadSheet).Mass), 1e-6)
}

// near compares within half of the sheet's last printed digit.
func near(t *testing.T, want string, got float64, what string) {
	t.Helper()
	v, err := strconv.ParseFloat(want, 64)
	require.NoError(t, err, what)
	half := 1e-9
	if _, digits, ok := strings.Cut(want, "."); ok {
		half = 0.5
		for range digits {
			half /= 10
		}
		half += 1e-9
	}
	assert.InDelta(t, v, got, half, what)
}

func written(packs []takeoff.Pack) string {
	var s []string
	for _, p := range packs {
		s = append(s, fmt.Sprintf("%gx%d", p.Size, p.Count))
	}
	return strings.Join(s, " ")
}

func flag(l takeoff.Line) string {
	switch {
	case l.Tight:
		return "tight"
	case l.Surplus:
		return "surplus"
	}
	return ""
}

func line(t *testing.T, b takeoff.Bill, key takeoff.Key) takeoff.Line {
	t.Helper()
	for _, l := range b.Lines {
		if l.Key == key {
			return l
		}
	}
	t.Fatalf("no line %s", key)
	return takeoff.Line{}
}

// sheet reads the tables of a worked sheet by their column names.
func sheet(t *testing.T, name string) (tables [][]map[string]string) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/worked/takeoff/" + name + ".md")
	require.NoError(t, err)
	var head []string
	for _, row := range strings.Split(string(text), "\n") {
		cells := strings.Split(strings.Trim(row, "| "), "|")
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		switch {
		case !strings.HasPrefix(row, "|"):
			head = nil
		case head == nil:
			head = cells
			tables = append(tables, nil)
		case strings.HasPrefix(row, "|---"):
		default:
			m := map[string]string{}
			for i, h := range head {
				if i < len(cells) {
					m[h] = cells[i]
				}
			}
			tables[len(tables)-1] = append(tables[len(tables)-1], m)
		}
	}
	for _, table := range tables {
		require.NotEmpty(t, table)
	}
	return tables
}

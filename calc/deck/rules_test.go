package deck_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/deck"
	"chargehand/calc/unit"
)

func garage() deck.Problem {
	return deck.Problem{
		RowLength: 5400, Depth: 2800, JoistSpacing: 400, BoardLength: 2400, BoardWidth: 1200,
		Kerf: 3, EndGap: 3, MinBays: 2, Stagger: 1,
	}
}

func TestDomain(t *testing.T) {
	t.Parallel()
	for field, spoil := range map[string]func(p *deck.Problem){
		"row_length_mm":       func(p *deck.Problem) { p.RowLength = 99 },
		"row_length_mm ":      func(p *deck.Problem) { p.RowLength = unit.Length(math.NaN()) },
		"row_length_mm  ":     func(p *deck.Problem) { p.RowLength = 5400.05 },
		"depth_mm":            func(p *deck.Problem) { p.Depth = 30_001 },
		"depth_mm ":           func(p *deck.Problem) { p.Depth, p.BoardWidth, p.RowLength = 30_000, 50, 1000 },
		"joist_spacing_mm":    func(p *deck.Problem) { p.JoistSpacing = 0 },
		"joist_spacing_mm ":   func(p *deck.Problem) { p.JoistSpacing, p.RowLength = 100, 26_000 },
		"lines_mm[1]":         func(p *deck.Problem) { p.Lines = []unit.Length{800, 400} },
		"lines_mm[0]":         func(p *deck.Problem) { p.Lines = []unit.Length{5401} },
		"board_length_mm":     func(p *deck.Problem) { p.BoardLength = unit.Length(math.Inf(1)) },
		"board_length_mm ":    func(p *deck.Problem) { p.BoardLength = 700 },
		"board_width_mm":      func(p *deck.Problem) { p.BoardWidth = 0 },
		"kerf_mm":             func(p *deck.Problem) { p.Kerf = -1 },
		"end_gap_mm":          func(p *deck.Problem) { p.EndGap = 51 },
		"row_gap_mm":          func(p *deck.Problem) { p.RowGap = -0.1 },
		"min_bays":            func(p *deck.Problem) { p.MinBays = 0 },
		"min_bays ":           func(p *deck.Problem) { p.MinBays = 15 },
		"stagger":             func(p *deck.Problem) { p.Stagger = -1 },
		"stagger ":            func(p *deck.Problem) { p.Stagger = 20 },
		"stagger_mm":          func(p *deck.Problem) { p.StaggerLength = -1 },
		"budget":              func(p *deck.Problem) { p.Budget = -1 },
		"strips[0].length_mm": func(p *deck.Problem) { p.Strips = []deck.Strip{{Length: 2401, Height: 150, Count: 1}} },
		"strips[0].height_mm": func(p *deck.Problem) { p.Strips = []deck.Strip{{Length: 2400, Height: 1201, Count: 1}} },
		"strips[0].count":     func(p *deck.Problem) { p.Strips = []deck.Strip{{Length: 2400, Height: 150}} },
		"regions[0].depth_mm": func(p *deck.Problem) { p.Regions = []deck.Region{{RowLength: 2000, JoistSpacing: 400}} },
		"regions":             func(p *deck.Problem) { p.Regions = make([]deck.Region, 21) },
	} {
		p := garage()
		spoil(&p)
		_, err := deck.Solve(p)
		var outside *calc.DomainError
		if assert.ErrorAs(t, err, &outside, field) {
			assert.Equal(t, strings.TrimSpace(field), outside.Field)
		}
	}
}

// Check finds every kind of fault that a layout can have.
func TestCheckRefuses(t *testing.T) {
	t.Parallel()
	p := garage()
	p.Strips = []deck.Strip{{Length: 1000, Height: 150, Count: 2}}
	for name, spoil := range map[string]func(l *deck.Layout){
		"a row missing":       func(l *deck.Layout) { l.Rows = l.Rows[:2] },
		"a row too many":      func(l *deck.Layout) { l.Rows = append(l.Rows, l.Rows[0]) },
		"a row too narrow":    func(l *deck.Layout) { l.Rows[0].Width-- },
		"a row moved":         func(l *deck.Layout) { l.Rows[1].Y++ },
		"a piece missing":     func(l *deck.Layout) { l.Rows[0].Pieces = l.Rows[0].Pieces[1:] },
		"a piece moved":       func(l *deck.Layout) { l.Rows[0].Pieces[0].X++ },
		"a piece too short":   func(l *deck.Layout) { l.Rows[0].Pieces[0].Length-- },
		"an end off its line": func(l *deck.Layout) { l.Rows[0].Pieces[0].To++ },
		"joints in line":      func(l *deck.Layout) { l.Rows[1].Pieces = l.Rows[0].Pieces },
		"a wrong board":       func(l *deck.Layout) { l.Rows[0].Pieces[0].Board++ },
		"a wrong letter":      func(l *deck.Layout) { l.Rows[0].Pieces[0].Letter = "Q" },
		"a board missing":     func(l *deck.Layout) { l.Cuts = l.Cuts[:len(l.Cuts)-1] },
		"a board twice":       func(l *deck.Layout) { l.Cuts = append(l.Cuts, l.Cuts[0]); l.Boards++ },
		"an empty board":      func(l *deck.Layout) { l.Cuts = append(l.Cuts, deck.Cuts{}); l.Boards++ },
		"a board too full": func(l *deck.Layout) {
			l.Cuts[0].Sections = append(l.Cuts[0].Sections, l.Cuts[1].Sections...)
			l.Cuts = append(l.Cuts[:1], l.Cuts[2:]...)
			l.Boards--
		},
		"a wrong offcut":    func(l *deck.Layout) { l.Cuts[0].Offcut += 5 },
		"a part nowhere":    func(l *deck.Layout) { l.Cuts[0].Sections[0].Lanes[0].Parts[0].Row = 9 },
		"a lane too wide":   func(l *deck.Layout) { l.Cuts[0].Sections[0].Lanes[0].Width += 100 },
		"a wrong count":     func(l *deck.Layout) { l.Boards++ },
		"pieces miscounted": func(l *deck.Layout) { l.Pieces++ },
		"a bound above":     func(l *deck.Layout) { l.Bound++ },
		"an unsaid proof":   func(l *deck.Layout) { l.Proven = false },
	} {
		l, err := deck.Solve(p)
		require.NoError(t, err)
		require.NoError(t, deck.Check(p, l))
		spoil(&l)
		assert.Error(t, deck.Check(p, l), name)
	}
}

// Joists as really set out: every end bears on a line that was given, and lines
// of the edge joists are the edges.
func TestLinesAsSetOut(t *testing.T) {
	t.Parallel()
	p := garage()
	p.JoistSpacing = 0
	p.Lines = []unit.Length{23.5, 430, 812.5, 1230, 1601, 2015, 2400, 2830, 3195.5, 3600, 4010, 4430, 4790, 5100, 5376.5}
	l, err := deck.Solve(p)
	require.NoError(t, err)
	require.NoError(t, deck.Check(p, l))
	given := map[unit.Length]bool{0: true, p.RowLength: true}
	for _, x := range p.Lines {
		given[x] = true
	}
	for _, row := range l.Rows {
		for _, pc := range row.Pieces {
			left, right := pc.X, pc.X+pc.Length
			if left > 0 {
				left -= p.EndGap / 2
			}
			if right < p.RowLength {
				right += p.EndGap / 2
			}
			assert.True(t, given[left] && given[right], "piece from %v to %v", left, right)
			assert.Greater(t, pc.Length, unit.Length(600), "an edge joist counted as a bay")
		}
	}
}

// The wall of an L shares its offcuts with the rest: both together never take
// more boards than each alone.
func TestRegionsShareOffcuts(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(4, 4))
	saved := 0
	for range 15 {
		both := garage()
		both.Budget = 20_000_000
		both.RowLength = unit.Length(2400 + 100*r.IntN(30))
		other := deck.Region{RowLength: unit.Length(1200 + 100*r.IntN(15)), Depth: unit.Length(600 + 100*r.IntN(12)), JoistSpacing: 400}
		alone := garage()
		alone.Budget = 20_000_000
		alone.RowLength, alone.Depth = other.RowLength, other.Depth
		a, err := deck.Solve(both)
		require.NoError(t, err)
		b, err := deck.Solve(alone)
		require.NoError(t, err)
		both.Regions = []deck.Region{other}
		ab, err := deck.Solve(both)
		require.NoError(t, err)
		require.NoError(t, deck.Check(both, ab))
		require.LessOrEqual(t, ab.Boards, a.Boards+b.Boards)
		require.GreaterOrEqual(t, ab.Boards, max(a.Boards, b.Boards))
		if ab.Boards < a.Boards+b.Boards {
			saved++
		}
	}
	require.Positive(t, saved, "no L-shaped deck gained anything")
}

// The bound never falls below what the area alone says, and a rule taken away
// never costs a board.
func TestShape(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(6, 6))
	for range 60 {
		p := smallRoof(r)
		p.EndGap, p.RowGap, p.Regions = 0, 0, nil
		l, err := deck.Solve(p)
		if err != nil {
			continue
		}
		require.NoError(t, deck.Check(p, l))
		area := p.RowLength.By(p.Depth)
		for _, st := range p.Strips {
			area += unit.Area(float64(st.Length.By(st.Height)) * float64(st.Count))
		}
		require.GreaterOrEqual(t, float64(l.Bound), math.Ceil(float64(area)/float64(p.BoardLength.By(p.BoardWidth))-1e-9))
		for _, easier := range []func(p *deck.Problem){
			func(p *deck.Problem) { p.Stagger = 0 },
			func(p *deck.Problem) { p.MinBays = 1 },
			func(p *deck.Problem) { p.Kerf = 0 },
			func(p *deck.Problem) { p.Strips = nil },
		} {
			q := p
			easier(&q)
			e, err := deck.Solve(q)
			require.NoError(t, err)
			require.LessOrEqual(t, e.Boards, l.Boards, "%+v", q)
		}
	}
}

func TestStaggerAsLength(t *testing.T) {
	t.Parallel()
	lines, length := garage(), garage()
	lines.Stagger = 2
	length.Stagger, length.StaggerLength = 1, 800 // the last bay is 200 shorter
	a, err := deck.Solve(lines)
	require.NoError(t, err)
	b, err := deck.Solve(length)
	require.NoError(t, err)
	require.NoError(t, deck.Check(length, b))
	require.NoError(t, deck.Check(lines, b), "800 mm is at least two lines here")
	require.GreaterOrEqual(t, b.Boards, a.Boards)
}

func TestBudgetAndSameness(t *testing.T) {
	t.Parallel()
	p := garage()
	p.RowLength, p.Depth, p.BoardWidth = 6000, 4100, 600
	p.Strips = []deck.Strip{{Length: 1800, Height: 150, Count: 6}}
	var before deck.Layout
	for i, budget := range []int64{1, 1e5, 1e6, 1e7} {
		p.Budget = budget
		l, err := deck.Solve(p)
		require.NoError(t, err)
		require.NoError(t, deck.Check(p, l))
		if i > 0 {
			require.LessOrEqual(t, l.Boards, before.Boards)
			require.GreaterOrEqual(t, l.Bound, before.Bound)
		}
		again, err := deck.Solve(p)
		require.NoError(t, err)
		require.Equal(t, l, again)
		before = l
	}
	require.True(t, before.Proven)
}

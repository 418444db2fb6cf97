package deck_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/deck"
	"chargehand/calc/unit"
)

// strippedRoof is a random roof of a few rows with some upstand strips.
func strippedRoof(r *rand.Rand) deck.Problem {
	p := deck.Problem{
		RowLength: unit.Length(2000 + 10*r.IntN(400)), Depth: unit.Length(900 + 10*r.IntN(300)), JoistSpacing: 400,
		BoardLength: 2400, BoardWidth: 1200, Kerf: 3, EndGap: 3, RowGap: 3, MinBays: 2, Stagger: 1, Budget: 300_000,
	}
	if r.IntN(2) == 0 {
		p.Strips = append(p.Strips, deck.Strips(unit.Length(1000+10*r.IntN(500)), unit.Length(150+r.IntN(80)), 2400, "back wall"))
	}
	if r.IntN(3) == 0 {
		p.Regions = []deck.Region{{RowLength: 1200, Depth: 800, JoistSpacing: 400}}
	}
	return p
}

// A layout that is written down and read back is the same layout: as many
// boards and pieces, the same joints, and it passes the checker.
func TestWrittenAndReadBack(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(4, 4))
	done := 0
	for range 60 {
		p := strippedRoof(r)
		l, err := deck.Solve(p)
		if err != nil {
			continue
		}
		done++
		back, err := deck.Read(p, l.Write())
		require.NoError(t, err, "%+v", p)
		assert.Equal(t, l.Boards, back.Boards)
		assert.Equal(t, l.Pieces, back.Pieces)
		assert.Equal(t, l.Bound, back.Bound)
		assert.Equal(t, l.Proven, back.Proven)
		assert.Equal(t, l.Write().Rows, back.Write().Rows)
		again, err := deck.Read(p, back.Write())
		require.NoError(t, err)
		assert.Equal(t, back, again)
	}
	require.Greater(t, done, 40)
}

// What was written for another problem, or spoiled, is refused.
func TestWhatWasSpoiledIsRefused(t *testing.T) {
	t.Parallel()
	p := deck.Problem{RowLength: 4800, Depth: 3600, JoistSpacing: 600, BoardLength: 2400, BoardWidth: 1200, Kerf: 3, MinBays: 2, Stagger: 1}
	l, err := deck.Solve(p)
	require.NoError(t, err)
	w := l.Write()
	other := p
	other.RowLength = 5400
	for name, bad := range map[string]struct {
		p deck.Problem
		w deck.Written
	}{
		"another roof":   {other, w},
		"nothing":        {p, deck.Written{}},
		"a row too many": {p, deck.Written{Rows: w.Rows + " 4", Boards: w.Boards, Bound: w.Bound}},
		"a board less":   {p, deck.Written{Rows: w.Rows, Boards: w.Boards[:len(w.Boards)-1], Bound: w.Bound}},
		"joints in line": {p, deck.Written{Rows: "4 4 4", Boards: w.Boards, Bound: w.Bound}},
		"a letter more":  {p, deck.Written{Rows: w.Rows, Boards: w.Boards + " Z", Bound: w.Bound}},
		"off the roof":   {p, deck.Written{Rows: "99 4 2", Boards: w.Boards, Bound: w.Bound}},
	} {
		_, err := deck.Read(bad.p, bad.w)
		assert.Error(t, err, name)
	}
	assert.NotEqual(t, p.Name(), other.Name())
	rich := p
	rich.Budget = 99
	assert.Equal(t, p.Name(), rich.Name(), "the budget is not the problem")
}

func FuzzRead(f *testing.F) {
	f.Add("4 2,6 4", "A A B+B", 6)
	f.Add("-", "A/B.C+D", 0)
	f.Add("1,2,3", "", -1)
	p := deck.Problem{RowLength: 4800, Depth: 3600, JoistSpacing: 600, BoardLength: 2400, BoardWidth: 1200, Kerf: 3, MinBays: 2, Stagger: 1}
	f.Fuzz(func(t *testing.T, rows, boards string, bound int) {
		l, err := deck.Read(p, deck.Written{Rows: rows, Boards: boards, Bound: bound})
		if err == nil {
			require.NoError(t, deck.Check(p, l))
		}
	})
}

// 4200 mm of wall from 2400 mm boards: two pieces of 2100 mm.
func TestStrips(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		run, board, each unit.Length
		n                int
	}{{4200, 2400, 2100, 2}, {2400, 2400, 2400, 1}, {2401, 2400, 1201, 2}, {5400, 2440, 1800, 3}, {100, 2400, 100, 1}} {
		s := deck.Strips(c.run, 178, c.board, "")
		assert.Equal(t, c.n, s.Count, "%v", c)
		assert.Equal(t, c.each, s.Length, "%v", c)
	}
}

package cut_test

import (
	"flag"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

var siteCases = flag.Int("site", 150, "cutting lists of site size to prove")

// Lists of site size, up to 60 pieces of 12 kinds from 8 stocks, are all proven
// within QuickBudget.
func TestSiteSizeIsProven(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(60, 12))
	for range *siteCases {
		n := 5 + r.IntN(56)
		p := siteProblem(r, min(1+r.IntN(12), n), n, 1+r.IntN(8))
		p.Budget = cut.QuickBudget
		l, err := cut.Solve(p)
		require.NoError(t, err, "%+v", p)
		require.NoError(t, cut.Check(p, l), "%+v", p)
		assert.True(t, l.Proven, "%+v: cost %d, bound %d", p, l.Cost, l.Bound)
	}
}

func TestSameProblemSameList(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(1, 2))
	for range 20 {
		p := siteProblem(r, 8, 40, 4)
		a, err := cut.Solve(p)
		require.NoError(t, err)
		b, err := cut.Solve(p)
		require.NoError(t, err)
		require.Equal(t, a, b)
	}
}

// A larger budget never gives a dearer list or a lower bound, and any budget
// gives a list that checks.
func TestBudget(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(3, 4))
	for range 20 {
		p := siteProblem(r, 10, 50, 5)
		var before cut.List
		for i, budget := range []int64{1, 1e3, 1e4, 1e5, 1e6, 1e7} {
			p.Budget = budget
			l, err := cut.Solve(p)
			require.NoError(t, err)
			require.NoError(t, cut.Check(p, l))
			if i > 0 {
				require.LessOrEqual(t, l.Cost, before.Cost)
				require.GreaterOrEqual(t, l.Bound, before.Bound)
			}
			before = l
		}
		require.True(t, before.Proven)
	}
}

func cost(t *testing.T, p cut.Problem) int64 {
	t.Helper()
	l, err := cut.Solve(p)
	require.NoError(t, err)
	require.True(t, l.Proven)
	return l.Cost
}

// The Shape line of Solve.
func TestShape(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 6))
	for range 60 {
		p := siteProblem(r, 1+r.IntN(6), 6+r.IntN(15), 1+r.IntN(4))
		base := cost(t, p)

		more := p
		more.Pieces = append([]cut.Piece(nil), p.Pieces...)
		more.Pieces[r.IntN(len(more.Pieces))].Count++
		assert.GreaterOrEqual(t, cost(t, more), base, "one piece more costs less")

		turned := p
		turned.Pieces, turned.Stocks = nil, nil
		for i := range p.Pieces {
			turned.Pieces = append(turned.Pieces, p.Pieces[len(p.Pieces)-1-i])
		}
		for i := range p.Stocks {
			turned.Stocks = append(turned.Stocks, p.Stocks[len(p.Stocks)-1-i])
		}
		assert.Equal(t, base, cost(t, turned), "the order matters")

		thin := p
		thin.Kerf = 0
		assert.LessOrEqual(t, cost(t, thin), base, "a thinner saw costs more")

		inches := p // every length the same in another unit
		inches.Kerf, inches.Trim = p.Kerf*2, p.Trim*2
		inches.Pieces, inches.Stocks = nil, nil
		for _, pc := range p.Pieces {
			inches.Pieces = append(inches.Pieces, cut.Piece{Length: pc.Length * 2, Count: pc.Count})
		}
		for _, s := range p.Stocks {
			inches.Stocks = append(inches.Stocks, cut.Stock{Length: s.Length * 2, Cost: s.Cost, Available: s.Available})
		}
		assert.Equal(t, base, cost(t, inches), "the unit matters")
	}
}

func TestGroupsAndLetters(t *testing.T) {
	t.Parallel()
	p := cut.Problem{
		Stocks: []cut.Stock{{Length: 4800, Cost: 1, Available: cut.Unlimited}},
		Pieces: []cut.Piece{
			{Length: 1200, Count: 4, Label: "noggins"}, {Length: 3500, Count: 4, Label: "joists"}, {Length: 1200, Count: 1, Label: "trimmer"},
		},
		Kerf: 3,
	}
	l, err := cut.Solve(p)
	require.NoError(t, err)
	require.NoError(t, cut.Check(p, l))
	require.Equal(t, 5, l.Count)
	groups := l.Groups()
	require.Len(t, groups, 2)
	assert.Equal(t, 4, groups[0].Times)
	assert.Equal(t, "A", groups[0].Cuts[0].Letter)
	assert.Equal(t, "B", groups[0].Cuts[1].Letter)
	assert.Equal(t, unit.Length(4800-3500-1200-2*3), groups[0].Offcut)
	assert.Equal(t, 1, groups[1].Times)
	assert.Equal(t, 2, groups[1].Cuts[0].Piece, "pieces alike keep the order they were asked for")
	assert.Equal(t, []string{"A", "Z", "AA", "AZ", "BA", "ZZ", "AAA"}, []string{
		cut.Letter(0), cut.Letter(25), cut.Letter(26), cut.Letter(51), cut.Letter(52), cut.Letter(701), cut.Letter(702),
	})
}

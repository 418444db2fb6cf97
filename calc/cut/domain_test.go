package cut_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc"
	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

func simple() cut.Problem {
	return cut.Problem{
		Stocks: []cut.Stock{{Length: 3000, Cost: 10, Available: cut.Unlimited}},
		Pieces: []cut.Piece{{Length: 900, Count: 3}},
		Kerf:   3, Trim: 10,
	}
}

func TestDomain(t *testing.T) {
	t.Parallel()
	for field, spoil := range map[string]func(p *cut.Problem){
		"kerf_mm":             func(p *cut.Problem) { p.Kerf = -0.1 },
		"kerf_mm ":            func(p *cut.Problem) { p.Kerf = 100.1 },
		"kerf_mm  ":           func(p *cut.Problem) { p.Kerf = unit.Length(math.NaN()) },
		"trim_mm":             func(p *cut.Problem) { p.Trim = 5001 },
		"budget":              func(p *cut.Problem) { p.Budget = -1 },
		"pieces":              func(p *cut.Problem) { p.Pieces = nil },
		"pieces ":             func(p *cut.Problem) { p.Pieces = []cut.Piece{{900, 1500, ""}, {800, 501, ""}} },
		"pieces[0].length_mm": func(p *cut.Problem) { p.Pieces[0].Length = 0 },
		"pieces[0].length_mm ": func(p *cut.Problem) {
			p.Pieces[0].Length = 2990.1 // a tenth longer than the bar less trim
		},
		"pieces[0].length_mm  ": func(p *cut.Problem) { p.Pieces[0].Length = 900.05 },
		"pieces[0].length_mm   ": func(p *cut.Problem) {
			p.Pieces[0].Length = unit.Length(math.Inf(1))
		},
		"pieces[0].count":    func(p *cut.Problem) { p.Pieces[0].Count = 0 },
		"stock":              func(p *cut.Problem) { p.Stocks = nil },
		"stock ":             func(p *cut.Problem) { p.Stocks[0].Available = 0 },
		"stock  ":            func(p *cut.Problem) { p.Stocks[0].Available, p.Pieces[0].Count = 1, 4 },
		"stock[0].length_mm": func(p *cut.Problem) { p.Stocks[0].Length = 100_001 },
		"stock[0].cost":      func(p *cut.Problem) { p.Stocks[0].Cost = -1 },
		"stock[0].cost ":     func(p *cut.Problem) { p.Stocks[0].Cost = 0 },
		"stock[0].available": func(p *cut.Problem) { p.Stocks[0].Available = -2 },
	} {
		p := simple()
		spoil(&p)
		_, err := cut.Solve(p)
		var outside *calc.DomainError
		if assert.ErrorAs(t, err, &outside, field) {
			assert.Equal(t, trimmed(field), outside.Field)
		}
	}
	edge := simple()
	edge.Pieces[0].Length = 2990 // exactly the bar less trim
	l, err := cut.Solve(edge)
	require.NoError(t, err)
	assert.Equal(t, 3, l.Count)
	assert.Zero(t, l.Bars[0].Offcut)
	free := simple() // leftovers on site, at no cost
	free.Stocks[0] = cut.Stock{Length: 3000, Available: 1}
	l, err = cut.Solve(free)
	require.NoError(t, err)
	assert.True(t, l.Proven)
	assert.Zero(t, l.Cost)
}

func trimmed(s string) string {
	for len(s) > 0 && s[len(s)-1] == ' ' {
		s = s[:len(s)-1]
	}
	return s
}

// Check finds every kind of fault that a list can have.
func TestCheckRefuses(t *testing.T) {
	t.Parallel()
	p := simple()
	p.Pieces[0].Count = 5
	for name, spoil := range map[string]func(l *cut.List){
		"a piece missing": func(l *cut.List) { l.Bars[1].Cuts = l.Bars[1].Cuts[:1] },
		"a bar missing":   func(l *cut.List) { l.Bars = l.Bars[:1] },
		"a bar too full":  func(l *cut.List) { l.Bars[0].Cuts = append(l.Bars[0].Cuts, l.Bars[1].Cuts...) },
		"an empty bar":    func(l *cut.List) { l.Bars[1].Cuts = nil },
		"no such stock":   func(l *cut.List) { l.Bars[0].Stock = 1 },
		"no such piece":   func(l *cut.List) { l.Bars[0].Cuts[0].Piece = 7 },
		"a wrong length":  func(l *cut.List) { l.Bars[0].Cuts[0].Length = 899 },
		"a wrong bar":     func(l *cut.List) { l.Bars[0].Length = 3600 },
		"a wrong offcut":  func(l *cut.List) { l.Bars[0].Offcut++ },
		"a wrong count":   func(l *cut.List) { l.Count++ },
		"a wrong cost":    func(l *cut.List) { l.Cost-- },
		"a bound above":   func(l *cut.List) { l.Bound = l.Cost + 1 },
		"a false proof":   func(l *cut.List) { l.Bound-- },
		"an unsaid proof": func(l *cut.List) { l.Proven = false },
	} {
		l, err := cut.Solve(p)
		require.NoError(t, err)
		require.NoError(t, cut.Check(p, l))
		spoil(&l)
		assert.Error(t, cut.Check(p, l), name)
	}
	l, err := cut.Solve(p)
	require.NoError(t, err)
	p.Stocks[0].Available = 1
	assert.Error(t, cut.Check(p, l), "more bars than there are")
}

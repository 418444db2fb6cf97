package lp_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/calc/cut/lp"
)

// The diet of two foods in every first course: least cost 0.6x+0.35y with
// 5x+7y ≥ 8, 4x+2y ≥ 15, 2x+y ≥ 3. Corners by hand: (3.75, 0) costs 2.25,
// and y = 7.5, x = 0 costs 2.625.
func TestTwoFoods(t *testing.T) {
	t.Parallel()
	p := lp.New([]float64{8, 15, 3}, []bool{false, false, false})
	x := p.Add(lp.Column{Cost: 0.6, Rows: []int{0, 1, 2}, Coef: []float64{5, 4, 2}})
	y := p.Add(lp.Column{Cost: 0.35, Rows: []int{0, 1, 2}, Coef: []float64{7, 2, 1}})
	require.True(t, p.Solve())
	assert.InDelta(t, 2.25, p.Objective(), 1e-9)
	assert.InDelta(t, 3.75, p.Value(x), 1e-9)
	assert.Zero(t, p.Value(y))
	assert.InDelta(t, 0, p.Missing(), 1e-9)
}

// optimal checks a solution by what makes one optimal: it is feasible, the
// duals are, and both cost the same. No solver is asked.
func optimal(t *testing.T, p *lp.Program, cols []lp.Column, first int, rhs []float64, atMax []bool) {
	t.Helper()
	lhs := make([]float64, len(rhs))
	primal, dual := 0.0, 0.0
	for j, c := range cols {
		x := p.Value(first + j)
		require.GreaterOrEqual(t, x, -1e-7)
		primal += c.Cost * x
		slope := c.Cost
		for k, i := range c.Rows {
			lhs[i] += c.Coef[k] * x
			slope -= c.Coef[k] * p.Duals()[i]
		}
		require.GreaterOrEqual(t, slope, -1e-6, "column %d", j)
	}
	for i, b := range rhs {
		if atMax[i] {
			require.LessOrEqual(t, lhs[i], b+1e-6)
			require.LessOrEqual(t, p.Duals()[i], 1e-6)
		} else {
			require.GreaterOrEqual(t, lhs[i], b-1e-6)
			require.GreaterOrEqual(t, p.Duals()[i], -1e-6)
		}
		dual += p.Duals()[i] * b
	}
	require.InDelta(t, primal, dual, 1e-5)
}

// Random programs: solved, grown by columns, and changed in what they ask.
func TestOptimalityAndWarmStarts(t *testing.T) {
	t.Parallel()
	r := rand.New(rand.NewPCG(5, 5))
	for range 150 {
		m := 2 + r.IntN(8)
		rhs, atMax := make([]float64, m), make([]bool, m)
		for i := range m {
			rhs[i] = float64(1 + r.IntN(20))
			if i == 0 {
				rhs[i], atMax[i] = float64(100+r.IntN(100)), true
			}
		}
		p := lp.New(rhs, atMax)
		first := p.Columns()
		var cols []lp.Column
		add := func(rows ...int) {
			c := lp.Column{Cost: 0.5 + r.Float64()}
			for _, i := range rows {
				c.Rows, c.Coef = append(c.Rows, i), append(c.Coef, float64(1+r.IntN(3)))
			}
			p.Add(c)
			cols = append(cols, c)
		}
		for i := 1; i < m; i++ {
			add(i)
		}
		require.True(t, p.Solve())
		optimal(t, p, cols, first, rhs, atMax)
		for range 10 {
			add(0, 1+r.IntN(m-1))
		}
		require.True(t, p.Solve())
		optimal(t, p, cols, first, rhs, atMax)

		before := p.Clone()
		for i := 1; i < m; i++ {
			rhs[i] = float64(r.IntN(15))
		}
		p.SetRHS(rhs)
		require.True(t, p.Restore())
		require.True(t, p.Solve())
		optimal(t, p, cols, first, rhs, atMax)
		require.NotSame(t, before, p)
		require.Positive(t, p.Work())

		// Without the columns in use the rest still has to do.
		var ban []int
		for j := range cols {
			if p.Value(first+j) > 1e-9 && j >= m-1 {
				ban = append(ban, first+j)
			}
		}
		p.Ban(ban)
		require.True(t, p.Solve())
		for _, j := range ban {
			require.InDelta(t, 0, p.Value(j), 1e-7)
		}
		objective := p.Objective()
		kept := p.Drop(first, func(j int) bool { return p.Value(j) == 0 })
		require.NotEmpty(t, kept)
		require.InDelta(t, objective, p.Objective(), 1e-9)
	}
}

// A program that cannot be met says so.
func TestMissing(t *testing.T) {
	t.Parallel()
	p := lp.New([]float64{4, 1}, []bool{false, true})
	p.Add(lp.Column{Cost: 1, Rows: []int{0, 1}, Coef: []float64{2, 1}})
	require.True(t, p.Solve())
	assert.InDelta(t, 2, p.Missing(), 1e-9)
}

package cut_test

import (
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/calc/cut"
)

// BenchmarkSite prints, for the same forty lists of site size, the mean cost
// and the time of the proven search, of best-fit alone (a budget of 1) and of
// the reference solvers. Lists too large for the solvers' model are left out.
func BenchmarkSite(b *testing.B) {
	r := rand.New(rand.NewPCG(99, 1))
	var lists []cut.Problem
	for len(lists) < 40 {
		n := 10 + r.IntN(40)
		p := siteProblem(r, min(3+r.IntN(8), n), n, 1+r.IntN(6))
		if len(model(p)) < 200_000 {
			lists = append(lists, p)
		}
	}
	run := func(b *testing.B, cost func(p cut.Problem) float64) {
		sum := 0.0
		for b.Loop() {
			sum = 0
			for _, p := range lists {
				sum += cost(p)
			}
		}
		b.ReportMetric(sum/float64(len(lists)), "cost/list")
		b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*len(lists)), "µs/list")
	}
	solve := func(budget int64) func(p cut.Problem) float64 {
		return func(p cut.Problem) float64 {
			p.Budget = budget
			l, err := cut.Solve(p)
			require.NoError(b, err)
			return float64(l.Cost)
		}
	}
	b.Run("proven", func(b *testing.B) { run(b, solve(cut.QuickBudget)) })
	b.Run("best-fit", func(b *testing.B) { run(b, solve(1)) })
	for _, m := range referenceSolvers(b) {
		b.Run(m.name, func(b *testing.B) {
			run(b, func(p cut.Problem) float64 {
				c, ok := m.solve(b, model(p))
				if !ok {
					l, err := cut.Solve(p) // it ran out of time: credit it with the optimum
					require.NoError(b, err)
					return float64(l.Cost)
				}
				return c
			})
		})
	}
}

// BenchmarkPublished prints the share of published rows proven, and the time.
func BenchmarkPublished(b *testing.B) {
	rows := bins(b, worked+"orlibrary.csv")
	if dir := os.Getenv("CHECKS_DIR"); dir != "" {
		rows = bins(b, filepath.Join(dir, "binpack", "literature.csv"))
	}
	proven := 0
	for b.Loop() {
		proven = 0
		for _, in := range rows {
			l, err := cut.Solve(in.problem)
			require.NoError(b, err)
			if l.Proven {
				proven++
			}
		}
	}
	b.ReportMetric(100*float64(proven)/float64(len(rows)), "%proven")
	b.ReportMetric(float64(b.Elapsed().Milliseconds())/float64(b.N*len(rows)), "ms/row")
}

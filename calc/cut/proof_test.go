package cut

import (
	"encoding/csv"
	"math/rand/v2"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/calc/unit"
)

// published reads the worked rows for tests that look inside the search.
func published(t *testing.T) (problems []Problem, optima []int64) {
	t.Helper()
	num := func(s string) int {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		return n
	}
	read := func(name string) [][]string {
		file, err := os.Open("../../testdata/worked/cutting/" + name)
		require.NoError(t, err)
		defer file.Close()
		all, err := csv.NewReader(file).ReadAll()
		require.NoError(t, err)
		require.Greater(t, len(all), 1)
		return all[1:]
	}
	wanted := func(s string) (out []Piece) {
		for _, part := range strings.Split(s, ";") {
			l, n, _ := strings.Cut(part, ":")
			out = append(out, Piece{Length: unit.Length(num(l)), Count: num(n)})
		}
		return out
	}
	for _, r := range read("multistock.csv") {
		p := Problem{Kerf: unit.Length(num(r[2])), Trim: unit.Length(num(r[3])), Pieces: wanted(r[7])}
		for _, part := range strings.Split(r[4], ";") {
			f := strings.Split(part, ":")
			p.Stocks = append(p.Stocks, Stock{unit.Length(num(f[0])), int64(num(f[1])), num(f[2])})
		}
		problems, optima = append(problems, p), append(optima, int64(num(r[8])))
	}
	for _, r := range read("orlibrary.csv") {
		problems = append(problems, Problem{Stocks: []Stock{{unit.Length(num(r[2])), 1, Unlimited}}, Pieces: wanted(r[6])})
		optima = append(optima, int64(num(r[5])))
	}
	return problems, optima
}

// A relaxation stopped too early has duals that are no bound at all as they
// stand. Whatever round it is stopped in, what is proven must hold.
func TestUnconvergedRelaxationProvesNothingFalse(t *testing.T) {
	t.Parallel()
	problems, optima := published(t)
	early := 0
	for i, p := range problems {
		f, err := fold(p)
		require.NoError(t, err)
		s := newSearch(&f, DefaultBudget)
		n := f.root()
		r := s.begin(n)
		for range 60 {
			r.prog.Solve()
			value, own := s.duals(r, n)
			proof, improved := s.price(r, n, value, own, 0)
			require.LessOrEqual(t, proof.bound, optima[i], "%+v", p)
			s.mixed(&proof, n, 0)
			require.LessOrEqual(t, proof.bound, optima[i], "%+v", p)
			if !improved {
				break
			}
			if r.prog.Objective()*float64(s.most) > float64(optima[i])+1e-6 {
				early++ // the objective read as a bound would have been false
			}
		}
	}
	require.Positive(t, early, "no relaxation was caught unconverged")
}

// Any values at all make a true proof.
func TestAnyValuesProveNothingFalse(t *testing.T) {
	t.Parallel()
	problems, optima := published(t)
	r := rand.New(rand.NewPCG(8, 15))
	for i, p := range problems {
		f, err := fold(p)
		require.NoError(t, err)
		s := newSearch(&f, DefaultBudget)
		n := f.root()
		for range 20 {
			value := make([]int64, len(f.size))
			for j := range value {
				value[j] = int64(float64(s.scale) * float64(s.most) * r.Float64() * r.Float64())
			}
			s.table.Run(value, n.demand)
			worth := make([]int64, len(f.kinds))
			for k, c := range f.kinds {
				_, worth[k] = s.table.Best(c.room)
			}
			proof := s.prove(n, value, worth, 0)
			s.mixed(&proof, n, 0)
			require.LessOrEqual(t, proof.bound, optima[i], "%+v", p)
		}
	}
}

// The list is never dearer than best-fit's, however little work is allowed.
func TestNeverWorseThanBestFit(t *testing.T) {
	t.Parallel()
	problems, _ := published(t)
	for _, p := range problems {
		f, err := fold(p)
		require.NoError(t, err)
		for _, p.Budget = range []int64{1, 10_000, 1_000_000} {
			l, err := Solve(p)
			require.NoError(t, err)
			require.LessOrEqual(t, l.Cost, f.cost(f.fitRest(f.root())))
		}
	}
}

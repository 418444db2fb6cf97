package cut_test

import (
	"errors"
	"testing"

	"chargehand/calc"
	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

// FuzzSolve feeds the search lengths, counts and prices as they come. Whatever
// they are, the answer is a list that checks or a domain error.
func FuzzSolve(f *testing.F) {
	f.Add(3.0, 0.0, 2400.0, int64(41), -1, 3600.0, int64(0), 2, 2035.0, 1, 517.0, 3, 1938.0, 2)
	f.Add(0.0, 10.0, 1000.0, int64(1), -1, 1000.0, int64(1), 0, 333.3, 9, 250.1, 7, 990.0, 1)
	f.Add(100.0, 5000.0, 5000.1, int64(100_000_000), 1, 0.1, int64(1), -1, 0.1, 40, 0.2, 40, 0.3, 40)
	f.Add(-1.0, 0.0, 1e300, int64(-4), -7, 2.0, int64(9), 9, 0.0, -1, 5.0, 0, 1.0, 5000)
	f.Fuzz(func(t *testing.T, kerf, trim, l1 float64, c1 int64, a1 int, l2 float64, c2 int64, a2 int, p1 float64, n1 int, p2 float64, n2 int, p3 float64, n3 int) {
		p := cut.Problem{
			Stocks: []cut.Stock{{unit.Length(l1), c1, a1}, {unit.Length(l2), c2, a2}},
			Pieces: []cut.Piece{{unit.Length(p1), n1, ""}, {unit.Length(p2), n2, ""}, {unit.Length(p3), n3, ""}},
			Kerf:   unit.Length(kerf), Trim: unit.Length(trim), Budget: 1_000_000,
		}
		l, err := cut.Solve(p)
		var outside *calc.DomainError
		if errors.As(err, &outside) {
			return
		}
		if err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
		if err := cut.Check(p, l); err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
	})
}

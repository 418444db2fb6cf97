package deck_test

import (
	"errors"
	"testing"

	"chargehand/calc"
	"chargehand/calc/deck"
	"chargehand/calc/unit"
)

// FuzzSolve feeds decks as they come. Whatever they are, the answer is a layout
// that checks or a domain error.
func FuzzSolve(f *testing.F) {
	f.Add(5500.0, 2900.0, 400.0, 2400.0, 1200.0, 3.0, 3.0, 0.0, 2, 1, 0.0, 1800.0, 150.0, 3, 2000.0, 900.0)
	f.Add(4400.0, 4160.0, 407.2, 2440.0, 1220.0, 2.2, 0.1, 1.0, 1, 0, 400.0, 300.0, 1220.0, 1, 100.0, 10.0)
	f.Add(30000.0, 600.0, 100.0, 10000.0, 50.0, 50.0, 50.0, 50.0, 1, 0, 0.0, 1.0, 1.0, 40, 100.0, 10.0)
	f.Add(-1.0, 1e300, 0.0, 0.05, -50.0, 0.0, 0.0, 0.0, -3, 99, 1e9, 0.0, 0.0, 0, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, row, depth, spacing, bl, bw, kerf, end, gap float64, bays, stagger int, staggerMM, sl, sh float64, sn int, row2, depth2 float64) {
		p := deck.Problem{
			RowLength: unit.Length(row), Depth: unit.Length(depth), JoistSpacing: unit.Length(spacing),
			BoardLength: unit.Length(bl), BoardWidth: unit.Length(bw),
			Kerf: unit.Length(kerf), EndGap: unit.Length(end), RowGap: unit.Length(gap),
			MinBays: bays, Stagger: stagger, StaggerLength: unit.Length(staggerMM), Budget: 300_000,
		}
		if sn > 0 {
			p.Strips = []deck.Strip{{Length: unit.Length(sl), Height: unit.Length(sh), Count: sn}}
		}
		if row2 > 0 {
			p.Regions = []deck.Region{{RowLength: unit.Length(row2), Depth: unit.Length(depth2), JoistSpacing: unit.Length(spacing)}}
		}
		l, err := deck.Solve(p)
		var outside *calc.DomainError
		if errors.As(err, &outside) {
			return
		}
		if err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
		if err := deck.Check(p, l); err != nil {
			t.Fatalf("%+v: %v", p, err)
		}
	})
}

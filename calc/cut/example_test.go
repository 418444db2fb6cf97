package cut_test

import (
	"fmt"

	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

// Firrings and noggins from two stock lengths, prices in pence, and a length
// left over on site.
func ExampleSolve() {
	p := cut.Problem{
		Stocks: []cut.Stock{
			{Length: 4800 * unit.Millimetre, Cost: 1250, Available: cut.Unlimited},
			{Length: 3.6 * unit.Metre, Cost: 980, Available: cut.Unlimited},
			{Length: 2100 * unit.Millimetre, Cost: 0, Available: 1},
		},
		Pieces: []cut.Piece{
			{Length: 2350, Count: 5, Label: "firrings"},
			{Length: 353, Count: 12, Label: "noggins"},
		},
		Kerf: 3,
	}
	l, err := cut.Solve(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, g := range l.Groups() {
		fmt.Printf("%d × %.0f:", g.Times, g.Length.In(unit.Millimetre))
		for _, c := range g.Cuts {
			fmt.Printf(" %s %.0f", c.Letter, c.Length.In(unit.Millimetre))
		}
		fmt.Printf(", %.0f left\n", g.Offcut.In(unit.Millimetre))
	}
	fmt.Println("pence:", l.Cost, "proven:", l.Proven, "check:", cut.Check(p, l))
	// Output:
	// 1 × 4800: A 2350 A 2350, 94 left
	// 3 × 3600: A 2350 B 353 B 353 B 353, 179 left
	// 1 × 2100: B 353 B 353 B 353, 1032 left
	// pence: 4190 proven: true check: <nil>
}

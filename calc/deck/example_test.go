package deck_test

import (
	"fmt"

	"chargehand/calc/deck"
	"chargehand/calc/unit"
)

// A garage of 5.5 m by 2.9 m, joists at 400, boards of 2400 by 1200.
func ExampleSolve() {
	p := deck.Problem{
		RowLength: 5.5 * unit.Metre, Depth: 2.9 * unit.Metre, JoistSpacing: 400,
		BoardLength: 2400, BoardWidth: 1200,
		Kerf: 3, EndGap: 3, MinBays: 2, Stagger: 1,
	}
	l, err := deck.Solve(p)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, row := range l.Rows {
		fmt.Printf("row %d, %.0f wide:", i+1, row.Width.In(unit.Millimetre))
		for _, pc := range row.Pieces {
			fmt.Printf(" %s %g", pc.Letter, pc.Length.In(unit.Millimetre))
		}
		fmt.Println()
	}
	fmt.Println(l.Boards, "boards, proven:", l.Proven, "check:", deck.Check(p, l))
	// Output:
	// row 1, 1200 wide: A 2398.5 F 797 C 2298.5
	// row 2, 1200 wide: D 1598.5 B 2397 E 1498.5
	// row 3, 500 wide: I 798.5 G 2397 H 2298.5
	// 6 boards, proven: true check: <nil>
}

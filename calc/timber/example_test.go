package timber_test

import (
	"fmt"

	"chargehand/calc/timber"
	"chargehand/calc/unit"
)

// A garage roof of our own: 47 x 145 C16 at 400.5 mm, no ceiling, 2.60 m clear.
func ExampleCheck() {
	j := timber.Joist{
		Section: timber.Section{B: 47, H: 145}, Grade: "C16", Centres: 400.5,
		Dead: 0.25 * unit.KilonewtonPerM2, Ceiling: timber.CeilingNone,
	}
	res, err := timber.Check(j, 2600)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range res.Conditions {
		fmt.Printf("%-18s %5.2f of %5.2f %s, %.0f %% (%s)\n", c.Name, c.Demand, c.Limit, c.Unit, 100*c.Utilisation(), c.Case)
	}
	fmt.Println(res.Status, res.GovernedBy)
	// Output:
	// bending             6.33 of 12.27 N/mm², 52 % (point)
	// stability           6.33 of 12.27 N/mm², 52 % (point)
	// shear               0.49 of  2.44 N/mm², 20 % (point)
	// bearing             0.42 of  2.28 N/mm², 18 % (point)
	// deflection_final    5.44 of 17.67 mm, 31 % (point)
	// deflection_instant  3.86 of 17.67 mm, 22 % (point)
	// within bending
}

// Why a printed span table is not a check of EN 1995-1-1, and the other way
// round: the same joist by the rules of the older tables.
func ExampleMaxClearSpan() {
	j := timber.Joist{Section: timber.Section{B: 47, H: 170}, Grade: "C16", Centres: 400, Dead: 0.5 * unit.KilonewtonPerM2}
	for _, m := range []timber.Method{timber.EC5, timber.BS5268} {
		j.Method = m
		span, by, err := timber.MaxClearSpan(j)
		fmt.Printf("%s %.2f m %s %v\n", m, span.In(unit.Metre), by, err)
	}
	// Output:
	// ec5 3.83 m deflection_final <nil>
	// bs5268 3.97 m deflection_final <nil>
}

func ExampleLimitsOfCuts() {
	lim, err := timber.LimitsOfCuts(timber.CutUK, 145, 2600)
	fmt.Printf("notch up to %.0f mm deep from %.0f to %.0f mm, hole up to %.0f mm from %.0f to %.0f mm %v\n",
		float64(lim.NotchDepth), float64(lim.NotchFrom), float64(lim.NotchTo),
		float64(lim.HoleDiameter), float64(lim.HoleFrom), float64(lim.HoleTo), err)
	// Output:
	// notch up to 18 mm deep from 182 to 650 mm, hole up to 36 mm from 650 to 1040 mm <nil>
}

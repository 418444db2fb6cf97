package fixings_test

import (
	"fmt"

	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

func ExampleRun() {
	row, err := fixings.Run(fixings.Plate, 5500)
	fmt.Printf("%d, first %v, then every %.0f mm, %v\n", row.Count, row.First, float64(row.Spacing), err)
	// Output: 10, first 150 mm, then every 578 mm, <nil>
}

func ExampleNetUplift() {
	// A timber hall: 50 m² of roof, 0.5 kN/m², wind lifting with 1.0 kN/m².
	net, _ := fixings.NetUplift(50*unit.Kilonewton, 25*unit.Kilonewton)
	n, _ := fixings.Needed(net, 7*unit.Kilonewton)
	fmt.Println(net.In(unit.Kilonewton), n)
	// Output: 52.5 8
}

func ExampleFitAnchor() {
	// The packet holds 40 mm, the plate is 75.
	fit, _ := fixings.FitAnchor(fixings.Packet{Diameter: 10, Length: 130, MaxFixture: 40, Embedment: 70}, 75, 0)
	fmt.Println("sink", fit.Sink, "left", fit.Left)
	// Output: sink 35 mm left 40 mm
}

func ExampleLedgerSpacing() {
	// A lag screw of 1.69 kN, 50 lb/ft², joists of 8 ft: the published row says 23 in.
	s, _ := fixings.LedgerSpacing(1690, 2.394*unit.KilonewtonPerM2, 8*unit.Foot)
	fmt.Printf("%.0f in\n", s.In(unit.Inch))
	// Output: 23 in
}

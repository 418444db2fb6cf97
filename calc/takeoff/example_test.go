package takeoff_test

import (
	"fmt"

	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

func ExamplePacks() {
	tins := []takeoff.PackSize{{Size: 2.5}, {Size: 5}, {Size: 10}, {Size: 15}}
	// 14.8 m² at 3 m² a litre, and 10 % waste.
	p, err := takeoff.Packs(14.8/3, 0.1*14.8/3, tins)
	fmt.Println(p.Packs, p.ToBuy, err)
	// Output: [{5 1} {2.5 1}] 7.5 <nil>
}

func ExampleList() {
	field := 13.52 * unit.SquareMetre
	bill, err := takeoff.List(takeoff.Input{FieldArea: &field, BarRuns: []unit.Length{5400, 3200, 5400}})
	for _, l := range bill.Lines {
		if l.Where == takeoff.Roofing {
			fmt.Printf("%s %.2f + %.2f %s: buy %v, tight %v, or %v\n", l.Key, l.Needed, l.Waste, l.Unit, l.Packs, l.Tight, l.Offer)
		}
	}
	fmt.Println(len(bill.Missing) > 0, err)
	// Output:
	// deck-adhesive 4.51 + 0.45 l: buy [{5 1}], tight true, or [{5 1} {2.5 1}]
	// water-stop 2.33 + 0.23 cartridge: buy [{1 3}], tight false, or []
	// bar 14.00 + 0.70 m: buy [{3 5}], tight true, or [{3 1} {2.5 5}]
	// bar-screws 73.00 + 8.00 each: buy [{100 1}], tight false, or []
	// true <nil>
}

func ExampleDelivered() {
	line := takeoff.Line{Key: takeoff.DeckAdhesive, Needed: 4.93, Waste: 0.493, ToBuy: 7.5, Packs: []takeoff.Pack{{Size: 5, Count: 1}, {Size: 2.5, Count: 1}}}
	d, err := takeoff.Delivered(line, []takeoff.Pack{{Size: 5, Count: 1}})
	fmt.Println(d.Arrival, "still to get", d.ToGet, err)
	// Output: into-waste still to get [{2.5 1}] <nil>
}

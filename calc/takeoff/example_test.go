package takeoff_test

import (
	"fmt"

	"chargehand/calc/takeoff"
)

func ExamplePacks() {
	tins := []takeoff.PackSize{{Size: 2.5}, {Size: 5}, {Size: 10}, {Size: 15}}
	// 14.8 m² at 3 m² a litre, and 10 % waste.
	p, err := takeoff.Packs(14.8/3, 0.1*14.8/3, tins)
	fmt.Println(p.Packs, p.ToBuy, err)
	// Output: [{5 1} {2.5 1}] 7.5 <nil>
}

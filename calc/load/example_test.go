package load_test

import (
	"fmt"

	"chargehand/calc/load"
	"chargehand/calc/unit"
)

func ExampleDead() {
	total, _, err := load.Dead([]load.Layer{
		{Material: "osb", Thickness: 18},
		{Material: "rubber sheet", Thickness: 1.2},
		{Material: "adhesive", Weight: 0.5},
	})
	fmt.Println(total, err)
	// Output:
	// 0.116 kN/m² <nil>
}

// Snow against the house wall 2.7 m above a garage roof 3 m deep.
func ExampleStepBank() {
	uk, err := load.SetOf("UK")
	if err != nil {
		fmt.Println(err)
		return
	}
	ground, err := load.GroundSnowUK(3, 80*unit.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	s := load.Step{Set: uk, Ground: ground, Height: 2.7 * unit.Metre, Lower: 3 * unit.Metre, Upper: 8 * unit.Metre}
	for _, form := range []func(load.Step) (load.Bank, error){load.StepBank, load.ExceptionalStepBank} {
		b, err := form(s)
		fmt.Printf("%s: %s over %s, accidental %v %v\n", b.Clause, b.Peak(ground), b.Length, b.Accidental, err)
	}
	// Output:
	// EN 1991-1-3 5.3.6: 0.941 kN/m² over 5400 mm, accidental false <nil>
	// EN 1991-1-3 B.3: 2.463 kN/m² over 3000 mm, accidental true <nil>
}

func ExampleUplift() {
	uk, err := load.SetOf("")
	if err != nil {
		fmt.Println(err)
		return
	}
	net, err := load.Uplift{Set: uk, Wind: 1.0 * unit.KilonewtonPerM2, Dead: 0.25 * unit.KilonewtonPerM2}.Net()
	fmt.Println(net, err)
	// Output:
	// 1.275 kN/m² <nil>
}

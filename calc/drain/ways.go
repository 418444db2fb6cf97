package drain

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// DrainedFrom is the area above which a roof needs a gutter.
// Source: NHBC Standards 7.2.22.
const DrainedFrom = 6 * unit.SquareMetre

// Closed is a roof closed in by parapets, its outlets through them.
type Closed struct {
	Outlets, Overflows int
	Overflow           unit.Length   // bottom of the overflow above the finished roof at it; not read without one
	Limits             []unit.Length // above the same point: tops of upstands, door sills
}

// Ways says whether the water has two ways out.
type Ways struct {
	Enough bool        // two outlets, or one and an overflow
	Below  unit.Length // how far the overflow lies below the lowest limit; 0 or less: the roof floods into the house first
	OK     bool
}

// WaysOut judges the outlets of a roof closed in by parapets.
//
// Source: one outlet and an overflow NHBC Standards 7.1.5; two outlets from memory; the overflow below every sill and upstand top NHBC 7.1.5.
// Domain: counts 0 to 20; heights 0 to 2000 mm; at least one limit when there is an overflow.
// Ignores: the size of the outlets.
// Errors: DomainError only.
func WaysOut(c Closed) (Ways, error) {
	const op = "drain.ways"
	if err := calc.Outside(op, "outlets", float64(c.Outlets), 0, 20, "outlets"); err != nil {
		return Ways{}, err
	}
	if err := calc.Outside(op, "overflows", float64(c.Overflows), 0, 20, "overflows"); err != nil {
		return Ways{}, err
	}
	w := Ways{Enough: c.Outlets >= 2 || c.Outlets == 1 && c.Overflows >= 1}
	if c.Overflows == 0 {
		w.OK = w.Enough
		return w, nil
	}
	if err := calc.Outside(op, "overflow_mm", float64(c.Overflow), 0, 2000, "mm"); err != nil {
		return Ways{}, err
	}
	if err := calc.Outside(op, "limits_mm", float64(len(c.Limits)), 1, 40, "heights"); err != nil {
		return Ways{}, err
	}
	for i, l := range c.Limits {
		if err := calc.Outside(op, "limits_mm", float64(l), 0, 2000, "mm"); err != nil {
			return Ways{}, err
		}
		if below := l - c.Overflow; i == 0 || below < w.Below {
			w.Below = below
		}
	}
	w.OK = w.Enough && w.Below > 0
	return w, nil
}

package glue

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// CoverageID names the check of litres against area.
const CoverageID = "glue.coverage/1"

// Coverage is how far a litre goes, in m² a litre.
type Coverage float64

// What a litre covers where the tin is silent.
//
// Source: common practice, no source. Contact counts both faces, as m² of bond;
// labels run down to 1.5.
const (
	WetCoverage     Coverage = 3
	ContactCoverage Coverage = 2
)

// uneven is how far from the label a film may be before it is thin or thick.
const uneven = 0.2

// Consumed is a film as it was spread.
type Consumed struct {
	Coverage Coverage // of this batch
	Share    float64  // litres used over litres expected; 1 = as the label
	Film     Film     // Thin under 0.8, Thick over 1.2
}

// Consumption compares the litres used on an area with the label.
//
//	share = V/(A/c_label);  thin < 0.8, thick > 1.2
//
// Source: common practice, no source.
// Units: in and out by type, coverage m²/l.
// Shape: linear in the litres, inverse in area; the label's own litres give 1.
// Domain: 0.01..200 l, 0.05..1000 m², coverage 0.5..20 m²/l.
// Ignores: what stayed in the tray.
// Errors: DomainError only.
func Consumption(used unit.Volume, area unit.Area, label Coverage) (Consumed, error) {
	const op = "glue.coverage"
	l, a := used.In(unit.Litre), area.In(unit.SquareMetre)
	if err := calc.Outside(op, "used_l", l, 0.01, 200, "l"); err != nil {
		return Consumed{}, err
	}
	if err := calc.Outside(op, "area_m2", a, 0.05, 1000, "m²"); err != nil {
		return Consumed{}, err
	}
	if err := calc.Outside(op, "coverage_m2_l", float64(label), 0.5, 20, "m²/l"); err != nil {
		return Consumed{}, err
	}
	c := Consumed{Coverage: Coverage(a / l), Share: l * float64(label) / a, Film: NormalFilm}
	const hair = 1e-9 // 2.4 l on 6 m² at 3 m²/l is 1.2, not a rounding over it
	switch {
	case c.Share < 1-uneven-hair:
		c.Film = Thin
	case c.Share > 1+uneven+hair:
		c.Film = Thick
	}
	return c, nil
}

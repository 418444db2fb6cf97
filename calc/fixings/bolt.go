package fixings

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// WasherBearing returns the characteristic force at which a washer presses
// into the timber under it.
//
//	F = 3·f_c,90,k·π/4·(D² - d0²)
//
// Source: EN 1995-1-1 8.5.2(2); checked against Structural Timber Design to
// Eurocode 5, Ex 12.8.1: 12.6 kN for 48 over 13 mm in C24.
// Units: in and out by type; internal N and mm.
// Shape: linear in the strength, rises with D.
// Domain: 5 ≤ d0 < D ≤ 150 mm, 1 ≤ f_c,90,k ≤ 10 N/mm².
// Ignores: load duration and material factor.
// Errors: DomainError only.
func WasherBearing(washer, hole unit.Length, fc90 unit.Stress) (unit.Force, error) {
	const op = "fixings.washer"
	if err := calc.Outside(op, "hole_d_mm", float64(hole), 5, 149, "mm"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "washer_mm", float64(washer), float64(hole)+1, 150, "mm, wider than the hole"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "fc90_n_mm2", float64(fc90), 1, 10, "N/mm²"); err != nil {
		return 0, err
	}
	w, h := float64(washer), float64(hole)
	return unit.Force(3 * float64(fc90) * math.Pi / 4 * (w*w - h*h)), nil
}

// BoltTension returns the characteristic tension of a bolt, f_u·A_s.
//
// Source: the same Ex 12.8.1: 33.7 kN for M12 of 400 N/mm² on 84.3 mm².
// Domain: stress area 10 to 1000 mm², 200 ≤ fu ≤ 1300 N/mm².
// Errors: DomainError only.
func BoltTension(stressArea unit.Area, fu unit.Stress) (unit.Force, error) {
	const op = "fixings.bolt"
	if err := calc.Outside(op, "stress_area_mm2", float64(stressArea), 10, 1000, "mm²"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "fu_n_mm2", float64(fu), 200, 1300, "N/mm²"); err != nil {
		return 0, err
	}
	return unit.Force(float64(stressArea) * float64(fu)), nil
}

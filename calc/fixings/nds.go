package fixings

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// The American design values are here because they are published with worked
// examples: they judge the arithmetic of the same physics, and serve a builder
// whose timber is sold by specific gravity.

const (
	poundForce = 4.4482216152605 // N
	inch       = 25.4            // mm
)

// NDSNailWithdrawal returns the reference withdrawal value of a plain-shank nail
// from side grain.
//
//	W = 1380·G^2.5·D  (lb/in)   F = W·p
//
// Source: NDS for Wood Construction 12.2-3; checked against Structural Wood
// Design Solved Example Problems E2.1a: 20.67 lb/in, 49.5 lb.
// Units: in and out by type; the source's inches and pounds inside.
// Shape: linear in diameter and penetration.
// Domain: 2 ≤ D ≤ 8 mm, 0 < p ≤ 300 mm, 0.3 ≤ G ≤ 0.75.
// Ignores: every adjustment (duration, moisture, toe-nailing).
// Errors: DomainError only.
func NDSNailWithdrawal(d, penetration unit.Length, gravity float64) (unit.Force, error) {
	const op = "fixings.nds"
	if err := ndsDomain(op, d, penetration, gravity, 2, 8); err != nil {
		return 0, err
	}
	w := 1380 * math.Pow(gravity, 2.5) * float64(d) / inch // lb/in
	return unit.Force(w * float64(penetration) / inch * poundForce), nil
}

// NDSLagWithdrawal returns the reference withdrawal value of a lag screw from
// side grain, p being the thread in the main member without the tip.
//
//	W = 1800·G^1.5·D^0.75  (lb/in)   F = W·p
//
// Source: NDS for Wood Construction 12.2-1; checked against the same Examples
// E2.3: 955 lb.
// Units, ignores: as [NDSNailWithdrawal].
// Domain: 6 ≤ D ≤ 32 mm, 0 < p ≤ 300 mm, 0.3 ≤ G ≤ 0.75.
// Errors: DomainError only.
func NDSLagWithdrawal(d, penetration unit.Length, gravity float64) (unit.Force, error) {
	const op = "fixings.nds"
	if err := ndsDomain(op, d, penetration, gravity, 6, 32); err != nil {
		return 0, err
	}
	w := 1800 * math.Pow(gravity, 1.5) * math.Pow(float64(d)/inch, 0.75) // lb/in
	return unit.Force(w * float64(penetration) / inch * poundForce), nil
}

func ndsDomain(op string, d, p unit.Length, g, least, most float64) error {
	if err := calc.Outside(op, "d_mm", float64(d), least, most, "mm"); err != nil {
		return err
	}
	if err := calc.Outside(op, "penetration_mm", float64(p), 1, 300, "mm"); err != nil {
		return err
	}
	return calc.Outside(op, "specific_gravity", g, 0.3, 0.75, "times water")
}

// NDSNailShear returns the reference lateral value of a nail in single shear
// between two timbers of one specific gravity, and the yield mode that governs.
//
// Source: NDS for Wood Construction Table 12.3.1A (yield limit equations), with
// Fe = 16600·G^1.84, KD = 2.2 to 0.17 in, 10·D + 0.5 above; Fyb 100, 90, 80 and
// 70 thousand psi by diameter; from memory, checked against the same Examples,
// 105.1 lb for a 0.148 in nail through 3/4 in.
// Units: in and out by type; the source's inches and pounds inside.
// Shape: never falls with diameter or gravity.
// Domain: 2.5 ≤ D ≤ 6.3 mm, side and penetration 5 to 300 mm and p ≥ 6D, 0.3 ≤ G ≤ 0.75.
// Ignores: every adjustment; the reduction for a penetration under 10D.
// Errors: DomainError only.
func NDSNailShear(d, side, penetration unit.Length, gravity float64) (unit.Force, string, error) {
	const op = "fixings.nds"
	if err := ndsDomain(op, d, penetration, gravity, 2.5, 6.3); err != nil {
		return 0, "", err
	}
	if err := calc.Outside(op, "side_mm", float64(side), 5, 300, "mm"); err != nil {
		return 0, "", err
	}
	if err := calc.Outside(op, "penetration_mm", float64(penetration), 6*float64(d), 300, "mm"); err != nil {
		return 0, "", err
	}
	D, ls, lm := float64(d)/inch, float64(side)/inch, float64(penetration)/inch // in
	fe := 16600 * math.Pow(gravity, 1.84)                                       // psi
	kd := 2.2
	if D > 0.17 {
		kd = 10*D + 0.5
	}
	fyb := 70e3 // psi
	switch {
	case D <= 0.142:
		fyb = 100e3
	case D <= 0.177:
		fyb = 90e3
	case D <= 0.236:
		fyb = 80e3
	}
	rt := lm / ls
	k1 := (math.Sqrt(1+2*(1+rt+rt*rt)+rt*rt) - (1 + rt)) / 2
	k2 := -1 + math.Sqrt(4+2*fyb*3*D*D/(3*fe*lm*lm))
	k3 := -1 + math.Sqrt(4+2*fyb*3*D*D/(3*fe*ls*ls))
	modes := []struct {
		name string
		z    float64 // lb
	}{
		{"Im", D * lm * fe / kd},
		{"Is", D * ls * fe / kd},
		{"II", k1 * D * ls * fe / kd},
		{"IIIm", k2 * D * lm * fe / (3 * kd)},
		{"IIIs", k3 * D * ls * fe / (3 * kd)},
		{"IV", D * D / kd * math.Sqrt(2*fe*fyb/6)},
	}
	least := modes[0]
	for _, m := range modes[1:] {
		if m.z < least.z {
			least = m
		}
	}
	return unit.Force(least.z * poundForce), least.name, nil
}

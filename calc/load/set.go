package load

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// Psi holds the combination factors of one variable load.
type Psi struct{ Zero, One, Two float64 }

// Set is what a country's annexes decide. CEN is the base standard with its
// recommended values.
type Set struct {
	Name string

	Imposed unit.AreaLoad // category H, slope under 30°
	Man     unit.Force    // category H, instead of Imposed

	GammaG     float64 // permanent load, unfavourable, EN 1990 (6.10)
	GammaGHold float64 // permanent load that holds down, strength (set B)
	GammaGStay float64 // permanent load that holds down, equilibrium (set A)
	GammaQ     float64 // variable load, unfavourable

	PsiImposed, PsiSnow, PsiWind Psi // snow for sites up to 1000 m

	StepDriftMax    float64 // upper bound of μ_w + μ_s at a step; 0: none on the sum
	ExceptionalSnow bool    // drifts of EN 1991-1-3 Annex B apply, as accidental loads
}

// sets holds the values. Sources: imposed loads UK annex to EN 1991-1-1 Table
// NA.7 and EN 1991-1-1 Table 6.10, from memory; γ 1.35 and 1.5 UK annex to EN
// 1990 Table NA.A1.2(B); 1.0 and 0.9 EN 1990 Tables A1.2(B) and A1.2(A), from
// memory; ψ of CEN wind and category H EN 1990 Table A1.1 and of NL from the TU
// Delft open textbook Structural Design Essentials, the other ψ from memory;
// German step bound from a public article on the annex to EN 1991-1-3 (2019);
// German ψ from memory; Annex B as an accidental load in the UK: SCI advisory
// note AD 484.
var sets = [...]Set{
	{
		Name: "UK", Imposed: 0.6 * unit.KilonewtonPerM2, Man: 0.9 * unit.Kilonewton,
		GammaG: 1.35, GammaGHold: 1.0, GammaGStay: 0.9, GammaQ: 1.5,
		PsiImposed: Psi{0.7, 0, 0}, PsiSnow: Psi{0.5, 0.2, 0}, PsiWind: Psi{0.5, 0.2, 0},
		ExceptionalSnow: true,
	},
	{
		Name: "CEN", Imposed: 0.4 * unit.KilonewtonPerM2, Man: 1.0 * unit.Kilonewton,
		GammaG: 1.35, GammaGHold: 1.0, GammaGStay: 0.9, GammaQ: 1.5,
		PsiImposed: Psi{0, 0, 0}, PsiSnow: Psi{0.5, 0.2, 0}, PsiWind: Psi{0.6, 0.2, 0},
	},
	{
		Name: "NL", Imposed: 1.0 * unit.KilonewtonPerM2, Man: 1.5 * unit.Kilonewton,
		GammaG: 1.35, GammaGHold: 0.9, GammaGStay: 0.9, GammaQ: 1.5,
		PsiImposed: Psi{0, 0, 0}, PsiSnow: Psi{0, 0.2, 0}, PsiWind: Psi{0, 0.2, 0},
	},
	{
		Name: "DE", Imposed: 0.4 * unit.KilonewtonPerM2, Man: 1.0 * unit.Kilonewton,
		GammaG: 1.35, GammaGHold: 1.0, GammaGStay: 0.9, GammaQ: 1.5,
		PsiImposed: Psi{0, 0, 0}, PsiSnow: Psi{0.5, 0.2, 0}, PsiWind: Psi{0.6, 0.2, 0},
		StepDriftMax: 2.4,
	},
}

// SetOf returns a set by name; an empty name means UK.
//
// Domain: UK, CEN, NL, DE. Errors: DomainError on "set".
func SetOf(name string) (Set, error) {
	if name == "" {
		name = "UK"
	}
	for _, s := range sets {
		if s.Name == name {
			return s, nil
		}
	}
	return Set{}, &calc.DomainError{Op: "load.set", Field: "set", Got: name, Wanted: "UK, CEN, NL or DE"}
}

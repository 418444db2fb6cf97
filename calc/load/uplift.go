package load

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// LimitState picks the factor on the weight that holds a roof down.
type LimitState string

const (
	Equilibrium LimitState = "equ" // will it lift: 0.9 G
	Strength    LimitState = "str" // will a strap break: 1.0 G
)

// Uplift is wind under and over a roof against its weight.
type Uplift struct {
	Set   Set
	State LimitState
	Wind  unit.AreaLoad // characteristic, upwards positive
	Dead  unit.AreaLoad // characteristic, downwards positive; count only what is sure to be there
}

// Net returns the design uplift left over, upwards positive. A negative value
// is weight to spare.
//
//	u_d = γ_Q w - γ_G,inf g
//
// Source: EN 1990 (6.7), (6.10) and Tables A1.2(A), (B); checked against the
// TU Delft open textbook, pre-design of a timber hall.
// Shape: linear in both. Domain: loads 0 to 20 kN/m². Errors: DomainError only.
func (u Uplift) Net() (unit.AreaLoad, error) {
	if err := calc.Outside(windOp, "uplift_kn_m2", u.Wind.In(unit.KilonewtonPerM2), 0, 20, "kN/m²"); err != nil {
		return 0, err
	}
	if err := calc.Outside(windOp, "dead_kn_m2", u.Dead.In(unit.KilonewtonPerM2), 0, 20, "kN/m²"); err != nil {
		return 0, err
	}
	hold := u.Set.GammaGStay
	switch u.State {
	case "", Equilibrium:
	case Strength:
		hold = u.Set.GammaGHold
	default:
		return 0, &calc.DomainError{Op: windOp, Field: "limit_state", Got: string(u.State), Wanted: "equ or str"}
	}
	return unit.AreaLoad(u.Set.GammaQ*float64(u.Wind) - hold*float64(u.Dead)), nil
}

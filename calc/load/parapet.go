package load

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Upstanding is something that stands up from the roof and catches snow.
type Upstanding struct {
	Ground unit.AreaLoad // s_k
	Height unit.Length   // h
	Away   unit.Length   // b1, roof width at right angles to it, where the bank lies
	Other  unit.Length   // b2, the roof's other width (parapet only)
}

func (u Upstanding) domain() error {
	if err := calc.Outside(snowOp, "sk_kn_m2", u.Ground.In(unit.KilonewtonPerM2), 0.01, 20, "kN/m²"); err != nil {
		return err
	}
	if err := calc.Outside(snowOp, "height_m", u.Height.In(unit.Metre), 0.01, 100, "m"); err != nil {
		return err
	}
	if err := calc.Outside(snowOp, "away_m", u.Away.In(unit.Metre), 0.1, 200, "m"); err != nil {
		return err
	}
	return calc.Outside(snowOp, "other_m", u.Other.In(unit.Metre), 0, 200, "m")
}

// ProjectionBank returns the drift at a projection or parapet.
//
//	μ2 = γh/s_k,  0.8 <= μ2 <= 2.0;   l_s = 2h,  5 m <= l_s <= 15 m
//
// Source: EN 1991-1-3 6.2, as on a public calculation sheet (its example is in
// the tests). Falls to μ1 = 0.8.
// Domain: height 0.01 to 100 m, width 0.1 to 200 m. Errors: DomainError only.
func ProjectionBank(u Upstanding) (Bank, error) {
	if err := u.domain(); err != nil {
		return Bank{}, err
	}
	h := u.Height.In(unit.Metre)
	mu := math.Min(math.Max(snowWeight*h/u.Ground.In(unit.KilonewtonPerM2), 0.8), 2.0)
	ls := math.Min(math.Max(2*h, 5), 15)
	return Bank{Mu: mu, Far: 0.8, Length: unit.Length(ls) * unit.Metre, Clause: "EN 1991-1-3 6.2"}.cut(float64(u.Away)), nil
}

// ExceptionalParapetBank returns the exceptional drift behind a parapet.
//
//	μ = min(2h/s_k, 2b/l_s, 8),  l_s = min(5h, b1, 15 m),  b = max(b1, b2)
//
// Source: EN 1991-1-3 Annex B.4, as in Steel Buildings in Europe, Single-storey
// buildings, Part 3, p. 3-43. The example there labels b as b2, but its printed
// 5.33 is the larger width, b1. Accidental.
// Domain and errors: as ProjectionBank.
func ExceptionalParapetBank(u Upstanding) (Bank, error) {
	if err := u.domain(); err != nil {
		return Bank{}, err
	}
	ls := math.Min(math.Min(5*float64(u.Height), float64(u.Away)), 15000)
	b := math.Max(float64(u.Away), float64(u.Other))
	return exceptional(u.Ground, u.Height, ls, b, "EN 1991-1-3 B.4").cut(float64(u.Away)), nil
}

// ExceptionalObstacleBank returns the exceptional drift at an obstruction on
// the roof.
//
//	μ = min(2h/s_k, 2b/l_s, 5),  l_s = min(5h, b1, 5 m),  b = max(b1, b2)
//
// Source: EN 1991-1-3 Annex B.4, as in C. Sigmund, Eurocodes - Structural
// Design, EN 1991-1-3 verification tests (2014), p. 34. Accidental.
// Domain and errors: as ProjectionBank.
func ExceptionalObstacleBank(u Upstanding) (Bank, error) {
	if err := u.domain(); err != nil {
		return Bank{}, err
	}
	ls := math.Min(math.Min(5*float64(u.Height), float64(u.Away)), 5000)
	b := exceptional(u.Ground, u.Height, ls, math.Max(float64(u.Away), float64(u.Other)), "EN 1991-1-3 B.4")
	b.Mu = math.Min(b.Mu, 5)
	return b.cut(float64(u.Away)), nil
}

package load

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// SnowID names the snow formulas and their version in the record.
const SnowID = "load.snow/1"

const snowOp = "load.snow"

// GroundSnowUK returns the characteristic snow load on the ground.
//
//	s_k = [0.15 + (0.1 Z + 0.05)] + (A - 100)/525      kN/m², A in m
//
// Source: UK annex to EN 1991-1-3, NA.1, formula from memory; the corrigendum
// of 29 June 2007 made (A + 100), which some handbooks still print, into
// (A - 100).
// Shape: linear in both; 0.40 at zone 2 and 100 m.
// Domain: zone 1 to 6.5, altitude 0 to 1500 m, and a result that is positive.
// Errors: DomainError only.
func GroundSnowUK(zone float64, altitude unit.Length) (unit.AreaLoad, error) {
	if err := calc.Outside(snowOp, "zone", zone, 1, 6.5, ""); err != nil {
		return 0, err
	}
	if err := calc.Outside(snowOp, "altitude_m", altitude.In(unit.Metre), 0, 1500, "m"); err != nil {
		return 0, err
	}
	sk := 0.15 + (0.1*zone + 0.05) + (altitude.In(unit.Metre)-100)/525
	return unit.AreaLoad(sk) * unit.KilonewtonPerM2, nil
}

// ShapeCoefficient returns μ1 of a pitched or flat roof from which snow may
// slide.
//
//	0.8 to 30°,  0.8 (60 - α)/30 to 60°,  0 above
//
// Source: EN 1991-1-3 Table 5.2; 0.8 checked against Steel Buildings in Europe,
// Single-storey buildings, Part 3, Appendix A; the falling line from memory.
// Domain: 0 to 90°. Errors: DomainError only.
func ShapeCoefficient(pitch unit.Angle) (float64, error) {
	a := pitch.In(unit.Degree)
	if err := calc.Outside(snowOp, "pitch_deg", a, 0, 90, "°"); err != nil {
		return 0, err
	}
	switch {
	case a <= 30:
		return 0.8, nil
	case a < 60:
		return 0.8 * (60 - a) / 30, nil
	}
	return 0, nil
}

// Exposure is how the wind reaches the roof.
type Exposure string

const (
	Normal    Exposure = "normal"
	Windswept Exposure = "windswept"
	Sheltered Exposure = "sheltered"
)

// Coefficient returns C_e. Source: EN 1991-1-3 Table 5.1, as in the TU Delft
// open textbook, Rain and snow. An empty exposure is normal.
func (e Exposure) Coefficient() (float64, error) {
	switch e {
	case "", Normal:
		return 1.0, nil
	case Windswept:
		return 0.8, nil
	case Sheltered:
		return 1.2, nil
	}
	return 0, &calc.DomainError{Op: snowOp, Field: "exposure", Got: string(e), Wanted: "normal, windswept or sheltered"}
}

// Bank is snow piled against something: μ at the obstacle, falling in a
// straight line over Length to Far (0, or the undrifted 0.8) and Edge at the
// roof's edge if that comes sooner.
type Bank struct {
	Mu, Far    float64
	Length     unit.Length
	EdgeMu     float64 // μ at the roof's edge, where the bank is cut off
	Accidental bool    // EN 1990 (6.11b): no partial factor
	Clause     string
}

// Peak returns the load at the obstacle.
func (b Bank) Peak(ground unit.AreaLoad) unit.AreaLoad { return unit.AreaLoad(b.Mu) * ground }

// cut fills EdgeMu for a roof of the given width away from the obstacle.
func (b Bank) cut(width float64) Bank {
	l := float64(b.Length)
	b.EdgeMu = b.Far
	if width < l {
		b.EdgeMu = b.Mu + (b.Far-b.Mu)*width/l
	}
	return b
}

// Step is a roof below a taller wall or roof.
type Step struct {
	Set        Set
	Ground     unit.AreaLoad // s_k
	Height     unit.Length   // h, from this roof up to the top of the taller part
	Lower      unit.Length   // b2 of EN 1991-1-3 5.3.6, width of this roof away from the wall
	Upper      unit.Length   // b1, width of the taller part
	UpperPitch unit.Angle    // of the slope that sheds on to this roof
	UpperSlope unit.Length   // plan width of that slope; 0: the whole of Upper
}

// snowWeight is γ, the weight of drifted snow: 2 kN/m³ (EN 1991-1-3 5.3.6).
const snowWeight = 2.0

func (s Step) domain() error {
	for _, r := range []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"sk_kn_m2", s.Ground.In(unit.KilonewtonPerM2), 0.01, 20, "kN/m²"},
		{"step_height_m", s.Height.In(unit.Metre), 0.01, 100, "m"},
		{"lower_width_m", s.Lower.In(unit.Metre), 0.1, 200, "m"},
		{"upper_width_m", s.Upper.In(unit.Metre), 0.1, 200, "m"},
		{"upper_pitch_deg", s.UpperPitch.In(unit.Degree), 0, 90, "°"},
		{"upper_slope_m", s.UpperSlope.In(unit.Metre), 0, 200, "m"},
	} {
		if err := calc.Outside(snowOp, r.field, r.v, r.min, r.max, r.unit); err != nil {
			return err
		}
	}
	return nil
}

// StepBank returns the drift on a roof that abuts a taller one.
//
//	μ2 = μ_s + μ_w,  μ_w = (b1 + b2)/2h <= γh/s_k,  0.8 <= μ_w <= 4
//	l_s = 2h,  5 m <= l_s <= 15 m
//	μ_s = 0 for an upper pitch up to 15°, else half the load of the upper slope
//	      spread as a triangle over l_s: μ_s = μ1(α) b_s / l_s
//
// Falls to μ1 = 0.8 at l_s; a roof narrower than l_s cuts it off.
//
// Source: EN 1991-1-3 5.3.6, as in Steel Buildings in Europe, Single-storey
// buildings, Part 3, pp. 3-19, 3-39, 3-40 (checked against its example); the
// triangle of μ_s and the cut from memory. The German bound 0.8 <= μ_s + μ_w
// <= 2.4 where the set has one.
// Shape: μ2 never falls with Upper; 0.8 at least.
// Domain: step 0.01 to 100 m, widths 0.1 to 200 m, s_k 0.01 to 20 kN/m².
// Errors: DomainError only.
func StepBank(s Step) (Bank, error) {
	if err := s.domain(); err != nil {
		return Bank{}, err
	}
	sk := s.Ground.In(unit.KilonewtonPerM2)
	h, b1, b2 := s.Height.In(unit.Metre), s.Upper.In(unit.Metre), s.Lower.In(unit.Metre)
	ls := math.Min(math.Max(2*h, 5), 15)
	muW := math.Min((b1+b2)/(2*h), snowWeight*h/sk)
	muW = math.Min(math.Max(muW, 0.8), 4)
	muS := 0.0
	if s.UpperPitch.In(unit.Degree) > 15 {
		mu1, err := ShapeCoefficient(s.UpperPitch)
		if err != nil {
			return Bank{}, err
		}
		slope := s.UpperSlope.In(unit.Metre)
		if slope == 0 {
			slope = b1
		}
		muS = mu1 * slope / ls
	}
	mu2 := muW + muS
	if s.Set.StepDriftMax > 0 {
		mu2 = math.Min(mu2, s.Set.StepDriftMax)
	}
	return Bank{Mu: mu2, Far: 0.8, Length: unit.Length(ls) * unit.Metre, Clause: "EN 1991-1-3 5.3.6"}.cut(float64(s.Lower)), nil
}

// ExceptionalStepBank returns the exceptional drift of the same roof: all the
// snow in one bank, nothing elsewhere.
//
//	μ = min(2h/s_k, 2b/l_s, 8),  l_s = min(5h, b1, 15 m)
//
// with b the larger of the two widths and b1 the lower roof's.
//
// Source: EN 1991-1-3 Annex B.3, from memory. An accidental load (EN 1990
// 6.11b): no factor 1.5.
// Domain and errors: as StepBank.
func ExceptionalStepBank(s Step) (Bank, error) {
	if err := s.domain(); err != nil {
		return Bank{}, err
	}
	ls := math.Min(math.Min(5*float64(s.Height), float64(s.Lower)), 15000)
	return exceptional(s.Ground, s.Height, ls, math.Max(float64(s.Lower), float64(s.Upper)), "EN 1991-1-3 B.3").cut(float64(s.Lower)), nil
}

// exceptional applies min(2h/s_k, 2b/l_s, 8); lengths mm.
func exceptional(ground unit.AreaLoad, height unit.Length, ls, b float64, clause string) Bank {
	mu := math.Min(2*height.In(unit.Metre)/ground.In(unit.KilonewtonPerM2), math.Min(2*b/ls, 8))
	return Bank{Mu: mu, Length: unit.Length(ls), Accidental: true, Clause: clause}
}

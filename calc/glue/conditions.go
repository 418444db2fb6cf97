package glue

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// Wind is the tap for somebody without a wind gauge.
type Wind string

const (
	Calm   Wind = "calm"   // smoke rises straight
	Breeze Wind = "breeze" // felt on the face
	Windy  Wind = "windy"  // moves small branches
)

// Damp is the tap for somebody without a hygrometer.
type Damp string

const (
	Dry    Damp = "dry"
	Normal Damp = "normal"
	Humid  Damp = "damp"
)

// Substrate is what the film lies on.
type Substrate string

const (
	Sealed      Substrate = "sealed"  // sealed or coated board
	Board       Substrate = "board"   // sound OSB or plywood
	Thirsty     Substrate = "thirsty" // dusty or old ply
	VeryThirsty Substrate = "very"    // fibreboard, concrete
)

// Speed returns the wind a tap stands for.
//
// Source: common practice, no source.
// Domain: calm, breeze, windy.
// Errors: DomainError only.
func (w Wind) Speed() (unit.Speed, error) {
	switch w {
	case Calm:
		return 0.5, nil
	case Breeze:
		return 2, nil
	case Windy:
		return 5, nil
	}
	return 0, &calc.DomainError{Op: "glue.wind", Field: "wind", Got: string(w), Wanted: "calm, breeze or windy"}
}

// RH returns the humidity a tap stands for.
//
// Source: common practice, no source.
// Domain: dry, normal, damp.
// Errors: DomainError only.
func (d Damp) RH() (unit.Percent, error) {
	switch d {
	case Dry:
		return 35, nil
	case Normal:
		return 55, nil
	case Humid:
		return 80, nil
	}
	return 0, &calc.DomainError{Op: "glue.damp", Field: "damp", Got: string(d), Wanted: "dry, normal or damp"}
}

// knots of a table read along x, straight lines between, level beyond the ends.
type curve []struct{ x, y float64 }

func (c curve) at(x float64) float64 {
	if x <= c[0].x {
		return c[0].y
	}
	for i := 1; i < len(c); i++ {
		if x <= c[i].x {
			p, q := c[i-1], c[i]
			return p.y + (q.y-p.y)*(x-p.x)/(q.x-p.x)
		}
	}
	return c[len(c)-1].y
}

// Pocket rule: factors at the three taps, joined by straight lines so that a
// measured value between two taps lies between their factors.
//
// Source: common practice, no source.
var (
	pocketWind     = curve{{0.5, 1}, {2, 0.75}, {5, 0.5}}   // m/s
	pocketHumidity = curve{{35, 0.85}, {55, 1}, {80, 1.25}} // %
	contactWind    = curve{{0.5, 1}, {2, 0.8}, {5, 0.65}}   // m/s, both faces of a contact joint
)

// soak returns the factor of the pocket rule and the drinking term of the
// evaporation rule for a substrate.
//
// Source: common practice, no source; the evaporation terms are our assumption.
func (s Substrate) soak() (pocket, drinks float64, err error) {
	switch s {
	case Sealed:
		return 1.2, 0.6, nil
	case Board:
		return 1, 1, nil
	case Thirsty:
		return 0.8, 1.3, nil
	case VeryThirsty:
		return 0.6, 1.8, nil
	}
	return 0, 0, &calc.DomainError{Op: "glue.window", Field: "substrate", Got: string(s), Wanted: "sealed, board, thirsty or very"}
}

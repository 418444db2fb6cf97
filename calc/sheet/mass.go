package sheet

import (
	"math"

	"chargehand/calc/unit"
)

// rubber is the design density of EPDM. Source: ISO 10456:2007, from memory.
const rubber unit.Density = 1150

// PerSquareMetre returns the mass of the sheet as a lift must reckon with it:
// density times thickness, rounded up to the next 0.1 kg/m².
//
// 1.2 mm gives 1.4 and 1.5 mm gives 1.8 kg/m², the figures of the trade.
func PerSquareMetre(thickness unit.Length) unit.SurfaceDensity {
	perM2 := float64(rubber) * thickness.In(unit.Metre) // kg/m²
	return unit.SurfaceDensity(math.Ceil(perM2*10-1e-9) / 10)
}

// oneLift is what one person lifts close to the body.
// Source: HSE INDG143 filter figure for men at elbow height, not a legal limit.
const oneLift unit.Mass = 25

func hands(m unit.Mass) int { return max(1, int(math.Ceil(float64(m/oneLift)))) }

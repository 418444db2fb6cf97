package drain

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// AreaID names the drained-area rule and its version.
const AreaID = "drain.area/1"

// Rain is an intensity in l/s per m².
type Rain float64

const (
	LitrePerSecondPerM2 Rain = 1
	MillimetrePerHour   Rain = 1.0 / 3600
)

// On returns the flow off an area.
func (r Rain) On(a unit.Area) unit.Flow {
	return unit.Flow(float64(r) * a.In(unit.SquareMetre))
}

// WallShare is the part of an adjoining wall's area that counts as roof.
// Source: Approved Document H3 Table 1, pitch over 70 degrees or any wall.
const WallShare = 0.5

// EffectiveArea returns the area that a flat roof and the walls above it that
// drain on to it present to the rain.
//
//	A = roof on plan + 0.5·wall
//
// Source: Approved Document H3 Table 1; BS EN 12056-3 (W + H/2)·L with the wall on one side.
// Shape: linear in both.
// Domain: both areas 0 to 10000 m², the roof above 0.
// Errors: DomainError only.
func EffectiveArea(roof, wall unit.Area) (unit.Area, error) {
	const op = "drain.area"
	if err := calc.Outside(op, "area_m2", roof.In(unit.SquareMetre), 0.01, 10000, "m²"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "wall_area_m2", wall.In(unit.SquareMetre), 0, 10000, "m²"); err != nil {
		return 0, err
	}
	return roof + WallShare*wall, nil
}

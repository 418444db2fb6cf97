package air

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// Sky says what stands between a surface and the sky: a tap when there is no
// thermometer.
type Sky string

const (
	Overcast   Sky = "overcast"    // bare board under cloud, by day
	SunOnBoard Sky = "sun"         // sun on bare board
	BlackSheet Sky = "black_sheet" // sun on the folded-back black rubber
	ClearNight Sky = "clear_night" // clear sky within two hours of sunset or sunrise, or between them
)

// SurfaceID names the surface estimates.
const SurfaceID = "air.surface/1"

// Surface returns a guess at the temperature of a surface under a sky.
//
//	overcast air + 3, sun on board air + 15, black sheet in sun air + 30,
//	clear sky near dawn or dusk air - 3   [K]
//
// Source: common practice, no source. A thermometer on the deck outranks it.
// Units: in and out by type.
// Shape: linear in the air temperature.
// Domain: -45 ≤ t ≤ 60 °C and a known sky.
// Ignores: wind, season, the height of the sun, wet boards.
// Errors: DomainError only.
func Surface(t unit.Celsius, sky Sky) (unit.Celsius, error) {
	if err := calc.Outside("air.surface", "t", float64(t), float64(coldestAir), float64(hottestAir), "°C"); err != nil {
		return 0, err
	}
	switch sky {
	case Overcast:
		return t.Add(3), nil
	case SunOnBoard:
		return t.Add(15), nil
	case BlackSheet:
		return t.Add(30), nil
	case ClearNight:
		return t.Add(-3), nil
	}
	return 0, &calc.DomainError{Op: "air.surface", Field: "sky", Got: sky, Wanted: "overcast, sun, black_sheet or clear_night"}
}

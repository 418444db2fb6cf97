package hear

import (
	"math"

	"chargehand/calc/unit"
)

type dimension uint8

const (
	noDimension dimension = iota
	length
	area
	temperature
	duration
	mass
	volume
	speed
	share
	angle
)

type measure struct {
	dim    dimension
	factor float64 // to the base unit of the dimension
}

// measures are the units this package knows, by the id that Value.Unit shows.
// Factors: calc/unit where it has them; the rest are exact by definition.
var measures = map[string]measure{
	"":   {noDimension, 1},
	"mm": {length, float64(unit.Millimetre)},
	"cm": {length, float64(unit.Centimetre)},
	"dm": {length, 100},
	"m":  {length, float64(unit.Metre)},
	"km": {length, 1e6},
	"in": {length, float64(unit.Inch)},
	"ft": {length, float64(unit.Foot)},
	"yd": {length, 3 * float64(unit.Foot)},

	"mm2": {area, 1e-6}, "cm2": {area, 1e-4}, "m2": {area, 1}, "ft2": {area, 0.09290304}, "yd2": {area, 0.83612736},

	"°C": {temperature, 1}, "°F": {temperature, 1}, "°": {temperature, 1},

	"s": {duration, 1. / 60}, "min": {duration, 1}, "h": {duration, 60}, "d": {duration, 1440}, "wk": {duration, 10080},

	"g": {mass, 1e-3}, "kg": {mass, 1}, "t": {mass, 1000}, "lb": {mass, 0.45359237}, "st": {mass, 14 * 0.45359237},

	"ml": {volume, 1e-3}, "cl": {volume, 1e-2}, "l": {volume, 1},
	"gal": {volume, 4.54609}, "US gal": {volume, 3.785411784}, "pt": {volume, 0.56826125}, "US pt": {volume, 0.473176473},

	"m/s": {speed, 1}, "mph": {speed, float64(unit.MilePerHour)}, "km/h": {speed, float64(unit.KilometrePerHour)},
	"kn": {speed, float64(unit.Knot)},

	"%": {share, 1}, "of 1": {share, 100}, "deg": {angle, float64(unit.Degree)},
}

// dimension is what the units of a kind measure.
func (k Kind) dimension() dimension {
	switch k {
	case PlanLength, SectionLength, BoardLength, BoardWidth, SiteLength:
		return length
	case Temperature:
		return temperature
	case Percent:
		return share
	case Minutes:
		return duration
	case Mass:
		return mass
	case Litres:
		return volume
	case Area:
		return area
	case Speed:
		return speed
	case Ratio:
		return angle
	}
	return noDimension
}

// tidy takes the dust of binary arithmetic off a number: 2.3*1000 is 2300.
func tidy(v float64) float64 {
	if math.Abs(v) > 1e9 {
		return v
	}
	return math.Round(v*1e9) / 1e9
}

// base turns v of the unit id into the base unit of its dimension.
func base(v float64, id string) float64 {
	if id == "°F" {
		return tidy(float64(unit.Fahrenheit(v)))
	}
	return tidy(v * measures[id].factor)
}

package air

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// VapourID names the Magnus family: saturation, vapour pressure, dew point.
const VapourID = "air.vapour/1"

// Magnus constants over water and over ice.
//
// Source: WMO-No. 8 annex 4.B after Sonntag 1990; the ice pair from memory.
const (
	magnusES   = 6.112  // hPa at 0 °C
	magnusA    = 17.62  // over water
	magnusB    = 243.12 // °C
	magnusIceA = 22.46
	magnusIceB = 272.62 // °C
)

// The range the Magnus constants over water are published for.
const (
	coldestAir unit.Celsius = -45
	hottestAir unit.Celsius = 60
	driestAir  unit.Percent = 1
)

// SaturationPressure returns the pressure of water vapour over a plane of water at t.
//
//	e_s = 6.112·exp(17.62·t / (243.12 + t))   [hPa, °C]
//
// Source: WMO-No. 8 annex 4.B (Sonntag 1990).
// Units: in and out by type.
// Shape: rises with t, steeper than any straight line.
// Domain: -45 ≤ t ≤ 60 °C.
// Ignores: the enhancement factor of moist air, about 0.5 % at sea level.
// Errors: DomainError only.
func SaturationPressure(t unit.Celsius) (unit.Pressure, error) {
	if err := calc.Outside("air.saturation", "t", float64(t), float64(coldestAir), float64(hottestAir), "°C"); err != nil {
		return 0, err
	}
	return unit.Pressure(saturation(float64(t))) * unit.Hectopascal, nil
}

// SaturationPressureOverIce returns the pressure of water vapour over ice at t.
//
//	e_i = 6.112·exp(22.46·t / (272.62 + t))   [hPa, °C]
//
// Source: WMO-No. 8 annex 4.B (Sonntag 1990), ice constants from memory.
// Units: in and out by type.
// Shape: rises with t; below the pressure over water, equal at 0 °C.
// Domain: -65 ≤ t ≤ 0 °C.
// Ignores: the enhancement factor of moist air.
// Errors: DomainError only.
func SaturationPressureOverIce(t unit.Celsius) (unit.Pressure, error) {
	if err := calc.Outside("air.saturation_ice", "t", float64(t), -65, 0, "°C"); err != nil {
		return 0, err
	}
	return unit.Pressure(magnusES*math.Exp(magnusIceA*float64(t)/(magnusIceB+float64(t)))) * unit.Hectopascal, nil
}

// VapourPressure returns the pressure of the water vapour in air of humidity rh at t.
//
//	e = rh·e_s(t)
//
// Source: definition of relative humidity over water (WMO-No. 8 annex 4.B).
// Units: in and out by type.
// Shape: linear in rh, rises with t.
// Domain: as DewPoint.
// Errors: DomainError only.
func VapourPressure(t unit.Celsius, rh unit.Percent) (unit.Pressure, error) {
	if err := airInDomain("air.vapour", t, rh); err != nil {
		return 0, err
	}
	return unit.Pressure(float64(rh)/100*saturation(float64(t))) * unit.Hectopascal, nil
}

// DewPoint returns the temperature at which air of humidity rh at t begins to
// wet a surface.
//
//	γ  = ln(rh) + 17.62·t / (243.12 + t)
//	Td = 243.12·γ / (17.62 - γ)
//
// Source: WMO-No. 8 annex 4.B (Sonntag 1990), solved for the temperature;
// checked against the University of Miami humidity page.
// Units: in and out by type.
// Shape: rises with rh and with t; equals t at 100 %; never above t.
// Domain: -45 ≤ t ≤ 60 °C, 1 ≤ rh ≤ 100 %.
// Ignores: frost: below 0 °C this is the dew point over water, lower than the
// frost point, which is what is wanted beside a reading over water.
// Errors: DomainError only.
func DewPoint(t unit.Celsius, rh unit.Percent) (unit.Celsius, error) {
	if err := airInDomain("air.dew", t, rh); err != nil {
		return 0, err
	}
	if rh == 100 {
		return t, nil // the round trip through ln and back would miss it by a rounding
	}
	gamma := math.Log(float64(rh)/100) + magnusA*float64(t)/(magnusB+float64(t))
	return unit.Celsius(magnusB * gamma / (magnusA - gamma)), nil
}

// Humidity returns the relative humidity of air at t whose dew point is td.
//
//	rh = e_s(td) / e_s(t)
//
// Source: definition of the dew point (WMO-No. 8 annex 4.B).
// Units: in and out by type.
// Shape: rises with td, falls with t; 100 % where they meet.
// Domain: -45 ≤ td ≤ t ≤ 60 °C.
// Errors: DomainError only.
func Humidity(t, td unit.Celsius) (unit.Percent, error) {
	if err := calc.Outside("air.humidity", "t", float64(t), float64(coldestAir), float64(hottestAir), "°C"); err != nil {
		return 0, err
	}
	if err := calc.Outside("air.humidity", "td", float64(td), float64(coldestAir), float64(t), "°C"); err != nil {
		return 0, err
	}
	return unit.Percent(100 * saturation(float64(td)) / saturation(float64(t))), nil
}

func airInDomain(op string, t unit.Celsius, rh unit.Percent) error {
	if err := calc.Outside(op, "t", float64(t), float64(coldestAir), float64(hottestAir), "°C"); err != nil {
		return err
	}
	return calc.Outside(op, "rh", float64(rh), float64(driestAir), 100, "%")
}

// saturation is e_s in hPa for t in °C.
func saturation(t float64) float64 {
	return magnusES * math.Exp(magnusA*t/(magnusB+t))
}

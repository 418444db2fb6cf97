package air

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// EvaporationID names the evaporation estimate.
const EvaporationID = "air.evaporation/1"

// Drying is what a wet surface and the air over it are like.
type Drying struct {
	Surface unit.Celsius // of the wet surface
	Air     unit.Celsius
	RH      unit.Percent
	Wind    unit.Speed
}

// Evaporation returns the water that leaves a wet surface in one hour.
//
//	E = 5([Tc + 18]^2.5 - r·[Ta + 18]^2.5)(V + 4)·10⁻⁶   [kg/m²h; °C, km/h]
//
// Source: Uno 1998, ACI Materials Journal 95-M34, metric form; checked against
// its example 31 °C, 27 °C, 50 %, 19 km/h → 1.15. Its constants are rounded: it
// gives 3 % less than the imperial form of the same paper on the same example.
// Units: in by type, out in kg/m² each hour.
// Shape: rises with the surface temperature and (while positive) with wind,
// falls with humidity and air temperature. Negative means that water condenses.
// Domain: -18 ≤ surface, air ≤ 60 °C, 0 ≤ rh ≤ 100 %, 0 ≤ wind ≤ 40 m/s.
// Ignores: it was made for water on fresh concrete and is good to about 40 %
// (Hover 2020): use it to rank hours, never as a drying time.
// Errors: DomainError only.
func Evaporation(d Drying) (unit.SurfaceDensity, error) {
	const op = "air.evaporation"
	for _, c := range []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"surface", float64(d.Surface), -18, 60, "°C"},
		{"air", float64(d.Air), -18, 60, "°C"},
		{"rh", float64(d.RH), 0, 100, "%"},
		{"wind", d.Wind.In(unit.MetrePerSecond), 0, 40, "m/s"},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.unit); err != nil {
			return 0, err
		}
	}
	tc, ta := float64(d.Surface)+18, float64(d.Air)+18 // °C
	r := float64(d.RH) / 100
	v := d.Wind.In(unit.KilometrePerHour)
	return unit.SurfaceDensity(5 * (math.Pow(tc, 2.5) - r*math.Pow(ta, 2.5)) * (v + 4) * 1e-6), nil
}

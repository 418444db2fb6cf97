package air

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// DewIn is what the topic dew is asked.
type DewIn struct {
	AirC  float64 `json:"air_c" doc:"air temperature in the shade, °C" min:"-45" max:"60"`
	RHPct float64 `json:"rh_pct" doc:"relative humidity, %" min:"1" max:"100"`
}

// DewOut is what the topic dew answers.
type DewOut struct {
	DewPointC         float64 `json:"dew_point_c" doc:"temperature at which a surface begins to wet, °C"`
	VapourPressureHPa float64 `json:"vapour_pressure_hpa" doc:"pressure of the water vapour in the air, hPa"`
}

// ReckonDew answers the topic dew: DewPoint and VapourPressure, with their domain.
func ReckonDew(in DewIn) (DewOut, error) {
	if err := calc.Outside("air.dew", "air_c", in.AirC, float64(coldestAir), float64(hottestAir), "°C"); err != nil {
		return DewOut{}, err
	}
	if err := calc.Outside("air.dew", "rh_pct", in.RHPct, float64(driestAir), 100, "%"); err != nil {
		return DewOut{}, err
	}
	t, rh := unit.Celsius(in.AirC), unit.Percent(in.RHPct)
	td, err := DewPoint(t, rh)
	if err != nil {
		return DewOut{}, err
	}
	e, err := VapourPressure(t, rh)
	if err != nil {
		return DewOut{}, err
	}
	return DewOut{DewPointC: float64(td), VapourPressureHPa: e.In(unit.Hectopascal)}, nil
}

package setout

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// FallIn is the topic fall.
type FallIn struct {
	Depth     float64   `json:"depth_mm" doc:"depth of the roof along its fall" min:"500" max:"20000"`
	Drop      *float64  `json:"drop_mm,omitempty" doc:"high side minus low side; neither drop_mm nor ratio: 1:40" min:"0"`
	Ratio     *float64  `json:"ratio,omitempty" doc:"drop over depth, 0.025 for 1:40; a number from 5.68 up is read as 1 in that" min:"0"`
	JoistDrop *float64  `json:"joist_drop_mm,omitempty" doc:"fall the joists have already; the firrings make the rest" min:"0"`
	Thin      *float64  `json:"firring_thin_mm,omitempty" doc:"firring at the low end" min:"0" max:"100"`
	Stations  []float64 `json:"stations_mm,omitempty" doc:"from the low end: where the firring is measured; none: every 600 mm and both ends"`
}

// FallOut is the answer of the topic fall.
type FallOut struct {
	Drop     float64     `json:"drop_mm"`
	Ratio    float64     `json:"ratio" doc:"drop over depth"`
	OneIn    float64     `json:"one_in" doc:"the same as 1 in this; 0: level"`
	Stations []float64   `json:"stations_mm,omitempty"`
	Firrings []float64   `json:"firrings_mm,omitempty" doc:"thickness at each station"`
	Status   calc.Status `json:"status" enum:"within,close,over" doc:"within from 1:40, close from 1:80, over when flatter"`
}

// ReckonFall is FallOf as the topic fall. A drop or ratio that is given as
// zero is a level roof, not a missing one.
func ReckonFall(in FallIn) (FallOut, error) {
	f := FallInput{
		Depth:     unit.Length(in.Depth),
		Drop:      unit.Length(value(in.Drop)),
		Ratio:     RatioOf(value(in.Ratio)),
		JoistDrop: unit.Length(value(in.JoistDrop)),
		Thin:      unit.Length(value(in.Thin)),
	}
	for _, x := range in.Stations {
		f.Stations = append(f.Stations, unit.Length(x))
	}
	level := (in.Drop != nil || in.Ratio != nil) && value(in.Drop) == 0 && value(in.Ratio) == 0
	if level {
		return FallOut{Status: calc.Over}, calc.Outside("setout.fall", "depth_mm", in.Depth, 500, 20000, "mm")
	}
	r, err := FallOf(f)
	if err != nil {
		return FallOut{}, err
	}
	return FallOut{
		Drop: float64(r.Drop), Ratio: float64(r.Ratio), OneIn: r.Ratio.OneIn(),
		Stations: millimetres(r.Stations), Firrings: millimetres(r.Firrings), Status: r.Status,
	}, nil
}

// RatioOf reads a fall written either as drop over run or as the run for a
// drop of 1. No flat roof is steeper than 10 degrees, 1 in 5.67, so the two
// cannot be mistaken for each other.
func RatioOf(v float64) unit.Fall {
	if v >= 5.68 && v <= 1e4 {
		return unit.Fall(1 / v)
	}
	return unit.Fall(v)
}

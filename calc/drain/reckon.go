package drain

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// GutterIn is the topic gutter.
type GutterIn struct {
	Area   float64  `json:"area_m2" doc:"roof on plan" min:"0.01" max:"10000"`
	Wall   *float64 `json:"wall_area_m2,omitempty" doc:"elevation of walls that drain on to the roof; half of it counts" min:"0" max:"10000"`
	Rain   float64  `json:"rainfall_l_s_m2" doc:"l/s per m²: 0.0208 is 75 mm/h" min:"0.005" max:"0.2"`
	Size   *float64 `json:"size_mm,omitempty" doc:"half-round: 75, 100, 115, 125 or 150; none: the smallest that does"`
	Length float64  `json:"length_m" doc:"from the far end to the outlet" min:"0.3" max:"22.5"`
	Fall   *float64 `json:"fall,omitempty" doc:"drop over run, 0.002 for 1:500; a number from 50 up is read as 1 in that" min:"0"`
}

// GutterOut is the answer of the topic gutter.
type GutterOut struct {
	Flow         float64     `json:"flow_l_s"`
	Capacity     float64     `json:"capacity_l_s" doc:"design capacity: the factor 0.9 of EN 12056-3 is in it"`
	Size         float64     `json:"size_mm"`
	Outlet       float64     `json:"outlet_mm"`
	Effective    float64     `json:"effective_area_m2"`
	LengthFactor float64     `json:"length_factor"`
	Status       calc.Status `json:"status" enum:"within,close,over"`
}

// ReckonGutter is GutterFor as the topic gutter.
func ReckonGutter(in GutterIn) (GutterOut, error) {
	g := GutterInput{
		Roof:   unit.Area(in.Area) * unit.SquareMetre,
		Rain:   Rain(in.Rain),
		Length: unit.Length(in.Length) * unit.Metre,
	}
	if in.Wall != nil {
		g.Wall = unit.Area(*in.Wall) * unit.SquareMetre
	}
	if in.Size != nil {
		if *in.Size == 0 {
			return GutterOut{}, &calc.DomainError{Op: "drain.gutter", Field: "size_mm", Got: 0.0, Wanted: "75, 100, 115, 125 or 150 mm"}
		}
		g.Size = unit.Length(*in.Size)
	}
	if in.Fall != nil {
		g.Fall = fallOf(*in.Fall)
	}
	r, err := GutterFor(g)
	if err != nil {
		return GutterOut{}, err
	}
	return GutterOut{
		Flow: float64(r.Flow), Capacity: float64(r.Capacity),
		Size: float64(r.Size.Nominal), Outlet: float64(r.Size.Outlet),
		Effective: r.Area.In(unit.SquareMetre), LengthFactor: r.Factor, Status: r.Status,
	}, nil
}

// A gutter is never steeper than 1:50, so a number from 50 up can only be the
// run for a drop of 1.
func fallOf(v float64) unit.Fall {
	if v >= 50 && v <= 1e4 {
		return unit.Fall(1 / v)
	}
	return unit.Fall(v)
}

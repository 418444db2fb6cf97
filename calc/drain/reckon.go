package drain

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// GutterIn is the topic gutter.
type GutterIn struct {
	Area    float64   `json:"area_m2" doc:"roof on plan" min:"0.01" max:"10000"`
	Wall    *float64  `json:"wall_area_m2,omitempty" doc:"elevation of walls that drain on to the roof; half of it counts" min:"0" max:"10000"`
	Rain    float64   `json:"rainfall_l_s_m2" doc:"l/s per m²: 0.0208 is 75 mm/h" min:"0.005" max:"0.2"`
	Size    *float64  `json:"size_mm,omitempty" doc:"half-round: 75, 100, 115, 125 or 150; none: the smallest that does"`
	Length  float64   `json:"length_m" doc:"the whole run" min:"0.3" max:"45"`
	Outlet  *string   `json:"outlet,omitempty" doc:"where the outlets are; none: one at one end" enum:"end,middle,both ends"`
	Corner  *bool     `json:"corner,omitempty" doc:"the water has to pass a bend"`
	Fall    *float64  `json:"fall,omitempty" doc:"drop over run, 0.002 for 1:500; a number from 50 up is read as 1 in that; none: level" min:"0"`
	Spacing *float64  `json:"bracket_spacing_mm,omitempty" doc:"at most; none: 800" min:"200" max:"1200"`
	Joints  []float64 `json:"joints_mm,omitempty" doc:"joints between lengths of gutter, from the left end"`
	Pipe    *float64  `json:"pipe_mm,omitempty" doc:"inner diameter of the downpipe" min:"40" max:"150"`
}

// GutterOut is the answer of the topic gutter.
type GutterOut struct {
	Flow         float64      `json:"flow_l_s" doc:"off the whole roof"`
	Capacity     float64      `json:"capacity_l_s" doc:"design capacity of the whole run: the factor 0.9 of EN 12056-3 is in it"`
	Nominal      float64      `json:"nominal_capacity_l_s" doc:"the same without the factor 0.9"`
	Size         float64      `json:"size_mm"`
	Outlet       float64      `json:"outlet_mm" doc:"of each outlet; 0: no outlet of the table passes the flow"`
	Outlets      int          `json:"outlets"`
	Effective    float64      `json:"effective_area_m2"`
	LengthFactor float64      `json:"length_factor" doc:"for the length, and the corner"`
	Status       calc.Status  `json:"status" enum:"within,close,over"`
	Drop         float64      `json:"drop_mm" doc:"of the gutter from its high point to its outlet"`
	Brackets     []BracketOut `json:"brackets"`
	PipeCapacity float64      `json:"pipe_capacity_l_s,omitempty" doc:"of each downpipe"`
	PipeStatus   calc.Status  `json:"pipe_status,omitempty" enum:"within,close,over"`
}

// BracketOut is one bracket.
type BracketOut struct {
	At    float64 `json:"at_mm" doc:"from the left end"`
	Below float64 `json:"below_mm" doc:"below the highest point of the gutter"`
}

// ReckonGutter is GutterFor, Brackets and DownpipeCapacity as the topic gutter.
func ReckonGutter(in GutterIn) (GutterOut, error) {
	g := GutterInput{
		Roof:   unit.Area(in.Area) * unit.SquareMetre,
		Rain:   Rain(in.Rain),
		Length: unit.Length(in.Length) * unit.Metre,
		Fall:   fallOf(or(in.Fall, 0)),
		Wall:   unit.Area(or(in.Wall, 0)) * unit.SquareMetre,
		Corner: in.Corner != nil && *in.Corner,
	}
	if in.Size != nil {
		if *in.Size == 0 {
			return GutterOut{}, &calc.DomainError{Op: "drain.gutter", Field: "size_mm", Got: 0.0, Wanted: "75, 100, 115, 125 or 150 mm"}
		}
		g.Size = unit.Length(*in.Size)
	}
	if in.Outlet != nil {
		g.Outlet = Placement(*in.Outlet)
	}
	r, err := GutterFor(g)
	if err != nil {
		return GutterOut{}, err
	}
	out := GutterOut{
		Flow: float64(r.Flow), Capacity: float64(r.Capacity), Nominal: float64(r.Capacity) / DesignFactor,
		Size: float64(r.Size.Nominal), Outlet: float64(r.Size.Outlet), Outlets: r.Outlets,
		Effective: r.Area.In(unit.SquareMetre), LengthFactor: r.Factor, Status: r.Status,
		Drop: float64(g.Fall) * float64(g.Length),
	}
	if r.Outlets == 2 || g.Outlet == AtMiddle {
		out.Drop /= 2
	}
	hung := BracketsInput{
		Run: g.Length, Outlet: g.Outlet, Fall: g.Fall, Spacing: unit.Length(or(in.Spacing, float64(BracketSpacing))),
		First: BracketFirst,
	}
	for _, j := range in.Joints {
		hung.Joints = append(hung.Joints, unit.Length(j))
	}
	brackets, err := Brackets(hung)
	if err != nil {
		return GutterOut{}, err
	}
	for _, b := range brackets {
		out.Brackets = append(out.Brackets, BracketOut{At: float64(b.At), Below: float64(b.Below)})
	}
	if in.Pipe == nil {
		return out, nil
	}
	pipe, err := DownpipeCapacity(unit.Length(*in.Pipe))
	if err != nil {
		return GutterOut{}, err
	}
	out.PipeCapacity = float64(pipe)
	out.PipeStatus = calc.Grade(float64(r.Flow) / float64(r.Outlets) / float64(pipe))
	return out, nil
}

// A gutter is never steeper than 1:50, so a number from 50 up can only be the
// run for a drop of 1.
func fallOf(v float64) unit.Fall {
	if v >= 50 && v <= 1e4 {
		return unit.Fall(1 / v)
	}
	return unit.Fall(v)
}

func or(p *float64, none float64) float64 {
	if p == nil {
		return none
	}
	return *p
}

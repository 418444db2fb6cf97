package drain

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// ID names the gutter rule and its version.
const ID = "drain.gutter/2"

// Placement says where the outlets are.
type Placement string

const (
	AtEnd      Placement = "end"       // one, at one end
	AtMiddle   Placement = "middle"    // one, in the middle
	AtBothEnds Placement = "both ends" // two
)

// GutterInput is one straight gutter.
type GutterInput struct {
	Roof   unit.Area // on plan
	Wall   unit.Area // elevation of walls that drain on to it
	Rain   Rain
	Size   unit.Length // 0: the smallest that does
	Length unit.Length // the whole run
	Outlet Placement   // "": AtEnd
	Corner bool        // the water has to pass a bend
	Fall   unit.Fall   // 0: level
}

// Gutter is what it must carry and what it can.
type Gutter struct {
	Area     unit.Area // effective
	Flow     unit.Flow // off the whole roof
	Capacity unit.Flow // design capacity of the whole run: 0.9 included
	Size     Size      // Size.Outlet is what this flow needs at this placement; 0: no outlet of the table passes it
	Outlets  int
	Factor   float64 // F_L for the length, and the corner
	Status   calc.Status
}

// GutterFor returns the half-round eaves gutter and the outlets for a roof.
//
//	Q = r·(A_roof + 0.5·A_wall)    Q_design = 0.9·Q_N·F_L    W = d/2, F_L by L/W
//
// With the outlet in the middle, or one at both ends, each half of the run
// drains by itself: half the length and half the flow. A middle outlet passes
// the whole flow, so it is the one of the row that carries as much.
//
// With no size given the smallest that carries the flow is taken; if none
// does, the largest, with status over. A fall up to 3 in 1000 counts as level,
// and no credit is taken for a steeper one.
//
// Source: EN 12056-3:2000 clause 5, from memory; outlets Approved Document H3 Table 2; middle outlets by H3 1.7, from memory.
// Shape: capacity rises with size, never rises with length; flow linear in area and rain.
// Domain: roof 0.01 to 10000 m²; rain 0.005 to 0.2 l/s per m²; drainage length 300 mm to 300·W; fall 0 to 1:50.
// Ignores: leaves, other profiles than half-round.
// Errors: DomainError only.
func GutterFor(in GutterInput) (Gutter, error) {
	const op = "drain.gutter"
	area, err := EffectiveArea(in.Roof, in.Wall)
	if err != nil {
		return Gutter{}, err
	}
	if err := calc.Outside(op, "rainfall_l_s_m2", float64(in.Rain), 0.005, 0.2, "l/s per m²"); err != nil {
		return Gutter{}, err
	}
	if err := calc.Outside(op, "fall", float64(in.Fall), 0, 1.0/50, "drop over run"); err != nil {
		return Gutter{}, err
	}
	reaches := 1.0 // stretches of gutter that drain by themselves
	g := Gutter{Area: area, Flow: in.Rain.On(area), Outlets: 1}
	switch in.Outlet {
	case "", AtEnd:
	case AtMiddle:
		reaches = 2
	case AtBothEnds:
		reaches, g.Outlets = 2, 2
	default:
		return Gutter{}, &calc.DomainError{Op: op, Field: "outlet", Got: string(in.Outlet), Wanted: "end, middle or both ends"}
	}
	candidates, longest := sizes[:], sizes[len(sizes)-1].Nominal
	if in.Size != 0 {
		if candidates = sized(in.Size); candidates == nil {
			return Gutter{}, &calc.DomainError{Op: op, Field: "size_mm", Got: float64(in.Size), Wanted: "75, 100, 115, 125 or 150 mm"}
		}
		longest = in.Size
	}
	if err := calc.Outside(op, "length_m", in.Length.In(unit.Metre), 0.3*reaches, reaches*longestRatio*float64(longest)/2/1000, "m"); err != nil {
		return Gutter{}, err
	}
	for _, s := range candidates {
		ratio := float64(in.Length) / reaches / (float64(s.Nominal) / 2)
		if ratio > longestRatio {
			continue
		}
		g.Size, g.Factor = s, lengthFactor(ratio)
		if in.Corner {
			g.Factor *= CornerFactor
		}
		g.Capacity = unit.Flow(reaches * DesignFactor * float64(NominalCapacity(s.Nominal)) * g.Factor)
		if g.Flow <= g.Capacity {
			break
		}
	}
	if in.Outlet == AtMiddle {
		g.Size.Outlet = outletFor(g.Flow, g.Size.Outlet)
	}
	g.Status = calc.Grade(float64(g.Flow) / float64(g.Capacity))
	return g, nil
}

func sized(d unit.Length) []Size {
	for i, s := range sizes {
		if s.Nominal == d {
			return sizes[i : i+1]
		}
	}
	return nil
}

// outletFor returns the outlet, no smaller than least, of the first row of the
// table whose gutter carries q to its end; 0 when none does.
func outletFor(q unit.Flow, least unit.Length) unit.Length {
	for _, s := range sizes {
		if s.Outlet >= least && float64(q) <= DesignFactor*float64(NominalCapacity(s.Nominal)) {
			return s.Outlet
		}
	}
	return 0
}

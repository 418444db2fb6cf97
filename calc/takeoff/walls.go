package takeoff

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// walls writes plates, what they lie on and what holds them.
func (s *sheet) walls() {
	in := s.in
	if in.PlateRuns == nil {
		s.miss(PlateTimber)
	} else {
		s.lengths(PlateTimber, in.PlateRuns)
	}
	if in.DPCRuns == nil {
		s.miss(DPC)
	} else {
		m := 0.0
		for _, r := range in.DPCRuns {
			m += r.In(unit.Metre) + 0.1 // a lap a plate
		}
		s.packed(DPC, m)
	}
	anchors, known := s.along(fixings.Plate, in.Anchors, in.AnchorRuns)
	if !known {
		s.miss(Anchors)
	}
	s.packed(Anchors, float64(anchors))
	switch {
	case in.NoResin:
	case in.ResinHole == nil || !known:
		s.miss(Resin)
	default:
		d, l := float64(in.ResinHole.Diameter), float64(in.ResinHole.Depth) // mm
		if s.fail(calc.Outside("takeoff.list", "resin_hole_diameter_mm", d, 6, 40, "mm")) ||
			s.fail(calc.Outside("takeoff.list", "resin_hole_depth_mm", l, 30, 500, "mm")) {
			return
		}
		s.packed(Resin, float64(anchors)*math.Pi/4*d*d*l*1.3/1000) // ml; 1.3 for what is pressed out
	}
	straps, known := s.along(fixings.Strap, in.Straps, in.StrapRuns)
	if !known {
		s.miss(Straps)
	}
	s.packed(Straps, float64(straps))
	lateral, known := s.along(fixings.LateralStrap, nil, in.LateralRuns)
	if !known {
		s.miss(LateralStraps)
	}
	s.packed(LateralStraps, float64(lateral))
}

// along counts the fixings of one kind over several runs, unless a design has
// told their number.
func (s *sheet) along(what fixings.What, told *int, runs []unit.Length) (n int, known bool) {
	if told != nil {
		return *told, s.count(Key(what), *told)
	}
	if runs == nil {
		return 0, false
	}
	for _, r := range runs {
		row, err := fixings.Run(what, r)
		if s.fail(err) {
			return 0, true
		}
		n += row.Count
	}
	return n, true
}

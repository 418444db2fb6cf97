package takeoff

import (
	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// dpcLap is added to each plate for the laps of its damp-proof course.
//
// Source: common practice, no source.
const dpcLap = 0.1 // m

// plateLap is the half-lap where two lengths of plate meet, the width of the
// usual 100 mm plate.
//
// Source: NHBC Standards 7.2.6 for half-lapping; the length is common practice,
// no source.
const plateLap = 0.1 // m

// walls writes plates, what they lie on and what holds them.
func (s *sheet) walls() {
	in := s.in
	switch {
	case s.sawn(PlateTimber):
	case in.PlateRuns == nil:
		s.miss(PlateTimber)
	default:
		s.lengths(PlateTimber, "plate_runs_mm", in.PlateRuns, plateLap)
	}
	s.metres(DPC, "dpc_runs_mm", in.DPCRuns, dpcLap*float64(len(in.DPCRuns)))
	anchors, known := s.along(Anchors, fixings.Plate, "anchors", in.Anchors, "anchor_runs_mm", in.AnchorRuns)
	s.packed(Anchors, float64(anchors))
	switch {
	case in.NoResin || known && anchors == 0:
	case in.ResinHole == nil || !known:
		s.miss(Resin)
	default:
		d, l := in.ResinHole.Diameter, in.ResinHole.Depth
		if !s.within("resin_hole_d_mm", float64(d), 6, 40, "mm") || !s.within("resin_hole_depth_mm", float64(l), 30, 500, "mm") {
			return
		}
		v, err := fixings.ResinVolume(anchors, d, l)
		if !s.failAs("anchors", err) {
			s.packed(Resin, float64(v)/1000)
		}
	}
	straps, _ := s.along(Straps, fixings.Strap, "straps", in.Straps, "strap_runs_mm", in.StrapRuns)
	s.packed(Straps, float64(straps))
	lateral, _ := s.along(LateralStraps, fixings.LateralStrap, "", nil, "lateral_runs_mm", in.LateralRuns)
	s.packed(LateralStraps, float64(lateral))
}

// along counts the fixings of one kind over several runs, unless a design has
// told their number; without either the line is missing.
func (s *sheet) along(key Key, what fixings.What, field string, told *int, runsField string, runs []unit.Length) (n int, known bool) {
	if told != nil {
		return *told, s.count(field, *told)
	}
	if runs == nil {
		s.miss(key)
		return 0, false
	}
	for _, r := range runs {
		row, err := fixings.Run(what, r)
		if s.failAs(runsField, err) {
			return 0, false
		}
		n += row.Count
	}
	return n, true
}

// each writes a line told as a number of things.
func (s *sheet) each(key Key, field string, n *int) {
	if n == nil {
		s.miss(key)
		return
	}
	if s.count(field, *n) {
		s.packed(key, float64(*n))
	}
}

// metres writes a line bought by the metre whatever its joints; more is added
// to the runs.
func (s *sheet) metres(key Key, field string, runs []unit.Length, more float64) {
	if s.sawn(key) {
		return
	}
	if runs == nil {
		s.miss(key)
		return
	}
	m := more
	for _, r := range runs {
		if !s.within(field, float64(r), 1, 50000, "mm") {
			return
		}
		m += r.In(unit.Metre)
	}
	if len(runs) > 0 {
		s.packed(key, m)
	}
}

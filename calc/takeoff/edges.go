package takeoff

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// edges writes trims, their corners and their nails.
func (s *sheet) edges() {
	in := s.in
	if in.Trims == nil {
		s.miss(Trim, TrimNails)
	} else {
		runs := make([]unit.Length, len(in.Trims))
		for i, t := range in.Trims {
			if !s.count(Trim, t.Mitres) {
				return
			}
			runs[i] = unit.Length(float64(t.Run) + mitre*1000*float64(t.Mitres))
		}
		nails := 0
		for i, cut := range s.lengths(Trim, runs) {
			rest := float64(runs[i])
			var pieces []unit.Length
			for _, p := range cut {
				pieces = append(pieces, unit.Length(min(p*1000, rest)))
				rest -= p * 1000
			}
			n, err := fixings.TrimNails(pieces)
			if s.fail(err) {
				return
			}
			nails += n
		}
		s.packed(TrimNails, float64(nails))
	}
	s.each(TrimCorners, in.TrimCorners)
	s.each(TrimEnds, in.TrimEnds)
}

// rainwater writes gutter and downpipe.
func (s *sheet) rainwater() {
	in := s.in
	if in.GutterRuns == nil {
		s.miss(Gutter, Brackets, StopEnds)
	} else {
		s.lengths(Gutter, in.GutterRuns)
		n, _ := s.along(fixings.Bracket, nil, in.GutterRuns)
		s.packed(Brackets, float64(n))
		s.packed(StopEnds, 2*float64(len(in.GutterRuns)))
	}
	s.each(Outlets, in.Outlets)
	if in.Downpipe == nil {
		s.miss(Downpipe)
	} else {
		s.lengths(Downpipe, []unit.Length{*in.Downpipe})
	}
}

// Lead pieces are at most 1.5 m long, NHBC Standards 7.2.20 Table 22; laps of
// 100 mm: common practice, no source.
const (
	leadPiece = 1500.0 // mm
	leadLap   = 100.0  // mm
	chaseRun  = 1.2    // m of 25 x 10 mm chase a 300 ml cartridge
)

// lead writes flashing, clips, wedges and what closes the chase.
func (s *sheet) lead() {
	in := s.in
	if in.LeadRuns == nil {
		s.miss(LeadSheet, LeadClips)
	} else {
		var m float64
		clips := 0
		for _, r := range in.LeadRuns {
			l, lap := float64(r.Run), float64(r.Lap) // mm
			if lap == 0 {
				lap = leadLap
			}
			if s.fail(calc.Outside("takeoff.list", "lead_run_mm", l, 200, 50000, "mm")) ||
				s.fail(calc.Outside("takeoff.list", "lead_lap_mm", lap, 50, 300, "mm")) {
				return
			}
			n := math.Max(up((l-lap)/(leadPiece-lap)), 1)
			m += (l + (n-1)*lap) / 1000
			what := fixings.LeadClip
			if r.Exposed {
				what = fixings.LeadClipExposed
			}
			row, err := fixings.Run(what, r.Run)
			if s.fail(err) {
				return
			}
			clips += row.Count
		}
		s.packed(LeadSheet, m)
		s.packed(LeadClips, float64(clips))
	}
	if in.ChaseRuns == nil {
		s.miss(Wedges, ChaseSealant)
		return
	}
	n, _ := s.along(fixings.Wedge, nil, in.ChaseRuns)
	s.packed(Wedges, float64(n))
	m := 0.0
	for _, r := range in.ChaseRuns {
		m += r.In(unit.Metre)
	}
	s.packed(ChaseSealant, m/chaseRun)
}

package takeoff

import (
	"math"
	"slices"

	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// Lead pieces are at most 1.5 m long, NHBC Standards 7.2.20 Table 22; laps of
// 100 mm and the reach of a cartridge: common practice, no source.
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
		s.flashing()
	}
	n, known := s.along(Wedges, fixings.Wedge, "", nil, "chase_runs_mm", in.ChaseRuns)
	s.packed(Wedges, float64(n))
	if !known {
		s.miss(ChaseSealant)
		return
	}
	m := 0.0
	for _, r := range in.ChaseRuns {
		m += r.In(unit.Metre)
	}
	s.packed(ChaseSealant, m/chaseRun)
}

// flashing writes lead by the metre of roll, with its mass, and its clips.
func (s *sheet) flashing() {
	var pieces []float64 // m
	total, mass, clips := 0.0, 0.0, 0
	for _, r := range s.in.LeadRuns {
		l, lap := float64(r.Run), float64(r.Lap) // mm
		if lap == 0 {
			lap = leadLap
		}
		if !s.within("lead", l, 200, 50000, "mm") || !s.within("lead", lap, 50, 300, "mm") ||
			!s.within("lead", float64(r.Width), 50, 1000, "mm") || !s.within("lead", float64(r.Density), 5, 50, "kg/m²") {
			return
		}
		n := math.Max(up((l-lap)/(leadPiece-lap)), 1)
		whole := (l + (n-1)*lap) / 1000 // m
		for range int(n) {
			pieces = append(pieces, whole/n)
		}
		total += whole
		mass += float64(r.Density.Over(unit.Length(whole * 1000).By(r.Width)))
		what := fixings.LeadClip
		if r.Exposed {
			what = fixings.LeadClipExposed
		}
		row, err := fixings.Run(what, r.Run)
		if s.failAs("lead", err) {
			return
		}
		clips += row.Count
	}
	if len(pieces) > 0 {
		s.rolls(pieces, total, mass)
		s.packed(LeadClips, float64(clips))
	}
}

// rolls chooses rolls that hold every piece: enough metres may still be short of
// a piece when no roll has room for it.
func (s *sheet) rolls(pieces []float64, total, mass float64) {
	extra := total * wares[LeadSheet].waste
	longest := 0.0 // of any roll, m
	for _, size := range s.sizes(LeadSheet) {
		longest = max(longest, size.Size)
	}
	if !s.within("packs", slices.Max(pieces), 0, longest, "m of lead, the longest roll") {
		return
	}
	for more := 0.0; ; {
		p, err := wares[LeadSheet].manner.Packs(total, extra+more, s.sizes(LeadSheet))
		if s.failAs("packs", err) {
			return
		}
		short := unplaced(pieces, p.Packs)
		if short == 0 {
			p.LeftOver = p.ToBuy - total - extra
			line := s.judged(LeadSheet, total, extra, p)
			line.Mass = unit.Mass(mass)
			s.lines = append(s.lines, line)
			return
		}
		more += short
	}
}

// unplaced is the length of pieces that find no roll, the longest placed first,
// each into the fullest roll with room.
func unplaced(pieces []float64, rolls []Pack) float64 {
	var room []float64
	for _, r := range rolls {
		for range r.Count {
			room = append(room, r.Size)
		}
	}
	order := slices.Clone(pieces)
	slices.Sort(order)
	slices.Reverse(order)
	short := 0.0
	for _, p := range order {
		best := -1
		for i, left := range room {
			if left >= p-1e-9 && (best < 0 || left < room[best]) {
				best = i
			}
		}
		if best < 0 {
			short += p
			continue
		}
		room[best] -= p
	}
	return short
}

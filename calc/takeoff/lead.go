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
		s.flashings()
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

// flashing is the pieces cut from rolls of one width and thickness.
type flashing struct {
	width   unit.Length
	density unit.SurfaceDensity
	pieces  []float64 // m
	total   float64   // m
}

// flashings writes lead by the metre of roll, a line for each width, and clips.
func (s *sheet) flashings() {
	var groups []flashing
	clips := 0
	for _, r := range s.in.LeadRuns {
		l, lap := float64(r.Run), float64(r.Lap) // mm
		if lap == 0 {
			lap = leadLap
		}
		if !s.within("lead", l, 200, 50000, "mm") || !s.within("lead", lap, 50, 300, "mm") ||
			!s.within("lead", float64(r.Width), 50, 1000, "mm") || !s.within("lead", float64(r.Density), 5, 50, "kg/m²") {
			return
		}
		at := slices.IndexFunc(groups, func(g flashing) bool { return g.width == r.Width && g.density == r.Density })
		if at < 0 {
			at = len(groups)
			groups = append(groups, flashing{width: r.Width, density: r.Density})
		}
		n := math.Max(up((l-lap)/(leadPiece-lap)), 1)
		whole := (l + (n-1)*lap) / 1000 // m
		for range int(n) {
			groups[at].pieces = append(groups[at].pieces, whole/n)
		}
		groups[at].total += whole
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
	for _, g := range groups {
		s.rolls(g, len(groups) == 1)
	}
	s.packed(LeadClips, float64(clips))
}

// rolls chooses rolls that hold every piece: enough metres may still be short of
// a piece when no roll has room for it. A price told for lead is told for one
// width; among several it says nothing.
func (s *sheet) rolls(g flashing, alone bool) {
	extra := g.total * wares[LeadSheet].waste
	sizes := slices.Clone(s.sizes(LeadSheet))
	longest := 0.0 // of any roll, m
	for i := range sizes {
		longest = max(longest, sizes[i].Size)
		if !alone {
			sizes[i].Price = nil
		}
	}
	if !s.within("packs", slices.Max(g.pieces), 0, longest, "m of lead, the longest roll") {
		return
	}
	for more := 0.0; ; {
		p, err := wares[LeadSheet].manner.Packs(g.total, extra+more, sizes)
		if s.failAs("packs", err) {
			return
		}
		short := unplaced(g.pieces, p.Packs)
		if short == 0 {
			p.LeftOver = p.ToBuy - g.total - extra
			line := s.judged(LeadSheet, g.total, extra, p)
			line.Size = []unit.Length{g.width}
			line.Mass = g.density.Over(unit.Length(1000 * g.total).By(g.width))
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

package takeoff

import (
	"cmp"
	"math"
	"slices"

	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

const (
	// longestStock is the longest joist a merchant stocks, joistStep the step of
	// stock lengths.
	//
	// Source: from memory.
	longestStock = 7200.0 // mm
	joistStep    = 300.0  // mm

	// skewNail is the mass of one 4.5 x 100 mm round nail without its head.
	skewNail = math.Pi / 4 * 4.5 * 4.5 * 100 * 7.85e-6 // kg; steel 7850 kg/m³

	// spareHangers go with any hangers, spareClips with any clips.
	//
	// Source: common practice, no source.
	spareHangers = 2
	spareClips   = 2
)

// joists writes joists, what goes between and on them, what holds their ends.
func (s *sheet) joists() {
	in := s.in
	if !s.sawn(JoistTimber) {
		s.joistTimber()
	}
	s.pieces(NogginTimber, "noggins", in.Noggins)
	s.pieces(Strutting, "strutting", in.Strutting)
	if in.Firrings == nil {
		s.miss(Firrings)
	} else {
		n := 0
		for _, f := range in.Firrings {
			n += f.Count
		}
		if s.count("firrings", n) {
			s.packed(Firrings, float64(n))
		}
	}
	if in.HangerEnds == nil {
		s.miss(Hangers, HangerNails)
	} else if s.within("hanger_ends", float64(*in.HangerEnds), 0, 1000, "ends") && *in.HangerEnds > 0 {
		s.packedWith(Hangers, float64(*in.HangerEnds), spareHangers)
		if in.HangerHoles == nil {
			s.miss(HangerNails)
		} else if s.within("hanger_holes", float64(*in.HangerHoles), 0, 100, "nails a hanger") {
			s.packed(HangerNails, float64(*in.HangerEnds**in.HangerHoles))
		}
	}
	if in.PlateEnds == nil {
		s.miss(Clips, SkewNails)
	} else if s.within("plate_ends", float64(*in.PlateEnds), 0, 1000, "ends") && *in.PlateEnds > 0 {
		ends, err := fixings.Ends(0, *in.PlateEnds)
		if s.fail(err) {
			return
		}
		s.packedWith(Clips, float64(ends.Clips), spareClips)
		s.packed(SkewNails, float64(ends.SkewNails)*skewNail)
	}
}

// joistTimber writes joists: one spare to ten, each the next stock length up.
func (s *sheet) joistTimber() {
	if s.in.Joists == nil {
		s.miss(JoistTimber)
		return
	}
	step := float64(s.in.JoistStep) // mm
	if step == 0 {
		step = joistStep
	}
	if !s.within("joist_step_mm", step, 1, longestStock, "mm") {
		return
	}
	line := Line{Key: JoistTimber, Unit: Metre, Where: Timber}
	got, spares := map[float64]int{}, map[float64]int{}
	for _, j := range s.in.Joists {
		l := float64(j.Length) // mm
		if !s.count("joists", j.Count) || !s.within("joists", l, 1, longestStock, "mm") {
			return
		}
		spare := up(float64(j.Count) / 10)
		stock := up(l/step) * step // mm
		if !s.within("joists", stock, 1, longestStock, "mm with its stock step") {
			return
		}
		line.Needed += float64(j.Count) * l / 1000
		line.Waste += spare * l / 1000
		line.ToBuy += (float64(j.Count) + spare) * stock / 1000
		got[stock/1000] += j.Count + int(spare)
		spares[stock/1000] += int(spare)
		line.Size = append(line.Size, j.Length)
	}
	if line.Packs = bundle(got); len(line.Packs) == 0 {
		return
	}
	line.Spare = bundle(spares)
	line.LeftOver = line.ToBuy - line.Needed - line.Waste
	line.Cost = s.priceOf(JoistTimber, line.Packs)
	s.lines = append(s.lines, line)
}

// pieces writes short timber cut from stock lengths, by the metre.
func (s *sheet) pieces(key Key, field string, pieces []Piece) {
	if pieces == nil {
		s.miss(key)
		return
	}
	m := 0.0
	for _, p := range pieces {
		if !s.count(field, p.Count) || !s.within(field, float64(p.Length), 1, longestStock, "mm") {
			return
		}
		m += float64(p.Count) * p.Length.In(unit.Metre)
	}
	s.packed(key, m)
}

// bundle turns counts by size into packs, the longest first.
func bundle(got map[float64]int) []Pack {
	packs := make([]Pack, 0, len(got))
	for size, n := range got {
		if n > 0 {
			packs = append(packs, Pack{Size: size, Count: n})
		}
	}
	slices.SortFunc(packs, func(a, b Pack) int { return cmp.Compare(b.Size, a.Size) })
	return packs
}

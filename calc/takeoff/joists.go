package takeoff

import (
	"fmt"
	"math"
	"slices"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// longestStock is the longest joist a merchant stocks.
//
// Source: from memory (stock lengths 1.8 to 7.2 m in steps of 0.3 m).
const longestStock = 7200.0 // mm

// skewNail is the mass of one 4.5 x 100 mm round steel nail without its head.
const skewNail = math.Pi / 4 * 4.5 * 4.5 * 100 * 7.85e-6 // kg; steel 7850 kg/m³

// joists writes joists and what goes between and on them.
func (s *sheet) joists() {
	in := s.in
	if in.Joists == nil {
		s.miss(JoistTimber)
	} else {
		s.joistTimber()
	}
	s.pieces(NogginTimber, in.Noggins)
	s.pieces(Strutting, in.Strutting)
	if in.Firrings == nil {
		s.miss(Firrings)
	} else {
		n := 0
		for _, f := range in.Firrings {
			n += f.Count
		}
		if s.count(Firrings, n) {
			s.packed(Firrings, float64(n))
		}
	}
	s.ends()
}

// joistTimber writes joists: one spare to ten, each the next stock length up.
func (s *sheet) joistTimber() {
	step := float64(s.in.JoistStep) // mm
	if step == 0 {
		step = 300
	}
	if s.fail(calc.Outside("takeoff.list", "joist_step_mm", step, 1, longestStock, "mm")) {
		return
	}
	line := Line{Key: JoistTimber, Unit: Metre, Where: Timber}
	got := map[float64]int{}
	for _, j := range s.in.Joists {
		l := float64(j.Length) // mm
		if !s.count(JoistTimber, j.Count) {
			return
		}
		if !(l > 0 && up(l/step)*step <= longestStock) {
			s.fail(&calc.DomainError{Op: "takeoff.list", Field: "joists", Got: l, Wanted: fmt.Sprintf("a length up to %g mm", longestStock)})
			return
		}
		spare := int(up(float64(j.Count) / 10))
		stock := up(l/step) * step / 1000
		line.Needed += float64(j.Count) * l / 1000
		line.Waste += float64(spare) * l / 1000
		got[stock] += j.Count + spare
		line.ToBuy += float64(j.Count+spare) * stock
	}
	line.Packs = bundle(got)
	if len(line.Packs) == 0 {
		return
	}
	line.LeftOver = max(line.ToBuy-line.Needed-line.Waste, 0)
	line.Cost = s.priceOf(JoistTimber, line.Packs)
	s.lines = append(s.lines, line)
}

// pieces writes short timber cut from stock lengths, by the metre.
func (s *sheet) pieces(key Key, pieces []Piece) {
	if pieces == nil {
		s.miss(key)
		return
	}
	m := 0.0
	for _, p := range pieces {
		if !s.count(key, p.Count) || s.fail(calc.Outside("takeoff.list", string(key), float64(p.Length), 0, longestStock, "mm")) {
			return
		}
		m += float64(p.Count) * p.Length.In(unit.Metre)
	}
	s.packed(key, m)
}

// ends writes what holds joist ends.
func (s *sheet) ends() {
	in := s.in
	if in.HangerEnds == nil {
		s.miss(Hangers)
	} else if s.count(Hangers, *in.HangerEnds) && *in.HangerEnds > 0 {
		s.packedWith(Hangers, float64(*in.HangerEnds), 2)
		switch {
		case in.HangerHoles == nil:
			s.miss(HangerNails)
		case s.count(HangerNails, *in.HangerHoles):
			s.packed(HangerNails, float64(*in.HangerEnds**in.HangerHoles))
		}
	}
	if in.OtherEnds == nil {
		s.miss(Clips, SkewNails)
	} else if s.count(Clips, *in.OtherEnds) && *in.OtherEnds > 0 {
		s.packedWith(Clips, float64(*in.OtherEnds), 2)
		s.packed(SkewNails, 2*float64(*in.OtherEnds)*skewNail)
	}
}

// bundle turns counts by size into packs, the longest first.
func bundle(got map[float64]int) []Pack {
	packs := make([]Pack, 0, len(got))
	for size, n := range got {
		if n > 0 {
			packs = append(packs, Pack{Size: size, Count: n})
		}
	}
	slices.SortFunc(packs, func(a, b Pack) int {
		if a.Size > b.Size {
			return -1
		}
		return 1
	})
	return packs
}

// priceOf adds up packs at the builder's prices; nil when one has none.
func (s *sheet) priceOf(key Key, packs []Pack) *Money {
	var total Money
	for _, p := range packs {
		i := slices.IndexFunc(s.in.Packs[key], func(o PackSize) bool { return math.Abs(o.Size-p.Size) < 5e-4 })
		if i < 0 || s.in.Packs[key][i].Price == nil {
			return nil
		}
		total += Money(p.Count) * *s.in.Packs[key][i].Price
	}
	return &total
}

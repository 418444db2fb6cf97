package takeoff

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// List returns the order for a roof.
//
// Each line is calculated, waste is added to the calculated quantity, then
// packs are chosen; counts of fixings along a run are those of calc/fixings.
//
// Source: common practice, no source, for waste and packs.
// Shape: no line falls when its own quantity grows.
// Domain: runs to 50 m, counts to 10 000, areas to 1000 m²; nil fields are not known.
// Ignores: quantities it was not given (see Bill.Missing); delivery and tax.
// Errors: DomainError only.
func List(in Input) (Bill, error) {
	s := sheet{in: in}
	s.walls()
	s.joists()
	s.deck()
	s.covering()
	s.edges()
	s.rainwater()
	s.lead()
	s.around()
	if s.err != nil {
		return Bill{}, s.err
	}
	return Bill{Lines: s.lines, Missing: s.missing, Cost: sum(s.lines)}, nil
}

// sheet is a list being written. After the first error it writes nothing more.
type sheet struct {
	in      Input
	lines   []Line
	missing []Key
	err     error
}

func (s *sheet) miss(keys ...Key) { s.missing = append(s.missing, keys...) }

// fail keeps the first error and says whether there is one.
func (s *sheet) fail(err error) bool {
	if s.err == nil {
		s.err = err
	}
	return s.err != nil
}

// count checks a number told from outside.
func (s *sheet) count(key Key, n int) bool {
	return !s.fail(calc.Outside("takeoff.list", string(key), float64(n), 0, 10000, ""))
}

// sizes returns the builder's packs of a line, or the usual ones.
func (s *sheet) sizes(key Key) []PackSize {
	if own := s.in.Packs[key]; len(own) > 0 {
		return own
	}
	usual := make([]PackSize, len(wares[key].sizes))
	for i, size := range wares[key].sizes {
		usual[i].Size = size
	}
	return usual
}

// packed writes a line bought in packs. Counts take whole waste.
func (s *sheet) packed(key Key, needed float64) {
	w := wares[key]
	extra := needed * w.waste
	if w.unit == Each {
		extra = up(needed+extra) - needed
	}
	s.packedWith(key, needed, extra)
}

func (s *sheet) packedWith(key Key, needed, extra float64) {
	if s.err != nil || needed == 0 {
		return
	}
	sizes := s.sizes(key)
	p, err := Packs(needed, extra, sizes)
	if s.fail(err) {
		return
	}
	line := lineOf(key, needed, extra, p)
	if !(len(sizes) == 1 && sizes[0].Size == 1 && wares[key].unit == Each) {
		line.Tight, line.Surplus = p.Tight(), p.Surplus()
	}
	if line.Tight {
		roomy, err := Packs(needed+extra, (needed+extra)*tightShare/(1-tightShare), sizes)
		if s.fail(err) {
			return
		}
		line.Offer = roomy.Packs
	}
	s.lines = append(s.lines, line)
}

// lengths writes a line made up run by run from stock lengths with the fewest
// joints. Waste never costs a joint: where it would, the bare run counts.
// It returns the pieces of each run.
func (s *sheet) lengths(key Key, runs []unit.Length) (pieces [][]float64) {
	w := wares[key]
	var all Purchase
	var needed, waste float64
	got := map[float64]int{}
	cost := new(Money)
	for _, r := range runs {
		run := r.In(unit.Metre)
		bare, err := Lengths(run, s.sizes(key))
		if s.fail(err) {
			return nil
		}
		p := bare
		if full := run * (1 + w.waste); full <= 50 {
			ample, err := Lengths(full, s.sizes(key))
			if s.fail(err) {
				return nil
			}
			if joints(ample) == joints(bare) {
				p = ample
			}
		}
		needed += run
		waste += min(run*w.waste, p.ToBuy-run)
		all.ToBuy += p.ToBuy
		var cut []float64
		for _, pack := range p.Packs {
			got[pack.Size] += pack.Count
			for range pack.Count {
				cut = append(cut, pack.Size)
			}
		}
		pieces = append(pieces, cut)
		if p.Cost == nil {
			cost = nil
		} else if cost != nil {
			*cost += *p.Cost
		}
	}
	if needed == 0 {
		return pieces
	}
	all.Packs, all.Cost = bundle(got), cost
	all.LeftOver = max(all.ToBuy-needed-waste, 0)
	s.lines = append(s.lines, lineOf(key, needed, waste, all))
	return pieces
}

func joints(p Purchase) int {
	n := 0
	for _, pack := range p.Packs {
		n += pack.Count
	}
	return n
}

func lineOf(key Key, needed, waste float64, p Purchase) Line {
	return Line{Key: key, Unit: wares[key].unit, Where: wares[key].where, Needed: needed, Waste: waste,
		ToBuy: p.ToBuy, Packs: p.Packs, LeftOver: p.LeftOver, Cost: p.Cost}
}

// up rounds up to a whole number, forgiving the last bits of a product.
func up(v float64) float64 { return math.Ceil(v - 1e-9) }

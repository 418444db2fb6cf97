package takeoff

import (
	"errors"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// List returns the order for a roof.
//
// Each line is calculated, waste is added to the calculated quantity, then
// packs are chosen; counts of fixings along a run are those of calc/fixings.
//
// Source: common practice, no source, for waste and packs; checked by hand, line
// by line, for two roofs in testdata/worked/takeoff.
// Shape: needed + waste + left over = to buy on every line; no line is needed
// less when its own quantity grows.
// Domain: runs to 50 m, counts to 10 000, areas to 1000 m²; nil is not known.
// Ignores: quantities it was not given (see Bill.Missing); delivery and tax.
// Errors: DomainError only.
func List(in Input) (Bill, error) {
	s := sheet{in: in}
	for _, part := range []func(){s.walls, s.joists, s.deck, s.covering, s.edges, s.rainwater, s.lead, s.around} {
		part()
		if s.err != nil {
			return Bill{}, s.err
		}
	}
	bill := Bill{Lines: s.lines, Missing: s.missing, Cost: sum(s.lines)}
	for _, l := range s.lines {
		if l.Cost != nil {
			bill.Priced += *l.Cost
		}
	}
	return bill, nil
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

// within checks a quantity told from outside.
func (s *sheet) within(field string, v, least, most float64, u string) bool {
	return !s.fail(calc.Outside("takeoff.list", field, v, least, most, u))
}

func (s *sheet) count(field string, n int) bool {
	return s.within(field, float64(n), 0, 10000, "in number")
}

// failAs is fail for an error of another calculation, under our key.
func (s *sheet) failAs(field string, err error) bool {
	return s.fail(rename(err, field))
}

// rename puts a domain error under another key.
func rename(err error, field string) error {
	var d *calc.DomainError
	if !errors.As(err, &d) {
		return err
	}
	renamed := *d
	renamed.Field = field
	return &renamed
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

// packed writes a line with the usual waste. A count takes whole waste.
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
	p, err := wares[key].manner.Packs(needed, extra, s.sizes(key))
	if s.failAs("packs", err) {
		return
	}
	s.lines = append(s.lines, s.judged(key, needed, extra, p))
}

// judged is a line with its flags, and an offer where the choice is tight.
func (s *sheet) judged(key Key, needed, extra float64, p Purchase) Line {
	line := lineOf(key, needed, extra, p)
	sizes := s.sizes(key)
	if line.Unit == Each && len(sizes) == 1 && sizes[0].Size == 1 {
		return line // counted and bought one by one: nothing is left over by choice
	}
	line.Tight = p.Tight()
	line.Surplus = p.Surplus() && line.Unit != Cartridge // there is no smaller one
	if line.Tight {
		roomy, err := wares[key].manner.Packs(needed+extra, (needed+extra)*tightShare/(1-tightShare), sizes)
		if !s.failAs("packs", err) {
			line.Offer = roomy.Packs
		}
	}
	return line
}

// sawn writes a line as an exact cut list has it, and says whether there is one.
// What is left of the bars after the last cut is left over, saw cuts included.
func (s *sheet) sawn(key Key) bool {
	c, ok := s.in.Sawn[key]
	if !ok || s.err != nil {
		return false
	}
	line := Line{Key: key, Unit: Metre, Where: Timber, Needed: c.Needed.In(unit.Metre), Waste: c.Spare.In(unit.Metre), Packs: c.Packs}
	if w, ok := wares[key]; ok {
		line.Where = w.where
	}
	for _, p := range c.Packs {
		if !s.within("sawn", p.Size, 0.001, 100, "m") || !s.count("sawn", p.Count) {
			return true
		}
		line.ToBuy += p.Size * float64(p.Count)
	}
	line.LeftOver = line.ToBuy - line.Needed - line.Waste
	if line.LeftOver < -1e-9 {
		s.fail(&calc.DomainError{Op: "takeoff.list", Field: "sawn", Got: string(key), Wanted: "lengths that hold the pieces"})
		return true
	}
	line.Cost = s.priceOf(key, c.Packs)
	if len(c.Packs) > 0 {
		s.lines = append(s.lines, line)
	}
	return true
}

// lengths writes a line made up run by run from stock lengths, with the fewest
// joints, each of which costs a lap. Waste never costs a joint: where it would,
// the bare run counts. It returns the pieces of each run, the longest first.
func (s *sheet) lengths(key Key, field string, runs []unit.Length, lap float64) (pieces [][]float64) {
	w := wares[key]
	line := lineOf(key, 0, 0, Purchase{Cost: new(Money)})
	got := map[float64]int{}
	for _, r := range runs {
		if !s.within(field, float64(r), 1, 50000, "mm") {
			return nil
		}
		run, p, err := w.joined(r.In(unit.Metre), lap, s.sizes(key))
		if s.failAs("packs", err) {
			return nil
		}
		ample, err := w.manner.Packs(run, run*w.waste, s.sizes(key))
		if s.failAs("packs", err) {
			return nil
		}
		if joints(ample) == joints(p) {
			p = ample
		}
		waste := math.Min(run*w.waste, p.ToBuy-run)
		line.Needed, line.Waste, line.ToBuy = line.Needed+run, line.Waste+waste, line.ToBuy+p.ToBuy
		line.LeftOver += p.ToBuy - run - waste
		var cut []float64
		for _, pack := range p.Packs {
			got[pack.Size] += pack.Count
			for range pack.Count {
				cut = append(cut, pack.Size)
			}
		}
		pieces = append(pieces, cut)
		line.Cost = add(line.Cost, p.Cost)
	}
	if len(runs) > 0 {
		line.Packs = bundle(got)
		s.lines = append(s.lines, line)
	}
	return pieces
}

// joined chooses the lengths of a run and adds to it the laps of their joints.
func (w ware) joined(run, lap float64, sizes []PackSize) (float64, Purchase, error) {
	laps := 0
	for {
		full := run + float64(laps)*lap
		p, err := w.manner.Packs(full, 0, sizes)
		if err != nil || lap == 0 || joints(p)-1 <= laps {
			return full, p, err
		}
		laps = joints(p) - 1
	}
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

// whole is one pack cut to size.
func whole(size float64) []Pack { return []Pack{{Size: float64(thousandths(size)) / 1000, Count: 1}} }

// up rounds up to a whole number, forgiving the last bits of a product.
func up(v float64) float64 { return math.Ceil(v - 1e-9) }

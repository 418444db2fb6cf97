package takeoff

import (
	"cmp"
	"slices"

	"chargehand/calc"
)

// Arrival says how a delivery stands against its line.
type Arrival string

const (
	Whole     Arrival = "whole"      // all that was ordered, or as long
	Enough    Arrival = "enough"     // less than ordered, still need and waste
	IntoWaste Arrival = "into-waste" // the need, not all of the waste
	Short     Arrival = "short"      // less than the need: the plan changes
)

// Delivery is what came of one line.
type Delivery struct {
	Arrival Arrival
	Came    float64 // of it, what can be used
	ToGet   []Pack  // still to get, to have need and waste
}

// Delivered compares what came with what was ordered.
//
// Lengths ordered run by run stand for pieces: an ordered length counts as come
// only when a length at least as long came for it. Other packs just add up.
//
// Source: arithmetic.
// Shape: more packs never make it worse; nothing came is Short, or Whole when
// nothing was ordered.
// Domain: packs of 0.001 to 1e6, counts 0 to 10 000.
// Errors: DomainError only.
func Delivered(line Line, came []Pack) (Delivery, error) {
	const op = "takeoff.delivered"
	total := 0.0
	for _, p := range came {
		if err := calc.Outside(op, "size", p.Size, 0.001, 1e6, "in the unit of the line"); err != nil {
			return Delivery{}, err
		}
		if err := calc.Outside(op, "count", float64(p.Count), 0, 10000, "packs"); err != nil {
			return Delivery{}, err
		}
		total += p.Size * float64(p.Count)
	}
	if byPiece(line.Key) {
		return matched(line, came), nil
	}
	d := Delivery{Came: total, Arrival: Short}
	switch {
	case total >= line.ToBuy-1e-9:
		d.Arrival = Whole
	case total >= line.Needed+line.Waste-1e-9:
		d.Arrival = Enough
	case total >= line.Needed-1e-9:
		d.Arrival = IntoWaste
	}
	if gap := line.Needed + line.Waste - total; gap > 1e-9 && len(line.Packs) > 0 {
		sizes := make([]PackSize, len(line.Packs))
		for i, p := range line.Packs {
			sizes[i].Size = p.Size
		}
		p, err := wares[line.Key].manner.Packs(gap, 0, sizes)
		if err != nil {
			return Delivery{}, err
		}
		d.ToGet = p.Packs
	}
	return d, nil
}

// byPiece says whether a line's packs are pieces that must each be long enough.
func byPiece(key Key) bool { return key == JoistTimber || wares[key].manner == Fewest && key != Skip }

// matched gives each ordered length, the longest first, the longest that came.
func matched(line Line, came []Pack) Delivery {
	d := Delivery{Arrival: Whole}
	have := slices.Clone(came)
	slices.SortFunc(have, func(a, b Pack) int { return cmp.Compare(b.Size, a.Size) })
	for _, want := range line.Packs {
		lack := want.Count
		for i := range have {
			if have[i].Size < want.Size-1e-9 {
				break
			}
			n := min(lack, have[i].Count)
			have[i].Count -= n
			lack -= n
		}
		d.Came += float64(want.Count-lack) * want.Size
		if lack == 0 {
			continue
		}
		d.ToGet = append(d.ToGet, Pack{Size: want.Size, Count: lack})
		switch {
		case lack > spareOf(line, want.Size):
			d.Arrival = Short
		case d.Arrival == Whole:
			d.Arrival = IntoWaste
		}
	}
	return d
}

func spareOf(line Line, size float64) int {
	for _, p := range line.Spare {
		if p.Size == size {
			return p.Count
		}
	}
	return 0
}

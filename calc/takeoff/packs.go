package takeoff

import (
	"math"

	"chargehand/calc"
)

// Money is in hundredths of the builder's own currency, so that equal prices
// compare equal.
type Money int64

// PackSize is a pack one can buy. Price is nil when the builder has not said.
type PackSize struct {
	Size  float64 // in the unit of the line
	Price *Money
}

// Pack is some packs of one size.
type Pack struct {
	Size  float64 `json:"size" doc:"in the unit of the line"`
	Count int     `json:"count" doc:"packs of this size"`
}

// The limits beyond which a purchase is flagged.
//
// Source: common practice, no source.
const (
	tightShare   = 0.05 // left over of what is bought, less than this
	surplusShare = 0.60 // left over of what is bought, more than this
)

// Purchase is a choice of packs.
type Purchase struct {
	Packs    []Pack // largest first
	ToBuy    float64
	LeftOver float64 // ToBuy less the need with its waste
	Cost     *Money  // nil unless every pack bought has a price
}

// Tight says that less than 5 % of what is bought stays over.
func (p Purchase) Tight() bool { return p.ToBuy > 0 && p.LeftOver < tightShare*p.ToBuy-1e-9 }

// Surplus says that more than 60 % of what is bought stays over.
func (p Purchase) Surplus() bool { return p.LeftOver > surplusShare*p.ToBuy+1e-9 }

// Manner is how packs are chosen while a price is missing.
type Manner int

const (
	// Tins: the least left over, then the fewest, among choices in which small
	// packs never add up to a bigger one (four 1 l tins where a 2.5 l tin exists
	// are not bought: the bigger is cheaper by the litre).
	Tins Manner = iota
	// Timbers: the least left over, then the fewest; a metre costs the same in
	// any length.
	Timbers
	// Fewest: the fewest, then the least left over: joints in a run, skips.
	Fewest
)

// Packs chooses the tins, boxes or bags that cover needed and its waste; see
// [Manner.Packs].
func Packs(needed, waste float64, sizes []PackSize) (Purchase, error) {
	return Tins.Packs(needed, waste, sizes)
}

// Packs chooses the packs that cover needed and its waste.
//
// With a price on every size: the lowest price, then the least left over, then
// the fewest packs (Fewest: the fewest packs before the price). Otherwise as the
// manner says. Equal inputs give equal choices, in whatever order sizes come.
//
// Source: common practice, no source.
// Units: all in the unit of the line; sizes and need are told apart to 1/1000.
// Shape: to buy ≥ needed + waste; no pack can be handed back.
// Domain: 0 ≤ needed, 0 ≤ waste, needed + waste ≤ 1e6; 1 to 12 sizes of 0.001 to
// 1e6, not finer against the need than 200 000 steps.
// Errors: DomainError only.
func (m Manner) Packs(needed, waste float64, sizes []PackSize) (Purchase, error) {
	const op = "takeoff.packs"
	if err := calc.Outside(op, "needed", needed, 0, 1e6, "in the unit of the line"); err != nil {
		return Purchase{}, err
	}
	if err := calc.Outside(op, "waste", waste, 0, 1e6-needed, "in the unit of the line"); err != nil {
		return Purchase{}, err
	}
	shelf, priced, err := stack(op, sizes)
	if err != nil {
		return Purchase{}, err
	}
	need := int64(math.Ceil((needed+waste)*1000 - 1e-6))
	var counts []int
	switch {
	case m == Fewest:
		counts, err = cheapest(need, shelf, func(t tin) Money {
			if priced {
				return joint + *t.price
			}
			return joint
		})
	case priced:
		counts, err = cheapest(need, shelf, func(t tin) Money { return *t.price })
	case m == Timbers:
		counts, err = cheapest(need, shelf, func(t tin) Money { return Money(t.size) })
	default:
		counts, _ = leastLeft(need, shelf)
	}
	if err != nil {
		return Purchase{}, err
	}
	return purchase(needed+waste, shelf, counts), nil
}

func purchase(need float64, shelf []tin, counts []int) Purchase {
	var p Purchase
	var total int64
	var cost Money
	known := true
	for i, n := range counts {
		if n == 0 {
			continue
		}
		p.Packs = append(p.Packs, Pack{Size: float64(shelf[i].size) / 1000, Count: n})
		total += int64(n) * shelf[i].size
		if shelf[i].price == nil {
			known = false
			continue
		}
		cost += Money(n) * *shelf[i].price
	}
	p.ToBuy = float64(total) / 1000
	p.LeftOver = max(p.ToBuy-need, 0) // below zero only by the last bits of a float
	if known {
		p.Cost = &cost
	}
	return p
}

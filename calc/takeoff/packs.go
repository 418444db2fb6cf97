package takeoff

import (
	"fmt"
	"math"
	"slices"

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
	if err := calc.Outside(op, "needed", needed, 0, 1e6, ""); err != nil {
		return Purchase{}, err
	}
	if err := calc.Outside(op, "waste", waste, 0, 1e6-needed, ""); err != nil {
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

// dearest is the highest price of one pack.
const dearest = Money(1e8)

// joint stands for one more pack where packs count before prices; above the
// price of any ten thousand.
const joint = Money(1e12)

// stack sorts the sizes and says whether each has a price.
func stack(op string, sizes []PackSize) (shelf []tin, priced bool, err error) {
	if len(sizes) < 1 || len(sizes) > 12 {
		return nil, false, &calc.DomainError{Op: op, Field: "sizes", Got: len(sizes), Wanted: "1 to 12 pack sizes"}
	}
	priced = true
	for _, s := range sizes {
		if err := calc.Outside(op, "size", s.Size, 0.001, 1e6, ""); err != nil {
			return nil, false, err
		}
		if s.Price != nil && (*s.Price < 0 || *s.Price > dearest) {
			return nil, false, &calc.DomainError{Op: op, Field: "price", Got: int64(*s.Price), Wanted: "0 to 1e8 hundredths"}
		}
		priced = priced && s.Price != nil
		shelf = append(shelf, tin{size: thousandths(s.Size), price: s.Price})
	}
	slices.SortFunc(shelf, tin.order)
	shelf = slices.CompactFunc(shelf, func(a, b tin) bool { return a.size == b.size }) // the dearer twin goes
	return shelf, priced, nil
}

// tin is a pack size in whole thousandths.
type tin struct {
	size  int64
	price *Money
}

// order sorts the largest first, of twins the cheaper first, unpriced last.
func (a tin) order(b tin) int {
	if a.size != b.size {
		if a.size > b.size {
			return -1
		}
		return 1
	}
	switch {
	case a.price == nil && b.price == nil:
		return 0
	case a.price == nil:
		return 1
	case b.price == nil:
		return -1
	}
	return int(min(max(*a.price-*b.price, -1), 1))
}

func thousandths(v float64) int64 { return max(int64(math.Round(v*1000)), 1) }

// leastLeft covers need from a shelf sorted largest first. What the smaller
// packs add up to stays below the largest, so only two counts of the largest
// are open: enough of it alone, or one less and the rest in smaller packs.
func leastLeft(need int64, shelf []tin) (counts []int, total int64) {
	counts = make([]int, len(shelf))
	if need <= 0 {
		return counts, 0
	}
	big := shelf[0].size
	full := (need + big - 1) / big
	counts[0], total = int(full), full*big
	if len(shelf) == 1 {
		return counts, total
	}
	rest, small := leastLeft(need-(full-1)*big, shelf[1:])
	if small < big {
		return append([]int{int(full - 1)}, rest...), (full-1)*big + small
	}
	return counts, total
}

// mostStates bounds the work of cheapest.
const mostStates = 200_000

// cheapest covers need at the lowest price by a table over totals in steps of
// the sizes' common divisor.
func cheapest(need int64, shelf []tin, price func(tin) Money) ([]int, error) {
	counts := make([]int, len(shelf))
	if need <= 0 {
		return counts, nil
	}
	step := shelf[0].size
	for _, t := range shelf[1:] {
		step = gcd(step, t.size)
	}
	n := (need+step-1)/step + shelf[0].size/step // any larger total holds a pack too many
	if n > mostStates {
		return nil, &calc.DomainError{Op: "takeoff.packs", Field: "sizes", Got: fmt.Sprint(n, " steps"), Wanted: "pack sizes less fine against the need"}
	}
	type state struct {
		price Money
		packs int
		last  int // index of the pack added, -1 unreachable
	}
	table := make([]state, n)
	for total := int64(1); total < n; total++ {
		best := state{last: -1}
		for i, t := range shelf {
			from := total - t.size/step
			if from < 0 || (from > 0 && table[from].last < 0) {
				continue
			}
			s := state{price: table[from].price + price(t), packs: table[from].packs + 1, last: i}
			if best.last < 0 || s.price < best.price || (s.price == best.price && s.packs < best.packs) {
				best = s
			}
		}
		table[total] = best
	}
	at := int64(-1)
	for total := (need + step - 1) / step; total < n; total++ {
		if table[total].last >= 0 && (at < 0 || table[total].price < table[at].price) {
			at = total
		}
	}
	for at > 0 {
		i := table[at].last
		counts[i]++
		at -= shelf[i].size / step
	}
	return counts, nil
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
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

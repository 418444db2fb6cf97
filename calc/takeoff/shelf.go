package takeoff

import (
	"fmt"
	"math"
	"slices"

	"chargehand/calc"
)

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
		if err := calc.Outside(op, "size", s.Size, 0.001, 1e6, "in the unit of the line"); err != nil {
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

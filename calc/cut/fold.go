package cut

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Limits of the domain. They keep every sum of the search far inside int64.
const (
	maxLength = 100 * unit.Metre
	maxKerf   = 100 * unit.Millimetre
	maxTrim   = 5 * unit.Metre
	maxCost   = 100_000_000
	maxPieces = 2000
	maxKinds  = 200 // of piece
	maxStocks = 40
)

// tenth is the finest length the saw list knows: 0.1 mm, so that inches stay
// exact and whole millimetres cost nothing (folding divides by the common
// measure).
const tenth = 10 // per mm

// folded is a Problem in whole numbers with the kerf folded in:
//
//	Σ (piece+kerf) ≤ bar − trim + kerf
//
// which is the rule of the package comment with kerf added on both sides.
// Equal lengths are one item, longest first.
type folded struct {
	size   []int   // of each item, kerf included
	demand []int   // pieces of each item
	from   [][]int // Problem.Pieces indexes behind each item
	kinds  []kind  // usable stocks, longest first
}

type kind struct {
	stock int // Problem.Stocks index
	room  int // bar − trim + kerf
	cost  int64
	avail int // never more than could be used
}

func domain(field string, got any, wanted string) error {
	return &calc.DomainError{Op: "cut", Field: field, Got: got, Wanted: wanted}
}

// tenths returns l in whole tenths of a millimetre.
func tenths(field string, l, min, max unit.Length) (int, error) {
	f := l.In(unit.Millimetre)
	if !(l >= min && l <= max) {
		return 0, domain(field, f, fmt.Sprintf("%g to %g mm", min.In(unit.Millimetre), max.In(unit.Millimetre)))
	}
	t := math.Round(f * tenth)
	if math.Abs(t-f*tenth) > 1e-6 {
		return 0, domain(field, f, "a whole number of tenths of a millimetre")
	}
	return int(t), nil
}

// fold checks the domain and returns the problem in whole numbers.
func fold(p Problem) (folded, error) {
	var f folded
	kerf, err := tenths("kerf_mm", p.Kerf, 0, maxKerf)
	if err != nil {
		return f, err
	}
	trim, err := tenths("trim_mm", p.Trim, 0, maxTrim)
	if err != nil {
		return f, err
	}
	if p.Budget < 0 {
		return f, domain("budget", p.Budget, "0 or more")
	}
	if len(p.Pieces) == 0 || len(p.Pieces) > maxKinds {
		return f, domain("pieces", len(p.Pieces), fmt.Sprintf("1 to %d kinds of piece", maxKinds))
	}
	if len(p.Stocks) == 0 || len(p.Stocks) > maxStocks {
		return f, domain("stock", len(p.Stocks), fmt.Sprintf("1 to %d kinds of stock", maxStocks))
	}
	byLength := map[int][]int{}
	total := 0
	for i, pc := range p.Pieces {
		l, err := tenths(fmt.Sprintf("pieces[%d].length_mm", i), pc.Length, 0.1, maxLength)
		if err != nil {
			return f, err
		}
		if pc.Count < 1 || pc.Count > maxPieces {
			return f, domain(fmt.Sprintf("pieces[%d].count", i), pc.Count, fmt.Sprintf("1 to %d", maxPieces))
		}
		total += pc.Count
		byLength[l] = append(byLength[l], i)
	}
	if total > maxPieces {
		return f, domain("pieces", total, fmt.Sprintf("at most %d pieces in all", maxPieces))
	}
	if err := f.addKinds(p, kerf, trim, total); err != nil {
		return f, err
	}
	for l := range byLength {
		f.size = append(f.size, l+kerf)
	}
	sort.Sort(sort.Reverse(sort.IntSlice(f.size)))
	for _, s := range f.size {
		from := byLength[s-kerf]
		n := 0
		for _, i := range from {
			n += p.Pieces[i].Count
		}
		f.demand = append(f.demand, n)
		f.from = append(f.from, from)
		longest := 0
		for _, k := range f.kinds {
			longest = max(longest, k.room)
		}
		if s > longest {
			return f, domain(fmt.Sprintf("pieces[%d].length_mm", from[0]), p.Pieces[from[0]].Length.In(unit.Millimetre),
				fmt.Sprintf("at most %g mm, the longest bar less trim", float64(max(longest-kerf, 0))/tenth))
		}
	}
	f.dropShort()
	f.measure()
	return f, nil
}

func (f *folded) addKinds(p Problem, kerf, trim, total int) error {
	for i, s := range p.Stocks {
		l, err := tenths(fmt.Sprintf("stock[%d].length_mm", i), s.Length, 0.1, maxLength)
		if err != nil {
			return err
		}
		if s.Cost < 0 || s.Cost > maxCost {
			return domain(fmt.Sprintf("stock[%d].cost", i), s.Cost, fmt.Sprintf("0 to %d", int64(maxCost)))
		}
		if s.Available < Unlimited {
			return domain(fmt.Sprintf("stock[%d].available", i), s.Available, "0 or more, or -1 for as many as needed")
		}
		if s.Available == Unlimited && s.Cost == 0 {
			return domain(fmt.Sprintf("stock[%d].cost", i), s.Cost, "more than 0 where as many bars as needed can be had")
		}
		if l <= trim || s.Available == 0 {
			continue // nothing can be sawn from it
		}
		k := kind{stock: i, room: l - trim + kerf, cost: s.Cost, avail: s.Available}
		if k.avail == Unlimited || k.avail > total {
			k.avail = total // a bar never carries less than one piece
		}
		f.kinds = append(f.kinds, k)
	}
	if len(f.kinds) == 0 {
		return domain("stock", len(p.Stocks), "at least one bar longer than the trim")
	}
	sort.SliceStable(f.kinds, func(a, b int) bool { return f.kinds[a].room > f.kinds[b].room })
	f.dropBeaten(total)
	return nil
}

// dropShort leaves out kinds that hold no piece at all.
func (f *folded) dropShort() {
	shortest := f.size[len(f.size)-1]
	f.kinds = slices.DeleteFunc(f.kinds, func(k kind) bool { return k.room < shortest })
}

// dropBeaten leaves out kinds that a kind without limit beats: no shorter and
// no dearer.
func (f *folded) dropBeaten(total int) {
	var kept []kind
	for i, k := range f.kinds {
		beaten := false
		for j, o := range f.kinds {
			better := o.room > k.room || o.cost < k.cost || j < i
			beaten = beaten || j != i && o.avail == total && o.room >= k.room && o.cost <= k.cost && better
		}
		if !beaten {
			kept = append(kept, k)
		}
	}
	f.kinds = kept
}

// measure divides all sizes by their greatest common divisor; rooms are
// rounded down, since sizes only ever fill whole multiples.
func (f *folded) measure() {
	g := 0
	for _, s := range f.size {
		g = gcd(g, s)
	}
	for i := range f.size {
		f.size[i] /= g
	}
	for i := range f.kinds {
		f.kinds[i].room /= g
	}
}

func gcd(a, b int) int {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

package cut

import (
	"fmt"

	"chargehand/calc/unit"
)

// Check returns an error unless l is a whole answer to p: every piece cut as
// often as wanted, no bar over its length, no stock over what can be had, and
// the sums as stated. It shares nothing with the search, and it does not judge
// whether a cheaper list exists: that is what Bound is for.
//
// Units: millimetres, to the nearest hundredth.
// Errors: *calc.DomainError for a problem outside the domain, otherwise a
// plain error that says what is wrong with the list.
func Check(p Problem, l List) error {
	if _, err := fold(p); err != nil {
		return err
	}
	const grain = 0.005 // mm; lengths are whole tenths
	got := make([]int, len(p.Pieces))
	used := make([]int, len(p.Stocks))
	var cost int64
	for b, bar := range l.Bars {
		if bar.Stock < 0 || bar.Stock >= len(p.Stocks) {
			return fmt.Errorf("bar %d: no stock %d", b, bar.Stock)
		}
		s := p.Stocks[bar.Stock]
		if bar.Length != s.Length {
			return fmt.Errorf("bar %d: length %v, stock %d is %v", b, bar.Length, bar.Stock, s.Length)
		}
		if len(bar.Cuts) == 0 {
			return fmt.Errorf("bar %d: nothing is cut from it", b)
		}
		used[bar.Stock]++
		cost += s.Cost
		var sum unit.Length
		for _, c := range bar.Cuts {
			if c.Piece < 0 || c.Piece >= len(p.Pieces) {
				return fmt.Errorf("bar %d: no piece %d", b, c.Piece)
			}
			if c.Length != p.Pieces[c.Piece].Length {
				return fmt.Errorf("bar %d: piece %d cut to %v, wanted %v", b, c.Piece, c.Length, p.Pieces[c.Piece].Length)
			}
			got[c.Piece]++
			sum += c.Length
		}
		n := unit.Length(len(bar.Cuts))
		if over := sum + p.Kerf*(n-1) - (s.Length - p.Trim); over > grain {
			return fmt.Errorf("bar %d: %v too much for a bar of %v", b, over, s.Length)
		}
		offcut := max(s.Length-p.Trim-sum-p.Kerf*n, 0)
		if d := bar.Offcut - offcut; d > grain || d < -grain {
			return fmt.Errorf("bar %d: offcut %v, must be %v", b, bar.Offcut, offcut)
		}
	}
	for i, pc := range p.Pieces {
		if got[i] != pc.Count {
			return fmt.Errorf("piece %d: cut %d times, wanted %d", i, got[i], pc.Count)
		}
	}
	for i, s := range p.Stocks {
		if s.Available != Unlimited && used[i] > s.Available {
			return fmt.Errorf("stock %d: %d bars used, %d to be had", i, used[i], s.Available)
		}
	}
	switch {
	case l.Count != len(l.Bars):
		return fmt.Errorf("count %d, there are %d bars", l.Count, len(l.Bars))
	case l.Cost != cost:
		return fmt.Errorf("cost %d, the bars cost %d", l.Cost, cost)
	case l.Bound > l.Cost:
		return fmt.Errorf("bound %d above the cost %d", l.Bound, l.Cost)
	case l.Proven != (l.Bound == l.Cost):
		return fmt.Errorf("proven %v with bound %d and cost %d", l.Proven, l.Bound, l.Cost)
	}
	return nil
}

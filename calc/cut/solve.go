package cut

// Solve returns the cheapest list it can find for p within the budget, with a
// bound on what any list costs.
//
// Source: the rule of the package comment is common practice, no source.
// Units: lengths in whole tenths of a millimetre; cost in the caller's unit.
// Shape: a larger budget never gives a dearer list or a lower bound; more of a
// piece never costs less; the order of pieces and stocks does not matter to
// the cost.
// Domain: 1 to 5000 pieces, each no longer than the longest bar less trim;
// cost 0 to 1e8 a bar, above 0 where bars are unlimited.
// Ignores: knots, twist, and what an offcut may be good for later.
// Errors: *calc.DomainError, also when the limited stock at hand is too little.
func Solve(p Problem) (List, error) {
	f, err := fold(p)
	if err != nil {
		return List{}, err
	}
	budget := p.Budget
	if budget == 0 {
		budget = DefaultBudget
	}
	s := newSearch(&f, budget)
	bound := s.run()
	if s.best == nil {
		return List{}, domain("stock", "the bars at hand", "more bars: no list was found that cuts every piece")
	}
	return f.list(p, s.best, bound, s.spent), nil
}

func (f *folded) list(p Problem, loads []load, bound, work int64) List {
	l := List{Bars: f.unfold(p, loads), Count: len(loads), Cost: f.cost(loads), Work: work}
	l.Bound = min(bound, l.Cost)
	l.Proven = l.Bound == l.Cost
	if !l.Proven {
		l.Gap = float64(l.Cost-l.Bound) / float64(l.Cost)
	}
	return l
}

// lengthBound returns the cost of the cheapest metres that hold all pieces laid
// end to end.
func (f *folded) lengthBound() int64 {
	var need, cost int64
	for i, s := range f.size {
		need += int64(s) * int64(f.demand[i])
	}
	left := make([]int64, len(f.kinds))
	for k := range left {
		left[k] = int64(f.kinds[k].avail)
	}
	for need > 0 {
		best := -1
		for k, c := range f.kinds {
			if left[k] > 0 && (best < 0 || c.cost*int64(f.kinds[best].room) < f.kinds[best].cost*int64(c.room)) {
				best = k
			}
		}
		if best < 0 {
			break
		}
		c := f.kinds[best]
		if whole := left[best] * int64(c.room); whole <= need {
			need -= whole
			cost += left[best] * c.cost
		} else {
			cost += (need*c.cost + int64(c.room) - 1) / int64(c.room)
			need = 0
		}
		left[best] = 0
	}
	return cost
}

package cut

// Solve returns the cheapest list it can find for p within the budget, with a
// bound on what any list costs.
//
// Source: the rule of the package comment is common practice, no source.
// Units: lengths in whole tenths of a millimetre; cost in the caller's unit.
// Shape: a larger budget never gives a dearer list or a lower bound; more of a
// piece never costs less; the order of pieces and stocks does not matter to
// the cost.
// Domain: 1 to 2000 pieces of at most 200 kinds from at most 40 stocks, no
// piece longer than the longest bar less trim; cost 0 to 1e8 a bar, above 0
// where bars are unlimited.
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

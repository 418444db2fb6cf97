package deck

// Solve returns the layout with the fewest boards it can find for p within the
// budget, then the fewest pieces, with a bound on the boards of any layout.
//
// Source: the rules of the package comment, common practice, no source.
// Units: lengths in whole tenths of a millimetre.
// Shape: a larger budget never gives more boards or a lower bound.
// Domain: rows up to 30 m, boards up to 10 m, up to 200 rows and 500 strips.
// Ignores: tongue and groove, which face is up, the condition of an offcut.
// Errors: *calc.DomainError, also when no row can be laid by the rules.
func Solve(p Problem) (Layout, error) {
	s, err := fold(p)
	if err != nil {
		return Layout{}, err
	}
	budget := p.Budget
	if budget == 0 {
		budget = DefaultBudget
	}
	se, region := newSearch(s, budget)
	if region >= 0 {
		return Layout{}, s.noRow(p, region)
	}
	plans := se.rowByRow()
	if plans == nil {
		return Layout{}, domain("stagger", p.Stagger, "less: no two ways to lay a row were found that may lie side by side")
	}
	for _, pl := range plans {
		sizes, counts := s.sizesOf(pl)
		se.offer(pl, s.pack(sizes, counts))
	}
	se.run()
	return s.layout(se.best, se.boards, se.bound, se.spent), nil
}

// noRow says which input keeps every row of region i from being laid.
func (s shape) noRow(p Problem, i int) error {
	if bays := len(s.regions[i].lines) - 1; bays < s.minBays {
		return domain("min_bays", p.MinBays, "at most the bays of a row")
	}
	return domain("board_length_mm", p.BoardLength.In(1), "boards that reach over min_bays bays")
}

func (p plan) pieces() int {
	n := 0
	for _, rows := range p {
		for _, way := range rows {
			n += len(way.spans)
		}
	}
	return n
}

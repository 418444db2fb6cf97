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
	var ways [][]pattern
	for i, r := range s.regions {
		w, _ := s.patterns(r)
		if len(w) == 0 {
			return Layout{}, s.noRow(p, i)
		}
		ways = append(ways, w)
	}
	plans := s.rowByRow(ways)
	if plans == nil {
		return Layout{}, domain("stagger", p.Stagger, "less: no two ways to lay a row may lie side by side")
	}
	var best plan
	var boards []boardPlan
	for _, pl := range plans {
		sizes, counts := s.sizesOf(pl)
		if b := s.pack(sizes, counts); best == nil || len(b) < len(boards) ||
			len(b) == len(boards) && pl.pieces() < best.pieces() {
			best, boards = pl, b
		}
	}
	return s.layout(best, boards, s.areaBound(), 0), nil
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

// areaBound returns the fewest boards whose area covers the rows, end gaps
// taken off as if every joint there could be were used.
func (s shape) areaBound() int {
	var area int64
	for _, r := range s.regions {
		gaps := s.endGap * ((len(r.lines) - 1) / s.minBays)
		for y := range r.rows() {
			area += int64(max(r.lines[len(r.lines)-1]-gaps, 0)) * int64(s.rowWidth(r, y))
		}
	}
	for _, st := range s.strips {
		area += int64(st.length) * int64(st.height) * int64(st.count)
	}
	board := int64(s.board) * int64(s.width)
	return int((area + board - 1) / board)
}

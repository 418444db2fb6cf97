package deck

import "chargehand/calc/cut"

// fit looks for a way to saw the parts from so many boards. It returns the
// boards, or nil; refuted says that there is none.
func (s *search) fit(counts []int, boards int) (found []boardPlan, refuted bool) {
	key := countKey(counts)
	if s.unpacked[key] >= boards {
		return nil, true
	}
	if b := s.pack(s.sizes, counts); len(b) <= boards {
		return b, false
	}
	for _, p := range s.proofs {
		if p.valueOf(counts) > p.worth*int64(boards) {
			return nil, true
		}
	}
	if len(s.sawyer.widths) == 0 {
		found, refuted = s.fitLengths(counts, boards)
	} else if found, refuted = s.round(counts, boards); found == nil && !refuted {
		found, refuted = s.fitRipped(counts, boards)
	}
	if refuted {
		s.unpacked[key] = max(s.unpacked[key], boards)
	}
	return found, refuted
}

func (p proof) valueOf(counts []int) (sum int64) {
	for i, n := range counts {
		sum += int64(n) * p.value[i]
	}
	return sum
}

func countKey(counts []int) string {
	b := make([]byte, 0, 2*len(counts))
	for _, n := range counts {
		b = append(b, byte(n), byte(n>>8))
	}
	return string(b)
}

// lengthsBudget is the work one packing of lengths may take.
const lengthsBudget = 20_000_000

// fitLengths saws boards that are only cross-cut: a cutting list of one stock.
func (s *search) fitLengths(counts []int, boards int) ([]boardPlan, bool) {
	p := cut.Problem{
		Stocks: []cut.Stock{{Length: mmOf(s.board), Cost: 1, Available: cut.Unlimited}},
		Kerf:   mmOf(s.kerf), Budget: lengthsBudget,
	}
	var part []int
	for i, n := range counts {
		if n > 0 {
			p.Pieces = append(p.Pieces, cut.Piece{Length: mmOf(s.sizes[i].length), Count: n})
			part = append(part, i)
		}
	}
	l, err := cut.Solve(p)
	s.spent += l.Work + 1000
	if err != nil {
		return nil, false // outside the domain of lists: nothing is known
	}
	if l.Count > boards {
		return nil, l.Bound > int64(boards)
	}
	var out []boardPlan
	for _, bar := range l.Bars {
		b := boardPlan{free: s.board}
		for _, c := range bar.Cuts {
			sec := whole(s.shape, s.sizes[part[c.Piece]])
			b.sections = append(b.sections, sec)
			b.free -= sec.length + s.kerf
		}
		out = append(out, b)
	}
	return out, false
}

// yield is one way to saw a board, by the parts it gives.
type yield struct {
	counts []int
	plan   boardPlan
}

// fitRipped lists every board that yields as much as it can of what is wanted,
// and looks for enough of them by the largest part still missing.
func (s *search) fitRipped(counts []int, boards int) ([]boardPlan, bool) {
	yields, complete := s.yields(counts)
	byPart := make([][]int, len(counts))
	for i, y := range yields {
		for p, n := range y.counts {
			if n > 0 {
				byPart[p] = append(byPart[p], i)
			}
		}
	}
	left := append([]int(nil), counts...)
	failed := map[string]int{}
	var chosen []int
	var cover func(boards int) (found, all bool)
	cover = func(boards int) (bool, bool) {
		first := -1
		for p, n := range left {
			if n > 0 {
				first = p
				break
			}
		}
		if first < 0 {
			return true, true
		}
		if boards == 0 {
			return false, true
		}
		for _, pr := range s.proofs {
			if pr.valueOf(left) > pr.worth*int64(boards) {
				return false, true
			}
		}
		key := countKey(left)
		if failed[key] >= boards {
			return false, true
		}
		all := true
		for _, i := range byPart[first] {
			if s.exhausted() {
				return false, false
			}
			s.spent += int64(4 * len(left) * (1 + len(s.proofs)))
			took := make([]int, len(left))
			for p, n := range yields[i].counts {
				took[p] = min(n, left[p])
				left[p] -= took[p]
			}
			chosen = append(chosen, i)
			found, whole := cover(boards - 1)
			if found {
				return true, true
			}
			chosen = chosen[:len(chosen)-1]
			for p, n := range took {
				left[p] += n
			}
			all = all && whole
		}
		if all {
			failed[key] = boards
		}
		return false, all
	}
	found, all := cover(boards)
	if !found {
		return nil, all && complete
	}
	var out []boardPlan
	spare := append([]int(nil), counts...)
	for _, i := range chosen {
		if b := s.trim(yields[i].plan, spare); len(b.sections) > 0 {
			out = append(out, b)
		}
	}
	return out, false
}

// trim leaves out the parts of a board that are not wanted any more, and counts
// off those that are.
func (s *search) trim(b boardPlan, spare []int) boardPlan {
	out := boardPlan{free: s.board}
	for _, sec := range b.sections {
		kept := sectionPlan{free: s.width}
		for _, ln := range sec.lanes {
			lane := lanePlan{width: ln.width}
			used := -s.kerf
			for _, sz := range ln.parts {
				if p := s.index[sz]; spare[p] > 0 {
					spare[p]--
					lane.parts = append(lane.parts, sz)
					used += sz.length + s.kerf
				}
			}
			if len(lane.parts) > 0 {
				kept.lanes = append(kept.lanes, lane)
				kept.length = max(kept.length, used)
				kept.free -= ln.width + s.kerf
			}
		}
		if len(kept.lanes) > 0 {
			out.sections = append(out.sections, kept)
			out.free -= kept.length + s.kerf
		}
	}
	return out
}

package deck

import (
	"cmp"
	"slices"
)

// lay looks for a plan of exactly so many pieces that so many boards yield. It
// lays row after row and drops a beginning as soon as a proof says that no end
// of it fits the boards. What it returns is found, or every plan was looked at.
type lay struct {
	s         *search
	boards    int
	pieces    int
	walks     [][]int
	counts    []int
	value     []int64 // of the rows so far, by proof
	seen      map[string]bool
	strongest int      // the proof that says most
	few       [][]toGo // by region: pieces to go, at least, and at most negated
	fewRest   []int64  // pieces of this region and the later ones, at least
	mayRest   []int64  // and at most
}

// maxSeen caps the memory of beginnings that led nowhere.
const maxSeen = 400_000

func (s *search) newLay(boards int) *lay {
	l := &lay{s: s, boards: boards, seen: map[string]bool{}}
	one, minus := make([]int64, len(s.sizes)), make([]int64, len(s.sizes))
	for i := range one {
		one[i], minus[i] = 1, -1
	}
	n := len(s.walkers)
	l.few = make([][]toGo, n)
	l.fewRest, l.mayRest = make([]int64, n+1), make([]int64, n+1)
	for i := n - 1; i >= 0; i-- {
		w := s.walkers[i]
		least, a := w.least(one)
		most, b := w.least(minus)
		s.spent += a + b
		_, v := w.cheapest(least)
		_, u := w.cheapest(most)
		l.few[i] = []toGo{least, most}
		l.fewRest[i], l.mayRest[i] = l.fewRest[i+1]+v, l.mayRest[i+1]-u
	}
	return l
}

// anyPieces asks for a plan of any number of pieces.
const anyPieces = -1

// find looks for a plan with exactly so many pieces.
func (l *lay) find(pieces int) (p plan, boards []boardPlan, all bool) {
	l.s.adopt()
	l.pieces = pieces
	l.walks = make([][]int, len(l.s.walkers))
	l.counts = append([]int(nil), l.s.fixed...)
	l.value = make([]int64, len(l.s.proofs))
	l.strongest = 0
	for i, q := range l.s.proofs {
		if q.share() > l.s.proofs[l.strongest].share() {
			l.strongest = i
		}
	}
	clear(l.seen)
	boards, all = l.row(0, 0, 0)
	if boards != nil {
		p = l.s.planOf(l.walks)
	}
	return p, boards, all
}

// row lays row y of a region and all that follow. It returns boards that yield
// the whole, or nil and whether every plan was looked at.
func (l *lay) row(region, y, pieces int) (boards []boardPlan, all bool) {
	s := l.s
	for region < len(s.walkers) && y == s.walkers[region].r.rows() {
		region, y = region+1, 0
	}
	if region == len(s.walkers) {
		return l.end()
	}
	w := s.walkers[region]
	if y > 0 || region > 0 {
		key := countKey(append([]int{region, y, l.last(region)}, l.counts...))
		s.spent += int64(4 * len(l.counts))
		if l.seen[key] {
			return nil, true
		}
		if len(l.seen) < maxSeen {
			defer func() {
				if boards == nil && all {
					l.seen[key] = true
				}
			}()
		}
	}
	all = true
	for _, i := range l.candidates(region, y, pieces) {
		if s.exhausted() {
			return nil, false
		}
		parts := w.parts[w.rowKind(y)][i]
		l.shift(parts, 1)
		l.walks[region] = append(l.walks[region], i)
		found, whole := l.row(region, y+1, pieces+len(parts))
		if found != nil {
			return found, false
		}
		all = all && whole
		l.walks[region] = l.walks[region][:y]
		l.shift(parts, -1)
	}
	return nil, all
}

// candidates returns the ways to lay a row that are still open: where pieces do
// not matter those first that leave the least to be worth.
func (l *lay) candidates(region, y, pieces int) []int {
	w := l.s.walkers[region]
	var out []int
	add := func(i int) {
		l.s.spent += int64(4 + len(l.value))
		if l.open(region, y, i, pieces) {
			out = append(out, i)
		}
	}
	if y == 0 {
		for i := range w.ways {
			add(i)
		}
	} else {
		for _, i := range w.beside[l.walks[region][y-1]] {
			add(int(i))
		}
	}
	if l.pieces == anyPieces && len(l.s.proofs) > 0 {
		ahead := l.s.proofs[l.strongest].ahead[region][y]
		slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(ahead[a], ahead[b]) })
	}
	return out
}

// last is the way that the last row was laid in, counted from 1; 0 for none.
func (l *lay) last(region int) int {
	if n := len(l.walks[region]); n > 0 {
		return l.walks[region][n-1] + 1
	}
	return 0
}

// shift adds a row's parts to what is needed, or takes them off.
func (l *lay) shift(parts []int, by int) {
	for _, p := range parts {
		l.counts[p] += by
		for j := range l.value {
			l.value[j] += int64(by) * l.s.proofs[j].value[p]
		}
	}
}

// open says whether a row laid in way i may still lead to an end.
func (l *lay) open(region, y, i, pieces int) bool {
	least := int64(pieces) + l.few[region][0][y][i] + l.fewRest[region+1]
	most := int64(pieces) - l.few[region][1][y][i] + l.mayRest[region+1]
	if l.pieces != anyPieces && (least > int64(l.pieces) || most < int64(l.pieces)) {
		return false
	}
	for j, v := range l.value {
		p := &l.s.proofs[j]
		if v+p.ahead[region][y][i]+p.rest[region+1] > p.worth*int64(l.boards) {
			return false
		}
	}
	return true
}

// end asks whether the boards yield what the plan needs.
func (l *lay) end() ([]boardPlan, bool) {
	boards, refuted := l.s.fit(l.counts, l.boards)
	return boards, boards == nil && refuted
}

// run improves the best layout until it is proven or the budget is spent.
func (s *search) run() {
	complete := true
	for _, w := range s.walkers {
		complete = complete && w.complete
	}
	area, worth := s.byArea(), int64(s.board)*int64(s.width)
	if s.exact {
		_, worth = s.saw(area) // what a board can really give
	}
	p, bound := s.prove(area, worth)
	s.learn(p, bound)
	used := s.relax(s.best)
	s.tryWalks(used)
	for boards := max(s.bound, 1); boards < len(s.boards) && !s.exhausted(); boards++ {
		plan, found, all := s.newLay(boards).find(anyPieces)
		if found != nil {
			s.offer(plan, found)
		} else if complete = complete && all; complete {
			s.bound = boards + 1
		}
	}
	l := s.newLay(len(s.boards))
	for pieces := int(l.fewRest[0]); pieces < s.best.pieces() && !s.exhausted(); pieces++ {
		if plan, found, _ := l.find(pieces); found != nil {
			s.offer(plan, found)
		}
	}
}

// maxCombined is how many combinations of walks are tried with several regions.
const maxCombined = 60

// tryWalks packs the walks that the relaxation likes.
func (s *search) tryWalks(used [][]walkUsed) {
	combos := [][][]int{nil}
	for _, walks := range used {
		var next [][][]int
		for _, c := range combos {
			for _, w := range walks {
				if len(next) < maxCombined {
					next = append(next, append(append([][]int(nil), c...), w.walk))
				}
			}
		}
		combos = next
	}
	for _, walks := range combos {
		counts := append([]int(nil), s.fixed...)
		for i, walk := range walks {
			for p, n := range s.needs(i, walk) {
				counts[p] += n
			}
		}
		if boards, _ := s.fit(counts, max(s.bound, 1)); boards != nil {
			s.offer(s.planOf(walks), boards)
		}
	}
}

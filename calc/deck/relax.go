package deck

import (
	"math"

	"chargehand/calc/cut/lp"
)

// roundsMost caps the rounds of pricing; convergence takes far fewer.
const roundsMost = 500

// walkUsed is a walk that the relaxation uses, and how much.
type walkUsed struct {
	walk  []int
	times float64
}

// relax chooses boards and walks together in fractions: boards must yield the
// parts that the walks need. It proves a bound and returns the walks it likes,
// by region.
func (s *search) relax(start plan) [][]walkUsed {
	regions := len(s.walkers)
	rhs := make([]float64, len(s.sizes)+regions)
	for i, n := range s.fixed {
		rhs[i] = float64(n)
	}
	for i := range regions {
		rhs[len(s.sizes)+i] = 1
	}
	prog := lp.New(rhs, make([]bool, len(rhs)))
	for p, sz := range s.sizes {
		prog.Add(lp.Column{Cost: 1, Rows: []int{p}, Coef: []float64{float64((s.board + s.kerf) / (sz.length + s.kerf))}})
	}
	type column struct {
		at, region int
		walk       []int
	}
	var walks []column
	addWalk := func(region int, walk []int) {
		rows, coef := []int{len(s.sizes) + region}, []float64{1}
		for p, n := range s.needs(region, walk) {
			if n > 0 {
				rows, coef = append(rows, p), append(coef, -float64(n))
			}
		}
		walks = append(walks, column{prog.Add(lp.Column{Rows: rows, Coef: coef}), region, walk})
	}
	for i := range regions {
		addWalk(i, s.walkOf(i, start[i]))
	}
	before := int64(0)
	for range roundsMost {
		prog.Solve()
		s.spent += prog.Work() - before
		before = prog.Work()
		y := prog.Duals()
		value := make([]int64, len(s.sizes))
		for i := range value {
			value[i] = min(max(int64(math.Round(y[i]*float64(boardWorth))), 0), boardWorth)
		}
		board, worth := s.saw(value)
		p, bound := s.prove(value, worth)
		if s.exact {
			s.learn(p, bound)
		}
		improved := false
		if worth > boardWorth+boardWorth>>20 {
			prog.Add(s.column(board))
			improved = true
		}
		for i, w := range s.walkers {
			walk, v := w.cheapest(p.ahead[i])
			if float64(v) < (y[len(s.sizes)+i]-1e-7)*float64(boardWorth) {
				addWalk(i, walk)
				improved = true
			}
		}
		if !improved || s.exhausted() || s.bound >= len(s.boards) {
			break
		}
	}
	used := make([][]walkUsed, regions)
	for _, c := range walks {
		if x := prog.Value(c.at); x > 1e-6 {
			used[c.region] = append(used[c.region], walkUsed{c.walk, x})
		}
	}
	return used
}

func (s *search) saw(value []int64) (boardPlan, int64) {
	b, worth := s.sawyer.best(value)
	s.spent += s.sawyer.work
	s.sawyer.work = 0
	return b, worth
}

// maxProofs is how many proofs prune the search for layouts.
const maxProofs = 12

// learn keeps the proofs that say most.
func (s *search) learn(p proof, bound int) {
	s.bound = max(s.bound, bound)
	if len(s.proofs) < maxProofs {
		s.proofs = append(s.proofs, p)
		return
	}
	weakest := 0
	for i, q := range s.proofs {
		if q.share() < s.proofs[weakest].share() {
			weakest = i
		}
	}
	if p.share() > s.proofs[weakest].share() {
		s.proofs[weakest] = p
	}
}

// share is the bound before it is lifted to whole boards.
func (p proof) share() float64 { return float64(p.rest[0]) / float64(max(p.worth, 1)) }

func (s *search) column(b boardPlan) lp.Column {
	c := lp.Column{Cost: 1}
	for p, n := range s.counts(b) {
		if n > 0 {
			c.Rows, c.Coef = append(c.Rows, p), append(c.Coef, float64(n))
		}
	}
	return c
}

// counts returns the parts of a board.
func (s *search) counts(b boardPlan) []int {
	n := make([]int, len(s.sizes))
	for _, sec := range b.sections {
		for _, ln := range sec.lanes {
			for _, sz := range ln.parts {
				n[s.index[sz]]++
			}
		}
	}
	return n
}

// needs returns the parts of a walk.
func (s *search) needs(region int, walk []int) []int {
	n := make([]int, len(s.sizes))
	w := s.walkers[region]
	for y, way := range walk {
		for _, p := range w.parts[w.rowKind(y)][way] {
			n[p]++
		}
	}
	return n
}

// walkOf finds the ways that rows are laid in.
func (s *search) walkOf(region int, rows []pattern) []int {
	var walk []int
	for _, row := range rows {
		for i, way := range s.walkers[region].ways {
			if way.joints == row.joints {
				walk = append(walk, i)
				break
			}
		}
	}
	return walk
}

func (s *search) planOf(walks [][]int) plan {
	p := make(plan, len(walks))
	for i, walk := range walks {
		for _, way := range walk {
			p[i] = append(p[i], s.walkers[i].ways[way])
		}
	}
	return p
}

package deck

import (
	"math"

	"chargehand/calc/cut/lp"
)

// round saws the parts from boards by the advice of a linear program over ways
// to saw a board: the board it wants most, then the program again on what is
// left. The first program may also prove that there are too few boards; such a
// proof is kept for the rest of the search.
func (s *search) round(counts []int, boards int) (found []boardPlan, refuted bool) {
	left := append([]int(nil), counts...)
	for len(found) < boards {
		b, value, worth := s.wanted(left)
		p := proof{value: value, worth: worth}
		if len(found) == 0 && s.exact && worth > 0 && p.valueOf(counts) > worth*int64(boards) {
			_, p.worth = s.saw(value) // with any number of each part, as other plans may need
			s.pending = append(s.pending, p)
			return nil, true
		}
		if b = s.trim(b, left); len(b.sections) == 0 || s.exhausted() {
			return nil, false
		}
		found = append(found, b)
		if sum(left) == 0 {
			return found, false
		}
		if rest := s.pack(s.sizes, left); len(found)+len(rest) <= boards {
			return append(found, rest...), false
		}
	}
	return nil, false
}

// wanted solves the program for the parts left. It returns the board used most,
// and the values and the worth of a board that bound the number needed.
func (s *search) wanted(left []int) (most boardPlan, value []int64, worth int64) {
	var part []int
	row := make([]int, len(left))
	var rhs []float64
	for p, n := range left {
		row[p] = -1
		if n > 0 {
			row[p] = len(rhs)
			part, rhs = append(part, p), append(rhs, float64(n))
		}
	}
	prog := lp.New(rhs, make([]bool, len(rhs)))
	first := prog.Columns()
	var plans []boardPlan
	add := func(b boardPlan, value []int64) (worth int64) {
		c := lp.Column{Cost: 1}
		for p, n := range s.counts(b) {
			if n = min(n, left[p]); n > 0 {
				c.Rows, c.Coef = append(c.Rows, row[p]), append(c.Coef, float64(n))
				worth += int64(n) * value[p]
			}
		}
		prog.Add(c)
		plans = append(plans, b)
		return worth
	}
	ever := s.sawyer.most
	s.sawyer.most = left
	defer func() { s.sawyer.most = ever }()
	for _, p := range part {
		one := make([]int, len(left))
		one[p] = left[p]
		add(s.pack(s.sizes, one)[0], make([]int64, len(left)))
	}
	before := int64(0)
	best := 0.0
	for range roundsMost {
		prog.Solve()
		s.spent += prog.Work() - before
		before = prog.Work()
		v := make([]int64, len(left))
		for i, p := range part {
			v[p] = min(max(int64(math.Round(prog.Duals()[i]*float64(boardWorth))), 0), boardWorth)
		}
		b, w := s.saw(v)
		if share := float64(proof{value: v}.valueOf(left)) / float64(max(w, 1)); share > best {
			best, value, worth = share, v, w
		}
		const more = boardWorth + boardWorth>>20
		if w <= more || s.exhausted() || add(b, v) <= more {
			break // or all it could gain is more of a part than is left
		}
	}
	times := 0.0
	for j, b := range plans {
		if x := prog.Value(first + j); x > times+1e-9 {
			most, times = b, x
		}
	}
	return most, value, worth
}

// adopt turns the proofs met while packing into proofs for the search.
func (s *search) adopt() {
	for _, p := range s.pending {
		q, bound := s.prove(p.value, p.worth)
		s.learn(q, bound)
	}
	s.pending = nil
}

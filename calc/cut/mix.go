package cut

import "math"

// mixSteps is how far the search for a mix of bars goes before it settles for
// the simple bound.
const mixSteps = 3000

// mix looks for the cheapest number of bars of each kind, in whole bars, that
// are worth what the pieces need. A proof allows any number of needs; each says
//
//	Σ_k bars_k·worth_k ≥ need
//
// for every list, so the cheapest mix that meets all of them is a bound that
// sees what fractions of bars hide.
type mix struct {
	cost          []int64
	least, atMost []int
	worth         [][]int64   // by need, by kind
	per           [][]float64 // by need, by kind: the least cost of a unit of worth among this kind and the later ones
	best          int64
	steps         int
}

// cheapest returns the cost of the cheapest mix, or enough if none is cheaper,
// and false if it gave up.
func (m *mix) cheapest(need []int64, enough int64) (int64, bool) {
	kinds := len(m.cost)
	m.per = make([][]float64, len(need))
	for j := range need {
		m.per[j] = make([]float64, kinds+1)
		m.per[j][kinds] = math.Inf(1)
		for k := kinds - 1; k >= 0; k-- {
			m.per[j][k] = m.per[j][k+1]
			if w := m.worth[j][k]; w > 0 && m.atMost[k] > 0 {
				m.per[j][k] = math.Min(m.per[j][k], float64(m.cost[k])/float64(w))
			}
		}
	}
	m.best = enough
	ok := m.choose(0, 0, need)
	return m.best, ok
}

// choose decides how many bars of kind k and the later ones to take.
func (m *mix) choose(k int, cost int64, need []int64) bool {
	m.steps++
	if m.steps > mixSteps {
		return false
	}
	low := float64(cost)
	for j, w := range need {
		if w > 0 {
			if math.IsInf(m.per[j][k], 1) {
				return true
			}
			low = math.Max(low, float64(cost)+float64(float64(w)*m.per[j][k]*(1-1e-12)))
		}
	}
	if low > float64(m.best)-1+1e-6 {
		return true
	}
	if k == len(m.cost) {
		m.best = cost // every need is met, or the bound above had stopped us
		return true
	}
	most := m.least[k]
	for j, w := range need {
		if u := m.worth[j][k]; w > 0 && u > 0 {
			most = max(most, int(min((w+u-1)/u, int64(m.atMost[k]))))
		}
	}
	most = min(most, m.atMost[k])
	rest := make([]int64, len(need))
	for bars := most; bars >= m.least[k]; bars-- {
		c := cost + int64(bars)*m.cost[k]
		if c >= m.best {
			continue
		}
		for j, w := range need {
			rest[j] = w - int64(bars)*m.worth[j][k]
		}
		if !m.choose(k+1, c, rest) {
			return false
		}
	}
	return true
}

// mixed lifts a node's proof to the cheapest mix of whole bars. One need is
// what the duals say, the other that the bars be long enough.
func (s *search) mixed(p *proof, n node, cost int64) {
	if len(s.f.kinds) < 2 {
		return
	}
	m := mix{worth: make([][]int64, 2)}
	var need [2]int64
	for i, d := range n.demand {
		need[0] += int64(d) * p.value[i]
		need[1] += int64(d) * int64(s.f.size[i])
	}
	for _, k := range s.byRate {
		c := s.f.kinds[k]
		w := c.cost*s.scale - p.gain[k]
		if w > s.dualMost {
			return // a stopgap's dual: the simple bound does
		}
		m.cost = append(m.cost, c.cost)
		m.least = append(m.least, n.least[k])
		m.atMost = append(m.atMost, max(n.atMost[k], n.least[k]))
		m.worth[0] = append(m.worth[0], w)
		m.worth[1] = append(m.worth[1], int64(c.room))
	}
	c, ok := m.cheapest(need[:], s.cost-cost)
	s.spent += int64(4 * m.steps)
	if ok {
		p.bound = max(p.bound, s.lift(cost+c))
	}
}

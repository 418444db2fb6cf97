package cut

import (
	"sort"

	"chargehand/calc/cut/lp"
)

// relaxed is a node solved over fractions of patterns, and what its duals
// prove. A child node starts from a copy of its parent's.
type relaxed struct {
	prog   *lp.Program
	first  int    // column of the first pattern
	ids    []int  // patterns by column, as indexes into the pool
	has    []bool // by index into the pool
	banned []bool // by column

	proof proof
}

const (
	poolRound   = 30   // known patterns taken in at a time
	pricings    = 6    // new patterns looked for at a time
	roundsMost  = 3000 // pricing rounds for one node
	improvement = int64(1) << (dualBits - 26)
	almost      = 1e-6
)

// The rows of the program: items, then for each kind "at most", then "least".
func (s *search) mostRow(k int) int  { return len(s.f.size) + k }
func (s *search) leastRow(k int) int { return len(s.f.size) + len(s.f.kinds) + k }

func (s *search) rhs(n node) []float64 {
	rhs := make([]float64, len(s.f.size)+2*len(s.f.kinds))
	for i, d := range n.demand {
		rhs[i] = float64(d)
	}
	for k := range s.f.kinds {
		rhs[s.mostRow(k)] = float64(n.atMost[k])
		rhs[s.leastRow(k)] = float64(n.least[k])
	}
	return rhs
}

// begin returns the root's program with bars of one item each, so that it
// starts from an honest solution.
func (s *search) begin(n node) *relaxed {
	rhs := s.rhs(n)
	atMax := make([]bool, len(rhs))
	for k := range s.f.kinds {
		atMax[s.mostRow(k)] = true
	}
	r := &relaxed{prog: lp.New(rhs, atMax)}
	r.first = r.prog.Columns()
	for i := range s.f.size {
		for k, c := range s.f.kinds {
			if t := min(c.room/s.f.size[i], n.demand[i]); t > 0 {
				s.add(r, s.remember(pattern{k, []int{i}, []int{t}}))
			}
		}
	}
	return r
}

// add takes a pattern of the pool into a program.
func (s *search) add(r *relaxed, id int) {
	p := &s.pool[id]
	for len(r.has) <= id {
		r.has = append(r.has, false)
	}
	r.has[id] = true
	c := lp.Column{Cost: float64(s.f.kinds[p.kind].cost) / float64(s.most)}
	for k, i := range p.items {
		c.Rows, c.Coef = append(c.Rows, i), append(c.Coef, float64(p.times[k]))
	}
	c.Rows = append(c.Rows, s.mostRow(p.kind), s.leastRow(p.kind))
	c.Coef = append(c.Coef, 1, 1)
	r.prog.Add(c)
	r.ids = append(r.ids, id)
	r.banned = append(r.banned, false)
}

// clone copies a solved program, for a child while other children are still to
// come.
func (s *search) clone(r *relaxed) *relaxed {
	before := r.prog.Work()
	c := &relaxed{
		prog: r.prog.Clone(), first: r.first, ids: append([]int(nil), r.ids...),
		has: append([]bool(nil), r.has...), banned: append([]bool(nil), r.banned...),
	}
	s.spent += c.prog.Work() - before
	return c
}

// adapt turns a solved program into that of a node below.
func (s *search) adapt(c *relaxed, n node) {
	before := c.prog.Work()
	kept := c.prog.Drop(c.first, func(j int) bool { return c.banned[j-c.first] })
	for to, j := range kept {
		c.ids[to], c.banned[to] = c.ids[j-c.first], c.banned[j-c.first]
	}
	c.ids, c.banned = c.ids[:len(kept)], c.banned[:len(kept)]
	c.prog.SetRHS(s.rhs(n))
	c.prog.Restore()
	var ban []int
	for j, id := range c.ids {
		p := &s.pool[id]
		if !c.banned[j] && !(n.atMost[p.kind] > 0 && p.proper(n.demand)) {
			c.banned[j] = true
			ban = append(ban, c.first+j)
		}
	}
	c.prog.Ban(ban)
	s.spent += c.prog.Work() - before
}

func (r *relaxed) times(j int) float64 { return r.prog.Value(r.first + j) }

// solve finds patterns until none improves the node, or until the verified
// bound reaches enough, since the node is then of no use, or can't rise any
// further. Bounds are of the whole list: cost is what the bars above the node
// cost.
func (s *search) solve(r *relaxed, n node, cost, enough int64) {
	r.proof = proof{}
	for round := 0; round < roundsMost; round++ {
		before := r.prog.Work()
		r.prog.Solve()
		s.spent += r.prog.Work() - before
		value, own := s.duals(r, n)
		if picked := s.fromPool(r, n, value, own); len(picked) > 0 && round < roundsMost-1 {
			for _, id := range picked {
				s.add(r, id)
			}
			continue
		}
		proof, improved := s.price(r, n, value, own, cost)
		if proof.bound > r.proof.bound || r.proof.value == nil {
			r.proof = proof
		}
		if r.proof.bound >= enough || !improved || s.exhausted() {
			break
		}
		reached := s.lift(cost + s.whole(int64(r.prog.Objective()*float64(s.most)*float64(s.scale)*(1-1e-9))))
		if r.proof.bound >= reached && r.prog.Missing() < almost {
			break // the program's own cost, proven or not, is lifted no higher
		}
	}
	if r.proof.bound < enough {
		s.mixed(&r.proof, n, cost)
	}
}

// price runs the exact pricer, adds the patterns that improve, and works out
// what the values prove. After the first run it looks for more patterns among
// the pieces that the first ones left.
func (s *search) price(r *relaxed, n node, value, own []int64, cost int64) (p proof, improved bool) {
	limit := append([]int(nil), n.demand...)
	for run := range pricings {
		s.table.Run(value, limit)
		s.spent += s.table.Work
		s.table.Work = 0
		if run == 0 {
			worth := make([]int64, len(s.f.kinds))
			for k, c := range s.f.kinds {
				_, worth[k] = s.table.Best(c.room)
			}
			p = s.prove(n, value, worth, cost)
		}
		found := false
		for k, c := range s.f.kinds {
			at, w := s.table.Best(c.room)
			if w == 0 || n.atMost[k] == 0 || w <= own[k]+improvement {
				continue
			}
			items, times := s.table.Read(at)
			pt := pattern{k, items, times}
			if id := s.remember(pt); id >= len(r.has) || !r.has[id] {
				found = true
				s.add(r, id)
				for j, i := range pt.items {
					limit[i] = max(limit[i]-pt.times[j], 0)
				}
			}
		}
		if !found {
			break
		}
		improved = true
	}
	return p, improved
}

// fromPool returns the known patterns that improve most under these duals.
func (s *search) fromPool(r *relaxed, n node, value, own []int64) []int {
	type gain struct {
		id int
		by int64
	}
	var gains []gain
	for id := range s.pool {
		if id < len(r.has) && r.has[id] {
			continue
		}
		p := &s.pool[id]
		g := -own[p.kind]
		for k, i := range p.items {
			g += int64(p.times[k]) * value[i]
		}
		if g > improvement && n.atMost[p.kind] > 0 && p.proper(n.demand) {
			gains = append(gains, gain{id, g})
		}
	}
	s.spent += int64(4 * len(s.pool))
	sort.SliceStable(gains, func(a, b int) bool { return gains[a].by > gains[b].by })
	var out []int
	for _, g := range gains[:min(len(gains), poolRound)] {
		out = append(out, g.id)
	}
	return out
}

// remember keeps a pattern for other nodes and returns its index in the pool.
func (s *search) remember(p pattern) int {
	key := p.key()
	id, ok := s.known[key]
	if !ok {
		id = len(s.pool)
		s.known[key] = id
		s.pool = append(s.pool, p)
	}
	return id
}

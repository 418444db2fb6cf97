package cut

import (
	"sort"

	"chargehand/calc/cut/fill"
)

// search is one run over a folded problem. It holds the best list so far, the
// verified bound, every pattern met, and the work spent.
type search struct {
	f        *folded
	table    fill.Table // the exact pricer
	most     int64      // dearest bar
	scale    int64      // dual units in a unit of cost
	total    int        // pieces
	dualMost int64      // no dual is larger, so that sums stay inside int64
	budget   int64
	spent    int64
	pool     []pattern      // every pattern met
	byRate   []int          // kinds, cheapest room first
	known    map[string]int // its index, by key
	best     []load
	cost     int64 // of best
	under    int64 // the dearest cost below it that a list can have
	reach    reach
	live     int              // programs kept for unfinished nodes
	need     int64            // total size of the pieces
	refuted  map[int]int      // patterns that no cheaper list below holds
	failed   map[string]int64 // by node: the cost below which nothing was found
}

func newSearch(f *folded, budget int64) *search {
	s := &search{f: f, budget: budget, known: map[string]int{}, failed: map[string]int64{}, refuted: map[int]int{}}
	for _, d := range f.demand {
		s.total += d
	}
	rooms := make([]int64, len(f.kinds))
	atMost := make([]int, len(f.kinds))
	s.most = 1
	for k, c := range f.kinds {
		s.most = max(s.most, c.cost)
		s.table.Room = max(s.table.Room, c.room)
		rooms[k], atMost[k] = int64(c.room), c.avail
	}
	for k := range f.kinds {
		s.byRate = append(s.byRate, k)
	}
	sort.SliceStable(s.byRate, func(a, b int) bool {
		x, y := f.kinds[s.byRate[a]], f.kinds[s.byRate[b]]
		return x.cost*int64(y.room) < y.cost*int64(x.room)
	})
	s.table.Size = f.size
	s.scale = (1 << dualBits) / s.most
	s.dualMost = (1 << 58) / int64(s.total)
	for i, z := range f.size {
		s.need += int64(z) * int64(f.demand[i])
	}
	s.cost = 1
	for k, c := range f.kinds {
		s.cost += c.cost * int64(atMost[k])
	}
	if loads := f.fitRest(f.root()); loads != nil {
		s.best, s.cost = loads, f.cost(loads)
	}
	s.reach = f.reaching(rooms, atMost, s.cost)
	s.under = s.reach.under(s.cost, s.need)
	return s
}

func (s *search) exhausted() bool { return s.spent >= s.budget }

func (s *search) lift(c int64) int64 { return s.reach.lift(c, s.need) }

// offer keeps a complete list if it is cheaper.
func (s *search) offer(loads []load) {
	left := make([]int, len(s.f.kinds))
	for k := range left {
		left[k] = s.f.kinds[k].avail
	}
	for _, l := range loads {
		left[l.kind]--
	}
	s.f.swapDown(loads, left)
	if c := s.f.cost(loads); c < s.cost {
		s.best, s.cost = loads, c
		s.under = s.reach.under(c, s.need)
	}
}

// run improves the best list until it is proven or the budget is spent, and
// returns the verified bound.
func (s *search) run() int64 {
	n := s.f.root()
	top := s.begin(n)
	s.solve(top, n, 0, s.cost)
	bound := top.proof.bound
	for against := 0; bound < s.cost && !s.exhausted(); against = 2*against + 1 {
		if s.descend(top, n, nil, 0, against, false) {
			return s.cost
		}
	}
	return min(bound, s.cost)
}

package deck

import (
	"slices"

	"chargehand/calc/unit"
)

// search is one run over a folded deck: the best layout so far, the bound, what
// has been proven on the way, and the work spent.
type search struct {
	shape
	sizes    []size
	index    map[size]int
	fixed    []int // strips of each part
	most     []int // of each part, never more are needed
	walkers  []*walker
	sawyer   *sawyer
	exact    bool // the sawyer saw everything
	proofs   []proof
	pending  []proof // met while packing, not yet adopted
	budget   int64
	spent    int64
	best     plan
	boards   []boardPlan
	bound    int
	unpacked map[string]int // by counts: boards that are too few
}

// boardWorth is what the duals of one board are scaled to.
const boardWorth = int64(1) << 30

// proof is a value for each part. No board is worth more than worth, so so many
// boards are needed as the rows and strips are worth.
type proof struct {
	value []int64
	worth int64
	ahead []toGo  // by region
	rest  []int64 // by region: the least value of it and the later ones, strips included
}

func newSearch(s shape, budget int64) (*search, int) {
	se := &search{shape: s, budget: budget, index: map[size]int{}, unpacked: map[string]int{}}
	for i, r := range s.regions {
		w := &walker{r: r}
		w.ways, w.complete = s.patterns(r)
		if len(w.ways) == 0 {
			return nil, i
		}
		se.walkers = append(se.walkers, w)
	}
	se.listSizes()
	for _, w := range se.walkers {
		se.linkWays(w)
	}
	se.sawyer, se.exact = newSawyer(s, se.sizes, se.most)
	return se, -1
}

// listSizes finds every part that any row could need, and the strips.
func (s *search) listSizes() {
	most := map[size]int{}
	for _, w := range s.walkers {
		last := len(w.r.lines) - 1
		for from := range last {
			for to := from + s.minBays; to <= last; to++ {
				l := s.spanLength(w.r, span{from, to})
				if l <= 0 || l > s.board {
					continue
				}
				if w.r.full > 0 {
					most[size{l, s.width}] += w.r.full
				}
				if w.r.rip > 0 {
					most[size{l, w.r.rip}]++
				}
			}
		}
	}
	for _, st := range s.strips {
		most[size{st.length, st.height}] += st.count
	}
	for sz := range most {
		s.sizes = append(s.sizes, sz)
	}
	sortSizes(s.sizes)
	for i, sz := range s.sizes {
		s.index[sz] = i
		s.most = append(s.most, most[sz])
	}
	s.fixed = make([]int, len(s.sizes))
	for _, st := range s.strips {
		s.fixed[s.index[size{st.length, st.height}]] += st.count
	}
}

// linkWays works out what each way needs and which may lie side by side.
func (s *search) linkWays(w *walker) {
	last := len(w.r.lines) - 1
	for kind, width := range []int{s.width, w.r.rip} {
		w.spanPart[kind] = map[span]int{}
		for from := range last {
			for to := from + s.minBays; to <= last; to++ {
				if p, ok := s.index[size{s.spanLength(w.r, span{from, to}), width}]; ok {
					w.spanPart[kind][span{from, to}] = p
				}
			}
		}
		if kind == 1 && w.r.rip == 0 || kind == 0 && w.r.full == 0 {
			continue
		}
		for _, way := range w.ways {
			var parts []int
			for _, sp := range way.spans {
				parts = append(parts, w.spanPart[kind][sp])
			}
			w.parts[kind] = append(w.parts[kind], parts)
		}
	}
	w.beside = make([][]int32, len(w.ways))
	for i := range w.ways {
		for j := range w.ways {
			if apart(w.ways[i], w.ways[j]) {
				w.beside[i] = append(w.beside[i], int32(j))
			}
		}
	}
	s.spent += int64(len(w.ways) * len(w.ways))
}

func (s *search) exhausted() bool { return s.spent >= s.budget }

// offer keeps a layout with fewer boards, or as many and fewer pieces.
func (s *search) offer(p plan, boards []boardPlan) {
	if s.best == nil || len(boards) < len(s.boards) ||
		len(boards) == len(s.boards) && p.pieces() < s.best.pieces() {
		s.best, s.boards = p, boards
	}
}

// prove works out what the values prove, and the bound, given that no board is
// worth more than worth. With that from the exact sawyer any values will do.
func (s *search) prove(value []int64, worth int64) (proof, int) {
	p := proof{value: value, worth: worth, rest: make([]int64, len(s.walkers)+1)}
	for i, n := range s.fixed {
		p.rest[len(s.walkers)] += int64(n) * value[i]
	}
	for i := len(s.walkers) - 1; i >= 0; i-- {
		w := s.walkers[i]
		g, work := w.least(value)
		s.spent += work
		p.ahead = append(p.ahead, g)
		_, v := w.cheapest(g)
		if !w.complete {
			v = w.apartFromNeighbours(s.shape, value)
		}
		p.rest[i] = p.rest[i+1] + v
	}
	slices.Reverse(p.ahead)
	if worth <= 0 {
		return p, 0
	}
	return p, int((p.rest[0] + worth - 1) / worth)
}

// byArea values parts as their area.
func (s *search) byArea() []int64 {
	v := make([]int64, len(s.sizes))
	for i, sz := range s.sizes {
		v[i] = int64(sz.length) * int64(sz.width)
	}
	return v
}

// mmOf is for the one-dimensional packing, which reads tenths of a millimetre:
// a grain is passed off as a tenth.
func mmOf(grains int) unit.Length { return unit.Length(grains) / 10 }

package cut

import "sort"

// maxWays is how many ways to saw a bar round one piece a node looks at.
const maxWays = 2000

// filler lists the full ways to saw one kind of bar that a proof leaves open.
type filler struct {
	s     *search
	n     node
	kind  int
	value []int64
	per   []float64 // of each item: the most value a unit of room gives from there on
	need  int64     // value a way must have, or a list with it costs too much
	times []int
	out   []pattern
}

// ways returns every full way to saw a bar with a piece that the proof does
// not rule out, the most valuable first, and whether they are all.
func (s *search) ways(p proof, n node, piece int, cost int64) (out []pattern, complete bool) {
	per := make([]float64, len(n.demand)+1)
	for i := len(n.demand) - 1; i >= 0; i-- {
		per[i] = per[i+1]
		if n.demand[i] > 0 {
			per[i] = max(per[i], float64(p.value[i])/float64(s.f.size[i]))
		}
	}
	var own []int64
	complete = true
	for k, c := range s.f.kinds {
		if n.atMost[k] == 0 || c.room < s.f.size[piece] {
			continue
		}
		f := filler{s: s, n: n, kind: k, value: p.value, per: per, times: make([]int, len(n.demand))}
		f.need = s.mostOwn(p, n, k, cost)
		f.times[piece] = 1
		complete = f.fill(0, c.room-s.f.size[piece], p.value[piece]) && complete
		for _, w := range f.out {
			v := c.cost * s.scale
			for j, i := range w.items {
				v -= int64(w.times[j]) * p.value[i]
			}
			out, own = append(out, w), append(own, v)
		}
	}
	order := make([]int, len(out))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return own[order[a]] < own[order[b]] })
	sorted := make([]pattern, len(out))
	for i, o := range order {
		sorted[i] = out[o]
	}
	return sorted, complete
}

// mostOwn returns the least value a bar of kind k must have to be part of a
// list through the node that is cheaper than the best.
func (s *search) mostOwn(p proof, n node, k int, cost int64) int64 {
	spare := (s.under-cost)*s.scale - p.sum
	if n.least[k] > 0 || p.gain[k] < 0 {
		spare += p.gain[k]
	}
	return s.f.kinds[k].cost*s.scale - spare
}

// fill decides how often each item from i on goes into the room left.
func (f *filler) fill(i, left int, value int64) bool {
	f.s.spent++
	if float64(value)+float64(float64(left)*f.per[i]*(1+1e-9)) < float64(f.need)-1 {
		return true
	}
	if len(f.out) > maxWays || f.s.exhausted() {
		return false
	}
	if i == len(f.times) {
		f.keep(left)
		return true
	}
	size := f.s.f.size[i]
	before := f.times[i]
	all := true
	for t := min(f.n.demand[i]-before, left/size); t >= 0; t-- {
		f.times[i] = before + t
		all = f.fill(i+1, left-t*size, value+int64(t)*f.value[i]) && all
	}
	f.times[i] = before
	return all
}

// keep notes a way unless a piece still fits in: then a fuller way does at
// least as well.
func (f *filler) keep(left int) {
	f.s.spent += int64(len(f.times))
	items := 0
	for j, t := range f.times {
		if f.n.demand[j] > t && f.s.f.size[j] <= left {
			return
		}
		if t > 0 {
			items++
		}
	}
	p := pattern{kind: f.kind, items: make([]int, 0, items), times: make([]int, 0, items)}
	for j, t := range f.times {
		if t > 0 {
			p.items, p.times = append(p.items, j), append(p.times, t)
		}
	}
	f.out = append(f.out, p)
}

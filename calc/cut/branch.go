package cut

import "sort"

// branch looks for a list cheaper than the best below a node. It tries the
// relaxation's own advice first and may go against it so many times on the way
// down; with a large allowance it looks everywhere. It returns true if nothing
// cheaper is below, whatever the advice.
//
// First the number of bars of each kind is made whole, which leaves the
// pricing as it is. Then some piece is picked: a bar must hold it, and each
// full way to saw such a bar is a child.
func (s *search) branch(r *relaxed, n node, done []load, cost int64, against int) bool {
	if n.pieces() == 0 {
		s.offer(done)
		return true
	}
	key := n.key()
	if s.failed[key] >= s.cost-cost {
		return true
	}
	s.solve(r, n, cost, s.cost)
	if r.proof.bound >= s.cost {
		return true
	}
	if rest := s.f.fitRest(n); rest != nil {
		s.offer(append(append([]load(nil), done...), rest...))
	}
	s.spent += int64(n.pieces() * n.pieces())
	if r.proof.bound >= s.cost {
		return true
	}
	if s.exhausted() {
		return false
	}
	var all bool
	if k, bars := s.splitKind(r, n); k >= 0 {
		all = s.branchKind(r, n, done, cost, against, k, bars)
	} else {
		all = s.branchPiece(r, n, done, cost, against)
	}
	if all {
		s.failed[key] = max(s.failed[key], s.cost-cost)
	}
	return all
}

// splitKind returns the kind whose number of bars is the most fractional, or
// -1 when all are whole.
func (s *search) splitKind(r *relaxed, n node) (kind int, bars float64) {
	sum := make([]float64, len(s.f.kinds))
	for j, id := range r.ids {
		sum[s.pool[id].kind] += r.times(j)
	}
	kind = -1
	most := 1e-5
	for k, b := range sum {
		off := b - float64(int(b))
		if off = min(off, 1-off); off > most && n.atMost[k] > n.least[k] {
			kind, bars, most = k, b, off
		}
	}
	return kind, bars
}

func (s *search) branchKind(r *relaxed, n node, done []load, cost int64, against, k int, bars float64) bool {
	floor := int(bars)
	all := true
	for turn := range 2 {
		if turn > against || s.exhausted() {
			return false
		}
		c := n.clone()
		if (bars-float64(floor) >= 0.5) == (turn == 0) {
			c.least[k] = floor + 1
		} else {
			c.atMost[k] = floor
		}
		all = s.branch(s.child(r, c), c, done, cost, against-turn) && all
	}
	return all
}

func (s *search) branchPiece(r *relaxed, n node, done []load, cost int64, against int) bool {
	first, x := s.firmest(r, n)
	if first < 0 {
		return false
	}
	turn := 0
	tried := map[int]bool{}
	try := func(id, times int) bool {
		p := s.pool[id]
		c := n.clone()
		c.take(p, times)
		below := s.branch(s.child(r, c), c, s.saw(p, times, done), cost+int64(times)*s.f.kinds[p.kind].cost, against-turn)
		turn++
		return below
	}
	if times := min(int(x+almost), n.fits(s.pool[first])); times > 1 {
		try(first, times) // a short cut: what it misses is below the children
		turn = 0
	}
	piece := s.pool[first].items[0]
	all := true
	for _, id := range s.advised(r, n, piece) {
		if turn > against || s.exhausted() {
			return false
		}
		if s.with(r.proof, n, s.pool[id], cost) < s.cost {
			tried[id] = true
			all = try(id, 1) && all
		}
	}
	if turn > against || s.exhausted() {
		return false
	}
	ways, complete := s.ways(r.proof, n, piece, cost)
	for _, p := range ways {
		if s.with(r.proof, n, p, cost) >= s.cost {
			continue
		}
		if turn > against || s.exhausted() {
			return false
		}
		if id := s.remember(p); !tried[id] {
			all = try(id, 1) && all
		}
	}
	return all && complete
}

// firmest returns the pattern that the relaxation wants most, as an index into
// the pool, and how often; -1 if none can be sawn.
func (s *search) firmest(r *relaxed, n node) (id int, times float64) {
	id = -1
	for j, c := range r.ids {
		if x := r.times(j); x > times+almost && n.fits(s.pool[c]) > 0 {
			id, times = c, x
		}
	}
	return id, times
}

// advised returns the patterns with a piece that the relaxation uses, most
// first.
func (s *search) advised(r *relaxed, n node, piece int) []int {
	var at []int
	for j, id := range r.ids {
		if p := s.pool[id]; r.times(j) > almost && n.fits(p) > 0 && p.has(piece) {
			at = append(at, j)
		}
	}
	sort.SliceStable(at, func(a, b int) bool { return r.times(at[a]) > r.times(at[b])+almost })
	for k, j := range at {
		at[k] = r.ids[j]
	}
	return at
}

func (p pattern) has(item int) bool {
	for _, i := range p.items {
		if i == item {
			return true
		}
	}
	return false
}

// maxWays is how many ways to saw a bar round one piece a node looks at.
const maxWays = 2000

// ways returns every full way to saw a bar with a piece that the proof does
// not rule out, the most valuable first, and whether they are all.
func (s *search) ways(p proof, n node, piece int, cost int64) (out []pattern, complete bool) {
	complete = true
	times := make([]int, len(n.demand))
	for k, c := range s.f.kinds {
		if n.atMost[k] == 0 || c.room < s.f.size[piece] {
			continue
		}
		times[piece] = 1
		complete = s.fill(p, n, k, 0, c.room-s.f.size[piece], times, cost, &out) && complete
		times[piece] = 0
	}
	own := func(pt pattern) int64 {
		v := s.f.kinds[pt.kind].cost * s.scale
		for k, i := range pt.items {
			v -= int64(pt.times[k]) * p.value[i]
		}
		return v
	}
	sort.SliceStable(out, func(a, b int) bool { return own(out[a]) < own(out[b]) })
	return out, complete
}

// fill decides how often each item from i on goes into the room left.
func (s *search) fill(p proof, n node, kind, i, left int, times []int, cost int64, out *[]pattern) bool {
	s.spent++
	if len(*out) > maxWays || s.exhausted() {
		return false
	}
	if i == len(n.demand) {
		pt := pattern{kind: kind}
		for j, t := range times {
			if t > 0 {
				pt.items, pt.times = append(pt.items, j), append(pt.times, t)
			}
			if n.demand[j] > t && s.f.size[j] <= left {
				return true // not full: a fuller way does at least as well
			}
		}
		if s.with(p, n, pt, cost) < s.cost {
			*out = append(*out, pt)
		}
		return true
	}
	before := times[i]
	most := min(n.demand[i]-before, left/s.f.size[i])
	all := true
	for t := most; t >= 0; t-- {
		times[i] = before + t
		all = s.fill(p, n, kind, i+1, left-t*s.f.size[i], times, cost, out) && all
	}
	times[i] = before
	return all
}

// saw returns the bars done so far and a pattern so many times more.
func (s *search) saw(p pattern, times int, done []load) []load {
	out := append([]load(nil), done...)
	for range times {
		var items []int
		for k, i := range p.items {
			for range p.times[k] {
				items = append(items, i)
			}
		}
		out = append(out, load{p.kind, items})
	}
	return out
}


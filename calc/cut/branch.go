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
// -1 when all are whole. With one kind only, lifting the bound to whole bars
// says as much.
func (s *search) splitKind(r *relaxed, n node) (kind int, bars float64) {
	if len(s.f.kinds) == 1 {
		return -1, 0
	}
	sum := make([]float64, len(s.f.kinds))
	for j, id := range r.ids {
		sum[s.pool[id].kind] += r.times(j)
	}
	kind = -1
	most := 1e-5
	for k, b := range sum {
		off := b - float64(int(b))
		if off = min(off, 1-off); off > most && int(b) >= n.least[k] && int(b) < n.atMost[k] {
			kind, bars, most = k, b, off
		}
	}
	return kind, bars
}

// branchKind looks below a node with more and with fewer bars of a kind.
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
		all = s.descend(r, c, done, cost, against-turn, turn == 1 || against == 0) && all
	}
	return all
}

// aside is the allowance from which on a node also tries bars that its
// relaxation does not use at all.
const aside = 7

// branchPiece looks below a node by the bars that may hold some piece. Only full
// bars are looked at: a piece moved into a bar that has room for it costs
// nothing, and filling bars up comes to an end, so of the cheapest lists one
// always passes.
func (s *search) branchPiece(r *relaxed, n node, done []load, cost int64, against int) bool {
	first, x := s.firmest(r, n)
	if s.deep() {
		against = 0
	}
	if against < aside {
		if first >= 0 {
			s.follow(r, n, done, cost, against, first, min(int(x+almost), n.fits(s.pool[first])))
		}
		return false
	}
	ways, complete := s.fewestWays(r, n, cost, first)
	all := complete
	var refuted []int
	for turn, id := range ways {
		if turn > against || s.exhausted() {
			all = false
			break
		}
		if s.with(r.proof, n, s.pool[id], cost) >= s.cost {
			continue // the best list got better meanwhile
		}
		if s.tryOne(r, n, done, cost, against-turn, id, 1, turn == len(ways)-1) {
			// No list through this node with such a bar is cheaper, so the
			// later children need not look at it again.
			s.refuted[id]++
			refuted = append(refuted, id)
		} else {
			all = false
		}
	}
	for _, id := range refuted {
		s.refuted[id]--
	}
	return all
}

// follow tries only bars that the relaxation uses, the one it wants most as
// often as it wants it: a quick way to good lists that proves nothing.
func (s *search) follow(r *relaxed, n node, done []load, cost int64, against, first, times int) {
	for turn, id := range s.advised(r, n, s.pool[first].items[0]) {
		if turn > against || s.exhausted() {
			return
		}
		if id != first {
			times = 1
		}
		s.tryOne(r, n, done, cost, against-turn, id, max(times, 1), turn == against)
	}
}

// tryOne looks below a node with a pattern sawn so many times.
func (s *search) tryOne(r *relaxed, n node, done []load, cost int64, against, id, times int, last bool) bool {
	p := s.pool[id]
	c := n.clone()
	c.take(p, times)
	return s.descend(r, c, s.saw(p, times, done), cost+int64(times)*s.f.kinds[p.kind].cost, against, last)
}

// descend looks below a node. The last child may take its parent's program
// over; the others work on a copy.
func (s *search) descend(r *relaxed, n node, done []load, cost int64, against int, last bool) bool {
	if !last {
		r = s.clone(r)
		s.live++
		defer func() { s.live-- }()
	}
	s.adapt(r, n)
	return s.branch(r, n, done, cost, against)
}

// maxLive bounds the numbers held in the programs of unfinished nodes: 64 MB.
const maxLive = 8 << 20

// deep says that no more programs should be kept: the search then follows its
// own advice only.
func (s *search) deep() bool {
	m := len(s.f.size) + 2*len(s.f.kinds)
	return s.live*m*m > maxLive
}

// fewItems is the number of items up to which every one is tried as the piece
// to branch on.
const fewItems = 25

// fewestWays picks the piece with the fewest ways to saw a bar round it that
// are still open, and returns them, what the relaxation uses most first.
func (s *search) fewestWays(r *relaxed, n node, cost int64, first int) (ids []int, complete bool) {
	var pieces []int
	for i, d := range n.demand {
		if d > 0 && (len(pieces) < 2 || len(n.demand) <= fewItems) {
			pieces = append(pieces, i)
		}
	}
	if first >= 0 {
		pieces = append(pieces, s.pool[first].items[0])
	}
	var ways []pattern
	found := false
	for _, i := range pieces {
		w, ok := s.ways(r.proof, n, i, cost)
		if ok && (!found || len(w) < len(ways)) {
			ways, found = w, true
			if len(w) <= 1 {
				break
			}
		}
	}
	if !found {
		return nil, false
	}
	times := map[int]float64{}
	for j, id := range r.ids {
		times[id] = r.times(j)
	}
	for _, w := range ways {
		if id := s.remember(w); s.refuted[id] == 0 {
			ids = append(ids, id)
		}
	}
	sort.SliceStable(ids, func(a, b int) bool { return times[ids[a]] > times[ids[b]]+almost })
	return ids, true
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

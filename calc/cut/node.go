package cut

// node is what is left to decide at some point of the search: the pieces still
// wanted and how many bars of each kind may and must be used.
type node struct {
	demand []int
	atMost []int // bars of each kind
	least  []int
}

func (f *folded) root() node {
	n := node{demand: append([]int(nil), f.demand...), atMost: make([]int, len(f.kinds)), least: make([]int, len(f.kinds))}
	for k := range f.kinds {
		n.atMost[k] = f.kinds[k].avail
	}
	return n
}

func (n node) clone() node {
	return node{append([]int(nil), n.demand...), append([]int(nil), n.atMost...), append([]int(nil), n.least...)}
}

func (n node) pieces() (sum int) {
	for _, d := range n.demand {
		sum += d
	}
	return sum
}

// take saws a pattern so many times.
func (n *node) take(p pattern, times int) {
	for k, i := range p.items {
		n.demand[i] -= p.times[k] * times
	}
	n.atMost[p.kind] -= times
	n.least[p.kind] = max(n.least[p.kind]-times, 0)
}

// fits returns how many times a pattern can be sawn without sawing too much.
func (n *node) fits(p pattern) int {
	times := n.atMost[p.kind]
	for k, i := range p.items {
		times = min(times, n.demand[i]/p.times[k])
	}
	return times
}

// key tells nodes apart by what is left to do.
func (n node) key() string {
	pieces := n.pieces()
	b := make([]byte, 0, 2*len(n.demand)+4*len(n.atMost))
	num := func(v int) { b = append(b, byte(v), byte(v>>8)) }
	for _, d := range n.demand {
		num(d)
	}
	for k := range n.atMost {
		num(min(n.atMost[k], pieces))
		num(n.least[k])
	}
	return string(b)
}

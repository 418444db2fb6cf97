package cut

import (
	"math"
	"math/bits"
)

// dualBits: duals are proof only as integers, and the dearest bar is worth
// about two to this power of them.
const dualBits = 36

// duals turns the duals of a node's program into integers: the items' values,
// and each kind's cost less what its own rows are worth. Where pieces find no
// place a stopgap's dual stands out; then all shrink together, since it is
// their proportions that prove that there is no place. A row that asks for
// nothing may keep a stopgap too; its dual is noise.
func (s *search) duals(r *relaxed, n node) (value, own []int64) {
	y := r.prog.Duals()
	unit := float64(s.most) * float64(s.scale)
	top := 0.0
	for i, d := range n.demand {
		if d > 0 {
			top = max(top, y[i]*unit)
		}
	}
	for k := range s.f.kinds {
		top = max(top, -y[s.mostRow(k)]*unit)
		if n.least[k] > 0 {
			top = max(top, y[s.leastRow(k)]*unit)
		}
	}
	if most := float64(s.dualMost); top > most {
		unit *= most / top
	}
	value = make([]int64, len(s.f.size))
	for i, d := range n.demand {
		if d > 0 {
			value[i] = max(int64(math.Round(y[i]*unit)), 0)
		}
	}
	own = make([]int64, len(s.f.kinds))
	for k, c := range s.f.kinds {
		w := (float64(c.cost)/float64(s.most) - y[s.mostRow(k)] - y[s.leastRow(k)]) * unit
		own[k] = int64(max(w, -float64(s.dualMost)))
	}
	return value, own
}

// proof is what integer item values say about a node.
type proof struct {
	value []int64 // of each item
	gain  []int64 // of each kind: its cost less the most valuable filling
	sum   int64   // least cost of the node's pieces, in dual units
	bound int64   // least cost of a whole list through the node, lifted
}

// prove works out the least cost of the node's pieces.
//
// worth[k] is the greatest value of any filling of kind k, found by the exact
// pricer with these very values, so whatever the values are this holds:
//
//	cost ≥ Σ demand·value + Σ_k bars_k·(cost_k − worth_k)
//
// at the number of bars of each kind, within its limits, that makes it least.
// Where a kind with free numbers is worth more than it costs, all values are
// first scaled down by the same ratio, rounding down: the bound of A. A.
// Farley, A note on bounding a class of linear programming problems, including
// cutting stock problems, Operations Research 38 (1990) 922-923.
func (s *search) prove(n node, value, worth []int64, cost int64) proof {
	num, den := int64(1), int64(1) // ratio to scale by
	for k, c := range s.f.kinds {
		if own := c.cost * s.scale; n.free(k, c) && worth[k] > own && less(own, worth[k], num, den) {
			num, den = own, worth[k]
		}
	}
	p := proof{value: make([]int64, len(value)), gain: make([]int64, len(worth))}
	for i, v := range value {
		p.value[i] = shrink(v, num, den, 0)
		p.sum += int64(n.demand[i]) * p.value[i]
	}
	for k, c := range s.f.kinds {
		p.gain[k] = c.cost*s.scale - shrink(worth[k], num, den, 1)
		bars := int64(n.least[k])
		if n.free(k, c) {
			p.gain[k] = max(p.gain[k], 0) // the ratio saw to it, up to the rounding
		} else if p.gain[k] < 0 {
			bars = int64(n.atMost[k])
			if bars > 0 && -p.gain[k] > math.MaxInt64/8/bars {
				return s.nothing(n, cost)
			}
		}
		p.sum += p.gain[k] * bars
	}
	p.bound = s.lift(cost + s.whole(p.sum))
	return p
}

// nothing is the proof that values of 0 make: the bars that must be used cost
// what they cost.
func (s *search) nothing(n node, cost int64) proof {
	p := proof{value: make([]int64, len(s.f.size)), gain: make([]int64, len(s.f.kinds))}
	for k, c := range s.f.kinds {
		p.gain[k] = c.cost * s.scale
		p.sum += p.gain[k] * int64(n.least[k])
	}
	p.bound = s.lift(cost + s.whole(p.sum))
	return p
}

// free says whether a node may use as many bars of kind k as it could need, at
// a price.
func (n node) free(k int, c kind) bool { return c.cost > 0 && n.atMost[k] >= n.pieces() }

// with returns the least cost of a whole list through the node that uses a
// pattern at least once.
func (s *search) with(p proof, n node, pt pattern, cost int64) int64 {
	own := s.f.kinds[pt.kind].cost * s.scale
	for k, i := range pt.items {
		own -= int64(pt.times[k]) * p.value[i]
	}
	if n.least[pt.kind] > 0 || p.gain[pt.kind] < 0 {
		own -= p.gain[pt.kind] // one bar of the kind is counted in the sum already
	}
	return s.lift(cost + s.whole(p.sum+max(own, 0)))
}

// less says whether a/b < c/d, all above 0.
func less(a, b, c, d int64) bool {
	h1, l1 := bits.Mul64(uint64(a), uint64(d))
	h2, l2 := bits.Mul64(uint64(c), uint64(b))
	return h1 < h2 || h1 == h2 && l1 < l2
}

// shrink returns v·num/den rounded down, plus up when that is not whole.
func shrink(v, num, den, up int64) int64 {
	if num == den {
		return v
	}
	hi, lo := bits.Mul64(uint64(v), uint64(num))
	q, r := bits.Div64(hi, lo, uint64(den))
	if r > 0 {
		return int64(q) + up
	}
	return int64(q)
}

// whole turns a sum of dual units into the least whole cost not below it.
func (s *search) whole(sum int64) int64 {
	if sum <= 0 {
		return 0
	}
	return (sum + s.scale - 1) / s.scale
}

package cut

import "math"

// reach knows which costs a choice of bars can have at all, given that the
// bars must be worth what is wanted: the lift from a bound to the next cost
// that can be.
type reach struct {
	step  int64   // greatest common divisor of the costs
	holds []int64 // by cost/step: the greatest worth of bars of exactly that cost, -1 for none; nil beyond the table
}

// maxReach is how many costs the table holds; beyond it only the common
// divisor lifts.
const maxReach = 1 << 20

// reaching builds the table up to a cost. The worth of a bar of each kind is
// its room, or what verified duals say.
func (f *folded) reaching(worth []int64, atMost []int, upTo int64) reach {
	var g int64
	for _, c := range f.kinds {
		g = int64(gcd(int(g), int(c.cost)))
	}
	r := reach{step: max(g, 1)}
	n := upTo/r.step + 1
	if n > maxReach {
		return r
	}
	r.holds = make([]int64, n)
	for i := range r.holds {
		r.holds[i] = -1
	}
	r.holds[0] = 0
	for k, c := range f.kinds {
		r.addKind(c.cost/r.step, max(worth[k], 0), atMost[k])
	}
	return r
}

// addKind allows up to so many bars of one kind, in bundles of 1, 2, 4 …
func (r *reach) addKind(cost, worth int64, most int) {
	for bundle := 1; most > 0; bundle *= 2 {
		b := int64(min(bundle, most))
		most -= int(b)
		dc := cost * b
		if worth > math.MaxInt64/8/b {
			worth = math.MaxInt64 / 8 / b
		}
		for c := int64(len(r.holds)) - 1; c >= dc; c-- {
			if from := r.holds[c-dc]; from >= 0 {
				r.holds[c] = max(r.holds[c], min(from+worth*b, math.MaxInt64/4))
			}
		}
	}
}

// lift returns the least cost ≥ c at which bars worth so much can be had.
func (r reach) lift(c, need int64) int64 {
	i := (c + r.step - 1) / r.step
	if r.holds == nil {
		return i * r.step
	}
	for ; i < int64(len(r.holds)); i++ {
		if r.holds[i] >= need {
			break
		}
	}
	return i * r.step
}

// under returns the greatest cost below c at which bars worth so much can be
// had, or -1.
func (r reach) under(c, need int64) int64 {
	i := (c - 1) / r.step
	if c <= 0 {
		return -1
	}
	if r.holds == nil {
		return i * r.step
	}
	for i = min(i, int64(len(r.holds))-1); i >= 0; i-- {
		if r.holds[i] >= need {
			return i * r.step
		}
	}
	return -1
}

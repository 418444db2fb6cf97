package cut

import "sort"

// load is one bar of a folded list: the kind it is sawn from and its items,
// longest first.
type load struct {
	kind  int
	items []int
}

// bestFit packs the demand longest piece first, each into the open bar it fills
// best. A new bar is of the kind that opening says; afterwards each bar is
// swapped for the cheapest kind that still holds its pieces. It returns nil
// when the stock at hand runs out.
func (f *folded) bestFit(demand, atMost []int, opening func(size int, left []int) int) []load {
	left := append([]int(nil), atMost...)
	loads := []load{}
	var free []int
	for i, n := range demand {
		for range n {
			best := -1
			for b := range loads {
				if free[b] >= f.size[i] && (best < 0 || free[b] < free[best]) {
					best = b
				}
			}
			if best < 0 {
				k := opening(f.size[i], left)
				if k < 0 {
					return nil
				}
				left[k]--
				best = len(loads)
				loads = append(loads, load{kind: k})
				free = append(free, f.kinds[k].room)
			}
			loads[best].items = append(loads[best].items, i)
			free[best] -= f.size[i]
		}
	}
	f.swapDown(loads, left)
	return loads
}

// swapDown moves each bar's pieces to the cheapest kind that holds them and is
// still to be had; the fullest savings first.
func (f *folded) swapDown(loads []load, left []int) {
	order := make([]int, len(loads))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool {
		return f.kinds[loads[order[a]].kind].cost > f.kinds[loads[order[b]].kind].cost
	})
	for _, b := range order {
		used := 0
		for _, i := range loads[b].items {
			used += f.size[i]
		}
		k := loads[b].kind
		best := k
		for j, c := range f.kinds {
			if c.room >= used && c.cost < f.kinds[best].cost && left[j] > 0 {
				best = j
			}
		}
		left[k]++
		left[best]--
		loads[b].kind = best
	}
}

// fitRest returns the cheapest of the best-fit lists for a node under a few
// opening rules, or nil when none fits the stock at hand.
func (f *folded) fitRest(n node) []load {
	rules := []func(a, b kind) bool{
		func(a, b kind) bool { return a.cost < b.cost },                             // cheapest bar
		func(a, b kind) bool { return a.cost*int64(b.room) < b.cost*int64(a.room) }, // cheapest metre
		func(a, b kind) bool { return a.room > b.room },                             // longest bar
		func(a, b kind) bool { return a.room < b.room },                             // shortest bar
	}
	for only := range f.kinds { // one kind while it lasts and fits
		rules = append(rules, func(a, b kind) bool { return a.stock == f.kinds[only].stock && b.stock != a.stock })
	}
	var best []load
	for _, before := range rules {
		loads := f.bestFit(n.demand, n.atMost, func(size int, left []int) int {
			pick := -1
			for k := range f.kinds {
				if left[k] > 0 && f.kinds[k].room >= size && (pick < 0 || before(f.kinds[k], f.kinds[pick])) {
					pick = k
				}
			}
			return pick
		})
		if loads != nil && (best == nil || f.cost(loads) < f.cost(best)) {
			best = loads
		}
	}
	return best
}

func (f *folded) cost(loads []load) int64 {
	var c int64
	for _, l := range loads {
		c += f.kinds[l.kind].cost
	}
	return c
}

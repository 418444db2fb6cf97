package cut

// pattern is one way to saw a bar: a kind and how often each item.
type pattern struct {
	kind  int
	items []int // item indexes, ascending
	times []int
}

// proper says whether no item occurs more often than wanted.
func (p pattern) proper(demand []int) bool {
	for k, i := range p.items {
		if p.times[k] > demand[i] {
			return false
		}
	}
	return true
}

func (p pattern) key() string {
	b := []byte{byte(p.kind), byte(p.kind >> 8)}
	for k, i := range p.items {
		b = append(b, byte(i), byte(i>>8), byte(p.times[k]), byte(p.times[k]>>8))
	}
	return string(b)
}

// pricer finds, for given values of the items, the most valuable filling of
// every room at once. It keeps, item after item, the fillings that no other
// filling beats in both room and value, so its effort follows the number of
// different sums and not the number of millimetres. All values are integers:
// what it returns is exact and may carry a proof.
type pricer struct {
	size    []int
	roomMax int
	arena   []filling
	front   []int32 // fillings, room and value both ascending
	spare   []int32
	work    int64
}

type filling struct {
	room  int
	value int64
	item  int32
	prev  int32
}

// run works out the front for fillings with at most limit[i] of item i.
func (k *pricer) run(value []int64, limit []int) {
	k.arena = append(k.arena[:0], filling{item: -1, prev: -1})
	k.front = append(k.front[:0], 0)
	fresh := []int32{}
	for i, v := range value {
		if v <= 0 || limit[i] == 0 {
			continue
		}
		fresh = append(fresh[:0], k.front...)
		for range limit[i] {
			fresh = k.merge(fresh, i, v)
			if len(fresh) == 0 {
				break
			}
		}
	}
}

// merge adds one more of item i to the fillings in from, merges the results
// into the front, and returns those that survived, in from's own memory.
func (k *pricer) merge(from []int32, i int, v int64) []int32 {
	out := k.spare[:0]
	kept := from[:0]
	a := 0 // next of the old front
	best := int64(-1)
	for _, s := range from {
		st := k.arena[s]
		room, value := st.room+k.size[i], st.value+v
		if room > k.roomMax {
			break
		}
		for a < len(k.front) {
			f := &k.arena[k.front[a]]
			if f.room > room || f.room == room && f.value < value {
				break
			}
			if f.value > best {
				best = f.value
				out = append(out, k.front[a])
			}
			a++
		}
		if value > best {
			best = value
			k.arena = append(k.arena, filling{room, value, int32(i), s})
			at := int32(len(k.arena) - 1)
			out = append(out, at)
			kept = append(kept, at)
		}
	}
	for ; a < len(k.front); a++ {
		if f := &k.arena[k.front[a]]; f.value > best {
			best = f.value
			out = append(out, k.front[a])
		}
	}
	k.work += int64(len(from) + len(out))
	k.front, k.spare = out, k.front
	return kept
}

// best returns the most valuable filling of a room: its place and value.
func (k *pricer) best(room int) (at int32, value int64) {
	lo, hi := 0, len(k.front) // first filling that needs more than room
	for lo < hi {
		mid := (lo + hi) / 2
		if k.arena[k.front[mid]].room > room {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	at = k.front[lo-1]
	return at, k.arena[at].value
}

// pattern reads the filling at a place back.
func (k *pricer) pattern(kind int, at int32) pattern {
	p := pattern{kind: kind}
	for ; k.arena[at].item >= 0; at = k.arena[at].prev {
		i := int(k.arena[at].item)
		if n := len(p.items); n > 0 && p.items[n-1] == i {
			p.times[n-1]++
			continue
		}
		p.items = append(p.items, i)
		p.times = append(p.times, 1)
	}
	for a, b := 0, len(p.items)-1; a < b; a, b = a+1, b-1 {
		p.items[a], p.items[b] = p.items[b], p.items[a]
		p.times[a], p.times[b] = p.times[b], p.times[a]
	}
	return p
}

// Package fill packs items into rooms of one dimension: for given values, the
// most valuable choice that fits.
package fill

import "slices"

// Table finds, for given values of the items, the most valuable filling of every
// room at once. It keeps, item after item, the fillings that no other
// filling beats in both room and value, so its effort follows the number of
// different sums and not the number of millimetres. All values are integers:
// what it returns is exact and may carry a proof.
type Table struct {
	Size []int // of each item, above 0
	Room int   // the largest asked for
	Work int64 // table cells touched so far

	arena []filling
	front []int32 // fillings, room and value both ascending
	spare []int32
}

type filling struct {
	room  int
	value int64
	item  int32
	prev  int32
}

// Run works out the table for fillings with at most limit[i] of item i. Items
// worth nothing are left out.
func (t *Table) Run(value []int64, limit []int) {
	t.arena = append(t.arena[:0], filling{item: -1, prev: -1})
	t.front = append(t.front[:0], 0)
	fresh := []int32{}
	for i, v := range value {
		if v <= 0 || limit[i] == 0 {
			continue
		}
		fresh = append(fresh[:0], t.front...)
		for range limit[i] {
			fresh = t.merge(fresh, i, v)
			if len(fresh) == 0 {
				break
			}
		}
	}
}

// merge adds one more of item i to the fillings in from, merges the results
// into the front, and returns those that survived, in from's own memory.
func (t *Table) merge(from []int32, i int, v int64) []int32 {
	out := t.spare[:0]
	kept := from[:0]
	a := 0 // next of the old front
	best := int64(-1)
	for _, s := range from {
		st := t.arena[s]
		room, value := st.room+t.Size[i], st.value+v
		if room > t.Room {
			break
		}
		for a < len(t.front) {
			f := &t.arena[t.front[a]]
			if f.room > room || f.room == room && f.value < value {
				break
			}
			if f.value > best {
				best = f.value
				out = append(out, t.front[a])
			}
			a++
		}
		if value > best {
			best = value
			t.arena = append(t.arena, filling{room, value, int32(i), s})
			at := int32(len(t.arena) - 1)
			out = append(out, at)
			kept = append(kept, at)
		}
	}
	for ; a < len(t.front); a++ {
		if f := &t.arena[t.front[a]]; f.value > best {
			best = f.value
			out = append(out, t.front[a])
		}
	}
	t.Work += int64(len(from) + len(out))
	t.front, t.spare = out, t.front
	return kept
}

// Best returns the most valuable filling of a room: its place in the table and
// its value.
func (t *Table) Best(room int) (at int, value int64) {
	lo, hi := 0, len(t.front) // first filling that needs more than room
	for lo < hi {
		mid := (lo + hi) / 2
		if t.arena[t.front[mid]].room > room {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	at = int(t.front[lo-1])
	return at, t.arena[at].value
}

// Step is a filling that no smaller one matches in value.
type Step struct {
	At    int // its place in the table
	Room  int
	Value int64
}

// Steps returns the value of a room as a staircase, from the empty filling on.
func (t *Table) Steps() []Step {
	out := make([]Step, len(t.front))
	for i, at := range t.front {
		out[i] = Step{int(at), t.arena[at].room, t.arena[at].value}
	}
	return out
}

// Read returns the filling at a place: item indexes ascending, and how often
// each.
func (t *Table) Read(at int) (items, times []int) {
	for f := t.arena[at]; f.item >= 0; f = t.arena[f.prev] {
		if n := len(items); n > 0 && items[n-1] == int(f.item) {
			times[n-1]++
			continue
		}
		items = append(items, int(f.item))
		times = append(times, 1)
	}
	slices.Reverse(items)
	slices.Reverse(times)
	return items, times
}

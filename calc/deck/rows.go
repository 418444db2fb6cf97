package deck

import (
	"cmp"
	"slices"
	"sort"
)

// plan says which pattern each row of each region is laid in.
type plan [][]pattern // by region, by row

// sizesOf returns the distinct outlines a plan and the strips need, sorted, and
// how many of each.
func (s shape) sizesOf(p plan) (sizes []size, counts []int) {
	need := map[size]int{}
	for i, rows := range p {
		r := s.regions[i]
		for y, way := range rows {
			for _, sp := range way.spans {
				need[size{s.spanLength(r, sp), s.rowWidth(r, y)}]++
			}
		}
	}
	for _, st := range s.strips {
		need[size{st.length, st.height}] += st.count
	}
	for sz := range need {
		sizes = append(sizes, sz)
	}
	sortSizes(sizes)
	for _, sz := range sizes {
		counts = append(counts, need[sz])
	}
	return sizes, counts
}

func (s shape) rowWidth(r region, row int) int {
	if row < r.full {
		return s.width
	}
	return r.rip
}

// rowByRow lays one row after another, keeping the few best beginnings: fewest
// boards so far, then longest offcuts. It returns nil when no two ways to lay a
// row may lie side by side.
func (s *search) rowByRow() []plan {
	beginnings := []beginning{{}}
	for i, r := range s.regions {
		for b := range beginnings {
			beginnings[b].plan = append(append(plan(nil), beginnings[b].plan...), nil)
		}
		for y := range r.rows() {
			var next []beginning
			for _, b := range beginnings {
				for _, way := range s.walkers[i].ways {
					if y > 0 && !apart(b.plan[i][y-1], way) {
						continue
					}
					next = append(next, s.extend(b, r, y, way))
				}
				if len(next) > maxNext {
					break
				}
			}
			if next == nil {
				return nil
			}
			s.spent += int64(40 * len(next))
			slices.SortStableFunc(next, beginning.compare)
			beginnings = next[:min(len(next), maxBeginnings)]
		}
	}
	var plans []plan
	for _, b := range beginnings {
		plans = append(plans, b.plan)
	}
	return plans
}

const (
	maxBeginnings = 12
	maxNext       = 4000
)

// beginning is a deck laid so far, with the whole-width offcuts it leaves.
type beginning struct {
	plan    plan
	offcuts []int // of each board begun
	pieces  int
	squares int64 // of the offcuts: one long offcut is better than two short
}

// compare puts the better beginning first.
func (b beginning) compare(o beginning) int {
	return cmp.Or(
		cmp.Compare(len(b.offcuts), len(o.offcuts)),
		cmp.Compare(b.pieces, o.pieces),
		cmp.Compare(o.squares, b.squares),
	)
}

func squares(ls []int) (sum int64) {
	for _, l := range ls {
		if l > 0 {
			sum += int64(l) * int64(l)
		}
	}
	return sum
}

func (s shape) extend(b beginning, r region, y int, way pattern) beginning {
	last := len(b.plan) - 1
	out := beginning{plan: append(plan(nil), b.plan...), offcuts: append([]int(nil), b.offcuts...), pieces: b.pieces + len(way.spans)}
	out.plan[last] = append(append([]pattern(nil), b.plan[last]...), way)
	if s.rowWidth(r, y) < s.width {
		out.squares = b.squares
		return out
	}
	var lengths []int
	for _, sp := range way.spans {
		lengths = append(lengths, s.spanLength(r, sp))
	}
	sort.Sort(sort.Reverse(sort.IntSlice(lengths)))
	for _, l := range lengths {
		best := -1
		for i, o := range out.offcuts {
			if o >= l && (best < 0 || o < out.offcuts[best]) {
				best = i
			}
		}
		if best < 0 {
			best = len(out.offcuts)
			out.offcuts = append(out.offcuts, s.board)
		}
		out.offcuts[best] -= l + s.kerf
	}
	out.squares = squares(out.offcuts)
	return out
}

package deck

import (
	"cmp"
	"slices"
)

// maxYields bounds the lists of lanes, sections and boards.
const maxYields = 4000

// grown is a list of unfinished boards or sections, one for each choice of
// parts, each as short as it can be.
type grown struct {
	items []yield
	size  []int // what each has used: the less the better
	seen  map[string]int
	queue []int
	full  bool // some were left out
}

func (g *grown) add(key string, y yield, size int) {
	if i, ok := g.seen[key]; ok {
		if size < g.size[i] {
			g.items[i], g.size[i] = y, size
			g.queue = append(g.queue, i) // and so is all that grows from it
		}
		return
	}
	if len(g.items) >= maxYields {
		g.full = true
		return
	}
	g.seen[key] = len(g.items)
	g.queue = append(g.queue, len(g.items))
	g.items, g.size = append(g.items, y), append(g.size, size)
}

// plus adds the counts, or returns nil when that is more than is wanted.
func plus(a, b, most []int) []int {
	out := make([]int, len(a))
	for p := range a {
		if out[p] = a[p] + b[p]; out[p] > most[p] {
			return nil
		}
	}
	return out
}

func sum(counts []int) (n int) {
	for _, c := range counts {
		n += c
	}
	return n
}

// yields lists the boards that no other board beats in every part, within what
// is wanted, and says whether the list is whole.
func (s *search) yields(counts []int) ([]yield, bool) {
	sections, complete := s.rippedSections(counts)
	for p, sz := range s.sizes {
		if sz.width == s.width && counts[p] > 0 {
			one := make([]int, len(counts))
			one[p] = 1
			sections = append(sections, yield{one, boardPlan{sections: []sectionPlan{whole(s.shape, sz)}}})
		}
	}
	none := make([]int, len(counts))
	g := grown{seen: map[string]int{}}
	g.add(countKey(none), yield{none, boardPlan{free: s.board}}, 0)
	for len(g.queue) > 0 {
		i := g.queue[0]
		g.queue = g.queue[1:]
		from := g.items[i]
		for _, sec := range sections {
			part := sec.plan.sections[0]
			if from.plan.free < part.length {
				continue
			}
			s.spent += int64(4 * len(counts))
			next := plus(from.counts, sec.counts, counts)
			if next == nil {
				continue
			}
			plan := boardPlan{append(append([]sectionPlan(nil), from.plan.sections...), part), from.plan.free - part.length - s.kerf}
			g.add(countKey(next), yield{next, plan}, s.board-plan.free)
		}
		if s.spent += int64(len(sections)); s.exhausted() {
			return nil, false
		}
	}
	return s.unbeaten(g.items[1:]), complete && !g.full
}

// rippedSections lists every ripped section by the parts it gives and the width
// it leaves, each at its shortest.
func (s *search) rippedSections(counts []int) ([]yield, bool) {
	var lanes []yield
	complete := true
	for _, width := range s.sawyer.widths {
		l, ok := s.lanesOf(width, counts)
		lanes, complete = append(lanes, l...), complete && ok
	}
	none := make([]int, len(counts))
	g := grown{seen: map[string]int{}}
	g.add("", yield{none, boardPlan{sections: []sectionPlan{{free: s.width}}}}, 0)
	for len(g.queue) > 0 {
		i := g.queue[0]
		g.queue = g.queue[1:]
		from := g.items[i]
		for _, ln := range lanes {
			sec, lane := from.plan.sections[0], ln.plan.sections[0]
			if sec.free < lane.lanes[0].width {
				continue
			}
			s.spent += int64(4 * len(counts))
			next := plus(from.counts, ln.counts, counts)
			if next == nil {
				continue
			}
			longer := sectionPlan{
				length: max(sec.length, lane.length), free: sec.free - lane.lanes[0].width - s.kerf,
				lanes: append(append([]lanePlan(nil), sec.lanes...), lane.lanes...),
			}
			key := countKey(append([]int{longer.free & 0xffff, longer.free >> 16}, next...))
			g.add(key, yield{next, boardPlan{sections: []sectionPlan{longer}}}, longer.length)
		}
		if s.spent += int64(len(lanes)); s.exhausted() {
			return nil, false
		}
	}
	shortest := grown{seen: map[string]int{}}
	for i, y := range g.items[1:] {
		shortest.add(countKey(y.counts), y, g.size[i+1])
	}
	return shortest.items, complete && !g.full
}

// unbeaten drops the boards that yield no more than another of any part.
func (s *search) unbeaten(all []yield) []yield {
	area := make([]int64, len(all))
	order := make([]int, len(all))
	for i, y := range all {
		order[i] = i
		for p, n := range y.counts {
			area[i] += int64(n) * int64(s.sizes[p].length) * int64(s.sizes[p].width)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(area[b], area[a]) })
	var out []yield
	for _, i := range order {
		y := all[i]
		beaten := false
		for _, o := range out {
			less := true
			for p, n := range y.counts {
				if n > o.counts[p] {
					less = false
					break
				}
			}
			if less {
				beaten = true
				break
			}
		}
		s.spent += int64(4 * len(out))
		if !beaten {
			out = append(out, y)
		}
	}
	return out
}

// lanesOf lists every filling of one lane.
func (s *search) lanesOf(width int, counts []int) ([]yield, bool) {
	var out []yield
	times := make([]int, len(counts))
	complete := true
	var add func(p, used int)
	add = func(p, used int) {
		for p < len(counts) && (s.sizes[p].width != width || counts[p] == 0) {
			p++
		}
		if p == len(counts) {
			if sum(times) == 0 {
				return
			}
			if len(out) >= maxYields {
				complete = false
				return
			}
			lane := lanePlan{width: width}
			for q, n := range times {
				for range n {
					lane.parts = append(lane.parts, s.sizes[q])
				}
			}
			out = append(out, yield{append([]int(nil), times...),
				boardPlan{sections: []sectionPlan{{length: used, lanes: []lanePlan{lane}}}}})
			return
		}
		for n := 0; n <= counts[p]; n++ {
			if l := used + n*(s.sizes[p].length+s.kerf); l <= s.board {
				times[p] = n
				add(p+1, l)
			}
		}
		times[p] = 0
	}
	add(0, -s.kerf)
	return out, complete
}

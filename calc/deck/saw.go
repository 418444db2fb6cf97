package deck

import (
	"maps"
	"slices"

	"chargehand/calc/cut/fill"
)

// sawyer finds, for given values of the parts, the most valuable way to saw one
// board. Values are integers and every table is exact, so its answer may carry
// a proof.
//
// Lengths carry the kerf as everywhere in the search: a part takes length+kerf
// of board+kerf, so a ripped section is an item whose size is that of its
// longest lane.
type sawyer struct {
	s      shape
	sizes  []size
	most   []int // of each part, no board needs more
	widths []int // lane widths below the board's, widest first
	sets   [][]int
	lanes  []fill.Table
	row    fill.Table
	work   int64
}

// maxLaneSets is how many choices of lane widths a section may have; more than
// a site ever needs.
const maxLaneSets = 5000

// newSawyer returns false if there are too many choices of lanes to look at all
// of them, in which case its answers prove nothing.
func newSawyer(s shape, sizes []size, most []int) (*sawyer, bool) {
	w := &sawyer{s: s, sizes: sizes, most: most}
	for _, sz := range sizes {
		if n := len(w.widths); sz.width < s.width && (n == 0 || w.widths[n-1] != sz.width) {
			w.widths = append(w.widths, sz.width)
		}
	}
	for _, width := range w.widths {
		t := fill.Table{Room: s.board + s.kerf}
		for _, sz := range sizes {
			if sz.width == width {
				t.Size = append(t.Size, sz.length+s.kerf)
			}
		}
		w.lanes = append(w.lanes, t)
	}
	ok := w.addSets(0, s.width+s.kerf, make([]int, len(w.widths)))
	return w, ok
}

// addSets lists every choice of lanes that leaves no room for one more.
func (w *sawyer) addSets(i, left int, times []int) bool {
	if i == len(w.widths) {
		for j, width := range w.widths {
			if width+w.s.kerf <= left && times[j] < w.lanesMost(j) {
				return true
			}
		}
		if len(w.sets) == maxLaneSets {
			return false
		}
		w.sets = append(w.sets, append([]int(nil), times...))
		return true
	}
	for t := min(left/(w.widths[i]+w.s.kerf), w.lanesMost(i)); t >= 0; t-- {
		times[i] = t
		if !w.addSets(i+1, left-t*(w.widths[i]+w.s.kerf), times) {
			return false
		}
	}
	times[i] = 0
	return true
}

// lanesMost is how many lanes of a width could ever be used: one a part.
func (w *sawyer) lanesMost(i int) int {
	n := 0
	for p, sz := range w.sizes {
		if sz.width == w.widths[i] {
			n += w.most[p]
		}
	}
	return n
}

// section is one way to rip: a set of lanes, cut off at a length.
type section struct {
	room  int // length+kerf
	value int64
	set   int
}

// best returns the most valuable board and its value.
func (w *sawyer) best(value []int64) (boardPlan, int64) {
	steps := make([][]fill.Step, len(w.widths))
	for i := range w.widths {
		var v []int64
		var limit []int
		for p, sz := range w.sizes {
			if sz.width == w.widths[i] {
				v, limit = append(v, value[p]), append(limit, min(w.most[p], (w.s.board+w.s.kerf)/(sz.length+w.s.kerf)))
			}
		}
		w.lanes[i].Run(v, limit)
		steps[i] = w.lanes[i].Steps()
		w.work += w.lanes[i].Work
		w.lanes[i].Work = 0
	}
	sections := w.sections(steps)
	var items []int64
	var limit, part []int
	w.row.Size, w.row.Room = w.row.Size[:0], w.s.board+w.s.kerf
	for p, sz := range w.sizes {
		if sz.width == w.s.width {
			w.row.Size = append(w.row.Size, sz.length+w.s.kerf)
			items, part = append(items, value[p]), append(part, p)
			limit = append(limit, min(w.most[p], w.row.Room/(sz.length+w.s.kerf)))
		}
	}
	for _, sec := range sections {
		w.row.Size = append(w.row.Size, sec.room)
		items, limit = append(items, sec.value), append(limit, w.row.Room/sec.room)
	}
	w.row.Run(items, limit)
	w.work += w.row.Work
	w.row.Work = 0
	at, total := w.row.Best(w.row.Room)
	var b boardPlan
	b.free = w.s.board
	which, times := w.row.Read(at)
	for k, i := range which {
		for range times[k] {
			if i < len(part) {
				b.sections = append(b.sections, whole(w.s, w.sizes[part[i]]))
			} else {
				b.sections = append(b.sections, w.rip(sections[i-len(part)]))
			}
			b.free -= b.sections[len(b.sections)-1].length + w.s.kerf
		}
	}
	return b, total
}

// sections returns the ripped sections that no shorter one matches in value.
func (w *sawyer) sections(steps [][]fill.Step) []section {
	best := map[int]section{} // by room
	for set, times := range w.sets {
		var rooms []int
		for i, t := range times {
			if t > 0 {
				for _, st := range steps[i][1:] {
					rooms = append(rooms, st.Room)
				}
			}
		}
		slices.Sort(rooms)
		rooms = slices.Compact(rooms)
		at := make([]int, len(steps))
		for _, room := range rooms {
			v := int64(0)
			for i, t := range times {
				if t > 0 {
					for at[i]+1 < len(steps[i]) && steps[i][at[i]+1].Room <= room {
						at[i]++
					}
					v += int64(t) * steps[i][at[i]].Value
				}
			}
			if v > best[room].value {
				best[room] = section{room, v, set}
			}
		}
		w.work += int64(4 * len(rooms) * len(times))
	}
	var out []section
	for _, room := range slices.Sorted(maps.Keys(best)) {
		if n := len(out); n == 0 || best[room].value > out[n-1].value {
			out = append(out, best[room])
		}
	}
	return out
}

func (w *sawyer) rip(sec section) sectionPlan {
	out := sectionPlan{length: sec.room - w.s.kerf, free: w.s.width}
	for i, t := range w.sets[sec.set] {
		at, _ := w.lanes[i].Best(sec.room)
		which, times := w.lanes[i].Read(at)
		if len(which) == 0 {
			continue
		}
		var parts []size
		for _, sz := range w.sizes {
			if sz.width == w.widths[i] {
				parts = append(parts, sz)
			}
		}
		for range t {
			lane := lanePlan{width: w.widths[i], free: out.length}
			for k, p := range which {
				for range times[k] {
					lane.parts = append(lane.parts, parts[p])
					lane.free -= parts[p].length + w.s.kerf
				}
			}
			out.lanes = append(out.lanes, lane)
			out.free -= lane.width + w.s.kerf
		}
	}
	return out
}

// whole is a section that is not ripped.
func whole(s shape, sz size) sectionPlan {
	return sectionPlan{length: sz.length, lanes: []lanePlan{{width: s.width, parts: []size{sz}}}}
}

package cut

import (
	"sort"

	"chargehand/calc/unit"
)

// Letter returns the nth mark for a piece, counted from 0: A to Z, then AA, AB
// and so on, as columns are lettered on a drawing.
func Letter(n int) string {
	var s string
	for n >= 0 {
		s = string(rune('A'+n%26)) + s
		n = n/26 - 1
	}
	return s
}

// unfold turns loads back into bars of the problem: longest bars first, bars
// cut alike together, pieces longest first.
func (f *folded) unfold(p Problem, loads []load) []Bar {
	loads = append([]load(nil), loads...)
	for i := range loads {
		loads[i].items = append([]int(nil), loads[i].items...)
		sort.Ints(loads[i].items)
	}
	sort.SliceStable(loads, func(a, b int) bool { return before(loads[a], loads[b]) })
	rest := make([][]int, len(f.from)) // pieces still to hand out, by item
	for i, from := range f.from {
		for _, j := range from {
			for range p.Pieces[j].Count {
				rest[i] = append(rest[i], j)
			}
		}
	}
	bars := make([]Bar, len(loads))
	for b, ld := range loads {
		s := p.Stocks[f.kinds[ld.kind].stock]
		bar := Bar{Stock: f.kinds[ld.kind].stock, Length: s.Length}
		left := s.Length - p.Trim
		for _, i := range ld.items {
			j := rest[i][0]
			rest[i] = rest[i][1:]
			bar.Cuts = append(bar.Cuts, Cut{Piece: j, Length: p.Pieces[j].Length, Letter: Letter(i)})
			left -= p.Pieces[j].Length + p.Kerf
		}
		bar.Offcut = max(left, 0)
		bars[b] = bar
	}
	return bars
}

func before(a, b load) bool {
	if a.kind != b.kind {
		return a.kind < b.kind
	}
	for i := range min(len(a.items), len(b.items)) {
		if a.items[i] != b.items[i] {
			return a.items[i] < b.items[i]
		}
	}
	return len(a.items) > len(b.items)
}

// Group is a setting of the saw: so many bars of one stock, all cut alike.
type Group struct {
	Stock  int
	Length unit.Length
	Times  int
	Cuts   []Cut // of the first bar; the others differ at most in Piece
	Offcut unit.Length
}

// Groups returns the list as one saws it: bars cut alike as one line.
func (l List) Groups() []Group {
	var groups []Group
	for _, b := range l.Bars {
		if n := len(groups); n > 0 && alike(groups[n-1], b) {
			groups[n-1].Times++
			continue
		}
		groups = append(groups, Group{Stock: b.Stock, Length: b.Length, Times: 1, Cuts: b.Cuts, Offcut: b.Offcut})
	}
	return groups
}

func alike(g Group, b Bar) bool {
	if g.Stock != b.Stock || len(g.Cuts) != len(b.Cuts) {
		return false
	}
	for i := range b.Cuts {
		if g.Cuts[i].Length != b.Cuts[i].Length {
			return false
		}
	}
	return true
}

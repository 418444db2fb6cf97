package deck

import (
	"sort"

	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

// layout writes a plan and its boards out as a Layout: boards sawn alike
// together, letters by outline, each piece sent to its place in the rows.
func (s shape) layout(p plan, boards []boardPlan, bound int, work int64) Layout {
	sizes, _ := s.sizesOf(p)
	out := Layout{Boards: len(boards), Pieces: p.pieces(), Bound: min(bound, len(boards)), Work: work}
	out.Proven = out.Bound == out.Boards
	if !out.Proven {
		out.Gap = float64(out.Boards-out.Bound) / float64(out.Boards)
	}
	letter := map[size]string{}
	for i, sz := range sizes {
		letter[sz] = cut.Letter(i)
	}
	places := s.rows(p, letter, &out)
	sort.SliceStable(boards, func(a, b int) bool { return boardKey(boards[a]) > boardKey(boards[b]) })
	for i, b := range boards {
		out.Cuts = append(out.Cuts, s.cuts(i, b, letter, places, &out))
	}
	return out
}

// place is where one part goes.
type place struct{ row, piece, strip int }

func (s shape) rows(p plan, letter map[size]string, out *Layout) map[size][]place {
	places := map[size][]place{}
	for i, rows := range p {
		r := s.regions[i]
		for y, way := range rows {
			row := Row{Region: i, Y: length(y * (s.width + s.rowGap)), Width: length(s.rowWidth(r, y))}
			for _, sp := range way.spans {
				sz := size{s.spanLength(r, sp), s.rowWidth(r, y)}
				x := r.lines[sp.from]
				if sp.from > 0 {
					x += s.endGap / 2
				}
				places[sz] = append(places[sz], place{len(out.Rows), len(row.Pieces), -1})
				row.Pieces = append(row.Pieces, Piece{X: length(x), Length: length(sz.length), From: sp.from, To: sp.to, Letter: letter[sz]})
			}
			out.Rows = append(out.Rows, row)
		}
	}
	for i, st := range s.strips {
		sz := size{st.length, st.height}
		for range st.count {
			places[sz] = append(places[sz], place{-1, -1, i})
		}
	}
	return places
}

// boardKey orders boards so that those sawn alike stand together, the boards
// with the largest first section first.
func boardKey(b boardPlan) string {
	var key []byte
	num := func(n int) { key = append(key, byte(n>>24), byte(n>>16), byte(n>>8), byte(n)) }
	for _, sec := range b.sections {
		num(sec.length)
		for _, ln := range sec.lanes {
			num(ln.width)
			for _, part := range ln.parts {
				num(part.length)
			}
		}
	}
	return string(key)
}

func (s shape) cuts(board int, b boardPlan, letter map[size]string, places map[size][]place, out *Layout) Cuts {
	c := Cuts{Offcut: length(max(b.free, 0))}
	for _, sec := range b.sections {
		section := Section{Length: length(sec.length)}
		for _, ln := range sec.lanes {
			lane := Lane{Width: length(ln.width)}
			for _, sz := range ln.parts {
				pl := places[sz][0]
				places[sz] = places[sz][1:]
				lane.Parts = append(lane.Parts, Part{
					Length: length(sz.length), Letter: letter[sz], Row: pl.row, Piece: pl.piece, Strip: pl.strip,
				})
				if pl.row >= 0 {
					out.Rows[pl.row].Pieces[pl.piece].Board = board
				}
			}
			section.Lanes = append(section.Lanes, lane)
		}
		c.Sections = append(c.Sections, section)
	}
	return c
}

// Group is a number of boards sawn alike.
type Group struct {
	Times  int
	Boards []int // indexes in Layout.Cuts
	Cuts   Cuts  // of the first; the others differ at most in where parts go
}

// Groups returns the boards as one saws them: boards sawn alike as one line.
func (l Layout) Groups() []Group {
	var groups []Group
	for i, c := range l.Cuts {
		if n := len(groups); n > 0 && alike(groups[n-1].Cuts, c) {
			groups[n-1].Times++
			groups[n-1].Boards = append(groups[n-1].Boards, i)
			continue
		}
		groups = append(groups, Group{Times: 1, Boards: []int{i}, Cuts: c})
	}
	return groups
}

func alike(a, b Cuts) bool {
	if len(a.Sections) != len(b.Sections) {
		return false
	}
	for i, sa := range a.Sections {
		sb := b.Sections[i]
		if sa.Length != sb.Length || len(sa.Lanes) != len(sb.Lanes) {
			return false
		}
		for j, la := range sa.Lanes {
			lb := sb.Lanes[j]
			if la.Width != lb.Width || len(la.Parts) != len(lb.Parts) {
				return false
			}
			for k := range la.Parts {
				if la.Parts[k].Letter != lb.Parts[k].Letter {
					return false
				}
			}
		}
	}
	return true
}

// mm is for the topic's output.
func mm(l unit.Length) float64 { return l.In(unit.Millimetre) }

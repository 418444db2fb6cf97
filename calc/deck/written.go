package deck

import (
	"fmt"
	"hash/fnv"
	"strconv"
	"strings"

	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

// Written is a layout in a few words, for a record: what the search decided and
// nothing that follows from the problem.
//
// Rows lists the rows in order, each the support lines its joints lie on, joined
// by commas, or a dash for none: "6 5,9 -". Boards lists the boards, each its
// sections joined by +, a section its lanes joined by /, a lane its parts' letters
// joined by a dot: "A B+C.C/D".
type Written struct {
	Rows, Boards string
	Bound        int
	Work         int64
}

// Name names a problem in a record: two problems that differ in more than the
// budget have different names.
func (p Problem) Name() string {
	p.Budget = 0
	h := fnv.New64a()
	fmt.Fprintf(h, "%s %+v", ID, p)
	return fmt.Sprintf("%016x", h.Sum64())
}

// Write puts a layout into words.
func (l Layout) Write() Written {
	w := Written{Bound: l.Bound, Work: l.Work}
	var rows, boards []string
	for _, r := range l.Rows {
		var joints []string
		for _, p := range r.Pieces[:max(len(r.Pieces)-1, 0)] {
			joints = append(joints, strconv.Itoa(p.To))
		}
		if len(joints) == 0 {
			joints = []string{"-"}
		}
		rows = append(rows, strings.Join(joints, ","))
	}
	for _, c := range l.Cuts {
		var sections []string
		for _, sec := range c.Sections {
			var lanes []string
			for _, ln := range sec.Lanes {
				var parts []string
				for _, p := range ln.Parts {
					parts = append(parts, p.Letter)
				}
				lanes = append(lanes, strings.Join(parts, "."))
			}
			sections = append(sections, strings.Join(lanes, "/"))
		}
		boards = append(boards, strings.Join(sections, "+"))
	}
	w.Rows, w.Boards = strings.Join(rows, " "), strings.Join(boards, " ")
	return w
}

// Read turns words back into the layout of a problem and checks it: what comes
// back without an error is a whole answer to p. A ripped section comes back no
// longer than its lanes need.
//
// Errors: *calc.DomainError for a problem outside the domain, otherwise a plain
// error that says what does not fit.
func Read(p Problem, w Written) (Layout, error) {
	s, err := fold(p)
	if err != nil {
		return Layout{}, err
	}
	rows, err := s.readRows(strings.Fields(w.Rows))
	if err != nil {
		return Layout{}, err
	}
	sizes, counts := s.sizesOf(rows)
	letters := map[string]int{}
	for i := range sizes {
		letters[cut.Letter(i)] = i
	}
	boards, err := s.readBoards(strings.Fields(w.Boards), sizes, counts, letters)
	if err != nil {
		return Layout{}, err
	}
	l := s.layout(rows, boards, w.Bound, w.Work)
	return l, Check(p, l)
}

func (s shape) readRows(words []string) (plan, error) {
	var out plan
	for _, r := range s.regions {
		last := len(r.lines) - 1
		var rows []pattern
		for range r.rows() {
			if len(words) == 0 {
				return nil, fmt.Errorf("too few rows")
			}
			var way pattern
			from := 0
			for _, joint := range strings.Split(words[0], ",") {
				if joint == "-" {
					break
				}
				to, err := strconv.Atoi(joint)
				if err != nil || to <= from || to >= last {
					return nil, fmt.Errorf("no joint can lie on line %q", joint)
				}
				way.spans, from = append(way.spans, span{from, to}), to
			}
			way.spans = append(way.spans, span{from, last})
			rows, words = append(rows, way), words[1:]
		}
		out = append(out, rows)
	}
	if len(words) > 0 {
		return nil, fmt.Errorf("%d rows too many", len(words))
	}
	return out, nil
}

func (s shape) readBoards(words []string, sizes []size, counts []int, letters map[string]int) ([]boardPlan, error) {
	left := append([]int(nil), counts...)
	var boards []boardPlan
	for _, word := range words {
		b := boardPlan{free: s.board}
		for _, sec := range strings.Split(word, "+") {
			var section sectionPlan
			for _, ln := range strings.Split(sec, "/") {
				var lane lanePlan
				long := -s.kerf
				for _, letter := range strings.Split(ln, ".") {
					i, ok := letters[letter]
					if !ok || left[i] == 0 {
						return nil, fmt.Errorf("no part %q is left to saw", letter)
					}
					left[i]--
					lane.parts = append(lane.parts, sizes[i])
					lane.width = sizes[i].width
					long += sizes[i].length + s.kerf
				}
				section.lanes = append(section.lanes, lane)
				section.length = max(section.length, long)
			}
			b.sections = append(b.sections, section)
			b.free -= section.length + s.kerf
		}
		boards = append(boards, b)
	}
	for i, n := range left {
		if n > 0 {
			return nil, fmt.Errorf("part %s is not sawn", cut.Letter(i))
		}
	}
	return boards, nil
}

// Strips cuts the upstand boards of one run into as few equal pieces as boards
// of the given length allow, each a whole number of millimetres.
//
// Source: common practice, no source.
// Shape: pieces never fall as the run grows; count·length is the run, rounded up
// to count mm at most.
// Domain: run and board above 0.
// Errors: none.
func Strips(run, height, board unit.Length, label string) Strip {
	n := ceilDiv(run, board)
	return Strip{Length: unit.Length(ceilDiv(run, unit.Length(n))), Height: height, Count: n, Label: label}
}

// ceilDiv is a/b rounded up, forgiving the last bits of a float.
func ceilDiv(a, b unit.Length) int {
	q := float64(a)/float64(b) - 1e-9
	n := int(q)
	if q > float64(n) {
		n++
	}
	return max(n, 1)
}

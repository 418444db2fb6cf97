package deck

import (
	"fmt"

	"chargehand/calc/unit"
)

// slack absorbs the rounding of binary fractions; lengths are whole twentieths.
const slack = unit.Length(0.005)

func near(a, b unit.Length) bool { return a-b < slack && b-a < slack }

// Check returns an error unless l is a whole answer to p by the rules of the
// package comment: rows that cover the deck, ends that bear, joints apart, and
// every part of every row and strip sawn once from a board that holds it. It
// shares nothing with the search but the reading of the problem, and it does
// not judge whether fewer boards would do: that is what Bound is for.
//
// Errors: *calc.DomainError for a problem outside the domain, otherwise a
// plain error that says what is wrong with the layout.
func Check(p Problem, l Layout) error {
	s, err := fold(p)
	if err != nil {
		return err
	}
	if err := checkRows(p, s, l); err != nil {
		return err
	}
	if err := checkCuts(p, l); err != nil {
		return err
	}
	switch {
	case l.Boards != len(l.Cuts):
		return fmt.Errorf("%d boards, %d are sawn", l.Boards, len(l.Cuts))
	case l.Bound > l.Boards:
		return fmt.Errorf("bound %d above %d boards", l.Bound, l.Boards)
	case l.Proven != (l.Bound == l.Boards):
		return fmt.Errorf("proven %v with bound %d and %d boards", l.Proven, l.Bound, l.Boards)
	}
	return nil
}

func checkRows(p Problem, s shape, l Layout) error {
	at, pieces := 0, 0
	for i, r := range s.regions {
		depth := p.Depth
		if i > 0 {
			depth = p.Regions[i-1].Depth
		}
		y := unit.Length(0)
		for ; y < depth-slack; at++ {
			if at == len(l.Rows) {
				return fmt.Errorf("region %d: rows end at %v of %v", i, y, depth)
			}
			row := l.Rows[at]
			width := min(p.BoardWidth, depth-y)
			if row.Region != i || !near(row.Y, y) || !near(row.Width, width) {
				return fmt.Errorf("row %d: region %d at %v, %v wide; must be region %d at %v, %v wide", at, row.Region, row.Y, row.Width, i, y, width)
			}
			if err := checkRow(p, r, row); err != nil {
				return fmt.Errorf("row %d: %w", at, err)
			}
			if y > 0 {
				if err := checkStagger(p, r, l.Rows[at-1], row); err != nil {
					return fmt.Errorf("row %d: %w", at, err)
				}
			}
			pieces += len(row.Pieces)
			y += p.BoardWidth + p.RowGap
		}
	}
	if at != len(l.Rows) {
		return fmt.Errorf("%d rows, %d cover the deck", len(l.Rows), at)
	}
	if pieces != l.Pieces {
		return fmt.Errorf("%d pieces stated, %d lie", l.Pieces, pieces)
	}
	return nil
}

func checkRow(p Problem, r region, row Row) error {
	line := func(i int) unit.Length { return length(r.lines[i]) }
	last := len(r.lines) - 1
	from := 0
	for i, pc := range row.Pieces {
		switch {
		case pc.From != from:
			return fmt.Errorf("piece %d begins on line %d, the one before ends on %d", i, pc.From, from)
		case pc.To > last || pc.To < pc.From+p.MinBays:
			return fmt.Errorf("piece %d from line %d to %d spans less than %d bays", i, pc.From, pc.To, p.MinBays)
		}
		left, right := line(pc.From), line(pc.To)
		if pc.From > 0 {
			left += p.EndGap / 2
		}
		if pc.To < last {
			right -= p.EndGap / 2
		}
		if !near(pc.X, left) || !near(pc.X+pc.Length, right) {
			return fmt.Errorf("piece %d lies from %v to %v, must lie from %v to %v", i, pc.X, pc.X+pc.Length, left, right)
		}
		from = pc.To
	}
	if from != last {
		return fmt.Errorf("pieces end on line %d of %d", from, last)
	}
	return nil
}

func checkStagger(p Problem, r region, a, b Row) error {
	for _, pa := range a.Pieces[:len(a.Pieces)-1] {
		for _, pb := range b.Pieces[:len(b.Pieces)-1] {
			lines := max(pa.To-pb.To, pb.To-pa.To)
			x := length(max(r.lines[pa.To]-r.lines[pb.To], r.lines[pb.To]-r.lines[pa.To]))
			if lines < p.Stagger || x < p.StaggerLength-slack {
				return fmt.Errorf("joints on lines %d and %d of neighbouring rows", pa.To, pb.To)
			}
		}
	}
	return nil
}

func checkCuts(p Problem, l Layout) error {
	type key struct{ row, piece int }
	sawn := map[key]bool{}
	strips := make([]int, len(p.Strips))
	for b, c := range l.Cuts {
		if len(c.Sections) == 0 {
			return fmt.Errorf("board %d: nothing is cut from it", b)
		}
		used := unit.Length(0)
		for i, sec := range c.Sections {
			if i > 0 {
				used += p.Kerf
			}
			used += sec.Length
			if err := checkSection(p, sec); err != nil {
				return fmt.Errorf("board %d, section %d: %w", b, i, err)
			}
			for _, lane := range sec.Lanes {
				for _, part := range lane.Parts {
					var want, width unit.Length
					switch {
					case part.Strip >= 0 && part.Strip < len(strips) && part.Row < 0:
						strips[part.Strip]++
						want, width = p.Strips[part.Strip].Length, p.Strips[part.Strip].Height
					case part.Row >= 0 && part.Row < len(l.Rows) && part.Piece >= 0 && part.Piece < len(l.Rows[part.Row].Pieces) && part.Strip < 0:
						pc := l.Rows[part.Row].Pieces[part.Piece]
						want, width = pc.Length, l.Rows[part.Row].Width
						if sawn[key{part.Row, part.Piece}] {
							return fmt.Errorf("board %d: piece %d of row %d is sawn twice", b, part.Piece, part.Row)
						}
						sawn[key{part.Row, part.Piece}] = true
						if pc.Board != b || pc.Letter != part.Letter {
							return fmt.Errorf("board %d: piece %d of row %d is said to be %s from board %d", b, part.Piece, part.Row, pc.Letter, pc.Board)
						}
					default:
						return fmt.Errorf("board %d: a part that goes nowhere", b)
					}
					if !near(part.Length, want) || !near(lane.Width, width) {
						return fmt.Errorf("board %d: part %v × %v, wanted %v × %v", b, part.Length, lane.Width, want, width)
					}
				}
			}
		}
		if used > p.BoardLength+slack {
			return fmt.Errorf("board %d: sections take %v of %v", b, used, p.BoardLength)
		}
		if off := max(p.BoardLength-used-p.Kerf, 0); !near(c.Offcut, off) {
			return fmt.Errorf("board %d: offcut %v, must be %v", b, c.Offcut, off)
		}
	}
	if len(sawn) != l.Pieces {
		return fmt.Errorf("%d pieces sawn of %d", len(sawn), l.Pieces)
	}
	for i, n := range strips {
		if n != p.Strips[i].Count {
			return fmt.Errorf("strip %d: sawn %d times, wanted %d", i, n, p.Strips[i].Count)
		}
	}
	return nil
}

func checkSection(p Problem, sec Section) error {
	width := unit.Length(0)
	for i, lane := range sec.Lanes {
		if i > 0 {
			width += p.Kerf
		}
		width += lane.Width
		sum := unit.Length(0)
		for j, part := range lane.Parts {
			if j > 0 {
				sum += p.Kerf
			}
			sum += part.Length
		}
		if len(lane.Parts) == 0 || sum > sec.Length+slack {
			return fmt.Errorf("lane %d: %d parts take %v of %v", i, len(lane.Parts), sum, sec.Length)
		}
		if near(lane.Width, p.BoardWidth) && (len(lane.Parts) != 1 || !near(sum, sec.Length)) {
			return fmt.Errorf("lane %d: a section of whole width holds one part of its own length", i)
		}
	}
	if len(sec.Lanes) == 0 || width > p.BoardWidth+slack {
		return fmt.Errorf("%d lanes take %v of %v", len(sec.Lanes), width, p.BoardWidth)
	}
	return nil
}

package deck

import (
	"fmt"
	"math"
	"sort"

	"chargehand/calc"
	"chargehand/calc/unit"
)

const (
	maxRow    = 30 * unit.Metre
	maxBoard  = 10 * unit.Metre
	maxGap    = 50 * unit.Millimetre
	nearEdge  = 100 * unit.Millimetre
	maxRows   = 200
	maxStrips = 500
)

// grain is the length the search counts in: a twentieth of a millimetre, so
// that half of an end gap of 0.1 mm is whole.
const grain = 20 // per mm

func domain(field string, got any, wanted string) error {
	return &calc.DomainError{Op: "deck", Field: field, Got: got, Wanted: wanted}
}

func grains(field string, l, min, max unit.Length) (int, error) {
	f := l.In(unit.Millimetre)
	if !(l >= min && l <= max) {
		return 0, domain(field, f, fmt.Sprintf("%g to %g mm", min.In(unit.Millimetre), max.In(unit.Millimetre)))
	}
	t := math.Round(f * grain)
	if math.Abs(t-f*grain) > 1e-6 || int(t)%2 != 0 {
		return 0, domain(field, f, "a whole number of tenths of a millimetre")
	}
	return int(t), nil
}

func length(g int) unit.Length { return unit.Length(g) / grain }

// shape is a Problem in whole grains.
type shape struct {
	board, width, kerf, endGap, rowGap int
	minBays, stagger, staggerLength    int
	regions                            []region
	strips                             []strip
}

type region struct {
	lines []int // support lines, 0 and the row length at the ends
	full  int   // rows of full width
	rip   int   // width of the last row, 0 if there is none
}

func (r region) rows() int {
	if r.rip > 0 {
		return r.full + 1
	}
	return r.full
}

type strip struct{ length, height, count int }

// fold checks the domain and returns the problem in whole grains.
func fold(p Problem) (shape, error) {
	var s shape
	for _, d := range []struct {
		field    string
		l        unit.Length
		min, max unit.Length
		to       *int
	}{
		{"board_length_mm", p.BoardLength, 100, maxBoard, &s.board},
		{"board_width_mm", p.BoardWidth, 50, maxBoard, &s.width},
		{"kerf_mm", p.Kerf, 0, maxGap, &s.kerf},
		{"end_gap_mm", p.EndGap, 0, maxGap, &s.endGap},
		{"row_gap_mm", p.RowGap, 0, maxGap, &s.rowGap},
		{"stagger_mm", p.StaggerLength, 0, maxBoard, &s.staggerLength},
	} {
		g, err := grains(d.field, d.l, d.min, d.max)
		if err != nil {
			return s, err
		}
		*d.to = g
	}
	if p.MinBays < 1 || p.MinBays > 100 {
		return s, domain("min_bays", p.MinBays, "1 to 100")
	}
	if p.Stagger < 0 || p.Stagger > 100 {
		return s, domain("stagger", p.Stagger, "0 to 100")
	}
	if p.Budget < 0 {
		return s, domain("budget", p.Budget, "0 or more")
	}
	s.minBays, s.stagger = p.MinBays, p.Stagger
	if len(p.Regions) > 20 {
		return s, domain("regions", len(p.Regions), "at most 20")
	}
	all := append([]Region{{p.RowLength, p.Depth, p.JoistSpacing, p.Lines}}, p.Regions...)
	rows := 0
	for i, r := range all {
		key := ""
		if i > 0 {
			key = fmt.Sprintf("regions[%d].", i-1)
		}
		folded, err := s.region(key, r)
		if err != nil {
			return s, err
		}
		rows += folded.rows()
		s.regions = append(s.regions, folded)
	}
	if rows > maxRows {
		return s, domain("depth_mm", p.Depth.In(unit.Millimetre), fmt.Sprintf("at most %d rows in all", maxRows))
	}
	return s, s.addStrips(p)
}

func (s *shape) region(key string, r Region) (region, error) {
	var out region
	row, err := grains(key+"row_length_mm", r.RowLength, 100, maxRow)
	if err != nil {
		return out, err
	}
	depth, err := grains(key+"depth_mm", r.Depth, 10, maxRow)
	if err != nil {
		return out, err
	}
	if r.Lines != nil {
		out.lines, err = setOut(key+"lines_mm", r.Lines, row)
	} else {
		out.lines, err = spaced(key+"joist_spacing_mm", r.JoistSpacing, row)
	}
	if err != nil {
		return out, err
	}
	if len(out.lines) > maxLines {
		return out, domain(key+"joist_spacing_mm", r.JoistSpacing.In(unit.Millimetre), fmt.Sprintf("at most %d lines in a row", maxLines))
	}
	out.full = (depth + s.rowGap) / (s.width + s.rowGap)
	out.rip = max(depth-out.full*(s.width+s.rowGap), 0)
	return out, nil
}

// spaced returns lines at 0, step, 2·step … below row, and row.
func spaced(field string, step unit.Length, row int) ([]int, error) {
	g, err := grains(field, step, 100, maxBoard)
	if err != nil {
		return nil, err
	}
	var lines []int
	for x := 0; x < row; x += g {
		lines = append(lines, x)
	}
	return append(lines, row), nil
}

// setOut returns the given lines between the two deck edges.
func setOut(field string, given []unit.Length, row int) ([]int, error) {
	lines := []int{0}
	last := -1
	for i, l := range given {
		x, err := grains(fmt.Sprintf("%s[%d]", field, i), l, 0, length(row))
		if err != nil {
			return nil, err
		}
		if x <= last {
			return nil, domain(fmt.Sprintf("%s[%d]", field, i), l.In(unit.Millimetre), "more than the line before it")
		}
		last = x
		if x >= int(nearEdge*grain) && row-x >= int(nearEdge*grain) {
			lines = append(lines, x)
		}
	}
	return append(lines, row), nil
}

func (s *shape) addStrips(p Problem) error {
	total := 0
	for i, st := range p.Strips {
		l, err := grains(fmt.Sprintf("strips[%d].length_mm", i), st.Length, 1, p.BoardLength)
		if err != nil {
			return err
		}
		h, err := grains(fmt.Sprintf("strips[%d].height_mm", i), st.Height, 1, p.BoardWidth)
		if err != nil {
			return err
		}
		if st.Count < 1 || st.Count > maxStrips {
			return domain(fmt.Sprintf("strips[%d].count", i), st.Count, fmt.Sprintf("1 to %d", maxStrips))
		}
		total += st.Count
		s.strips = append(s.strips, strip{l, h, st.Count})
	}
	if total > maxStrips {
		return domain("strips", total, fmt.Sprintf("at most %d in all", maxStrips))
	}
	return nil
}

// size is a part's outline; width counts across the board.
type size struct{ length, width int }

// sortSizes puts the widest first, then the longest.
func sortSizes(sizes []size) {
	sort.Slice(sizes, func(a, b int) bool {
		if sizes[a].width != sizes[b].width {
			return sizes[a].width > sizes[b].width
		}
		return sizes[a].length > sizes[b].length
	})
}

package fixings

import (
	"math"
	"slices"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Pieces is a number of pieces of timber alike.
type Pieces struct {
	Count  int
	Length unit.Length
}

// StruttingRows returns the rows of strutting that solid joists of a clear span
// need: none under 2.5 m, one at mid-span to 4.5 m, two above.
//
// Source: NHBC Standards 6.4.15 Table 4 ("under 2.5", "2.5-4.5", "over 4.5").
// Shape: never falls with the span.
// Domain: 0 < span ≤ 12 m.
// Errors: DomainError only.
func StruttingRows(span unit.Length) (int, error) {
	if err := calc.Outside("fixings.strutting", "clear_span_mm", float64(span), 1, 12000, "mm"); err != nil {
		return 0, err
	}
	switch {
	case span < 2500:
		return 0, nil
	case span <= 4500:
		return 1, nil
	}
	return 2, nil
}

// StruttingIn is a set of joists to be strutted.
type StruttingIn struct {
	Span    unit.Length   // clear
	Centres []unit.Length // of the joists, rising
	Thick   unit.Length   // of a joist
	Depth   unit.Length   // of a joist
}

// StruttingOut is the strutting of a roof.
type StruttingOut struct {
	Rows    int
	At      []unit.Length // of each row from a support
	Solid   []Pieces      // solid strutting, one a bay and row, longest first
	Depth   unit.Length   // of solid strutting, at least
	Crossed []Pieces      // herringbone instead: two a bay and row
	Blocks  int           // between the last joists and the walls, two a row
}

// Strutting returns the rows of strutting and their pieces.
//
//	rows at span·i/(rows+1); solid ≥ 38 mm thick and 0.75·depth;
//	herringbone 38 x 38 mm, length √(clear² + depth²)
//
// Source: NHBC Standards 6.4.15: rows, equal spaces, sections, and runs blocked
// to the wall at both ends. The length is geometry, before the ends are cut.
// Units: in and out by type; internal mm.
// Domain: as [StruttingRows]; 2 to 200 joists further apart than they are thick
// and at most 3 m, thick 25 to 150, depth 50 to 400 mm.
// Errors: DomainError only.
func Strutting(in StruttingIn) (StruttingOut, error) {
	const op = "fixings.strutting"
	rows, err := StruttingRows(in.Span)
	if err != nil {
		return StruttingOut{}, err
	}
	if err := calc.Outside(op, "joist_h_mm", float64(in.Depth), 50, 400, "mm"); err != nil {
		return StruttingOut{}, err
	}
	clear, err := between(op, in.Centres, in.Thick)
	if err != nil {
		return StruttingOut{}, err
	}
	out := StruttingOut{Rows: rows, Depth: unit.Length(0.75 * float64(in.Depth)), Blocks: 2 * rows}
	if rows == 0 {
		return out, nil
	}
	for i := 1; i <= rows; i++ {
		out.At = append(out.At, unit.Length(float64(in.Span)*float64(i)/float64(rows+1)))
	}
	crossed := make([]unit.Length, len(clear))
	for i, c := range clear {
		crossed[i] = unit.Length(math.Hypot(float64(c), float64(in.Depth)))
	}
	out.Solid, out.Crossed = alike(clear, rows), alike(crossed, 2*rows)
	return out, nil
}

// Noggins returns the noggins under the long edges of boards: one a bay on each
// line, longest first.
//
// Source: common practice, no source: an edge that is not tongued wants support.
// Units: in and out by type; internal mm.
// Domain: 2 to 200 joists further apart than they are thick and at most 3 m,
// thick 25 to 150 mm, 0 to 50 lines.
// Errors: DomainError only.
func Noggins(centres []unit.Length, thick unit.Length, lines int) ([]Pieces, error) {
	const op = "fixings.noggins"
	clear, err := between(op, centres, thick)
	if err != nil {
		return nil, err
	}
	if err := calc.Outside(op, "board_lines", float64(lines), 0, 50, "lines"); err != nil {
		return nil, err
	}
	if lines == 0 {
		return nil, nil
	}
	return alike(clear, lines), nil
}

// between returns the clear distances between joists.
func between(op string, centres []unit.Length, thick unit.Length) ([]unit.Length, error) {
	if err := calc.Outside(op, "joist_mm", float64(thick), 25, 150, "mm"); err != nil {
		return nil, err
	}
	if len(centres) < 2 || len(centres) > 200 {
		return nil, &calc.DomainError{Op: op, Field: "lines_mm", Got: len(centres), Wanted: "2 to 200 joists"}
	}
	clear := make([]unit.Length, len(centres)-1)
	for i := range clear {
		gap := float64(centres[i+1]) - float64(centres[i])
		if !(gap > float64(thick) && gap <= 3000) {
			return nil, &calc.DomainError{Op: op, Field: "lines_mm", Got: gap, Wanted: "rising, further apart than a joist is thick, at most 3000 mm"}
		}
		clear[i] = unit.Length(gap - float64(thick))
	}
	return clear, nil
}

// alike groups lengths that differ by less than a millimetre, each taken times
// over, the longest of a group standing for it.
func alike(lengths []unit.Length, times int) []Pieces {
	sorted := slices.Clone(lengths)
	slices.Sort(sorted)
	slices.Reverse(sorted)
	var groups []Pieces
	for _, l := range sorted {
		if n := len(groups); n > 0 && groups[n-1].Length-l < 1 {
			groups[n-1].Count += times
			continue
		}
		groups = append(groups, Pieces{Count: times, Length: l})
	}
	return groups
}

// EndsOut is what holds the ends of joists.
type EndsOut struct {
	Hangers   int
	SkewNails int // 4.5 x 100 mm, one from each side
	Clips     int // or straps
}

// Ends returns what holds joist ends: a hanger, or two skew nails that only
// keep the end in place and a clip or strap that holds it down.
//
// Source: NHBC Standards 7.2.6: two 4.5 x 100 mm galvanised round nails, one
// from each side, where there is no uplift; with uplift, straps. A flat roof
// always has uplift.
// Domain: 0 to 1000 ends of each sort.
// Errors: DomainError only.
func Ends(onHangers, onPlates int) (EndsOut, error) {
	const op = "fixings.ends"
	if err := calc.Outside(op, "hanger_ends", float64(onHangers), 0, 1000, "ends"); err != nil {
		return EndsOut{}, err
	}
	if err := calc.Outside(op, "plate_ends", float64(onPlates), 0, 1000, "ends"); err != nil {
		return EndsOut{}, err
	}
	return EndsOut{Hangers: onHangers, SkewNails: 2 * onPlates, Clips: onPlates}, nil
}

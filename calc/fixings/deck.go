package fixings

import (
	"fmt"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Spacing and edge distances of deck screws.
//
// Source: 150 along ends and edges, 300 along intermediate supports, at least
// 8 mm from an edge: LABC Warranty, good practice guide for timber decks on
// flat roofs. The 25 mm from the long edge to the first screw of a line, and
// two screws a noggin at least: common practice, no source.
const (
	deckEdge    = 150.0 // mm
	deckField   = 300.0 // mm
	deckInset   = 25.0  // mm
	nogginLeast = 2
)

// DeckRow is one row of boards across the joists.
type DeckRow struct {
	Width  unit.Length
	Joints []int // indices into DeckLayout.Lines on which two boards meet
}

// DeckLayout is what the cut list knows of a deck.
type DeckLayout struct {
	Lines       []unit.Length // support lines along the row, both deck edges included, rising
	Rows        []DeckRow     // in order from the datum
	SeamNoggins bool          // noggins under the long edges between rows (square-edged boards)
	OuterEdges  bool          // noggins or trimmers under the two outer long edges as well
}

// DeckScrews returns the number of screws of a deck from its layout.
//
//	per row: 2 outer ends and 2 lines a joint at 150, every other line at 300
//	per supported long edge: between two lines, ceil(gap/150) - 1 but at least 2
//
// Source: LABC Warranty for the spacings, see above; the count is arithmetic.
// Checked against the worked 5.5 x 2.9 m deck: 400, and 456 with outer edges.
// Units: in and out by type; internal mm.
// Shape: never falls with another joint, another line or a wider row.
// Domain: 2 to 200 lines at least 50 mm apart, 1 to 50 rows 50 to 3100 mm
// wide, joints strictly inside and rising.
// Ignores: waste (see takeoff).
// Errors: DomainError only.
func DeckScrews(d DeckLayout) (int, error) {
	if err := d.check(); err != nil {
		return 0, err
	}
	n := 0
	for _, row := range d.Rows {
		w := float64(row.Width)
		atEdge, inField := across(w, deckEdge), across(w, deckField)
		ends := 2 + 2*len(row.Joints)
		n += ends*atEdge + (len(d.Lines)-2-len(row.Joints))*inField
	}
	edges := 0
	if d.SeamNoggins {
		edges += 2 * (len(d.Rows) - 1) // the edge of the row on either side
	}
	if d.OuterEdges {
		edges += 2
	}
	along := 0
	for i := 1; i < len(d.Lines); i++ {
		gap := float64(d.Lines[i]) - float64(d.Lines[i-1])
		along += max(int(up(gap/deckEdge))-1, nogginLeast)
	}
	return n + edges*along, nil
}

// across returns the screws of one line across a board w mm wide.
func across(w, most float64) int {
	return max(int(up((w-2*deckInset)/most)), 1) + 1
}

func (d DeckLayout) check() error {
	const op = "fixings.deck"
	bad := func(field string, got any, wanted string) error {
		return &calc.DomainError{Op: op, Field: field, Got: got, Wanted: wanted}
	}
	if len(d.Lines) < 2 || len(d.Lines) > 200 {
		return bad("lines_mm", len(d.Lines), "2 to 200 support lines")
	}
	for i := 1; i < len(d.Lines); i++ {
		if gap := float64(d.Lines[i]) - float64(d.Lines[i-1]); !(gap >= 50 && gap <= 3100) {
			return bad("lines_mm", gap, "rising, 50 to 3100 mm apart")
		}
	}
	if len(d.Rows) < 1 || len(d.Rows) > 50 {
		return bad("rows", len(d.Rows), "1 to 50 rows")
	}
	for _, row := range d.Rows {
		if err := calc.Outside(op, "width_mm", float64(row.Width), 60, 3100, "mm"); err != nil {
			return err
		}
		last := 0
		for _, j := range row.Joints {
			if j <= last || j >= len(d.Lines)-1 {
				return bad("joints", row.Joints, fmt.Sprintf("rising line indices from 1 to %d", len(d.Lines)-2))
			}
			last = j
		}
	}
	return nil
}

// DeckScrewEstimate returns the screws of a deck before its layout is known:
// 18/m², or 29/m² for square-edged boards on noggins.
//
// Source: common practice, no source; the upper end of 25 to 29 for square edges.
// Domain: 0 to 1000 m².
// Errors: DomainError only.
func DeckScrewEstimate(area unit.Area, squareEdged bool) (int, error) {
	a := area.In(unit.SquareMetre)
	if err := calc.Outside("fixings.deck", "area_m2", a, 0, 1000, "m²"); err != nil {
		return 0, err
	}
	if squareEdged {
		return int(up(29 * a)), nil
	}
	return int(up(18 * a)), nil
}

// DeckScrewSize returns the least length and diameter of a deck screw.
//
//	length = max(50; 2.5·t)   diameter = 0.16·t
//
// Source: EN 12872 and PanelGuide, from memory.
// Domain: 9 ≤ t ≤ 40 mm.
// Errors: DomainError only.
func DeckScrewSize(board unit.Length) (length, diameter unit.Length, err error) {
	t := float64(board) // mm
	if err := calc.Outside("fixings.deck", "board_t_mm", t, 9, 40, "mm"); err != nil {
		return 0, 0, err
	}
	return unit.Length(math.Max(50, 2.5*t)), unit.Length(0.16 * t), nil
}

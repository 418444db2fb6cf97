package sheet

import (
	"fmt"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Kind is what stands on an edge.
type Kind string

const (
	Gutter  Kind = "gutter"
	Verge   Kind = "verge"
	Wall    Kind = "wall"
	Parapet Kind = "parapet"
)

// Turn is the way round the corner at the end of an edge, walking clockwise.
type Turn string

const (
	Right Turn = "right" // an external corner of the plan
	Left  Turn = "left"  // a re-entrant corner
)

// Edge is one edge of the roof, clockwise from the gutter.
type Edge struct {
	Kind   Kind
	Length unit.Length // of an outline; not read on a rectangle
	Turn   Turn        // at its end; not read on a rectangle

	// Rubber is the greatest height of rubber on a wall (0: 150) or the inside
	// height of a parapet. On a side wall the roof falls away, so the greatest
	// height is at the gutter end.
	Rubber unit.Length
	Top    unit.Length // across a parapet that the sheet is taken over
	Tuck   bool        // gutter edge: the rubber goes down behind the fascia
}

// Allowance is how far the sheet runs past one edge of the deck.
type Allowance struct {
	Wanted unit.Length
	Least  unit.Length
}

// Source of every figure: common practice, no source, but for the upstand.
const (
	// LeastUpstand: BS 6229 and NHBC 7.1, from memory; 75 at a door threshold only (NHBC Standards 2020 7.1.11).
	LeastUpstand = 150 * unit.Millimetre

	overBevel = 50 * unit.Millimetre // over the bevel strip, and to trim at the top
	toSpare   = 50 * unit.Millimetre
	overTop   = 50 * unit.Millimetre // past the outer face of a parapet

	freeEdge      = 150 * unit.Millimetre // batten 38, drop 50 to 75, spare
	freeEdgeLeast = 88 * unit.Millimetre  // batten 38, drop 50
	tucked        = 200 * unit.Millimetre // 38 + 50 + 50 behind the fascia + 62 spare
	tuckedLeast   = 138 * unit.Millimetre
)

// allowance returns what the sheet needs past edge i.
func (e Edge) allowance(i int) (Allowance, error) {
	const op = "sheet.size"
	bad := func(field string, got any, wanted string) (Allowance, error) {
		return Allowance{}, &calc.DomainError{Op: op, Field: fmt.Sprintf("%s[%d]", field, i), Got: got, Wanted: wanted}
	}
	if e.Tuck && e.Kind != Gutter {
		return bad("edges", string(e.Kind), "tuck only on a gutter edge")
	}
	switch e.Kind {
	case Gutter, Verge:
		if e.Rubber != 0 || e.Top != 0 {
			return bad("rubber_heights_mm", float64(e.Rubber), "0 on a free edge")
		}
		if e.Tuck {
			return Allowance{Wanted: tucked, Least: tuckedLeast}, nil
		}
		return Allowance{Wanted: freeEdge, Least: freeEdgeLeast}, nil
	case Wall:
		h := e.Rubber
		if h == 0 {
			h = LeastUpstand
		}
		if !(h >= 75 && h <= 1500) {
			return bad("rubber_heights_mm", float64(h), "75 to 1500 mm on a wall")
		}
		return Allowance{Wanted: h + overBevel + toSpare, Least: h}, nil
	case Parapet:
		if !(e.Rubber >= 50 && e.Rubber <= 1500) {
			return bad("rubber_heights_mm", float64(e.Rubber), "50 to 1500 mm, the inside height of the parapet")
		}
		if !(e.Top >= 0 && e.Top <= 600) {
			return bad("parapet_tops_mm", float64(e.Top), "0 to 600 mm across the top of the parapet")
		}
		return Allowance{Wanted: e.Rubber + e.Top + overTop, Least: e.Rubber + e.Top}, nil
	}
	return bad("edges", string(e.Kind), "gutter, verge, wall or parapet")
}

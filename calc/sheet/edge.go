package sheet

import (
	"fmt"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// Edge is what the rubber does at one edge of the outline. The zero Edge is a
// free edge, or a wall with the least upstand.
type Edge struct {
	// Rubber is the greatest height of rubber on a wall (0: LeastUpstand) or the
	// inside height of a parapet. On a side wall the roof falls away, so the
	// greatest height is at the gutter end.
	Rubber unit.Length
	Top    unit.Length // across a parapet that the sheet is taken over
	Tuck   bool        // gutter edge: the rubber goes down behind the fascia
}

// Allowance is how far the sheet runs past one edge of the deck.
type Allowance struct {
	Wanted unit.Length
	Least  unit.Length
}

// Source of every figure but LeastUpstand: common practice, no source.
const (
	// LeastUpstand is measured from the finished roof. Source: BS 6229 and NHBC
	// 7.1, from memory.
	LeastUpstand = 150 * unit.Millimetre
	// ThresholdUpstand is enough at a door threshold only. Source: NHBC
	// Standards 2020 7.1.11.
	ThresholdUpstand = 75 * unit.Millimetre

	overBevel = 50 * unit.Millimetre // over the bevel strip and under the bar
	toTrim    = 50 * unit.Millimetre
	overTop   = 50 * unit.Millimetre // past the outer face of a parapet

	freeEdge      = 150 * unit.Millimetre // batten 38, drop 50 to 75, spare
	freeEdgeLeast = 88 * unit.Millimetre  // batten 38, drop 50
	tucked        = 200 * unit.Millimetre // 38 + 50 + 50 behind the fascia + 62 spare
	tuckedLeast   = 138 * unit.Millimetre
)

// AllowanceAt returns what the sheet needs past an edge of the given kind.
//
//	free edge 150, least 88 · gutter with the rubber tucked behind the fascia 200, least 138
//	wall: rubber + 50 over the bevel + 50 to trim, least the rubber · parapet: height + top + 50, least height + top
//
// Source: common practice, no source; upstand BS 6229 / NHBC 7.1, from memory.
// Domain: rubber 75 to 1500 on a wall, 50 to 1500 at a parapet, 0 on a free edge; top 0 to 600, at a parapet only; tuck at a gutter only.
// Errors: DomainError naming the field of Edge as the topic spells it.
func AllowanceAt(kind geom.Kind, e Edge) (Allowance, error) {
	const op = "sheet.allowance"
	wall, parapet := kind == geom.Wall, kind == geom.Parapet
	if !wall && !parapet && kind != geom.Gutter && kind != geom.Verge {
		return Allowance{}, &calc.DomainError{Op: op, Field: "edges", Got: string(kind), Wanted: "gutter, verge, wall or parapet"}
	}
	if e.Tuck && kind != geom.Gutter {
		return Allowance{}, &calc.DomainError{Op: op, Field: "tuck", Got: string(kind), Wanted: "rubber tucked behind the fascia of a gutter edge only"}
	}
	least, most := 0.0, 0.0
	switch {
	case wall && e.Rubber == 0:
		e.Rubber = LeastUpstand
		fallthrough
	case wall:
		least, most = float64(ThresholdUpstand), 1500
	case parapet:
		least, most = 50, 1500
	}
	if err := calc.Outside(op, "rubber_heights_mm", float64(e.Rubber), least, most, fmt.Sprintf("mm at a %s edge", kind)); err != nil {
		return Allowance{}, err
	}
	most = 0
	if parapet {
		most = 600
	}
	if err := calc.Outside(op, "parapet_tops_mm", float64(e.Top), 0, most, fmt.Sprintf("mm at a %s edge", kind)); err != nil {
		return Allowance{}, err
	}
	switch {
	case wall:
		return Allowance{Wanted: e.Rubber + overBevel + toTrim, Least: e.Rubber}, nil
	case parapet:
		return Allowance{Wanted: e.Rubber + e.Top + overTop, Least: e.Rubber + e.Top}, nil
	case e.Tuck:
		return Allowance{Wanted: tucked, Least: tuckedLeast}, nil
	}
	return Allowance{Wanted: freeEdge, Least: freeEdgeLeast}, nil
}

package lead

import (
	"slices"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// WidthID names the rule for the width of a flashing and its version.
const WidthID = "lead.width/1"

const (
	// TurnIn goes into the chase: common practice, no source (Lead Sheet
	// Association guidance, restated).
	TurnIn = 25 * unit.Millimetre
	// BoardGap is between the underside of the chase and the top of the upstand
	// board: common practice, no source.
	BoardGap = 10 * unit.Millimetre
	// Cover is over the bar and the upstand: BS 6915 / Lead Sheet Association,
	// from memory.
	Cover = 75 * unit.Millimetre
)

// rolls are the widths of the trade: common practice, no source.
var rolls = []unit.Length{150, 180, 210, 240, 270, 300, 360, 390, 450}

// WidthFor returns the narrowest roll for a flashing that turns into the chase,
// passes the gap to the board and covers bar and upstand.
//
//	least = turn-in + gap + cover
//
// Source: common practice, no source; cover from memory.
// Shape: never falls as any of the three grows.
// Domain: turn-in 20 to 50, gap 0 to 100, cover 75 to 300 mm.
// Errors: DomainError only.
func WidthFor(turnIn, gap, cover unit.Length) (least, roll unit.Length, err error) {
	const op = "lead.width"
	for _, c := range []struct {
		field    string
		v        unit.Length
		min, max float64
	}{{"turn_in_mm", turnIn, 20, 50}, {"gap_mm", gap, 0, 100}, {"cover_mm", cover, float64(Cover), 300}} {
		if err := calc.Outside(op, c.field, float64(c.v), c.min, c.max, "mm"); err != nil {
			return 0, 0, err
		}
	}
	least = turnIn + gap + cover
	i, _ := slices.BinarySearch(rolls, least)
	return least, rolls[i], nil // the widest roll holds the widest domain: 50 + 100 + 300
}

// Cuts returns how many pieces come off each roll of the given length, and how
// many rolls a number of equal pieces takes.
//
// Source: arithmetic; pieces are cut across the roll, nothing is lost.
// Domain: piece 100 to 1500 mm; pieces 1 to 1000; roll at least a piece, at most 12 m.
// Errors: DomainError only.
func Cuts(piece unit.Length, pieces int, roll unit.Length) (perRoll, needed int, err error) {
	const op = "lead.cuts"
	if err := calc.Outside(op, "piece_mm", float64(piece), 100, 1500, "mm"); err != nil {
		return 0, 0, err
	}
	if err := calc.Outside(op, "pieces", float64(pieces), 1, 1000, "pieces"); err != nil {
		return 0, 0, err
	}
	if err := calc.Outside(op, "roll_mm", float64(roll), float64(piece), 12000, "mm"); err != nil {
		return 0, 0, err
	}
	perRoll = int(float64(roll)/float64(piece) + 1e-9)
	return perRoll, (pieces + perRoll - 1) / perRoll, nil
}

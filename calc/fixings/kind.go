package fixings

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// What names a kind of fixing that is set out along a run. The words are those
// of the reckon contract.
type What string

const (
	Plate           What = "plate"         // anchors through a plate on the wall top
	Ledger          What = "ledger"        // anchors through a plate on the wall face
	Bar             What = "bar"           // screws through a termination bar
	Trim            What = "trim"          // nails through one piece of edge trim
	UpstandBoard    What = "upstand board" // plugs, one row
	Strap           What = "strap"         // holding-down straps along a plate
	LateralStrap    What = "lateral strap" // restraint straps along a wall parallel to the joists
	LeadClip        What = "lead clip"     // clips on the free edge of a lead flashing
	LeadClipExposed What = "lead clip, exposed"
	Wedge           What = "wedge"   // lead wedges in a chase
	Bracket         What = "bracket" // gutter brackets
)

// rules holds the set-out of each kind.
//
// Sources. Straps, both kinds: not more than 2 m apart, NHBC Standards 7.1.5
// (2024) and 7.2.8. Wedges 450, clips 300 to 500: common practice, no source
// (restated from Lead Sheet Association guidance). Everything else, and every
// end distance: common practice, no source.
var rules = map[What]Rule{
	Plate:           {First: 150, Lost: 150, Most: 600},
	Ledger:          {First: 150, Lost: 150, Most: 600},
	Bar:             {First: 50, Lost: 50, Most: 200},
	Trim:            {First: 25, Most: 300},
	UpstandBoard:    {First: 50, Lost: 50, Most: 400},
	Strap:           {First: 150, Most: 2000},
	LateralStrap:    {First: 150, Most: 2000},
	LeadClip:        {First: 25, Most: 500},
	LeadClipExposed: {First: 25, Most: 300},
	Wedge:           {First: 25, Most: 450},
	Bracket:         {First: 50, Most: 800},
}

// RuleOf returns the usual rule of a kind, for a caller who wants to change one
// number of it.
//
// Errors: DomainError on a kind that is not set out along a run.
func RuleOf(what What) (Rule, error) {
	r, ok := rules[what]
	if !ok {
		return Rule{}, &calc.DomainError{Op: "fixings.rule", Field: "what", Got: string(what), Wanted: "a kind of fixing set out along a run"}
	}
	return r, nil
}

// Run returns the fixings of one kind along a run under its usual rule.
//
// Source, units, shape, domain: see [Rule.Row] and the rules above.
// Errors: DomainError only.
func Run(what What, run unit.Length) (Row, error) {
	r, err := RuleOf(what)
	if err != nil {
		return Row{}, err
	}
	return r.Row(run)
}

// PlateAnchors returns the anchors along one wall plate or ledger:
// ceil((L - 2·150)/600) + 1, the first 150 mm from each end.
func PlateAnchors(run unit.Length) (Row, error) { return Run(Plate, run) }

// BarScrews returns the screws along one run of bar: ceil((L - 100)/200) + 1.
func BarScrews(run unit.Length) (Row, error) { return Run(Bar, run) }

// Straps returns the holding-down straps along one plate by the prescriptive
// spacing alone: ceil(L/2000) + 1.
func Straps(run unit.Length) (Row, error) { return Run(Strap, run) }

// TrimNails returns the nails through a run of trim made of the given pieces:
// ceil(piece/300) + 1 each, added up.
//
// Errors: DomainError only.
func TrimNails(pieces []unit.Length) (int, error) {
	n := 0
	for _, p := range pieces {
		row, err := Run(Trim, p)
		if err != nil {
			return 0, err
		}
		n += row.Count
	}
	return n, nil
}

// UpstandPlugs returns one row of plugs behind an upstand board and the number
// of rows: two when the board stands higher than 150 mm.
//
//	n = (ceil((L - 100)/400) + 1) · rows
//
// Source: common practice, no source.
// Domain: as [Rule.Row]; 0 < height ≤ 1 m.
// Errors: DomainError only.
func UpstandPlugs(run, height unit.Length) (row Row, rows int, err error) {
	if err := calc.Outside("fixings.upstand", "height_mm", float64(height), 1, 1000, "mm"); err != nil {
		return Row{}, 0, err
	}
	row, err = Run(UpstandBoard, run)
	if err != nil {
		return Row{}, 0, err
	}
	rows = 1
	if height > 150 {
		rows = 2
	}
	return row, rows, nil
}

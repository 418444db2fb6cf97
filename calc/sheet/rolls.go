package sheet

import (
	"errors"

	"chargehand/calc"
	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

// Rolls is how many rolls of one width the strips are cut from.
type Rolls struct {
	Width unit.Length
	List  cut.List // a bar is a roll; Cut.Piece counts the strips of this width in their order
}

// FromRolls cuts the strips of a covering from rolls of one length, fewest rolls
// of each width. Rubber is cut with a knife: no kerf.
//
// Source: package cut.
// Domain: roll 1 to 100 m, no strip longer than it.
// Errors: DomainError naming roll_mm.
func FromRolls(l Laid, roll unit.Length) ([]Rolls, error) {
	if err := calc.Outside("sheet.rolls", "roll_mm", float64(roll), 1000, 100000, "mm"); err != nil {
		return nil, err
	}
	var out []Rolls
	problems := map[unit.Length]*cut.Problem{}
	for _, s := range l.Strips {
		p := problems[s.Width]
		if p == nil {
			p = &cut.Problem{Stocks: []cut.Stock{{Length: roll, Cost: 1, Available: cut.Unlimited}}}
			problems[s.Width] = p
			out = append(out, Rolls{Width: s.Width})
		}
		p.Pieces = append(p.Pieces, cut.Piece{Length: s.Length, Count: 1})
	}
	for i := range out {
		list, err := cut.Solve(*problems[out[i].Width])
		if err != nil {
			var domain *calc.DomainError
			if errors.As(err, &domain) {
				return nil, &calc.DomainError{Op: "sheet.rolls", Field: "roll_mm", Got: float64(roll), Wanted: "a roll at least as long as the longest strip"}
			}
			return nil, err
		}
		out[i].List = list
	}
	return out, nil
}

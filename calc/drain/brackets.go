package drain

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// BracketsID names the rule for brackets and its version.
const BracketsID = "drain.brackets/1"

const (
	// UsualFall, BracketSpacing and BracketFirst: common practice, no source.
	UsualFall      unit.Fall = 1.0 / 500
	BracketSpacing           = 800 * unit.Millimetre
	BracketFirst             = 100 * unit.Millimetre
)

// BracketsInput is a gutter hung on brackets.
type BracketsInput struct {
	Run     unit.Length
	Outlet  Placement // "": AtEnd; it is the low point
	Fall    unit.Fall
	Spacing unit.Length   // at most
	First   unit.Length   // from each end
	Joints  []unit.Length // between lengths of gutter: each gets a bracket of its own
}

// Bracket is one bracket: where it goes, from the left end, and how far below
// the highest point of the gutter.
type Bracket struct{ At, Below unit.Length }

// Brackets returns the brackets of a gutter, none further from the next than
// the spacing, evenly spaced between those that are fixed: the first and the
// last, one at each joint.
//
//	below = fall · distance from the high point
//
// An outlet at the end is taken at the right; the high point is the left end,
// both ends for an outlet in the middle, the middle for outlets at both ends.
//
// Source: spacing 0.8 to 0.9 m, falls 1:350 to 1:600 common practice, no source.
// Shape: positions rise, no gap exceeds the spacing, every joint has a bracket.
// Domain: run 300 to 50000; spacing 200 to 1200; first 0 to spacing and less than half the run; joints within the run; fall 0 to 1:50.
// Errors: DomainError only.
func Brackets(in BracketsInput) ([]Bracket, error) {
	const op = "drain.brackets"
	for _, c := range []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"run_mm", float64(in.Run), 300, 50000, "mm"},
		{"bracket_spacing_mm", float64(in.Spacing), 200, 1200, "mm"},
		{"first_mm", float64(in.First), 0, math.Min(float64(in.Spacing), float64(in.Run)/2-1), "mm"},
		{"fall", float64(in.Fall), 0, 1.0 / 50, "drop over run"},
		{"joints_mm", float64(len(in.Joints)), 0, 100, "joints"},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.unit); err != nil {
			return nil, err
		}
	}
	fixed := []unit.Length{in.First}
	for _, j := range in.Joints {
		if err := calc.Outside(op, "joints_mm", float64(j), float64(fixed[len(fixed)-1]), float64(in.Run-in.First), "mm, rising, within the first and the last bracket"); err != nil {
			return nil, err
		}
		fixed = append(fixed, j)
	}
	fixed = append(fixed, in.Run-in.First)
	var high func(unit.Length) unit.Length // distance from the high point
	switch in.Outlet {
	case "", AtEnd:
		high = func(x unit.Length) unit.Length { return x }
	case AtMiddle:
		high = func(x unit.Length) unit.Length { return min(x, in.Run-x) }
	case AtBothEnds:
		high = func(x unit.Length) unit.Length { return max(x-in.Run/2, in.Run/2-x) }
	default:
		return nil, &calc.DomainError{Op: op, Field: "outlet", Got: string(in.Outlet), Wanted: "end, middle or both ends"}
	}
	var out []Bracket
	add := func(x unit.Length) {
		out = append(out, Bracket{At: x, Below: unit.Length(float64(in.Fall) * float64(high(x)))})
	}
	add(fixed[0])
	for i := 1; i < len(fixed); i++ {
		between := float64(fixed[i] - fixed[i-1])
		if between < 1 {
			continue // a joint where a bracket stands already
		}
		bays := math.Ceil(between / float64(in.Spacing))
		for k := 1.0; k < bays; k++ {
			add(fixed[i-1] + unit.Length(between*k/bays))
		}
		add(fixed[i])
	}
	return out, nil
}

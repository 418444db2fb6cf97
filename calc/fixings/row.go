package fixings

import (
	"fmt"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// longestRun bounds a run: the longest side a roof of this kind may have is
// 20 m; the margin is for a wall that goes on past it.
const longestRun = 50 * unit.Metre

// Row is one straight line of fixings along a run.
type Row struct {
	Count   int
	First   unit.Length // from either end of the run
	Spacing unit.Length // between neighbours
}

// Marks returns the distance of each fixing from the start of the run.
func (r Row) Marks() []unit.Length {
	marks := make([]unit.Length, r.Count)
	for i := range marks {
		marks[i] = unit.Length(float64(r.First) + float64(i)*float64(r.Spacing))
	}
	return marks
}

// Rule is how one kind of fixing is set out along a run.
type Rule struct {
	// First is the distance of the outermost fixings from the ends.
	First unit.Length
	// Lost is what the count takes off each end before dividing. It equals
	// First for most kinds; the trade counts trims, straps, clips and wedges
	// over the whole run (Lost 0), which never gives fewer.
	Lost unit.Length
	// Most is the greatest distance between neighbours.
	Most unit.Length
}

// Row returns the fixings of a run under the rule, at equal distances.
//
//	n = ceil((L - 2·lost)/most) + 1
//
// Source: the count is common practice, no source; each rule names its own.
// Units: in and out by type; the run is counted in whole mm, rounded up.
// Shape: n never falls as L grows; spacing ≤ most; first + (n-1)·spacing + first = L.
// Domain: 2·first < L ≤ 50 m, 0 ≤ lost ≤ first, most ≥ 10 mm.
// Ignores: what lies behind the run (joints, openings, cables) and any strength.
// Errors: DomainError only.
func (r Rule) Row(run unit.Length) (Row, error) {
	const op = "fixings.row"
	first, lost, most := float64(r.First), float64(r.Lost), float64(r.Most) // mm
	if err := calc.Outside(op, "max_spacing_mm", most, 10, float64(longestRun), "mm"); err != nil {
		return Row{}, err
	}
	if err := calc.Outside(op, "end_mm", first, 0, float64(longestRun), "mm"); err != nil {
		return Row{}, err
	}
	if !(lost >= 0 && lost <= first) {
		return Row{}, &calc.DomainError{Op: op, Field: "lost_mm", Got: lost, Wanted: fmt.Sprintf("0 to %g mm", first)}
	}
	l := float64(run)
	if !(l > 2*first && l > 0 && l <= float64(longestRun)) {
		return Row{}, &calc.DomainError{Op: op, Field: "run_mm", Got: l,
			Wanted: fmt.Sprintf("more than %g, at most %g mm", 2*first, float64(longestRun))}
	}
	n := max(int(up((up(l)-2*lost)/most)), 1) + 1
	return Row{Count: n, First: r.First, Spacing: unit.Length((l - 2*first) / float64(n-1))}, nil
}

// up rounds up to a whole number, forgiving the last bits of a division.
func up(v float64) float64 { return math.Ceil(v - 1e-9) }

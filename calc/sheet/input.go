package sheet

import (
	"errors"
	"fmt"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// Input is the roof to be covered and the sheet that can be had.
type Input struct {
	Outline geom.Outline // of the deck
	Edges   []Edge       // one for each edge of the outline; nil: all zero
	// Skew is how far the head of a roof is shifted along the gutter by being
	// out of square, for a roof known as a length and a depth. An outline that
	// is itself out of square needs none.
	Skew      unit.Length
	Step      unit.Length // the supplier cuts to multiples of this; 0: 100
	Thickness unit.Length // 0: 1.2

	Widths []unit.Length // sheet widths to be had; nil: any
	Lap    unit.Length   // at a seam; 0: 100
	Clear  []geom.Rect   // where no seam may lie: pipes with their room, valleys
}

const (
	usualStep      = 100 * unit.Millimetre // common practice, no source
	usualThickness = 1.2 * unit.Millimetre
	usualLap       = 100 * unit.Millimetre // 75 to 100: common practice, no source
)

// ready fills in the defaults, checks every input and returns the allowances.
func (in Input) ready() (Input, []Allowance, error) {
	const op = "sheet.size"
	n := len(in.Outline.Edges)
	if n < 3 || n != len(in.Outline.Vertices) {
		return in, nil, &calc.DomainError{Op: op, Field: "outline", Got: n, Wanted: "an outline made by package geom"}
	}
	if in.Edges == nil {
		in.Edges = make([]Edge, n)
	}
	if len(in.Edges) != n {
		return in, nil, &calc.DomainError{Op: op, Field: "edges", Got: len(in.Edges), Wanted: fmt.Sprintf("one for each of %d edges", n)}
	}
	if in.Step == 0 {
		in.Step = usualStep
	}
	if in.Thickness == 0 {
		in.Thickness = usualThickness
	}
	if in.Lap == 0 {
		in.Lap = usualLap
	}
	if len(in.Widths) == 0 {
		in.Widths = nil
	}
	if in.Skew != 0 && !in.Outline.IsRightAngled() {
		return in, nil, &calc.DomainError{Op: op, Field: "skew_mm", Got: float64(in.Skew), Wanted: "no skew beside an outline that is out of square itself"}
	}
	for _, c := range []struct {
		field       string
		v, min, max float64
	}{
		{"length_mm", float64(in.Outline.Bounds().Length()), 500, 20000},
		{"depth_mm", float64(in.Outline.Bounds().Depth()), 500, 20000},
		{"skew_mm", float64(in.Skew), -1000, 1000},
		{"step_mm", float64(in.Step), 1, 1000},
		{"thickness_mm", float64(in.Thickness), 1, 2.5},
		{"lap_mm", float64(in.Lap), 75, 300},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, "mm"); err != nil {
			return in, nil, err
		}
	}
	for i, w := range in.Widths {
		if err := calc.Outside(op, fmt.Sprintf("widths_mm[%d]", i), float64(w), 900, 20000, "mm"); err != nil {
			return in, nil, err
		}
	}
	allowances := make([]Allowance, n)
	for i, e := range in.Edges {
		a, err := AllowanceAt(in.Outline.Edges[i].Kind, e)
		if err != nil {
			var domain *calc.DomainError
			if errors.As(err, &domain) {
				domain.Field = fmt.Sprintf("%s[%d]", domain.Field, i)
			}
			return in, nil, err
		}
		allowances[i] = a
	}
	return in, allowances, nil
}

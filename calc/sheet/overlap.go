package sheet

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// Delivered is the sheet as measured on the ground, Length to lie along the gutter.
type Delivered struct{ Length, Width unit.Length }

// Grade says how an edge is served.
type Grade string

const (
	Enough Grade = "enough" // what was wanted, or more
	Tight  Grade = "tight"  // the detail can be made, with less to trim
	Lacks  Grade = "short"  // the detail cannot be made
)

// Overlap is what one edge gets of a sheet.
type Overlap struct {
	Allowance
	Have  unit.Length
	Short unit.Length // below Least; 0: not short
	Grade Grade
}

func overlap(a Allowance, have unit.Length) Overlap {
	o := Overlap{Allowance: a, Have: have, Short: max(0, a.Least-have), Grade: Enough}
	switch {
	case o.Short > 0:
		o.Grade = Lacks
	case have < a.Wanted:
		o.Grade = Tight
	}
	return o
}

// Overlaps returns what every edge gets of a delivered sheet laid to share what
// it has fairly: each of two facing edges gets its Least, and what is left goes
// to them in proportion to what each still wants. What is missing falls on
// both in proportion to their Least.
//
// Skew is taken off first.
//
// Source: geometry on the allowances of SizeOf.
// Shape: a sheet of SizeOf's size leaves no edge tight; one of exactly the sum of Least leaves none short.
// Domain: as SizeOf; delivered 500 to 25000 mm each way.
// Errors: DomainError only.
func Overlaps(in Input, d Delivered) ([]Overlap, error) {
	const op = "sheet.overlaps"
	s, err := SizeOf(in)
	if err != nil {
		return nil, err
	}
	for _, c := range []struct {
		field string
		v     unit.Length
	}{{"delivered_length_mm", d.Length}, {"delivered_width_mm", d.Width}} {
		if err := calc.Outside(op, c.field, float64(c.v), 500, 25000, "mm"); err != nil {
			return nil, err
		}
	}
	in, sides, err := in.laid()
	if err != nil {
		return nil, err
	}
	least := make([]unit.Length, len(s.Allowances))
	wanted := make([]unit.Length, len(s.Allowances))
	for i, a := range s.Allowances {
		least[i], wanted[i] = a.Least, a.Wanted
	}
	have := make([]unit.Length, len(least))
	needL, needW := extent(sides, least)
	wantL, wantW := extent(sides, wanted)
	skew := max(in.Skew, -in.Skew)
	for i, side := range sides {
		spare, wish := d.Width-needW, wantW-needW
		if side.out == east || side.out == west {
			spare, wish = d.Length-needL-skew, wantL-needL
		}
		have[i] = share(s.Allowances[i], spare, wish)
	}
	out := make([]Overlap, len(have))
	for i, a := range s.Allowances {
		out[i] = overlap(a, have[i])
	}
	return out, nil
}

// share gives one edge its part of what the sheet has beyond the sum of Least
// (spare, negative when short), wish being what both edges want beyond it.
func share(a Allowance, spare, wish unit.Length) unit.Length {
	if spare < 0 || wish == 0 {
		return a.Least + spare/2
	}
	return a.Least + unit.Length(float64(spare)*float64(a.Wanted-a.Least)/float64(wish))
}

// Measured holds overlaps read off the dry-laid sheet, one for each edge,
// against what each edge needs.
//
// Domain: as SizeOf; one overlap for each edge, -1000 to 5000 mm.
// Errors: DomainError only.
func Measured(in Input, overlaps []unit.Length) ([]Overlap, error) {
	const op = "sheet.overlaps"
	s, err := SizeOf(in)
	if err != nil {
		return nil, err
	}
	if len(overlaps) != len(s.Allowances) {
		return nil, &calc.DomainError{Op: op, Field: "overlaps_mm", Got: len(overlaps), Wanted: "one overlap for each edge"}
	}
	out := make([]Overlap, len(overlaps))
	for i, have := range overlaps {
		if err := calc.Outside(op, "overlaps_mm", float64(have), -1000, 5000, "mm"); err != nil {
			return nil, err
		}
		out[i] = overlap(s.Allowances[i], have)
	}
	return out, nil
}

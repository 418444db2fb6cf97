package sheet

import (
	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// OverlapID names the check of a delivered sheet and its version.
const OverlapID = "sheet.overlap/1"

// Delivered is a sheet as measured on the ground, Length to lie along the gutter.
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
	const hair = 1e-6 // mm; sums of lengths carry no more
	o := Overlap{Allowance: a, Have: have, Grade: Enough}
	switch {
	case have < a.Least-hair:
		o.Grade, o.Short = Lacks, a.Least-have
	case have < a.Wanted-hair:
		o.Grade = Tight
	}
	return o
}

// Delivery is a delivered sheet judged.
type Delivery struct {
	Overlaps []Overlap
	Turned   bool // to be laid with its length up the fall
	Remedies []Remedy
}

// Deliver judges a sheet that came: as it was measured, or turned a quarter
// where that leaves less missing.
//
// Source, domain and errors: as Overlaps and Remedies.
func Deliver(in Input, d Delivered) (Delivery, error) {
	as, err := Overlaps(in, d)
	if err != nil {
		return Delivery{}, err
	}
	out := Delivery{Overlaps: as}
	if missing(as) > 0 {
		turned, err := Overlaps(in, Delivered{Length: d.Width, Width: d.Length})
		if err != nil {
			return Delivery{}, err
		}
		if missing(turned) < missing(as) {
			out.Overlaps, out.Turned = turned, true
		}
	}
	out.Remedies, err = Remedies(in, out.Overlaps)
	return out, err
}

func missing(overlaps []Overlap) unit.Length {
	var sum unit.Length
	for _, o := range overlaps {
		sum += o.Short
	}
	return sum
}

// Overlaps returns what every edge gets of a delivered sheet laid to share what
// it has: each of two facing edges gets its Least, and what is left goes to
// them in proportion to what each still wants. What is missing falls on the
// side opposite a gutter edge, since a strip can be added there and not at the
// gutter, and else on both equally. Skew is taken off first.
//
// Source: geometry on the allowances of AllowanceAt.
// Shape: a sheet of SizeOf's size leaves no edge tight; one of the sum of Least leaves none short.
// Domain: as SizeOf; delivered 500 to 25000 mm each way.
// Errors: DomainError only.
func Overlaps(in Input, d Delivered) ([]Overlap, error) {
	const op = "sheet.overlap"
	in, allowances, err := in.ready()
	if err != nil {
		return nil, err
	}
	for _, v := range []unit.Length{d.Length, d.Width} {
		if err := calc.Outside(op, "delivered_mm", float64(v), 500, 25000, "mm"); err != nil {
			return nil, err
		}
	}
	need, err := extent(in.Outline, least(allowances))
	if err != nil {
		return nil, err
	}
	want, err := extent(in.Outline, wanted(allowances))
	if err != nil {
		return nil, err
	}
	skew := max(in.Skew, -in.Skew)
	out := make([]Overlap, len(allowances))
	for i, a := range allowances {
		spare, wish := d.Width-need.Depth(), want.Depth()-need.Depth()
		if flank(in.Outline, i) {
			spare, wish = d.Length-skew-need.Length(), want.Length()-need.Length()
		}
		out[i] = overlap(a, a.Least+in.share(i, a, spare, wish))
	}
	return out, nil
}

// flank reports whether edge i runs more up the roof than along the gutter, so
// that the sheet's length serves it.
func flank(o geom.Outline, i int) bool {
	from, to := o.Side(i)
	dx, dy := to.X-from.X, to.Y-from.Y
	return max(dy, -dy) > max(dx, -dx)
}

// share returns what edge i gets beyond its Least of what the sheet has beyond
// the sum of Least (spare, negative when short), wish being what both sides
// want beyond it.
func (in Input) share(i int, a Allowance, spare, wish unit.Length) unit.Length {
	if spare >= 0 && wish > 0 {
		return unit.Length(float64(spare) * float64(a.Wanted-a.Least) / float64(wish))
	}
	here, there := false, false // a gutter edge that faces the same way, the other way
	for j, e := range in.Outline.Edges {
		if way := facing(in.Outline, i, j); e.Kind == geom.Gutter {
			here, there = here || way > 0, there || way < 0
		}
	}
	switch {
	case here && !there:
		return 0
	case there && !here:
		return spare
	}
	return spare / 2
}

// Measured holds overlaps read off the dry-laid sheet, one for each edge,
// against what each edge needs.
//
// Domain: as SizeOf; one overlap for each edge, -1000 to 5000 mm.
// Errors: DomainError only.
func Measured(in Input, overlaps []unit.Length) ([]Overlap, error) {
	const op = "sheet.overlap"
	_, allowances, err := in.ready()
	if err != nil {
		return nil, err
	}
	if len(overlaps) != len(allowances) {
		return nil, &calc.DomainError{Op: op, Field: "overlaps_mm", Got: len(overlaps), Wanted: "one overlap for each edge"}
	}
	out := make([]Overlap, len(overlaps))
	for i, have := range overlaps {
		if err := calc.Outside(op, "overlaps_mm", float64(have), -1000, 5000, "mm"); err != nil {
			return nil, err
		}
		out[i] = overlap(allowances[i], have)
	}
	return out, nil
}

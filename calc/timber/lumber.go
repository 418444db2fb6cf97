package timber

import (
	"math"
	"strings"

	"chargehand/calc"
)

const psi = 0.006894757293168361 // N/mm² in a pound-force per square inch, exact definitions of pound and inch

// lumber is dressed US dimension lumber of one depth, N/mm².
type lumber struct {
	depth      float64 // dressed depth, mm
	fb         float64 // bending, with its size factor
	fv, fcPerp float64
	e, eMin    float64
}

// usGrade is a row of the NDS Supplement; psi, moduli in million psi.
type usGrade struct {
	species, grade string
	fb             [5]float64 // by depth 2x4, 2x6, 2x8, 2x10, 2x12
	sized          bool       // fb already holds the size factor (Southern Pine)
	fv, fcPerp     float64
	e, eMin        float64
}

// usGrades holds dimension lumber 2 in thick: NDS Supplement 2018 Tables 4A
// and 4B, from memory; the agreement of the printed span tables is the
// evidence. fb of unsized rows is the base value, repeated by lumberOf.
var usGrades = [...]usGrade{
	{"DF-L", "SS", [5]float64{1500}, false, 180, 625, 1.9, 0.69},
	{"DF-L", "#1", [5]float64{1000}, false, 180, 625, 1.7, 0.62},
	{"DF-L", "#2", [5]float64{900}, false, 180, 625, 1.6, 0.58},
	{"DF-L", "#3", [5]float64{525}, false, 180, 625, 1.4, 0.51},
	{"Hem-Fir", "SS", [5]float64{1400}, false, 150, 405, 1.6, 0.58},
	{"Hem-Fir", "#1", [5]float64{975}, false, 150, 405, 1.5, 0.55},
	{"Hem-Fir", "#2", [5]float64{850}, false, 150, 405, 1.3, 0.47},
	{"Hem-Fir", "#3", [5]float64{500}, false, 150, 405, 1.2, 0.44},
	{"SPF", "SS", [5]float64{1250}, false, 135, 425, 1.5, 0.55},
	{"SPF", "#1", [5]float64{875}, false, 135, 425, 1.4, 0.51},
	{"SPF", "#2", [5]float64{875}, false, 135, 425, 1.4, 0.51},
	{"SPF", "#3", [5]float64{500}, false, 135, 425, 1.2, 0.44},
	{"Southern Pine", "SS", [5]float64{2350, 2100, 1950, 1700, 1600}, true, 175, 565, 1.8, 0.66},
	{"Southern Pine", "#1", [5]float64{1500, 1350, 1250, 1050, 1000}, true, 175, 565, 1.6, 0.58},
	{"Southern Pine", "#2", [5]float64{1100, 1000, 925, 800, 750}, true, 175, 565, 1.4, 0.51},
	{"Southern Pine", "#3", [5]float64{650, 575, 525, 475, 450}, true, 175, 565, 1.3, 0.47},
}

// usDepths are the dressed depths of 2x4 to 2x12 and their size factors C_F in
// bending. Source: NDS Supplement Tables 1A and 4A, from memory.
var usDepths = [5]struct{ mm, cf float64 }{
	{3.5 * 25.4, 1.5}, {5.5 * 25.4, 1.3}, {7.25 * 25.4, 1.2}, {9.25 * 25.4, 1.1}, {11.25 * 25.4, 1.0},
}

// lumberOf returns the design values of a grade at a dressed size. A depth
// within a millimetre of a dressed one counts as that one; others are refused,
// because the size factor is a step, not a curve.
func lumberOf(name string, s Section) (lumber, error) {
	if b := float64(s.B); b < 37 || b > 65 {
		return lumber{}, &calc.DomainError{Op: spanOp, Field: "b_mm", Got: b, Wanted: "38.1 or 63.5 mm (2x and 3x lumber) for nds"}
	}
	size := -1
	for i, d := range usDepths {
		if math.Abs(float64(s.H)-d.mm) <= 1 {
			size = i
		}
	}
	if size < 0 {
		return lumber{}, &calc.DomainError{Op: spanOp, Field: "h_mm", Got: float64(s.H), Wanted: "88.9, 139.7, 184.15, 234.95 or 285.75 mm (2x4 to 2x12) for nds"}
	}
	for _, g := range usGrades {
		if !strings.EqualFold(name, g.species+" "+g.grade) {
			continue
		}
		fb := g.fb[0] * usDepths[size].cf
		if g.sized {
			fb = g.fb[size]
		}
		return lumber{depth: usDepths[size].mm, fb: fb * psi, fv: g.fv * psi, fcPerp: g.fcPerp * psi, e: g.e * 1e6 * psi, eMin: g.eMin * 1e6 * psi}, nil
	}
	return lumber{}, &calc.DomainError{Op: spanOp, Field: "grade", Got: name, Wanted: `a species and grade such as "DF-L #2", "Hem-Fir SS", "SPF #1" or "Southern Pine #2"`}
}

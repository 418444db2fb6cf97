package fixings

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// wire is the tensile strength of nail wire.
//
// Source: EN 14592 gives 600 N/mm² as the least for nails; from memory.
const wire = 600.0 // N/mm²

// NailYieldMoment returns the bending moment at which a smooth round nail yields.
//
//	M_y,Rk = 0.3·fu·d^2.6
//
// Source: EN 1995-1-1 eq. (8.14), as printed in Structural Timber Design to
// Eurocode 5, Table 10.5; the same form serves a bolt (eq. 8.30).
// Units: in and out by type; d in mm, fu in N/mm², M in N·mm.
// Shape: linear in fu.
// Domain: 1 ≤ d ≤ 30 mm, 200 ≤ fu ≤ 2000 N/mm².
// Errors: DomainError only.
func NailYieldMoment(d unit.Length, fu unit.Stress) (unit.Moment, error) {
	const op = "fixings.nail"
	if err := calc.Outside(op, "d_mm", float64(d), 1, 30, "mm"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "fu_n_mm2", float64(fu), 200, 2000, "N/mm²"); err != nil {
		return 0, err
	}
	return unit.Moment(0.3 * float64(fu) * math.Pow(float64(d), 2.6)), nil
}

// NailIn is one smooth round nail through a side member into another, both of
// softwood, neither predrilled.
type NailIn struct {
	Diameter unit.Length
	Length   unit.Length
	Side     unit.Length  // thickness of the member under the head
	SideRho  unit.Density // characteristic
	PointRho unit.Density // characteristic
}

// NailOut is the strength of one nail.
type NailOut struct {
	Shear       unit.Force // characteristic, one shear plane, without rope effect
	Mode        string     // "a" to "f" of the standard's figure
	Withdrawal  unit.Force // characteristic
	Penetration unit.Length
}

// Nail returns the characteristic strength of one nail between two timbers.
//
//	fh = 0.082·ρk·d^-0.3   β = fh2/fh1   F_v,Rk = min of modes a to f
//	f_ax = 20e-6·ρk²   f_head = 70e-6·ρk²   dh = 2d
//	F_ax,Rk = min[f_ax·d·t_pen; f_ax·d·t + f_head·dh²], f_ax times (t_pen/4d - 2) below 12d
//
// Source: EN 1995-1-1 eq. (8.6), (8.15), (8.24) to (8.26) and 8.3.2(7), from
// memory; parts checked against Structural Timber Design to Eurocode 5, Ex
// 10.13.5, and against BS 5268-2 loads recalled.
// Units: in and out by type; internal N and mm.
// Shape: shear never falls with diameter or density.
// Domain: 1.9 ≤ d ≤ 8, 25 ≤ length ≤ 300 mm, pointside ≥ 8d, 5 ≤ side < length,
// 290 ≤ ρk ≤ 500 kg/m³.
// Ignores: load duration and material factor (the caller's); end grain and
// permanent pull, where smooth nails count for nothing (8.3.2(1), (2)); skewing.
// Errors: DomainError only.
func Nail(in NailIn) (NailOut, error) {
	const op = "fixings.nail"
	d, l, t1 := float64(in.Diameter), float64(in.Length), float64(in.Side) // mm
	for _, c := range []struct {
		field       string
		v, min, max float64
		u           string
	}{
		{"d_mm", d, 1.9, 8, "mm"},
		{"length_mm", l, 25, 300, "mm"},
		{"side_mm", t1, 5, l - 8*d, "mm, so that 8 d enters the other member"},
		{"side_kg_m3", float64(in.SideRho), 290, 500, "kg/m³"},
		{"point_kg_m3", float64(in.PointRho), 290, 500, "kg/m³"},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.u); err != nil {
			return NailOut{}, err
		}
	}
	t2 := l - t1 // mm, pointside penetration
	my, err := NailYieldMoment(in.Diameter, wire)
	if err != nil {
		return NailOut{}, err
	}
	soft := 0.082 * math.Pow(d, -0.3) // N/mm² for each kg/m³
	out := NailOut{Penetration: unit.Length(t2)}
	var f float64
	f, out.Mode = johansen(soft*float64(in.SideRho), soft*float64(in.PointRho), t1, t2, d, float64(my))
	out.Shear = unit.Force(f)
	out.Withdrawal = unit.Force(pullOut(d, t1, t2, float64(in.SideRho), float64(in.PointRho)))
	return out, nil
}

// johansen is eq. (8.6) without its rope term: timber to timber, one shear plane.
func johansen(fh1, fh2, t1, t2, d, my float64) (least float64, mode string) {
	b := fh2 / fh1
	r := t2 / t1
	modes := [...]float64{
		fh1 * t1 * d,
		fh2 * t2 * d,
		fh1 * t1 * d / (1 + b) * (math.Sqrt(b+2*b*b*(1+r+r*r)+b*b*b*r*r) - b*(1+r)),
		1.05 * fh1 * t1 * d / (2 + b) * (math.Sqrt(2*b*(1+b)+4*b*(2+b)*my/(fh1*d*t1*t1)) - b),
		1.05 * fh1 * t2 * d / (1 + 2*b) * (math.Sqrt(2*b*b*(1+b)+4*b*(1+2*b)*my/(fh1*d*t2*t2)) - b),
		1.15 * math.Sqrt(2*b/(1+b)) * math.Sqrt(2*my*fh1*d),
	}
	least, mode = modes[0], "a"
	for i, f := range modes[1:] {
		if f < least {
			least, mode = f, string(rune('b'+i))
		}
	}
	return least, mode
}

// pullOut is eq. (8.24): the point out of its member, or the head through the
// other. Under the head the shank is counted by the rule for the point, which
// the standard does not ask for and which errs low.
func pullOut(d, t1, t2, rho1, rho2 float64) float64 {
	shank := func(rho, t float64) float64 {
		if t < 8*d {
			return 0
		}
		return 20e-6 * rho * rho * math.Min(t/(4*d)-2, 1) * d * t
	}
	head := 70e-6 * rho1 * rho1 * 4 * d * d
	return math.Min(shank(rho2, t2), shank(rho1, t1)+head)
}

// StrapNail returns the characteristic shear strength of one nail through a
// thin steel strap into timber.
//
//	F_v,Rk = min[0.4·fh·t1·d; 1.15·√(2·My·fh·d)]
//
// Source: EN 1995-1-1 eq. (8.9) for a plate up to half a diameter thick, from
// memory. A thicker strap gives more; that is left unused.
// Units: in and out by type; internal N and mm.
// Shape: never falls with diameter, penetration or density.
// Domain: 1.9 ≤ d ≤ 8 mm, pointside 8d to 300 mm, 290 ≤ ρk ≤ 500 kg/m³.
// Ignores: rope effect, load duration, material factor; the steel of the strap.
// Errors: DomainError only.
func StrapNail(d, pointside unit.Length, rho unit.Density) (unit.Force, error) {
	const op = "fixings.nail"
	if err := calc.Outside(op, "d_mm", float64(d), 1.9, 8, "mm"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "penetration_mm", float64(pointside), 8*float64(d), 300, "mm"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "point_kg_m3", float64(rho), 290, 500, "kg/m³"); err != nil {
		return 0, err
	}
	my, err := NailYieldMoment(d, wire)
	if err != nil {
		return 0, err
	}
	v := float64(d)
	fh := 0.082 * float64(rho) * math.Pow(v, -0.3) // N/mm²
	return unit.Force(math.Min(0.4*fh*float64(pointside)*v, 1.15*math.Sqrt(2*float64(my)*fh*v))), nil
}

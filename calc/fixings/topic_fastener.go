package fixings

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// FastenerIn is the topic fastener: the strength of one nail, lag screw or bolt
// in timber. Method and kind say which values are wanted.
type FastenerIn struct {
	Method  string   `json:"method" doc:"ec5: characteristic values; nds: reference values" enum:"ec5,nds"`
	Kind    string   `json:"kind" doc:"nail (both methods), lag (nds), bolt (ec5)" enum:"nail,lag,bolt"`
	DMM     *float64 `json:"d_mm,omitempty" doc:"diameter" min:"1.9" max:"32"`
	LenMM   *float64 `json:"length_mm,omitempty" doc:"length" min:"25" max:"300"`
	SideMM  *float64 `json:"side_mm,omitempty" doc:"thickness of the member under the head" min:"0" max:"300"`
	TipMM   *float64 `json:"tip_mm,omitempty" doc:"lag: tapered tip that does not count" min:"0" max:"50"`
	Gravity *float64 `json:"specific_gravity,omitempty" doc:"nds: of the timber" min:"0.3" max:"0.75"`
	SideKG  *float64 `json:"side_kg_m3,omitempty" doc:"ec5: characteristic density under the head" min:"290" max:"500"`
	PointKG *float64 `json:"point_kg_m3,omitempty" doc:"ec5: characteristic density at the point" min:"290" max:"500"`

	WasherMM *float64 `json:"washer_mm,omitempty" doc:"bolt: width of the washer, or 12 t or 4 d of a plate" min:"6" max:"150"`
	HoleDMM  *float64 `json:"hole_d_mm,omitempty" doc:"bolt: hole in the timber" min:"5" max:"149"`
	FC90     *float64 `json:"fc90_n_mm2,omitempty" doc:"bolt: bearing strength of the timber across the grain" min:"1" max:"10"`
	AreaMM2  *float64 `json:"stress_area_mm2,omitempty" doc:"bolt: tensile stress area" min:"10" max:"1000"`
	FU       *float64 `json:"fu_n_mm2,omitempty" doc:"bolt: tensile strength" min:"200" max:"1300"`
}

// FastenerOut is the answer of the topic fastener.
type FastenerOut struct {
	PenetrationMM *float64 `json:"penetration_mm,omitempty" doc:"in the member at the point"`
	WithdrawalKN  *float64 `json:"withdrawal_kn,omitempty" doc:"out of side grain"`
	ShearKN       *float64 `json:"shear_kn,omitempty" doc:"one shear plane"`
	Mode          string   `json:"mode,omitempty" doc:"yield mode of the shear"`
	WasherKN      *float64 `json:"washer_kn,omitempty" doc:"washer pressed into the timber"`
	TensionKN     *float64 `json:"tension_kn,omitempty" doc:"the bolt itself"`
	AxialKN       *float64 `json:"axial_kn,omitempty" doc:"the lesser of the two"`
}

// ReckonFastener answers the topic fastener.
//
// Source, domain: those of the functions behind it. Every factor for load
// duration, moisture and material is the caller's.
// Errors: DomainError with the JSON key.
func ReckonFastener(in FastenerIn) (FastenerOut, error) {
	switch in.Method + " " + in.Kind {
	case "ec5 nail":
		return in.ec5Nail()
	case "ec5 bolt":
		return in.ec5Bolt()
	case "nds nail", "nds lag":
		return in.nds()
	}
	return FastenerOut{}, &calc.DomainError{Op: topic, Field: "kind", Got: in.Method + " " + in.Kind, Wanted: "ec5 nail, ec5 bolt, nds nail or nds lag"}
}

func (in FastenerIn) ec5Nail() (FastenerOut, error) {
	d, err := need("d_mm", in.DMM)
	if err != nil {
		return FastenerOut{}, err
	}
	l, err := need("length_mm", in.LenMM)
	if err != nil {
		return FastenerOut{}, err
	}
	side, err := need("side_mm", in.SideMM)
	if err != nil {
		return FastenerOut{}, err
	}
	point, err := need("point_kg_m3", in.PointKG)
	if err != nil {
		return FastenerOut{}, err
	}
	n, err := Nail(NailIn{Diameter: unit.Length(d), Length: unit.Length(l), Side: unit.Length(side),
		SideRho: unit.Density(or(in.SideKG, point)), PointRho: unit.Density(point)})
	if err != nil {
		return FastenerOut{}, err
	}
	return FastenerOut{PenetrationMM: mm(n.Penetration), ShearKN: kn(n.Shear), Mode: n.Mode, WithdrawalKN: kn(n.Withdrawal)}, nil
}

func (in FastenerIn) ec5Bolt() (FastenerOut, error) {
	var out FastenerOut
	if in.AreaMM2 != nil || in.FU != nil {
		area, err := need("stress_area_mm2", in.AreaMM2)
		if err != nil {
			return FastenerOut{}, err
		}
		fu, err := need("fu_n_mm2", in.FU)
		if err != nil {
			return FastenerOut{}, err
		}
		t, err := BoltTension(unit.Area(area), unit.Stress(fu))
		if err != nil {
			return FastenerOut{}, err
		}
		out.TensionKN, out.AxialKN = kn(t), kn(t)
	}
	washer, err := need("washer_mm", in.WasherMM)
	if err != nil {
		return FastenerOut{}, err
	}
	hole, err := need("hole_d_mm", in.HoleDMM)
	if err != nil {
		return FastenerOut{}, err
	}
	fc90, err := need("fc90_n_mm2", in.FC90)
	if err != nil {
		return FastenerOut{}, err
	}
	w, err := WasherBearing(unit.Length(washer), unit.Length(hole), unit.Stress(fc90))
	if err != nil {
		return FastenerOut{}, err
	}
	out.WasherKN = kn(w)
	if out.AxialKN == nil || *out.WasherKN < *out.AxialKN {
		out.AxialKN = out.WasherKN
	}
	return out, nil
}

func (in FastenerIn) nds() (FastenerOut, error) {
	d, err := need("d_mm", in.DMM)
	if err != nil {
		return FastenerOut{}, err
	}
	l, err := need("length_mm", in.LenMM)
	if err != nil {
		return FastenerOut{}, err
	}
	side, err := need("side_mm", in.SideMM)
	if err != nil {
		return FastenerOut{}, err
	}
	g, err := need("specific_gravity", in.Gravity)
	if err != nil {
		return FastenerOut{}, err
	}
	p := unit.Length(l - side - or(in.TipMM, 0))
	out := FastenerOut{PenetrationMM: mm(p)}
	pull := NDSNailWithdrawal
	if in.Kind == "lag" {
		pull = NDSLagWithdrawal
	}
	w, err := pull(unit.Length(d), p, g)
	if err != nil {
		return FastenerOut{}, inField(err, "length_mm", "penetration_mm")
	}
	out.WithdrawalKN = kn(w)
	if in.Kind == "lag" || side < 5 {
		return out, nil // a thin metal side plate is another formula
	}
	z, mode, err := NDSNailShear(unit.Length(d), unit.Length(side), p, g)
	if err != nil {
		return FastenerOut{}, inField(err, "length_mm", "penetration_mm")
	}
	out.ShearKN, out.Mode = kn(z), mode
	return out, nil
}

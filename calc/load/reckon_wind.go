package load

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// WindIn is the question of the wind topic.
type WindIn struct {
	QpKNM2   float64  `json:"qp_kn_m2" doc:"peak velocity pressure at roof height" min:"0.1" max:"5"`
	LengthM  float64  `json:"length_m" doc:"roof along the eaves; joist ends lie on this side" min:"0.5" max:"100"`
	DepthM   float64  `json:"depth_m" doc:"roof along the joists" min:"0.5" max:"100"`
	HeightM  float64  `json:"height_m" doc:"roof above ground" min:"1" max:"50"`
	ParapetM *float64 `json:"parapet_m,omitempty" doc:"parapet above the roof; 0 when left out" min:"0" max:"5"`
	Opening  *string  `json:"opening,omitempty" doc:"door: a large door may stand open in a storm; shut when left out" enum:"shut,door"`
	DeadKNM2 *float64 `json:"dead_kn_m2,omitempty" doc:"weight sure to be there, joists included; needed for net uplift" min:"0" max:"20"`
	Spacing  *float64 `json:"strap_spacing_m,omitempty" doc:"strap spacing along each joist end line; 2 when left out" min:"0.2" max:"2"`
	Set      *string  `json:"set,omitempty" doc:"national values; UK when left out" enum:"UK,CEN,NL,DE"`
}

// WindOut is the answer of the wind topic. Zones belong to the wind direction
// that lifts more; their uplift is characteristic and includes the pressure
// from inside.
type WindOut struct {
	Zones         []WindZone `json:"zones"`
	TotalUpliftKN float64    `json:"total_uplift_kn" doc:"characteristic uplift of the whole roof, weight not taken off"`
	Straps        WindStraps `json:"straps"`
	Wind          string     `json:"wind" doc:"direction of the zones: square on to the length or to the depth" enum:"on length,on depth"`
	Cpi           float64    `json:"cpi" doc:"internal pressure coefficient used"`
	NetUpliftKN   *float64   `json:"net_design_uplift_kn,omitempty" doc:"1.5 wind less the favourable weight, whole roof; negative: weight to spare"`
	Set           string     `json:"set"`
	Formula       string     `json:"formula"`
}

// WindZone is one zone of the roof.
type WindZone struct {
	Name       string  `json:"name" enum:"F,G,H,I"`
	Cpe10      float64 `json:"cpe10"`
	Cpe1       float64 `json:"cpe1"`
	AreaM2     float64 `json:"area_m2"`
	UpliftKNM2 float64 `json:"uplift_kn_m2" doc:"with the pressure inside, at cpe of the whole roof: cpe10 from 10 m² on"`
}

// WindStraps is the hold-down along each line of joist ends.
type WindStraps struct {
	SpacingM float64  `json:"spacing_m"`
	PerLine  int      `json:"per_line"`
	AreaM2   float64  `json:"area_m2" doc:"roof each strap holds"`
	CornerKN *float64 `json:"corner_kn,omitempty" doc:"net design uplift on a strap in a corner; only with dead_kn_m2"`
	MiddleKN *float64 `json:"middle_kn,omitempty" doc:"the same away from the corners"`
}

// strapSpacing is the widest spacing of holding-down straps, NHBC Standards
// 7.1.5 (2024).
const strapSpacing = 2 * unit.Metre

// ReckonWind answers the wind topic.
//
//	uplift = q_p (c_pi - c_pe)
//
// Source: EN 1991-1-4 5.2 and 7.2.3; for the roof as a whole c_pe of its whole
// area, which is c_pe,10 from 10 m² on. A strap holds spacing × half the joist length; its coefficient is that of the
// whole of its area as if it lay in F (corner) or G (middle), which is on the
// large side, at c_pe of that area.
// Errors: DomainError only, Field the JSON key.
func ReckonWind(in WindIn) (WindOut, error) {
	if err := calc.Outside(windOp, "qp_kn_m2", in.QpKNM2, 0.1, 5, "kN/m²"); err != nil {
		return WindOut{}, err
	}
	var name string
	if in.Set != nil {
		name = *in.Set
	}
	set, err := SetOf(name)
	if err != nil {
		return WindOut{}, err
	}
	var opening Opening
	if in.Opening != nil {
		opening = Opening(*in.Opening)
	}
	cpi, err := Internal(opening)
	if err != nil {
		return WindOut{}, err
	}
	length, depth := unit.Length(in.LengthM)*unit.Metre, unit.Length(in.DepthM)*unit.Metre
	roof := Roof{Across: length, Along: depth, Height: unit.Length(in.HeightM) * unit.Metre, Parapet: metres(in.ParapetM)}
	onLength, err := FlatRoofZones(roof)
	if err != nil {
		return WindOut{}, err
	}
	roof.Across, roof.Along = depth, length
	onDepth, err := FlatRoofZones(roof)
	if err != nil {
		return WindOut{}, err
	}
	out := WindOut{Wind: "on length", Cpi: cpi, Set: set.Name, Formula: WindID}
	zones := onLength
	out.TotalUpliftKN = in.total(onLength, cpi)
	if t := in.total(onDepth, cpi); t > out.TotalUpliftKN {
		out.Wind, zones, out.TotalUpliftKN = "on depth", onDepth, t
	}
	whole := unit.Area(in.LengthM*in.DepthM) * unit.SquareMetre
	for _, z := range zones {
		out.Zones = append(out.Zones, WindZone{z.Name, z.Cpe10, z.Cpe1, z.Area.In(unit.SquareMetre), in.QpKNM2 * (cpi - z.At(whole))})
	}
	if in.DeadKNM2 != nil {
		u := Uplift{Set: set, Dead: unit.AreaLoad(*in.DeadKNM2) * unit.KilonewtonPerM2}
		area := in.LengthM * in.DepthM
		u.Wind = unit.AreaLoad(out.TotalUpliftKN/area) * unit.KilonewtonPerM2
		net, err := u.Net()
		if err != nil {
			return WindOut{}, err
		}
		kn := net.In(unit.KilonewtonPerM2) * area
		out.NetUpliftKN = &kn
	}
	out.Straps, err = in.straps(set, zones, cpi)
	return out, err
}

// total returns the characteristic uplift of the roof in kN.
func (in WindIn) total(zones []Zone, cpi float64) float64 {
	whole := unit.Area(in.LengthM*in.DepthM) * unit.SquareMetre
	sum := 0.0
	for _, z := range zones {
		sum += in.QpKNM2 * (cpi - z.At(whole)) * z.Area.In(unit.SquareMetre)
	}
	return sum
}

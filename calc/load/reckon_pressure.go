package load

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// PressureIn is the question of the pressure topic.
type PressureIn struct {
	VbMS       float64  `json:"vb_m_s" doc:"basic wind velocity, ten-minute mean; UK: as read from the map" min:"10" max:"60"`
	Terrain    string   `json:"terrain" doc:"CEN: 0, I, II, III, IV; NL: coastal, rural, urban; UK: sea, country, town"`
	HeightM    float64  `json:"height_m" doc:"roof above ground" min:"0.5" max:"50"`
	Annex      *string  `json:"annex,omitempty" doc:"CEN when left out" enum:"CEN,NL,UK"`
	AltitudeM  *float64 `json:"altitude_m,omitempty" doc:"UK: site above sea level" min:"0" max:"1500"`
	Orographic *float64 `json:"orographic,omitempty" doc:"hill factor; 1 when left out" min:"1" max:"2"`
}

// PressureOut is the answer of the pressure topic.
type PressureOut struct {
	QpKNM2  float64 `json:"qp_kn_m2" doc:"peak velocity pressure"`
	QbKNM2  float64 `json:"qb_kn_m2" doc:"basic velocity pressure"`
	Ce      float64 `json:"ce" doc:"qp over qb"`
	VbMS    float64 `json:"vb_m_s" doc:"basic velocity with every factor"`
	VmMS    float64 `json:"vm_m_s" doc:"mean velocity at the height"`
	Kr      float64 `json:"kr"`
	Cr      float64 `json:"cr"`
	Iv      float64 `json:"iv" doc:"turbulence intensity"`
	Follows string  `json:"follows" doc:"whose rules this is"`
	Formula string  `json:"formula"`
}

// ReckonPressure answers the pressure topic.
//
// Source, formulas and shape: PeakPressure. Errors: DomainError only, Field the
// JSON key.
func ReckonPressure(in PressureIn) (PressureOut, error) {
	s := Site{Terrain: in.Terrain, BasicSpeed: unit.Speed(in.VbMS), Height: unit.Length(in.HeightM) * unit.Metre, Altitude: metres(in.AltitudeM)}
	if in.Annex != nil {
		s.Annex = *in.Annex
	}
	if in.Orographic != nil {
		if err := calc.Outside(windOp, "orographic", *in.Orographic, 1, 2, ""); err != nil {
			return PressureOut{}, err
		}
		s.Orographic = *in.Orographic
	}
	p, err := PeakPressure(s)
	if err != nil {
		return PressureOut{}, err
	}
	kn := unit.KilonewtonPerM2
	return PressureOut{QpKNM2: p.Qp.In(kn), QbKNM2: p.Qb.In(kn), Ce: p.Ce, VbMS: float64(p.Vb), VmMS: float64(p.Vm),
		Kr: p.Kr, Cr: p.Cr, Iv: p.Iv, Follows: p.Annex, Formula: WindID}, nil
}

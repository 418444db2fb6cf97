package load

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// SnowIn is the question of the snow topic.
type SnowIn struct {
	SkKNM2        *float64 `json:"sk_kn_m2,omitempty" doc:"characteristic snow on the ground; or give zone and altitude (UK)" min:"0.01" max:"20"`
	Zone          *float64 `json:"zone,omitempty" doc:"UK snow zone" min:"1" max:"6.5"`
	AltitudeM     *float64 `json:"altitude_m,omitempty" doc:"site above sea level" min:"0" max:"1500"`
	StepHeightM   *float64 `json:"step_height_m,omitempty" doc:"taller wall or roof above this roof; 0 or left out: none" min:"0" max:"100"`
	LowerWidthM   *float64 `json:"lower_width_m,omitempty" doc:"width of this roof away from the wall" min:"0.1" max:"200"`
	UpperWidthM   *float64 `json:"upper_width_m,omitempty" doc:"width of the taller building, same direction" min:"0.1" max:"200"`
	UpperPitchDeg *float64 `json:"upper_pitch_deg,omitempty" doc:"pitch of the upper slope that sheds on to this roof; 0 when left out" min:"0" max:"90"`
	UpperSlopeM   *float64 `json:"upper_slope_m,omitempty" doc:"plan width of that slope; the whole upper width when left out" min:"0" max:"200"`
	ParapetM      *float64 `json:"parapet_m,omitempty" doc:"parapet or projection height above this roof" min:"0" max:"100"`
	ParapetAwayM  *float64 `json:"parapet_away_m,omitempty" doc:"roof width at right angles to it" min:"0.1" max:"200"`
	ParapetOtherM *float64 `json:"parapet_other_m,omitempty" doc:"the roof's other width" min:"0" max:"200"`
	Exposure      *string  `json:"exposure,omitempty" doc:"normal when left out" enum:"normal,windswept,sheltered"`
	Set           *string  `json:"set,omitempty" doc:"national values; UK when left out" enum:"UK,CEN,NL,DE"`
}

// SnowOut is the answer of the snow topic. The drift falls in a straight line
// from drift_kn_m2 at the wall to undrifted_kn_m2 at drift_length_m; exceptional
// drifts fall to nothing and are accidental.
type SnowOut struct {
	SkKNM2        float64    `json:"sk_kn_m2" doc:"snow on the ground"`
	Mu1           float64    `json:"mu1" doc:"shape coefficient, undrifted"`
	Mu2           float64    `json:"mu2" doc:"shape coefficient at the wall; mu1 without a wall"`
	DriftLengthM  float64    `json:"drift_length_m" doc:"0 without a wall"`
	UndriftedKNM2 float64    `json:"undrifted_kn_m2" doc:"snow on the roof, even"`
	DriftKNM2     float64    `json:"drift_kn_m2" doc:"snow at the wall"`
	EdgeKNM2      float64    `json:"edge_kn_m2" doc:"snow at the far edge in the drifted case"`
	DriftInSet    bool       `json:"drift_in_set" doc:"the set asks for this persistent drift; the UK asks for the exceptional ones in banks instead"`
	Others        []SnowBank `json:"banks,omitempty" doc:"exceptional drift at the wall and drifts at a parapet"`
	Set           string     `json:"set" doc:"national values used"`
	Formula       string     `json:"formula"`
}

// SnowBank is one more drift on the same roof.
type SnowBank struct {
	At         string  `json:"at" enum:"wall,parapet"`
	Clause     string  `json:"clause"`
	Accidental bool    `json:"accidental" doc:"no partial factor"`
	Mu         float64 `json:"mu"`
	LengthM    float64 `json:"length_m"`
	PeakKNM2   float64 `json:"peak_kn_m2"`
	EdgeKNM2   float64 `json:"edge_kn_m2"`
}

// ReckonSnow answers the snow topic.
//
//	s = μ C_e C_t s_k,  C_t = 1
//
// Source: EN 1991-1-3 (5.1), as in the TU Delft open textbook, Rain and snow;
// the banks at StepBank and its neighbours; which of them the UK asks for: SCI
// advisory note AD 484. C_e does not touch exceptional
// drifts, where the wind has already done its work (Annex B has no C_e).
// Errors: DomainError only, Field the JSON key.
func ReckonSnow(in SnowIn) (SnowOut, error) {
	name := ""
	if in.Set != nil {
		name = *in.Set
	}
	set, err := SetOf(name)
	if err != nil {
		return SnowOut{}, err
	}
	sk, err := in.ground()
	if err != nil {
		return SnowOut{}, err
	}
	ce := 1.0
	if in.Exposure != nil {
		if ce, err = Exposure(*in.Exposure).Coefficient(); err != nil {
			return SnowOut{}, err
		}
	}
	const mu1 = 0.8 // this roof is flat
	kn := sk.In(unit.KilonewtonPerM2)
	out := SnowOut{SkKNM2: kn, Mu1: mu1, Mu2: mu1, UndriftedKNM2: mu1 * ce * kn, DriftKNM2: mu1 * ce * kn,
		EdgeKNM2: mu1 * ce * kn, Set: set.Name, Formula: SnowID}
	if in.StepHeightM != nil && *in.StepHeightM != 0 {
		if err := in.step(set, sk, ce, &out); err != nil {
			return SnowOut{}, err
		}
	}
	if in.ParapetM != nil && *in.ParapetM != 0 {
		if err := in.parapet(set, sk, ce, &out); err != nil {
			return SnowOut{}, err
		}
	}
	return out, nil
}

func (in SnowIn) ground() (unit.AreaLoad, error) {
	if in.SkKNM2 != nil {
		if err := calc.Outside(snowOp, "sk_kn_m2", *in.SkKNM2, 0.01, 20, "kN/m²"); err != nil {
			return 0, err
		}
		return unit.AreaLoad(*in.SkKNM2) * unit.KilonewtonPerM2, nil
	}
	if in.Zone == nil {
		return 0, missing(snowOp, "sk_kn_m2", "the snow load on the ground, or zone and altitude_m")
	}
	if in.AltitudeM == nil {
		return 0, missing(snowOp, "altitude_m", "the site's altitude beside zone, in m")
	}
	return GroundSnowUK(*in.Zone, unit.Length(*in.AltitudeM)*unit.Metre)
}

func (in SnowIn) step(set Set, sk unit.AreaLoad, ce float64, out *SnowOut) error {
	s := Step{Set: set, Ground: sk, Height: metres(in.StepHeightM), Lower: metres(in.LowerWidthM), Upper: metres(in.UpperWidthM), UpperSlope: metres(in.UpperSlopeM)}
	if in.UpperPitchDeg != nil {
		s.UpperPitch = unit.Angle(*in.UpperPitchDeg) * unit.Degree
	}
	b, err := StepBank(s)
	if err != nil {
		return err
	}
	kn := sk.In(unit.KilonewtonPerM2)
	out.DriftInSet = !set.ExceptionalSnow
	out.Mu2, out.DriftLengthM = b.Mu, b.Length.In(unit.Metre)
	out.DriftKNM2, out.EdgeKNM2 = b.Mu*ce*kn, b.EdgeMu*ce*kn
	if !set.ExceptionalSnow {
		return nil
	}
	e, err := ExceptionalStepBank(s)
	if err != nil {
		return err
	}
	out.Others = append(out.Others, e.row("wall", kn))
	return nil
}

func (in SnowIn) parapet(set Set, sk unit.AreaLoad, ce float64, out *SnowOut) error {
	u := Upstanding{Ground: sk, Height: metres(in.ParapetM), Away: metres(in.ParapetAwayM), Other: metres(in.ParapetOtherM)}
	if in.ParapetAwayM == nil {
		return missing(snowOp, "parapet_away_m", "the roof width at right angles to the parapet, in m")
	}
	b, err := ProjectionBank(u)
	if err != nil {
		return renamed(err)
	}
	kn := sk.In(unit.KilonewtonPerM2)
	out.Others = append(out.Others, b.row("parapet", ce*kn))
	if !set.ExceptionalSnow {
		return nil
	}
	e, err := ExceptionalParapetBank(u)
	if err != nil {
		return renamed(err)
	}
	out.Others = append(out.Others, e.row("parapet", kn))
	return nil
}

// row prints a bank on ground snow kn, kN/m².
func (b Bank) row(at string, kn float64) SnowBank {
	return SnowBank{At: at, Clause: b.Clause, Accidental: b.Accidental, Mu: b.Mu, LengthM: b.Length.In(unit.Metre),
		PeakKNM2: b.Mu * kn, EdgeKNM2: b.EdgeMu * kn}
}

// renamed gives a DomainError of Upstanding the key of the topic.
func renamed(err error) error {
	d, ok := err.(*calc.DomainError)
	if !ok {
		return err
	}
	key, ok := map[string]string{"height_m": "parapet_m", "away_m": "parapet_away_m", "other_m": "parapet_other_m"}[d.Field]
	if ok {
		d.Field = key
	}
	return d
}

func missing(op, field, wanted string) error {
	return &calc.DomainError{Op: op, Field: field, Got: nil, Wanted: wanted}
}

func metres(v *float64) unit.Length {
	if v == nil {
		return 0
	}
	return unit.Length(*v) * unit.Metre
}

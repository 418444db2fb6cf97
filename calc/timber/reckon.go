package timber

import (
	"cmp"

	"chargehand/calc/unit"
)

// SpanIn is the question of the span topic.
type SpanIn struct {
	Method          string   `json:"method" doc:"rules to judge by" enum:"ec5,bs5268,nds"`
	BMM             float64  `json:"b_mm" doc:"joist width" min:"20" max:"150"`
	HMM             float64  `json:"h_mm" doc:"joist depth" min:"60" max:"400"`
	Grade           string   `json:"grade" doc:"strength class (C14 to C30) or, for nds, species and grade such as DF-L #2"`
	CentresMM       float64  `json:"centres_mm" doc:"joist spacing, centre to centre" min:"100" max:"1200"`
	DeadKNM2        float64  `json:"dead_kn_m2" doc:"build-up without the joists, whose weight is added (nds: with them)" min:"0" max:"5"`
	ImposedKNM2     *float64 `json:"imposed_kn_m2,omitempty" doc:"imposed roof load; ec5 0.6, bs5268 0.75 when left out; nds must be told" min:"0" max:"10"`
	PointKN         *float64 `json:"point_kn,omitempty" doc:"man load instead of the imposed load; 0.9 when left out (nds: none)" min:"0" max:"10"`
	SnowKNM2        *float64 `json:"snow_kn_m2,omitempty" doc:"snow on the roof, even" min:"0" max:"20"`
	ClearMM         *float64 `json:"clear_span_mm,omitempty" doc:"clear span to judge; left out: the longest is judged" min:"120" max:"20000"`
	BearingMM       *float64 `json:"bearing_mm,omitempty" doc:"bearing at each end; 50 when left out" min:"20" max:"300"`
	Ceiling         *bool    `json:"ceiling,omitempty" doc:"plastered or boarded ceiling below; left out counts as yes"`
	DeflectionLimit *float64 `json:"deflection_limit,omitempty" doc:"360 means L/360 for the imposed load alone" min:"100" max:"1000"`
	DurationFactor  *float64 `json:"duration_factor,omitempty" doc:"nds load duration factor; 1 when left out" min:"0.9" max:"2"`

	DriftKNM2       *float64 `json:"drift_kn_m2,omitempty" doc:"snow drift at the wall where the joist begins" min:"0" max:"20"`
	DriftFarKNM2    *float64 `json:"drift_far_kn_m2,omitempty" doc:"snow where the drift ends and beyond; 0 when left out" min:"0" max:"20"`
	DriftLengthMM   *float64 `json:"drift_length_mm,omitempty" doc:"length of the drift along the joist" min:"1" max:"30000"`
	DriftAccidental *bool    `json:"drift_accidental,omitempty" doc:"exceptional drift: accidental, without partial factor"`
	WindUpKNM2      *float64 `json:"wind_up_kn_m2,omitempty" doc:"ec5: characteristic wind uplift on the joist, to check bending the other way" min:"0" max:"10"`
	ExtraKN         *float64 `json:"extra_kn,omitempty" doc:"lasting load hung from or set on this joist" min:"0" max:"20"`
	ExtraFromMM     *float64 `json:"extra_from_mm,omitempty" doc:"where it begins, from the centre of the first bearing" min:"0" max:"20000"`
	ExtraToMM       *float64 `json:"extra_to_mm,omitempty" doc:"where it ends; left out: a point" min:"0" max:"20000"`
	TailMM          *float64 `json:"tail_mm,omitempty" doc:"overhang beyond the second bearing" min:"0" max:"1500"`
	UnbracedMM      *float64 `json:"unbraced_mm,omitempty" doc:"spacing of side restraint of the top edge; left out: held by the deck" min:"0" max:"20000"`
	ServiceClass    *int     `json:"service_class,omitempty" doc:"ec5 service class; 2 when left out" min:"1" max:"3"`
	Psi2            *float64 `json:"psi2,omitempty" doc:"ec5: lasting share of imposed and man load; 0 when left out" min:"0" max:"1"`
	LoadDuration    *string  `json:"load_duration,omitempty" doc:"ec5 duration of imposed and man load; short when left out" enum:"permanent,long,medium,short,instantaneous"`
	Edition         *string  `json:"edition,omitempty" doc:"edition of EN 338; 2016 when left out" enum:"2003,2009,2016"`
	Alone           *bool    `json:"alone,omitempty" doc:"no load sharing with neighbours"`
	Wet             *bool    `json:"wet,omitempty" doc:"nds wet service"`
	Incised         *bool    `json:"incised,omitempty" doc:"nds incised for treatment"`
}

// SpanOut is the answer of the span topic.
type SpanOut struct {
	MaxClearSpanMM float64            `json:"max_clear_span_mm" doc:"longest clear span, 0 if none passes"`
	GovernedBy     string             `json:"governed_by" doc:"condition with the largest utilisation at the judged span"`
	Utilisation    map[string]float64 `json:"utilisation" doc:"demand over limit by condition, at the judged span"`
	Status         string             `json:"status" doc:"within, close (over 95 %) or over" enum:"within,close,over"`

	JudgedSpanMM float64   `json:"judged_span_mm" doc:"clear span the utilisations belong to"`
	DesignSpanMM float64   `json:"design_span_mm" doc:"span as the method measures it"`
	OwnWeightKNM float64   `json:"own_weight_kn_m" doc:"weight of the joist itself as added"`
	HoldKN       float64   `json:"hold_kn" doc:"ec5: largest design pull upwards at a bearing; 0 if none lifts"`
	LastingSagMM float64   `json:"lasting_sag_mm" doc:"ec5: sag of the permanent load with creep"`
	LastingFall  float64   `json:"lasting_fall" doc:"ec5: what that sag takes from the fall at the low end, as drop over run"`
	Conditions   []SpanRow `json:"conditions" doc:"number and limit behind each utilisation"`
	Used         SpanBasis `json:"used" doc:"what was reckoned with, defaults included"`
}

// SpanRow is one condition with its number and limit.
type SpanRow struct {
	Name   string  `json:"name"`
	Case   string  `json:"case" doc:"load case that makes it worst"`
	Demand float64 `json:"demand"`
	Limit  float64 `json:"limit"`
	Unit   string  `json:"unit"`
}

// SpanBasis names the method, edition and loads used, whether given or not.
type SpanBasis struct {
	Formula      string  `json:"formula" doc:"family and version of the formulas"`
	Method       string  `json:"method"`
	Grade        string  `json:"grade"`
	Edition      string  `json:"edition,omitempty" doc:"edition of EN 338"`
	ImposedKNM2  float64 `json:"imposed_kn_m2"`
	PointKN      float64 `json:"point_kn"`
	BearingMM    float64 `json:"bearing_mm"`
	ServiceClass int     `json:"service_class,omitempty"`
	LoadDuration string  `json:"load_duration,omitempty"`
	FinalLimit   float64 `json:"final_limit,omitempty" doc:"n of L/n for the final deflection"`
}

// ReckonSpan answers the span topic: the utilisations at the clear span given,
// or, without one, at the longest.
//
// Source, formulas and shape: Check and MaxClearSpan.
// Errors: DomainError only, Field the JSON key.
func ReckonSpan(in SpanIn) (SpanOut, error) {
	j, err := in.joist()
	if err != nil {
		return SpanOut{}, err
	}
	r, err := j.bind()
	if err != nil {
		return SpanOut{}, err
	}
	longest, governedBy, err := search(j, r)
	if err != nil {
		return SpanOut{}, err
	}
	clear := longest
	switch {
	case in.ClearMM != nil:
		clear = *in.ClearMM
		if err := j.reaches(clear); err != nil {
			return SpanOut{}, err
		}
	case longest == 0:
		clear = j.shortest()
	}
	res := judge(r, clear)
	out := SpanOut{
		MaxClearSpanMM: longest,
		GovernedBy:     res.GovernedBy,
		Utilisation:    map[string]float64{},
		Status:         string(res.Status),
		JudgedSpanMM:   clear,
		DesignSpanMM:   float64(res.Span),
		OwnWeightKNM:   float64(res.OwnWeight),
		HoldKN:         res.Hold.In(unit.Kilonewton),
		LastingSagMM:   float64(res.LastingSag),
		LastingFall:    float64(res.LastingFall),
		Used:           j.basis(),
	}
	if in.ClearMM == nil {
		out.GovernedBy = governedBy
	}
	for _, c := range res.Conditions {
		out.Utilisation[c.Name] = c.Utilisation()
		out.Conditions = append(out.Conditions, SpanRow(c))
	}
	return out, nil
}

// basis lists what a joist that has been judged was judged with.
func (j Joist) basis() SpanBasis {
	j, _ = j.normal() // bind has accepted it
	b := SpanBasis{
		Formula:     ID,
		Method:      string(j.Method),
		Grade:       j.Grade,
		ImposedKNM2: j.Imposed.In(unit.KilonewtonPerM2),
		PointKN:     j.Point.In(unit.Kilonewton),
		BearingMM:   float64(j.Bearing),
	}
	if j.Method == EC5 {
		b.Edition = string(cmp.Or(j.Edition, EN338of2016))
		b.ServiceClass = j.ServiceClass
		b.LoadDuration = string(j.Duration)
		b.FinalLimit = ec5{Joist: j}.finalLimit()
	}
	return b
}

package timber

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// SpanIn is the question of the span topic.
type SpanIn struct {
	Method     string   `json:"method" doc:"rules to judge by" enum:"ec5,bs5268,nds"`
	BMM        float64  `json:"b_mm" doc:"joist width" min:"20" max:"150"`
	HMM        float64  `json:"h_mm" doc:"joist depth" min:"60" max:"400"`
	Grade      string   `json:"grade" doc:"strength class (C14 to C30) or, for nds, species and grade such as DF-L #2"`
	CentresMM  float64  `json:"centres_mm" doc:"joist spacing, centre to centre" min:"100" max:"1200"`
	DeadKNM2   float64  `json:"dead_kn_m2" doc:"build-up without the joists, whose weight is added (nds: with them)" min:"0" max:"5"`
	ImposedKN  *float64 `json:"imposed_kn_m2,omitempty" doc:"imposed roof load; ec5 0.6, bs5268 0.75 when left out; nds must be told" min:"0" max:"10"`
	PointKN    *float64 `json:"point_kn,omitempty" doc:"man load instead of the imposed load; 0.9 when left out (nds: none)" min:"0" max:"10"`
	SnowKNM2   *float64 `json:"snow_kn_m2,omitempty" doc:"snow on the roof, even" min:"0" max:"20"`
	ClearMM    *float64 `json:"clear_span_mm,omitempty" doc:"clear span to judge; left out: the longest is judged" min:"120" max:"20000"`
	BearingMM  *float64 `json:"bearing_mm,omitempty" doc:"bearing at each end; 50 when left out" min:"20" max:"300"`
	Ceiling    *bool    `json:"ceiling,omitempty" doc:"plastered or boarded ceiling below; left out counts as yes"`
	Deflection *float64 `json:"deflection_limit,omitempty" doc:"360 means L/360 for the imposed load alone" min:"100" max:"1000"`
	Factor     *float64 `json:"duration_factor,omitempty" doc:"nds load duration factor; 1 when left out" min:"0.9" max:"2"`

	DriftKNM2       *float64 `json:"drift_kn_m2,omitempty" doc:"snow drift at the wall where the joist begins" min:"0" max:"20"`
	DriftFarKNM2    *float64 `json:"drift_far_kn_m2,omitempty" doc:"snow where the drift ends and beyond; 0 when left out" min:"0" max:"20"`
	DriftLengthMM   *float64 `json:"drift_length_mm,omitempty" doc:"length of the drift along the joist" min:"1" max:"30000"`
	DriftAccidental *bool    `json:"drift_accidental,omitempty" doc:"exceptional drift: accidental, without partial factor"`
	TailMM          *float64 `json:"tail_mm,omitempty" doc:"overhang beyond the second bearing" min:"0" max:"1500"`
	UnbracedMM      *float64 `json:"unbraced_mm,omitempty" doc:"spacing of side restraint of the top edge; left out: held by the deck" min:"0" max:"20000"`
	ServiceClass    *int     `json:"service_class,omitempty" doc:"ec5 service class; 2 when left out" min:"1" max:"3"`
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
	longest, governedBy, err := MaxClearSpan(j)
	if err != nil {
		return SpanOut{}, err
	}
	clear := longest
	if in.ClearMM != nil {
		clear = unit.Length(*in.ClearMM)
	} else if clear == 0 {
		clear = unit.Length(j.shortest())
	}
	res, err := Check(j, clear)
	if err != nil {
		return SpanOut{}, err
	}
	out := SpanOut{
		MaxClearSpanMM: float64(longest),
		GovernedBy:     res.GovernedBy,
		Utilisation:    map[string]float64{},
		Status:         string(res.Status),
		JudgedSpanMM:   float64(clear),
		DesignSpanMM:   float64(res.Span),
		OwnWeightKNM:   float64(res.OwnWeight),
	}
	if in.ClearMM == nil {
		out.GovernedBy = governedBy
	}
	for _, c := range res.Conditions {
		out.Utilisation[c.Name] = c.Utilisation()
		out.Conditions = append(out.Conditions, SpanRow(c))
	}
	out.Used = j.basis()
	return out, nil
}

// joist turns the question into a Joist.
func (in SpanIn) joist() (Joist, error) {
	j := Joist{
		Method:  Method(in.Method),
		Section: Section{unit.Length(in.BMM), unit.Length(in.HMM)},
		Grade:   in.Grade,
		Centres: unit.Length(in.CentresMM),
		Dead:    unit.AreaLoad(in.DeadKNM2) * unit.KilonewtonPerM2,
	}
	if in.Method == "" {
		return j, &calc.DomainError{Op: spanOp, Field: "method", Got: "", Wanted: "ec5, bs5268 or nds"}
	}
	if in.ImposedKN != nil {
		j.Imposed = unit.AreaLoad(*in.ImposedKN) * unit.KilonewtonPerM2
		j.NoImposed = j.Imposed == 0
	}
	if in.PointKN != nil {
		j.Point = unit.Force(*in.PointKN) * unit.Kilonewton
		j.NoPoint = j.Point == 0
	}
	load := func(dst *unit.AreaLoad, v *float64) {
		if v != nil {
			*dst = unit.AreaLoad(*v) * unit.KilonewtonPerM2
		}
	}
	length := func(dst *unit.Length, v *float64) {
		if v != nil {
			*dst = unit.Length(*v)
		}
	}
	number := func(dst, v *float64) {
		if v != nil {
			*dst = *v
		}
	}
	flag := func(dst, v *bool) {
		if v != nil {
			*dst = *v
		}
	}
	load(&j.Snow, in.SnowKNM2)
	if in.DriftKNM2 != nil {
		var d Drift
		load(&d.Peak, in.DriftKNM2)
		load(&d.Far, in.DriftFarKNM2)
		length(&d.Length, in.DriftLengthMM)
		flag(&d.Accidental, in.DriftAccidental)
		j.Drifts = []Drift{d}
	}
	if in.BearingMM != nil && *in.BearingMM == 0 {
		return j, &calc.DomainError{Op: spanOp, Field: "bearing_mm", Got: 0.0, Wanted: "20 to 300 mm"}
	}
	length(&j.Bearing, in.BearingMM)
	length(&j.Tail, in.TailMM)
	length(&j.Unbraced, in.UnbracedMM)
	number(&j.DeflectionLimit, in.Deflection)
	number(&j.DurationFactor, in.Factor)
	flag(&j.Alone, in.Alone)
	flag(&j.Wet, in.Wet)
	flag(&j.Incised, in.Incised)
	if in.Ceiling != nil {
		j.Ceiling = CeilingNone
		if *in.Ceiling {
			j.Ceiling = CeilingPlaster
		}
	}
	if in.ServiceClass != nil {
		j.ServiceClass = *in.ServiceClass
		if j.ServiceClass == 0 {
			j.ServiceClass = -1 // said, not left out
		}
	}
	if in.LoadDuration != nil {
		j.Duration = Duration(*in.LoadDuration)
	}
	if in.Edition != nil {
		j.Edition = Edition(*in.Edition)
	}
	return j, nil
}

// basis lists what a joist that has passed Check was judged with.
func (j Joist) basis() SpanBasis {
	j, _ = j.normal() // Check has accepted it
	b := SpanBasis{
		Formula:     ID,
		Method:      string(j.Method),
		Grade:       j.Grade,
		ImposedKNM2: j.Imposed.In(unit.KilonewtonPerM2),
		PointKN:     j.Point.In(unit.Kilonewton),
		BearingMM:   float64(j.Bearing),
	}
	if j.Method == EC5 {
		b.Edition = string(j.Edition)
		if b.Edition == "" {
			b.Edition = string(EN338of2016)
		}
		b.ServiceClass = j.ServiceClass
		b.LoadDuration = string(j.Duration)
		b.FinalLimit = ec5{Joist: j}.finalLimit()
	}
	return b
}

package timber

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// joist turns the question of the span topic into a Joist. A number given as 0
// where 0 means "the default" to Joist is refused here: it was said, not left
// out.
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
	if in.Grade == "" {
		return j, &calc.DomainError{Op: spanOp, Field: "grade", Got: "", Wanted: "a strength class such as C16"}
	}
	kn := unit.KilonewtonPerM2
	for _, f := range []struct {
		field  string
		given  *float64
		take   func(v float64)
		noZero bool
	}{
		{"imposed_kn_m2", in.ImposedKNM2, func(v float64) { j.Imposed, j.NoImposed = unit.AreaLoad(v)*kn, v == 0 }, false},
		{"point_kn", in.PointKN, func(v float64) { j.Point, j.NoPoint = unit.Force(v)*unit.Kilonewton, v == 0 }, false},
		{"snow_kn_m2", in.SnowKNM2, func(v float64) { j.Snow = unit.AreaLoad(v) * kn }, false},
		{"wind_up_kn_m2", in.WindUpKNM2, func(v float64) { j.WindUp = unit.AreaLoad(v) * kn }, false},
		{"bearing_mm", in.BearingMM, func(v float64) { j.Bearing = unit.Length(v) }, true},
		{"tail_mm", in.TailMM, func(v float64) { j.Tail = unit.Length(v) }, false},
		{"unbraced_mm", in.UnbracedMM, func(v float64) { j.Unbraced = unit.Length(v) }, false},
		{"deflection_limit", in.DeflectionLimit, func(v float64) { j.DeflectionLimit = v }, true},
		{"duration_factor", in.DurationFactor, func(v float64) { j.DurationFactor = v }, true},
		{"psi2", in.Psi2, func(v float64) { j.Psi2 = v }, false},
	} {
		if f.given == nil {
			continue
		}
		if *f.given == 0 && f.noZero {
			return j, &calc.DomainError{Op: spanOp, Field: f.field, Got: 0.0, Wanted: "a number above 0, or the key left out"}
		}
		f.take(*f.given)
	}
	flag := func(v *bool) bool { return v != nil && *v }
	j.Alone, j.Wet, j.Incised = flag(in.Alone), flag(in.Wet), flag(in.Incised)
	if in.Ceiling != nil {
		j.Ceiling = CeilingNone
		if *in.Ceiling {
			j.Ceiling = CeilingPlaster
		}
	}
	if in.DriftKNM2 != nil {
		j.Drifts = []Drift{in.drift()}
	}
	if in.ExtraKN != nil {
		j.Extras = []Extra{in.extra()}
	}
	return in.words(j)
}

// words takes the keys that are not measured.
func (in SpanIn) words(j Joist) (Joist, error) {
	if in.ServiceClass != nil {
		if j.ServiceClass = *in.ServiceClass; j.ServiceClass == 0 {
			return j, &calc.DomainError{Op: spanOp, Field: "service_class", Got: 0, Wanted: "1, 2 or 3"}
		}
	}
	if in.LoadDuration != nil {
		j.Duration = Duration(*in.LoadDuration)
		if _, err := Kmod(j.Duration, 1); err != nil {
			return j, err
		}
	}
	if in.Edition != nil {
		if j.Edition = Edition(*in.Edition); j.Edition == "" {
			return j, &calc.DomainError{Op: spanOp, Field: "edition", Got: "", Wanted: "2003, 2009 or 2016"}
		}
	}
	return j, nil
}

func (in SpanIn) drift() Drift {
	d := Drift{Peak: unit.AreaLoad(*in.DriftKNM2) * unit.KilonewtonPerM2}
	if in.DriftFarKNM2 != nil {
		d.Far = unit.AreaLoad(*in.DriftFarKNM2) * unit.KilonewtonPerM2
	}
	if in.DriftLengthMM != nil {
		d.Length = unit.Length(*in.DriftLengthMM)
	}
	d.Accidental = in.DriftAccidental != nil && *in.DriftAccidental
	return d
}

func (in SpanIn) extra() Extra {
	e := Extra{Force: unit.Force(*in.ExtraKN) * unit.Kilonewton}
	if in.ExtraFromMM != nil {
		e.From = unit.Length(*in.ExtraFromMM)
	}
	e.To = e.From
	if in.ExtraToMM != nil {
		e.To = unit.Length(*in.ExtraToMM)
	}
	return e
}

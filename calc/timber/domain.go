package timber

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// normal fills the defaults and returns the joist ready to judge.
func (j Joist) normal() (Joist, error) {
	if j.Method == "" {
		j.Method = EC5
	}
	if j.Method != EC5 && j.Method != BS5268 && j.Method != NDS {
		return j, &calc.DomainError{Op: spanOp, Field: "method", Got: string(j.Method), Wanted: "ec5, bs5268 or nds"}
	}
	if j.Method != NDS && j.Grade == "" {
		j.Grade = "C16"
	}
	if j.Imposed == 0 && !j.NoImposed {
		switch j.Method {
		case EC5:
			j.Imposed = 0.6 * unit.KilonewtonPerM2 // UK annex to EN 1991-1-1, category H, slope under 30°, from memory
		case BS5268:
			j.Imposed = 0.75 * unit.KilonewtonPerM2 // BS 6399-3 minimum as in the older UK tables
		case NDS:
			return j, &calc.DomainError{Op: spanOp, Field: "imposed_kn_m2", Got: 0.0, Wanted: "the imposed load of the table or site, in kN/m²"}
		}
	}
	if j.Point == 0 && !j.NoPoint && j.Method != NDS {
		j.Point = 0.9 * unit.Kilonewton
	}
	if j.Bearing == 0 {
		j.Bearing = 50
	}
	if j.ServiceClass == 0 {
		j.ServiceClass = 2
	}
	if j.Duration == "" {
		j.Duration = ShortTerm
	}
	if j.DurationFactor == 0 {
		j.DurationFactor = 1
	}
	return j, j.domain()
}

// domain refuses what the formulas were not written for.
func (j Joist) domain() error {
	ranges := []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"b_mm", float64(j.Section.B), 20, 150, "mm"},
		{"h_mm", float64(j.Section.H), 60, 400, "mm"},
		{"centres_mm", float64(j.Centres), 100, 1200, "mm"},
		{"dead_kn_m2", j.Dead.In(unit.KilonewtonPerM2), 0, 5, "kN/m²"},
		{"imposed_kn_m2", j.Imposed.In(unit.KilonewtonPerM2), 0, 10, "kN/m²"},
		{"point_kn", j.Point.In(unit.Kilonewton), 0, 10, "kN"},
		{"snow_kn_m2", j.Snow.In(unit.KilonewtonPerM2), 0, 20, "kN/m²"},
		{"bearing_mm", float64(j.Bearing), 20, 300, "mm"},
		{"wind_up_kn_m2", j.WindUp.In(unit.KilonewtonPerM2), 0, 10, "kN/m²"},
		{"psi2", j.Psi2, 0, 1, ""},
		{"tail_mm", float64(j.Tail), 0, 1500, "mm"},
		{"unbraced_mm", float64(j.Unbraced), 0, longestSpan, "mm"},
		{"duration_factor", j.DurationFactor, 0.9, 2, ""},
	}
	for _, r := range ranges {
		if err := calc.Outside(spanOp, r.field, r.v, r.min, r.max, r.unit); err != nil {
			return err
		}
	}
	if j.DeflectionLimit != 0 {
		if err := calc.Outside(spanOp, "deflection_limit", j.DeflectionLimit, 100, 1000, "(n of L/n)"); err != nil {
			return err
		}
	}
	for _, d := range j.Drifts {
		if err := d.domain(); err != nil {
			return err
		}
	}
	for _, e := range j.Extras {
		if err := e.domain(); err != nil {
			return err
		}
	}
	switch j.Ceiling {
	case CeilingUnknown, CeilingPlaster, CeilingNone:
	default:
		return &calc.DomainError{Op: spanOp, Field: "ceiling", Got: string(j.Ceiling), Wanted: "plaster or none"}
	}
	if j.ServiceClass < 1 || j.ServiceClass > 3 {
		return &calc.DomainError{Op: spanOp, Field: "service_class", Got: j.ServiceClass, Wanted: "1, 2 or 3"}
	}
	return j.foreign()
}

// foreign refuses what another method understands: an answer that quietly left
// a given number out would be wrong without looking so.
func (j Joist) foreign() error {
	for _, f := range []struct {
		field  string
		given  bool
		method Method
	}{
		{"edition", j.Edition != "", EC5},
		{"psi2", j.Psi2 != 0, EC5},
		{"wind_up_kn_m2", j.WindUp != 0, EC5},
		{"load_duration", j.Duration != ShortTerm, EC5},
		{"service_class", j.ServiceClass != 2, EC5},
		{"duration_factor", j.DurationFactor != 1, NDS},
		{"wet", j.Wet, NDS},
		{"incised", j.Incised, NDS},
	} {
		if f.given && j.Method != f.method {
			return &calc.DomainError{Op: spanOp, Field: f.field, Got: "a value", Wanted: "it left out: it belongs to " + string(f.method)}
		}
	}
	if j.Unbraced != 0 && j.Method == BS5268 {
		return &calc.DomainError{Op: spanOp, Field: "unbraced_mm", Got: float64(j.Unbraced), Wanted: "it left out: bs5268 takes the top edge as held by the deck"}
	}
	return nil
}

func (e Extra) domain() error {
	if err := calc.Outside(spanOp, "extra_kn", e.Force.In(unit.Kilonewton), 0, 20, "kN"); err != nil {
		return err
	}
	if err := calc.Outside(spanOp, "extra_from_mm", float64(e.From), 0, longestSpan, "mm"); err != nil {
		return err
	}
	return calc.Outside(spanOp, "extra_to_mm", float64(e.To), float64(e.From), longestSpan, "mm")
}

func (d Drift) domain() error {
	if err := calc.Outside(spanOp, "drift_kn_m2", d.Peak.In(unit.KilonewtonPerM2), 0, 20, "kN/m²"); err != nil {
		return err
	}
	if err := calc.Outside(spanOp, "drift_far_kn_m2", d.Far.In(unit.KilonewtonPerM2), 0, 20, "kN/m²"); err != nil {
		return err
	}
	return calc.Outside(spanOp, "drift_length_mm", float64(d.Length), 1, 30000, "mm")
}

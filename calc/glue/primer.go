package glue

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// PrimerID names the windows of primer and patch.
const PrimerID = "glue.primer/1"

// PrimerInput is what the windows of primer and patch depend on. Zero times mean
// a silent label.
type PrimerInput struct {
	DryFrom     unit.Minutes // label: touch-dry after, the lower number; 0 = 5 min
	DryTo       unit.Minutes // label: the upper number; 0 = 10 min
	Open        unit.Minutes // label: patch within, from the priming; 0 = 30 min
	Temperature unit.Celsius // label: at this temperature; 20 °C where it is silent
	Surface     unit.Celsius
	Wind        unit.Speed
}

// PrimerWindow is when a primed face takes its patch, in minutes from the
// priming.
type PrimerWindow struct {
	Touch unit.Minutes // worth a first touch
	From  unit.Minutes // dry by now, if the finger says so
	Until unit.Minutes // patch down; after it prime again
	Empty bool         // it is past before it is dry: shade the place or wait
	Cold  bool         // under 10 °C: an uncured patch won't follow the shape; warm it gently or wait
}

// Defaults of a silent label, and the least surface temperature for a patch.
//
// Source: common practice, no source. Open time is the shorter of the usual two.
const (
	primerDryFrom unit.Minutes = 5
	primerDryTo   unit.Minutes = 10
	primerOpen    unit.Minutes = 30
	patchCold     unit.Celsius = 10
)

// Primer returns when a primed face takes its patch.
//
//	t_dry  = t_label · 1.7^((T_label-Ts)/10) · k_wind
//	t_open = t_label · 1.5^((T_label-Ts)/10) · k_wind
//
// Source: common practice, no source; factors as for contact adhesive, which it
// dries like. The finger decides: dry, tacky, no streaks.
// Units: in and out by type.
// Shape: all times fall with the surface temperature and with wind.
// Domain: 0.5 ≤ dry from ≤ dry to ≤ 240 min, open 1..480 min, label 0..45 °C,
// surface -10..80 °C, wind 0..40 m/s.
// Ignores: dust: a dusty primed face is primed again at any age.
// Errors: DomainError only.
func Primer(in PrimerInput) (PrimerWindow, error) {
	const op = "glue.primer"
	switch {
	case in.DryFrom == 0 && in.DryTo == 0:
		in.DryFrom, in.DryTo = primerDryFrom, primerDryTo
	case in.DryFrom == 0:
		in.DryFrom = in.DryTo // one number on the tin is both ends
	case in.DryTo == 0:
		in.DryTo = max(primerDryTo, in.DryFrom)
	}
	if in.Open == 0 {
		in.Open = primerOpen
	}
	for _, c := range []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"dry_from_min", float64(in.DryFrom), 0.5, 240, "min"},
		{"dry_to_min", float64(in.DryTo), float64(in.DryFrom), 240, "min, not below dry_from_min"},
		{"open_min", float64(in.Open), 1, 480, "min"},
		{"label_c", float64(in.Temperature), 0, 45, "°C"},
		{"surface_c", float64(in.Surface), -10, 80, "°C"},
		{"wind_m_s", in.Wind.In(unit.MetrePerSecond), 0, 40, "m/s"},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.unit); err != nil {
			return PrimerWindow{}, err
		}
	}
	wind := contactWind.at(in.Wind.In(unit.MetrePerSecond))
	label, ts := float64(in.Temperature), float64(in.Surface)
	dry := timeFactor(tenKelvinDry, label, ts) * wind
	open := timeFactor(tenKelvinDead, label, ts) * wind
	w := PrimerWindow{
		Touch: unit.Minutes(float64(in.DryFrom) * dry),
		From:  unit.Minutes(float64(in.DryTo) * dry),
		Until: unit.Minutes(float64(in.Open) * open),
		Cold:  in.Surface < patchCold,
	}
	w.Empty = w.Until <= w.From
	return w, nil
}

// Prompts returns when to try the knuckle on a face that should be dry after a
// time: at 0.7 of it, then every 0.15 of it, n prompts in all.
//
// Source: common practice, no source.
// Domain: dry 0.1..480 min, 1..40 prompts.
// Errors: DomainError only.
func Prompts(dry unit.Minutes, n int) ([]unit.Minutes, error) {
	const op = "glue.prompts"
	if err := calc.Outside(op, "ready_min", float64(dry), 0.1, 480, "min"); err != nil {
		return nil, err
	}
	if err := calc.Outside(op, "prompts", float64(n), 1, 40, ""); err != nil {
		return nil, err
	}
	out := make([]unit.Minutes, n)
	for i := range out {
		out[i] = unit.Minutes((0.7 + 0.15*float64(i)) * float64(dry))
	}
	return out, nil
}

package glue

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/air"
	"chargehand/calc/unit"
)

// WetID names the window of wet-laid deck adhesive.
const WetID = "glue.wet_window/1"

// WetInput is everything the window of a wet-laid film depends on.
type WetInput struct {
	Label       Label
	Surface     unit.Celsius // of the deck, where the film will lie
	Air         unit.Celsius
	RH          unit.Percent
	Wind        unit.Speed
	Substrate   Substrate
	JobFactor   float64 // from a test square of this tin, substrate and method; 0 = none, which is 1
	SquareToday bool    // the factor is that of a bracketed test square of this day
}

// WetWindow is how long a wet film stays usable.
type WetWindow struct {
	Usable        unit.Minutes // to plan with; 0 when Stop says why
	ByPocket      unit.Minutes // the pocket rule, before factor and caps
	ByEvaporation unit.Minutes // the evaporation rule, likewise; 0 when water condenses
	Cap           Cap          // what shortened Usable below the rules, if anything
	DewPoint      unit.Celsius
	Stop          Stop // why there is no window; "" when there is one
}

// Stop says why there is no window at all.
type Stop string

const (
	DewMargin  Stop = "dew_margin" // the surface is within 3 K of the dew point
	Condensing Stop = "condensing" // water would gather on the film instead of leaving it
)

// Cap says what the window was cut to.
type Cap string

const (
	LabelCap   Cap = "label"   // the number on the tin
	LongestCap Cap = "longest" // 30 min, whatever the tin says
)

// Limits of the shipped window.
//
// Source: common practice, no source.
const (
	longestWindow unit.Minutes    = 30
	leastMargin   unit.KelvinDiff = 3 // surface less dew point
)

// Window returns how long a wet-laid film of deck adhesive stays usable.
//
//	P = W_label · q^((T_label-Ts)/10) · k_wind · k_humidity · k_substrate
//	V = W_label / (0.6·E + 0.4·S)
//	E = (e_s(Ts) - RH·e_s(Ta)) / (0.5·e_s(T_label)) · (1 + 0.54u)/1.27
//	W = min(k_job·min(P, V), cap of the label, 30 min)
//
// q is 2, or what two lines of a label give; with two lines V is the smaller of
// the two. The cap is the lower number of the label (between two lines, their
// curve); its upper number only after a bracketed test square of the same day.
// Surface less dew point under 3 K, or E ≤ 0: no window.
//
// Source: our own planning model, no source; see the package comment. The form
// of E is Dalton's evaporation law, wind term from memory (Penman).
// Units: in and out by type.
// Shape: with the air fixed and the dew margin kept, never longer for a hotter
// deck, more wind, drier air or a thirstier substrate; linear in W_label until
// a cap holds.
// Domain: surface -20..60 °C, air -20..50 °C, 1 ≤ RH ≤ 100 %, wind 0..40 m/s,
// job factor 0.3..2, label see Label.
// Ignores: sun on the film after it is spread, thickness of the film.
// Errors: DomainError only. No window is not an error: see Stop.
func Window(in WetInput) (WetWindow, error) {
	k, err := in.check()
	if err != nil {
		return WetWindow{}, err
	}
	pocketSoak, drinks, err := in.Substrate.soak()
	if err != nil {
		return WetWindow{}, err
	}
	td, err := air.DewPoint(in.Air, in.RH)
	if err != nil {
		return WetWindow{}, err
	}
	u := in.Wind.In(unit.MetrePerSecond)
	p := in.Label.at(in.Surface) * pocketWind.at(u) * pocketHumidity.at(float64(in.RH)) * pocketSoak // min
	v, err := in.byEvaporation(u, drinks)
	if err != nil {
		return WetWindow{}, err
	}
	w := WetWindow{ByPocket: unit.Minutes(p), ByEvaporation: unit.Minutes(v), DewPoint: td}
	switch {
	case v == 0:
		w.Stop = Condensing
		return w, nil
	case in.Surface.Sub(td) < leastMargin:
		w.Stop = DewMargin
		return w, nil
	}
	usable := k * math.Min(p, v)
	if limit := in.labelCap(); usable > limit {
		usable, w.Cap = limit, LabelCap
	}
	if usable > float64(longestWindow) {
		usable, w.Cap = float64(longestWindow), LongestCap
	}
	w.Usable = unit.Minutes(usable)
	return w, nil
}

// byEvaporation returns V in minutes, 0 when water condenses on the film.
func (in WetInput) byEvaporation(u, drinks float64) (float64, error) {
	es, err := air.SaturationPressure(in.Surface)
	if err != nil {
		return 0, err
	}
	e, err := air.VapourPressure(in.Air, in.RH)
	if err != nil {
		return 0, err
	}
	points := []Point{in.Label.Point}
	if in.Label.Second != nil {
		points = append(points, *in.Label.Second)
	}
	v := math.Inf(1)
	for _, p := range points {
		el, err := air.SaturationPressure(p.Temperature)
		if err != nil {
			return 0, err
		}
		drying := float64(es-e) / (0.5 * float64(el)) * (1 + 0.54*u) / 1.27 // 1 at the label, RH 50 %, u 0.5
		if drying <= 0 {
			return 0, nil
		}
		v = math.Min(v, float64(p.Time)/(0.6*drying+0.4*drinks))
	}
	return v, nil
}

func (in WetInput) labelCap() float64 {
	limit := in.Label.limit(in.Surface)
	if in.SquareToday && in.Label.Upper != 0 {
		limit = math.Max(limit, float64(in.Label.Upper))
	}
	return limit
}

// check returns the job factor to use.
func (in WetInput) check() (float64, error) {
	const op = "glue.window"
	for _, c := range []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"surface_c", float64(in.Surface), -20, 60, "°C"},
		{"air_c", float64(in.Air), -20, 50, "°C"},
		{"rh_pct", float64(in.RH), 1, 100, "%"},
		{"wind_m_s", in.Wind.In(unit.MetrePerSecond), 0, 40, "m/s"},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.unit); err != nil {
			return 0, err
		}
	}
	if err := in.Label.check(op); err != nil {
		return 0, err
	}
	if in.JobFactor == 0 {
		return 1, nil
	}
	return in.JobFactor, calc.Outside(op, "job_factor", in.JobFactor, 0.3, 2, "")
}

package plan

import (
	"slices"

	"chargehand/calc/glue"
	"chargehand/calc/sun"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// Go is the verdict on the weather.
type Go struct {
	Verdict string
	Reasons []Reason
	Unknown []string // what nobody knew, taken at its worse end: damp, wind

	// Minutes from the reading; nil where it is not known or does not happen.
	Sunset *unit.Minutes
	Dew    *unit.Minutes
	Wait   *Wait
	Gone   bool // no hour in which a batch can be laid is left, as far as is known
}

// Reason is one limit met.
type Reason struct {
	Key     string
	Verdict string
	Value   float64
	Unit    string // as in the record
	Label   bool   // the limit is the one printed on the tin
}

// sky is what stands over the roof. Where the damp is not known, dry and damp are
// its two ends.
type sky struct {
	dry, damp  unit.Percent
	mean, gust unit.Speed
	unknown    []string
}

// gustFactor is how far gusts exceed the mean wind when only the mean is known:
// common practice, no source.
const gustFactor = 1.6

// sky reads what was tapped or measured; ok is false while either is missing.
func (r *reckoner) sky() (a sky, ok bool) {
	in := r.in
	switch {
	case in.RH != nil:
		a.dry, a.damp = *in.RH, *in.RH
	case in.Damp == "unknown":
		a.dry, _ = glue.Dry.RH()
		a.damp, _ = glue.Humid.RH()
		a.unknown = append(a.unknown, "damp")
	case in.Damp != "":
		rh, err := glue.Damp(in.Damp).RH()
		if r.failed("go", err) {
			return a, false
		}
		a.dry, a.damp = rh, rh
	default:
		return a, false
	}
	switch {
	case in.WindMean != nil:
		a.mean = *in.WindMean
	case in.Wind == "unknown":
		a.mean, _ = glue.Windy.Speed()
		a.unknown = append(a.unknown, "wind")
	case in.Wind != "":
		speed, err := glue.Wind(in.Wind).Speed()
		if r.failed("go", err) {
			return a, false
		}
		a.mean = speed
	default:
		return a, false
	}
	a.gust = unit.Speed(gustFactor) * a.mean
	if in.WindGust != nil {
		a.gust = max(a.mean, *in.WindGust)
	}
	return a, true
}

// rainIn is how long after the reading rain may fall; nil while nobody has said.
func (r *reckoner) rainIn() *unit.Minutes {
	if r.in.RainIn != nil {
		return r.in.RainIn
	}
	// "Within 3 hours" is planned with as 2: common practice, no source.
	m, ok := map[string]unit.Minutes{"none": 12 * unit.Hour, "within-3h": 2 * unit.Hour, "now": 0, "thunder": 0}[r.in.Rain]
	if !ok {
		return nil
	}
	return &m
}

// labelLimits are the limits printed on the tin.
func (r *reckoner) labelLimits() weather.Label {
	var l weather.Label
	if r.in.LabelLeast != nil {
		least := unit.Celsius(*r.in.LabelLeast)
		l.SurfaceMin = &least
	}
	return l
}

// weather grades the weather for gluing the rest of the field.
func (r *reckoner) weather(a sky, task unit.Minutes) {
	in := r.in
	rain := r.rainIn()
	if in.NightC == nil || rain == nil {
		return
	}
	m := weather.Moment{
		Kind: weather.Wet, Surface: unit.Celsius(*in.SurfaceC), Air: unit.Celsius(*in.AirC), RH: a.damp, Min24h: unit.Celsius(*in.NightC),
		Wind: a.mean, Gust: a.gust, RainIn: rain, Task: task, Thunder: in.Rain == "thunder", Label: r.labelLimits(),
	}
	if in.DeckDamp != nil {
		damp := unit.Percent(*in.DeckDamp)
		m.Moisture = &damp
	}
	sunset := r.sunset()
	m.ToSunset = sunset
	j, err := weather.Judge(m)
	if r.failed("go", err) {
		return
	}
	g := Go{Verdict: string(j.Verdict), Unknown: a.unknown, Sunset: sunset}
	for _, reason := range j.Reasons {
		g.Reasons = append(g.Reasons, Reason{Key: string(reason.Key), Verdict: string(reason.Verdict), Value: reason.Value, Unit: reasonUnit(reason.Key), Label: reason.Label})
	}
	r.p.Go = &g
	r.used("go", weather.GradeID)
	if sunset != nil {
		r.used("go", weather.GradeID, sun.ID)
	}
}

// stop adds a reason of the glue's own to the verdict, worst first.
func (g *Go) stop(key string, value float64, unit string) {
	g.Verdict = string(weather.Stop)
	g.Reasons = slices.Insert(g.Reasons, 0, Reason{Key: key, Verdict: string(weather.Stop), Value: value, Unit: unit})
}

func reasonUnit(k weather.Key) string {
	switch k {
	case weather.SurfaceLow, weather.SurfaceHigh, weather.NightCold, weather.SurfaceFreezes:
		return "celsius"
	case weather.HumidityHigh, weather.MoistureHigh:
		return "pct"
	case weather.RainSoon, weather.DaylightShort:
		return "min"
	case weather.WindMean, weather.WindGust:
		return "m_s"
	}
	return "number"
}

package weather

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/air"
	"chargehand/calc/unit"
)

// DewAfter returns how long after a minute the deck comes within margin of the
// dew point. When it does not within the course, ok is false and the time is how
// long the course still speaks for.
//
// Source: air.DewPoint along the course, minute by minute.
// Units: in and out by type.
// Shape: a wider margin is never reached later.
// Domain: a course that Check passes with air, humidity (or dew point) and
// surface from the minute on; margin 0..20 K.
// Ignores: what happens between two hours.
// Errors: DomainError only.
func (c Course) DewAfter(minute unit.Minutes, margin unit.KelvinDiff) (in unit.Minutes, ok bool, err error) {
	const op = "weather.dew"
	if err := calc.Outside(op, "margin", float64(margin), 0, 20, "K"); err != nil {
		return 0, false, err
	}
	if _, err := c.At(minute); err != nil {
		return 0, false, err
	}
	last := c[len(c)-1].Minute
	for in := unit.Minutes(0); minute+in <= last; in++ {
		h := c.at(minute + in)
		if h.Air == nil || h.RH == nil || h.Surface == nil {
			if in == 0 {
				return 0, false, &calc.DomainError{Op: op, Field: "hours", Got: "nothing", Wanted: "air, humidity and surface from that time on"}
			}
			return in - 1, false, nil
		}
		td, err := air.DewPoint(*h.Air, *h.RH)
		if err != nil {
			return 0, false, err
		}
		if h.Surface.Sub(td) < margin {
			return in, true, nil
		}
	}
	return unit.Minutes(math.Floor(float64(last - minute))), false, nil
}

// Reading is a thermometer held to the deck, and where the sun stood.
type Reading struct {
	Surface   unit.Celsius
	Air       unit.Celsius
	SunHeight unit.Angle // above the horizon; 0 or less: no sun on it
	ClearSky  bool
}

// lowSun is the height under which a reading says too little about the day: the
// light comes in flat, and a hedge shades it.
const lowSun = 10 * unit.Degree

// nightCooling is how far a deck falls below the air under a clear sky.
//
// Source: common practice, no source.
const nightCooling unit.KelvinDiff = 3

// WithSurface fills in the surface temperature of a course from one reading.
//
//	sun up:   Ts = Ta + (Ts - Ta)_reading · sin h / sin h_reading
//	sun down: Ts = Ta - 3 under a clear sky, Ta else
//
// A reading cooler than the air, or with the sun under 10°, is carried by its
// difference alone while the sun is up. Hours with a surface keep it.
//
// Source: our own planning model, no source: sunlight on a level roof goes with
// the sine of the sun's height. A new reading outranks it.
// Units: in and out by type.
// Shape: meets the reading at its own sun height; hottest at noon for steady air.
// Domain: a course that Check passes, reading -45..90 °C, air -45..60 °C.
// Ignores: clouds to come, wind, heat kept by the deck.
// Errors: DomainError only, also where a surface would leave its range.
func (c Course) WithSurface(r Reading, height func(unit.Minutes) unit.Angle) (Course, error) {
	const op = "weather.surface"
	if err := c.Check(); err != nil {
		return nil, err
	}
	if err := calc.Outside(op, "surface_c", float64(r.Surface), -45, 90, "°C"); err != nil {
		return nil, err
	}
	if err := calc.Outside(op, "air_c", float64(r.Air), -45, 60, "°C"); err != nil {
		return nil, err
	}
	if err := calc.Outside(op, "sun_height", r.SunHeight.In(unit.Degree), -90, 90, "degrees"); err != nil {
		return nil, err
	}
	rise := float64(r.Surface.Sub(r.Air)) // K
	out := make(Course, len(c))
	for i, h := range c {
		out[i] = h
		if h.Surface != nil || h.Air == nil {
			continue
		}
		add := 0.0 // K
		switch sun := math.Sin(float64(height(h.Minute))); {
		case sun <= 0 && r.ClearSky:
			add = -float64(nightCooling)
		case sun <= 0:
		case rise <= 0 || r.SunHeight < lowSun:
			add = rise
		default:
			add = rise * sun / math.Sin(float64(r.SunHeight))
		}
		ts := h.Air.Add(unit.KelvinDiff(add))
		out[i].Surface = &ts
	}
	return out, out.Check()
}

package weather

import (
	"chargehand/calc"
	"chargehand/calc/air"
	"chargehand/calc/unit"
)

// CourseID names the reading of a course of hours.
const CourseID = "weather.course/1"

// Hour is what was forecast or read for one time of a day. nil means not given.
type Hour struct {
	Minute  unit.Minutes // on the caller's axis, usually minutes after local midnight; may run past a day
	Air     *unit.Celsius
	Dew     *unit.Celsius // dew point, where a report gives it instead of RH
	RH      *unit.Percent
	Surface *unit.Celsius // of the deck
	Wind    *unit.Speed
	Gust    *unit.Speed
	Rain    *unit.Length // depth that falls from this time to the next
}

// Course is a day's hours in order of time.
type Course []Hour

// Check refuses a course that is empty, out of order, spans more than a week, or
// holds a value that cannot be.
//
// Domain: as Moment; dew point not above the air; rain 0..200 mm an hour.
// Errors: DomainError only.
func (c Course) Check() error {
	const op = "weather.course"
	if len(c) == 0 {
		return &calc.DomainError{Op: op, Field: "hours", Got: 0, Wanted: "at least one hour"}
	}
	for i, h := range c {
		if i > 0 && !(h.Minute > c[i-1].Minute) {
			return &calc.DomainError{Op: op, Field: "minute", Got: float64(h.Minute), Wanted: "each hour later than the one before"}
		}
		if err := h.check(op); err != nil {
			return err
		}
	}
	if float64(c[len(c)-1].Minute-c[0].Minute) > week {
		return &calc.DomainError{Op: op, Field: "minute", Got: float64(c[len(c)-1].Minute), Wanted: "within a week of the first hour"}
	}
	return nil
}

func (h Hour) check(op string) error {
	if err := calc.Outside(op, "minute", float64(h.Minute), -week, 2*week, "min"); err != nil {
		return err
	}
	wind := 0.0
	if h.Wind != nil {
		wind = h.Wind.In(unit.MetrePerSecond)
	}
	hottest := 60.0
	if h.Air != nil {
		hottest = float64(*h.Air)
	}
	for _, v := range []struct {
		field    string
		at       *float64
		min, max float64
		unit     string
	}{
		{"air_c", (*float64)(h.Air), -45, 60, "°C"},
		{"dew_c", (*float64)(h.Dew), -45, hottest, "°C, not above the air"},
		{"rh_pct", (*float64)(h.RH), 1, 100, "%"},
		{"surface_c", (*float64)(h.Surface), -45, 90, "°C"},
		{"wind_m_s", (*float64)(h.Wind), 0, 75, "m/s"},
		{"gust_m_s", (*float64)(h.Gust), wind, 100, "m/s, not below the mean"},
		{"rain_mm", (*float64)(h.Rain), 0, 200, "mm"},
	} {
		if v.at == nil {
			continue
		}
		if err := calc.Outside(op, v.field, *v.at, v.min, v.max, v.unit); err != nil {
			return err
		}
	}
	return nil
}

// humidity returns the relative humidity, from the dew point where need be.
func (h Hour) humidity() *unit.Percent {
	if h.RH != nil || h.Air == nil || h.Dew == nil {
		return h.RH
	}
	rh, err := air.Humidity(*h.Air, *h.Dew)
	if err != nil || rh < 1 {
		return nil // drier than the formulas hold for: not known
	}
	return &rh
}

// At returns the hour at a minute within the course, each value on a straight
// line between the hours before and after that give it; rain is that of the
// hour in which the minute lies.
//
// Source: straight-line interpolation.
// Units: in and out by type.
// Shape: meets every hour given; between two hours never outside them.
// Domain: a course that Check passes, a minute from its first hour to its last.
// Ignores: what happens between two hours, a shower above all.
// Errors: DomainError only.
func (c Course) At(minute unit.Minutes) (Hour, error) {
	if err := c.Check(); err != nil {
		return Hour{}, err
	}
	if err := calc.Outside("weather.course", "minute", float64(minute), float64(c[0].Minute), float64(c[len(c)-1].Minute), "min"); err != nil {
		return Hour{}, err
	}
	return c.at(minute), nil
}

// at is At on a course already checked, with minute inside it.
func (c Course) at(minute unit.Minutes) Hour {
	h := Hour{
		Minute:  minute,
		Air:     (*unit.Celsius)(c.between(minute, func(h Hour) *float64 { return (*float64)(h.Air) })),
		RH:      (*unit.Percent)(c.between(minute, func(h Hour) *float64 { return (*float64)(h.humidity()) })),
		Surface: (*unit.Celsius)(c.between(minute, func(h Hour) *float64 { return (*float64)(h.Surface) })),
		Wind:    (*unit.Speed)(c.between(minute, func(h Hour) *float64 { return (*float64)(h.Wind) })),
		Gust:    (*unit.Speed)(c.between(minute, func(h Hour) *float64 { return (*float64)(h.Gust) })),
	}
	for _, g := range c {
		if g.Minute <= minute {
			h.Rain = g.Rain
		}
	}
	return h
}

// between reads one value at a minute, nil where it is given on one side only.
func (c Course) between(minute unit.Minutes, value func(Hour) *float64) *float64 {
	var before, after *Hour
	for i := range c {
		if value(c[i]) == nil {
			continue
		}
		if c[i].Minute <= minute {
			before = &c[i]
		}
		if c[i].Minute >= minute && after == nil {
			after = &c[i]
		}
	}
	if before == nil || after == nil {
		return nil
	}
	a, b := *value(*before), *value(*after)
	if span := float64(after.Minute - before.Minute); span > 0 {
		a += (b - a) * float64(minute-before.Minute) / span
	}
	return &a
}

// Least returns the least air temperature of the course from a minute on, over
// a span, and whether the course covers the whole span.
//
// Domain: a course that Check passes; a minute within it; span 0..1 week.
// Errors: DomainError only, also where no air temperature is given at all.
func (c Course) Least(from, span unit.Minutes) (least unit.Celsius, covered bool, err error) {
	first, err := c.At(from)
	if err != nil {
		return 0, false, err
	}
	if err := calc.Outside("weather.course", "span", float64(span), 0, week, "min"); err != nil {
		return 0, false, err
	}
	found := false
	take := func(t *unit.Celsius) {
		if t != nil && (!found || *t < least) {
			least, found = *t, true
		}
	}
	take(first.Air)
	var last unit.Minutes
	for _, h := range c {
		if h.Air == nil {
			continue
		}
		last = h.Minute
		if h.Minute >= from && h.Minute <= from+span {
			take(h.Air)
		}
	}
	if !found {
		return 0, false, &calc.DomainError{Op: "weather.course", Field: "air_c", Got: "nothing", Wanted: "air temperatures from that time on"}
	}
	if last >= from+span {
		take(c.at(from + span).Air)
	}
	return least, last >= from+span, nil
}

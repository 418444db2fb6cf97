package sun

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Heights of the sun's centre, without refraction, that begin and end things.
//
// Source: US Naval Observatory definitions: sunrise and sunset 90°50' from the
// zenith (34' of refraction and 16' of half the disc), civil twilight 96°.
const (
	horizon = -50.0 / 60 // °
	civil   = -6.0       // °
)

// Offset says how far local clocks are ahead of UTC at an instant.
type Offset func(Instant) (unit.Minutes, error)

// UTC is the Offset of Greenwich.
func UTC(Instant) (unit.Minutes, error) { return 0, nil }

// Light says what a day is like where a limit is not crossed.
type Light string

const (
	Normal   Light = "normal"
	AllDay   Light = "all_day"
	AllNight Light = "all_night"
)

// Event is one moment of a day.
type Event struct {
	At    Instant      // UTC, on the date that was asked for
	Clock unit.Minutes // what the local clock shows, minutes after midnight
}

// Day is what the sun does on one local calendar day. nil means that it does
// not happen on this day.
type Day struct {
	CivilDawn *Event
	Sunrise   *Event
	Noon      *Event // the sun crosses the meridian
	Sunset    *Event
	CivilDusk *Event
	Sun       Light // whether the sun is up, where it neither rises nor sets
	Twilight  Light // whether it is light enough to see, likewise
}

// Of returns what the sun does at a place on a local calendar day.
//
// The height of the sun is followed through the day and each crossing of a limit
// is closed in on to a second. Where the sun rises or sets twice (it drifts
// across midnight in the far north), the first sunrise and the sunset that
// follows it are given; so are events that come in the other order.
//
// Source: equations as At, limits as the US Naval Observatory; checked against
// its tables for 2015, 2020 and 2023 within one minute.
// Units: in and out by type.
// Shape: near the equinox 12 h and a few minutes everywhere; longer days
// poleward in summer.
// Domain: as At, and offsets within ±15 h.
// Ignores: hills, height above the sea, unusual refraction.
// Errors: DomainError, and whatever offset returns.
func Of(p Place, d Date, offset Offset) (Day, error) {
	const op = "sun.of"
	if err := p.check(op); err != nil {
		return Day{}, err
	}
	if err := d.check(op); err != nil {
		return Day{}, err
	}
	s := span{place: p, date: d, offset: offset}
	if err := s.bound(); err != nil {
		return Day{}, err
	}
	s.scan()
	var day Day
	var err error
	if day.Sunrise, day.Sunset, day.Sun, err = s.crossings(horizon); err != nil {
		return Day{}, err
	}
	if day.CivilDawn, day.CivilDusk, day.Twilight, err = s.crossings(civil); err != nil {
		return Day{}, err
	}
	if day.Noon, err = s.noon(); err != nil {
		return Day{}, err
	}
	return day, nil
}

// span is one local day on the axis of minutes from 0 h UTC of its date.
type span struct {
	place      Place
	date       Date
	offset     Offset
	start, end float64 // min
	knots      []float64
}

// bound finds where the local day begins and ends: a clock change can make it
// 23 or 25 hours long.
func (s *span) bound() error {
	midnight := func(local float64) (float64, error) {
		u := local
		// The offset wanted is the one at midnight itself; two more looks settle it.
		for range 3 {
			o, err := s.localOffset(u)
			if err != nil {
				return 0, err
			}
			u = local - o
		}
		return u, nil
	}
	var err error
	if s.start, err = midnight(0); err != nil {
		return err
	}
	s.end, err = midnight(minutesInDay)
	return err
}

func (s *span) localOffset(u float64) (float64, error) {
	o, err := s.offset(Instant{Date: s.date, Minute: unit.Minutes(u)})
	if err != nil {
		return 0, err
	}
	return float64(o), calc.Outside("sun.of", "offset", float64(o), -15*60, 15*60, "min")
}

// height returns the sun's height at minute u in degrees.
func (s *span) height(u float64) float64 {
	i := Instant{Date: s.date, Minute: unit.Minutes(u)}
	a := at(i)
	h := a.hourAngle(s.place.Lon.In(unit.Degree), i)
	return math.Asin(clampSine(a.sineHeight(s.place.Lat, h))) * 180 / math.Pi
}

// scanStep is how finely the day is looked through: the sun's height turns at
// most once between two steps, at noon or at midnight.
const scanStep = 60.0 // min

// crossings returns the first rise through limit, and the fall that follows it
// or, where none does, the first fall of the day.
func (s *span) crossings(limit float64) (rise, fall *Event, light Light, err error) {
	above := func(u float64) float64 { return s.height(u) - limit }
	var rises, falls []float64
	for k := 1; k < len(s.knots); k++ {
		a, b := s.knots[k-1], s.knots[k]
		switch fa, fb := above(a), above(b); {
		case fa < 0 && fb >= 0:
			rises = append(rises, bisect(above, a, b))
		case fa >= 0 && fb < 0:
			falls = append(falls, bisect(above, a, b))
		}
	}
	switch {
	case len(rises)+len(falls) > 0:
		light = Normal
	case above((s.start+s.end)/2) >= 0:
		return nil, nil, AllDay, nil
	default:
		return nil, nil, AllNight, nil
	}
	if len(rises) > 0 {
		if rise, err = s.event(rises[0]); err != nil {
			return nil, nil, "", err
		}
	}
	if len(falls) > 0 {
		u := falls[0]
		if len(rises) > 0 && len(falls) > 1 && u < rises[0] {
			u = falls[1]
		}
		if fall, err = s.event(u); err != nil {
			return nil, nil, "", err
		}
	}
	return rise, fall, light, nil
}

// scan sets the steps of the day and, between them, the turning points of the
// sun's height, so that no height is crossed twice between two knots.
func (s *span) scan() {
	const aside = 0.1 // min
	climbs := func(u float64) bool { return s.height(u+aside) > s.height(u-aside) }
	s.knots = []float64{s.start}
	for u := s.start; u < s.end; u += scanStep {
		next := math.Min(u+scanStep, s.end)
		if up := climbs(u); up != climbs(next) {
			s.knots = append(s.knots, turn(s.height, u, next, up))
		}
		s.knots = append(s.knots, next)
	}
}

// turn closes in on the highest (or lowest) point of f between a and b.
func turn(f func(float64) float64, a, b float64, peak bool) float64 {
	for b-a > 1.0/60 {
		l, r := a+(b-a)/3, b-(b-a)/3
		if (f(l) < f(r)) == peak {
			a = l
			continue
		}
		b = r
	}
	return (a + b) / 2
}

// bisect closes in on the crossing of f between a and b, to a second.
func bisect(f func(float64) float64, a, b float64) float64 {
	rising := f(b) >= 0
	for b-a > 1.0/60 {
		m := (a + b) / 2
		if (f(m) >= 0) == rising {
			b = m
			continue
		}
		a = m
	}
	return (a + b) / 2
}

// noon returns when the sun crosses the meridian within the day.
func (s *span) noon() (*Event, error) {
	u := 720 - 4*s.place.Lon.In(unit.Degree)
	u += math.Ceil((s.start-u)/minutesInDay) * minutesInDay
	// The equation of time moves by half a minute a day: two rounds settle it.
	first := u
	for range 3 {
		u = first - at(Instant{Date: s.date, Minute: unit.Minutes(u)}).equationOfTime
	}
	switch {
	case u < s.start:
		u += minutesInDay
	case u >= s.start+minutesInDay:
		u -= minutesInDay
	}
	if u < s.start || u >= s.end {
		return nil, nil
	}
	return s.event(u)
}

func (s *span) event(u float64) (*Event, error) {
	o, err := s.localOffset(u)
	if err != nil {
		return nil, err
	}
	return &Event{At: Instant{Date: s.date, Minute: unit.Minutes(u)}, Clock: unit.Minutes(u + o)}, nil
}

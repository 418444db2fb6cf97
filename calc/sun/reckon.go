package sun

import (
	"fmt"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// SunIn is what the topic sun is asked.
type SunIn struct {
	Lat  float64 `json:"lat" doc:"latitude in degrees, north positive" min:"-90" max:"90"`
	Lon  float64 `json:"lon" doc:"longitude in degrees, east positive" min:"-180" max:"180"`
	Date string  `json:"date" doc:"local calendar day, as 2026-06-21"`
	Zone string  `json:"zone" doc:"IANA time zone, as Europe/London, or UTC"`
}

// SunOut is what the topic sun answers: local times of the zone to the nearest
// minute. A time is left out when it does not happen on the day.
type SunOut struct {
	Sunrise   *string `json:"sunrise,omitempty" doc:"HH:MM"`
	Sunset    *string `json:"sunset,omitempty" doc:"HH:MM"`
	Noon      *string `json:"noon,omitempty" doc:"HH:MM, the sun highest"`
	CivilDawn *string `json:"civil_dawn,omitempty" doc:"HH:MM, light enough to see"`
	CivilDusk *string `json:"civil_dusk,omitempty" doc:"HH:MM, too dark to see"`
	Sun       Light   `json:"sun" doc:"all_day: it does not set; all_night: it does not rise" enum:"normal,all_day,all_night"`
	Twilight  Light   `json:"twilight" doc:"all_day: it does not get dark; all_night: it does not get light" enum:"normal,all_day,all_night"`
}

// ZoneOffset says how far the clocks of a named zone are ahead of UTC at an
// instant. An unknown zone is a DomainError with Field "zone".
type ZoneOffset func(zone string, at Instant) (unit.Minutes, error)

// ReckonSun answers the topic sun. It takes the zone's clock from the caller,
// because calc holds no time zones.
func ReckonSun(in SunIn, offset ZoneOffset) (SunOut, error) {
	d, err := parseDate(in.Date)
	if err != nil {
		return SunOut{}, err
	}
	if in.Zone == "" {
		return SunOut{}, &calc.DomainError{Op: "sun.reckon", Field: "zone", Got: in.Zone, Wanted: "an IANA time zone, as Europe/London"}
	}
	p := Place{Lat: unit.Angle(in.Lat) * unit.Degree, Lon: unit.Angle(in.Lon) * unit.Degree}
	day, err := Of(p, d, func(i Instant) (unit.Minutes, error) { return offset(in.Zone, i) })
	if err != nil {
		return SunOut{}, err
	}
	return SunOut{
		Sunrise:   clock(day.Sunrise),
		Sunset:    clock(day.Sunset),
		Noon:      clock(day.Noon),
		CivilDawn: clock(day.CivilDawn),
		CivilDusk: clock(day.CivilDusk),
		Sun:       day.Sun,
		Twilight:  day.Twilight,
	}, nil
}

// clock prints an event as HH:MM. The last half minute of a day stays on it.
func clock(e *Event) *string {
	if e == nil {
		return nil
	}
	m := min(int(math.Round(float64(e.Clock))), minutesInDay-1)
	s := fmt.Sprintf("%02d:%02d", m/60, m%60)
	return &s
}

// parseDate reads YYYY-MM-DD (ISO 8601) and nothing else.
func parseDate(s string) (Date, error) {
	wrong := &calc.DomainError{Op: "sun.reckon", Field: "date", Got: s, Wanted: "a day of 1901 to 2099, as 2026-06-21"}
	if len(s) != len("2026-06-21") || s[4] != '-' || s[7] != '-' {
		return Date{}, wrong
	}
	number := func(digits string) (n int, ok bool) {
		for _, c := range []byte(digits) {
			if c < '0' || c > '9' {
				return 0, false
			}
			n = 10*n + int(c-'0')
		}
		return n, true
	}
	var d Date
	for _, part := range []struct {
		text string
		into *int
	}{{s[:4], &d.Year}, {s[5:7], &d.Month}, {s[8:], &d.Day}} {
		n, ok := number(part.text)
		if !ok {
			return Date{}, wrong
		}
		*part.into = n
	}
	if d.check("sun.reckon") != nil {
		return Date{}, wrong
	}
	return d, nil
}

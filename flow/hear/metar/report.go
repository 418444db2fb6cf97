package metar

import (
	"math"
	"strings"

	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// Report is one weather report. A nil value was missing, or left out with a
// warning.
type Report struct {
	Station   string
	Day       int          // of the month, UTC
	Minute    unit.Minutes // of that day, UTC
	Automatic bool
	Corrected bool

	WindFrom *unit.Angle // from north through east; nil = variable or missing
	Variable bool
	Wind     *unit.Speed // mean
	Gust     *unit.Speed

	Air, Dew             *unit.Celsius // tenths where the report gives them and agrees with itself
	AirWhole, DewWhole   *unit.Celsius // of the body
	AirTenths, DewTenths *unit.Celsius // of the remarks

	Pressure *unit.Pressure // reduced to sea level
	Weather  []string       // present weather, as written: "-RA", "TSRA"
	Warnings []Warning
}

// Parse reads one report. Anything after it, or after its end sign "=", is
// passed over.
//
// Errors: *Refusal only.
func Parse(text string) (Report, error) {
	if len(text) > mostBytes {
		return Report{}, &Refusal{Key: TooLong, Heard: head(text[:200]), Example: reportExample}
	}
	body, _, _ := strings.Cut(strings.ToUpper(text), "=")
	groups := strings.Fields(body)
	if len(groups) == 0 {
		return Report{}, &Refusal{Key: Empty, Example: reportExample}
	}
	var r Report
	for len(groups) > 0 && (groups[0] == "METAR" || groups[0] == "SPECI" || groups[0] == "COR") {
		r.Corrected = r.Corrected || groups[0] == "COR"
		groups = groups[1:]
	}
	if len(groups) < 2 || !isStation(groups[0]) || !isTimeGroup(groups[1]) {
		return Report{}, &Refusal{Key: NotAReport, Heard: head(body), Example: reportExample}
	}
	r.Station = groups[0]
	if !r.readTime(groups[1]) {
		return Report{}, &Refusal{Key: BadTime, Heard: groups[1], Example: reportExample}
	}
	r.readBody(groups[2:])
	r.settle()
	if r.Wind == nil && r.AirWhole == nil && r.AirTenths == nil && r.Pressure == nil && len(r.Weather) == 0 {
		return Report{}, &Refusal{Key: NoValues, Heard: head(body), Example: reportExample}
	}
	return r, nil
}

func head(s string) string {
	s = strings.TrimSpace(s)
	if r := []rune(s); len(r) > 40 {
		return string(r[:40])
	}
	return s
}

// readBody reads the groups between time and trends, and the tenths of the
// remarks. Trends speak of later hours: they are not the weather now.
func (r *Report) readBody(groups []string) {
	const (
		body = iota
		trend
		remarks
	)
	part := body
	for _, g := range groups {
		switch {
		case g == "RMK":
			part = remarks
		case part == remarks:
			r.readTenths(g)
		case part == trend:
		case g == "TEMPO" || g == "BECMG" || g == "NOSIG":
			part = trend
		case g == "AUTO":
			r.Automatic = true
		case g == "COR":
			r.Corrected = true
		case r.readWind(g) || r.readTemperatures(g) || r.readPressure(g):
		case isWeather(g):
			r.Weather = append(r.Weather, g)
		}
	}
}

// settle chooses between the whole degrees of the body and the tenths of the
// remarks: the tenths where they round to the body, nothing where they don't.
//
// Source: FMH-1: halves round to the warmer. Half a degree either way is let
// pass, since not every station does.
func (r *Report) settle() {
	choose := func(whole, tenths *unit.Celsius, group string) *unit.Celsius {
		switch {
		case whole == nil:
			return tenths
		case tenths == nil:
			return whole
		case math.Abs(float64(*tenths-*whole)) > 0.5+1e-9:
			r.warn(Contradiction, group)
			return nil
		}
		return tenths
	}
	r.Air = choose(r.AirWhole, r.AirTenths, "T")
	r.Dew = choose(r.DewWhole, r.DewTenths, "T")
	if r.Air != nil && r.Dew != nil && *r.Dew > *r.Air {
		r.warn(DewAboveAir, "T")
		r.Dew = nil
	}
}

func (r *Report) warn(k Key, group string) {
	r.Warnings = append(r.Warnings, Warning{Key: k, Group: group})
}

// Thunder says whether the report has thunder at or near the station.
func (r Report) Thunder() bool { return r.has("TS") }

// Wet says whether water in any form falls at the station.
func (r Report) Wet() bool {
	for _, w := range r.Weather {
		if strings.HasPrefix(w, "VC") {
			continue
		}
		for _, p := range pairs(w) {
			if falling[p] {
				return true
			}
		}
	}
	return false
}

// Freezing says whether rain, drizzle or fog freezes to what it touches.
func (r Report) Freezing() bool { return r.has("FZ") }

func (r Report) has(pair string) bool {
	for _, w := range r.Weather {
		for _, p := range pairs(w) {
			if p == pair {
				return true
			}
		}
	}
	return false
}

// Hour returns the report as an hour of a course, at its minute of the UTC day.
// A minute of rain says nothing about the depth of an hour: rain is left out.
func (r Report) Hour() weather.Hour {
	return weather.Hour{Minute: r.Minute, Air: r.Air, Dew: r.Dew, Wind: r.Wind, Gust: r.Gust}
}

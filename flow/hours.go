package flow

import (
	"strconv"
	"strings"
	"time"

	"chargehand/calc/air"
	"chargehand/calc/plan"
	"chargehand/calc/sun"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
	"chargehand/flow/event"
)

// stamped is an hour of weather at its moment.
type stamped struct {
	at time.Time
	h  weather.Hour
}

// writeHour writes an hour as the record keeps it: minutes after the first, air,
// dew point, humidity, deck, wind, gust, rain; "-" where it was not given.
func writeHour(after time.Duration, h weather.Hour) string {
	cell := func(p *float64) string {
		if p == nil {
			return "-"
		}
		return strconv.FormatFloat(*p, 'f', -1, 64)
	}
	return strings.Join([]string{strconv.FormatFloat(after.Minutes(), 'f', -1, 64),
		cell((*float64)(h.Air)), cell((*float64)(h.Dew)), cell((*float64)(h.RH)), cell((*float64)(h.Surface)), cell((*float64)(h.Wind)), cell((*float64)(h.Gust)), cell((*float64)(h.Rain))}, " ")
}

// readHours reads what writeHour wrote. What is no hour ends it: a record written
// by this program has none.
func readHours(val event.Value) []stamped {
	if val.Unit != "hours" {
		return nil
	}
	var out []stamped
	for _, line := range strings.Split(val.Text, ";") {
		cells := strings.Fields(line)
		if len(cells) != 8 {
			return out
		}
		var n [8]*float64
		for i, c := range cells {
			if v, err := strconv.ParseFloat(c, 64); err == nil {
				n[i] = &v
			}
		}
		if n[0] == nil {
			return out
		}
		out = append(out, stamped{val.At.Add(time.Duration(*n[0] * float64(time.Minute))), weather.Hour{
			Air: (*unit.Celsius)(n[1]), Dew: (*unit.Celsius)(n[2]), RH: (*unit.Percent)(n[3]), Surface: (*unit.Celsius)(n[4]),
			Wind: (*unit.Speed)(n[5]), Gust: (*unit.Speed)(n[6]), Rain: (*unit.Length)(n[7])}})
	}
	return out
}

func hoursOf(s State) []stamped { return readHours(s.Settled[stepHours].Value) }

// courseFrom lays hours on an axis of minutes from a moment.
func courseFrom(list []stamped, from time.Time) weather.Course {
	var c weather.Course
	for _, s := range list {
		h := s.h
		h.Minute = unit.Minutes(s.at.Sub(from).Minutes())
		if n := len(c); n > 0 && h.Minute <= c[n-1].Minute {
			continue // an hour that a clock change shows twice
		}
		c = append(c, h)
	}
	return c
}

// nearHour is how far from an hour's own time it still speaks for.
const nearHour = 60 // min

// spoken is what the hours on record say of a moment, by the question it answers.
func spoken(s State, at time.Time) map[string]event.Value {
	c := courseFrom(hoursOf(s), at)
	if c.Check() != nil {
		return nil
	}
	first, last := c[0].Minute, c[len(c)-1].Minute
	if first > nearHour || last < -nearHour {
		return nil // they speak of another part of the day
	}
	when := min(max(0, first), last)
	h, err := c.At(when)
	if err != nil {
		return nil
	}
	out := map[string]event.Value{}
	if h.Air != nil {
		out[stepAir] = event.Of("celsius", tidy(float64(*h.Air)))
	}
	if h.RH == nil && h.Air != nil && h.Dew != nil {
		if rh, err := air.Humidity(*h.Air, *h.Dew); err == nil && rh >= 1 {
			h.RH = &rh
		}
	}
	if h.RH != nil {
		out[stepDamp] = event.Of("pct", tidy(float64(*h.RH)))
	}
	if h.Wind != nil {
		wind := event.Of("m_s", tidy(float64(*h.Wind)))
		if h.Gust != nil {
			wind.Nums = append(wind.Nums, max(wind.Num(), tidy(float64(*h.Gust))))
		}
		out[stepWind] = wind
	}
	if h.Surface != nil {
		out[stepDeck] = event.Of("celsius", tidy(float64(*h.Surface)))
	}
	if least, covered, err := c.Least(when, 24*unit.Hour); err == nil && (covered || last-when >= 12*60) {
		out[stepNight] = event.Of("celsius", tidy(float64(least)))
	}
	if in, wet, err := c.RainAfter(when); err == nil {
		switch {
		case wet && in+when <= 0:
			out[stepRain] = event.Word("pick", "now")
		case wet:
			out[stepRain] = moment(at.Add(time.Duration(float64(in+when) * float64(time.Minute))))
		case in >= 3*60:
			out[stepRain] = event.Word("pick", "none")
		}
	}
	return out
}

// weatherInto writes what the plan needs to know of the day: when the deck was
// read, the hours from then on, when rain is due.
func weatherInto(in *plan.Inputs, s State) {
	read := s.Settled[stepDeck]
	if read.At.IsZero() {
		return
	}
	local := read.At.In(location(s.Zone))
	_, ahead := local.Zone()
	in.Read = &plan.Reading{
		Day:   sun.Date{Year: local.Year(), Month: int(local.Month()), Day: local.Day()},
		Clock: unit.Minutes(float64(local.Hour()*60+local.Minute()) + float64(local.Second())/60),
		Ahead: unit.Minutes(float64(ahead) / 60),
	}
	if val := s.Settled[stepRain].Value; val.Unit == "time" {
		rain := max(0, unit.Minutes(val.At.Sub(read.At).Minutes()))
		in.RainIn = &rain
	}
	if c := courseFrom(hoursOf(s), read.At); len(c) > 0 && c.Check() == nil {
		in.Hours = c
	}
}

// hoursSpan says which hours a value holds.
func hoursSpan(val event.Value) (n int, from, to time.Time) {
	list := readHours(val)
	if len(list) == 0 {
		return 0, val.At, val.At
	}
	return len(list), list[0].at, list[len(list)-1].at
}

package flow

import (
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	"chargehand/calc/air"
	"chargehand/calc/plan"
	"chargehand/calc/sun"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
	"chargehand/flow/event"
	"chargehand/flow/hear/metar"
)

// At the weather questions a person may paste hours of a forecast, or an airfield's
// report (a METAR), instead of tapping. The hours are kept in one value, a line of
// numbers each; what they say for now answers the questions they speak of.

// oldReport is how old a report may be, and how far ahead of the clock.
const (
	oldReport   = 3 * time.Hour
	earlyReport = time.Hour
)

// pasted hears weather where the open question is one of the weather's. It says
// whether the text was weather at all.
func (t *turn) pasted(spec Spec, text string) bool {
	if !isWeatherStep(spec.ID) {
		return false
	}
	r, err := metar.Parse(text)
	if err == nil {
		t.report(spec, text, r)
		return true
	}
	if looksLikeReport(text, err) {
		t.refusePaste(spec, text, err)
		return true
	}
	hours, err := metar.Hourly(text, columnWords(t.in.By.Lang))
	switch {
	case err == nil:
		t.hours(text, hours)
		return true
	case strings.ContainsRune(strings.TrimSpace(text), '\n'):
		t.refusePaste(spec, text, err)
		return true
	}
	return false
}

func isWeatherStep(id string) bool { return slices.Contains(weatherSteps, id) }

// looksLikeReport says whether a text that was refused as a report was meant as one.
func looksLikeReport(text string, err error) bool {
	var r *metar.Refusal
	if errors.As(err, &r) && r.Key == metar.NotAReport {
		first, _, _ := strings.Cut(strings.TrimSpace(strings.ToUpper(text)), " ")
		return first == "METAR" || first == "SPECI"
	}
	return errors.As(err, &r) && (r.Key == metar.BadTime || r.Key == metar.NoValues)
}

func columnWords(lang string) metar.Words {
	if strings.HasPrefix(lang, "pl") {
		return metar.Polish()
	}
	return metar.English()
}

func (t *turn) refusePaste(spec Spec, text string, err error) {
	var r *metar.Refusal
	if !errors.As(err, &r) {
		return
	}
	t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: "paste." + dashed(string(r.Key)),
		Args: args("heard", event.Word("text", cut(r.Heard)), "line", event.Of("count", float64(max(r.Line, 1))), "example", event.Word("text", r.Example))})
}

// report takes a METAR: the hour it speaks of, and what it sees falling.
func (t *turn) report(spec Spec, text string, r metar.Report) {
	now := t.in.When().UTC()
	at := time.Date(now.Year(), now.Month(), r.Day, 0, 0, 0, 0, time.UTC).Add(time.Duration(float64(r.Minute) * float64(time.Minute)))
	if r.Day > now.Day()+1 { // the last of a month, read on the first
		at = time.Date(now.Year(), now.Month()-1, r.Day, 0, 0, 0, 0, time.UTC).Add(time.Duration(float64(r.Minute) * float64(time.Minute)))
	}
	if since := now.Sub(at); since > oldReport || since < -earlyReport {
		t.emit(event.Heard{Step: spec.ID, Said: cut(text), Key: "paste.old", Args: args("when", moment(at))})
		return
	}
	h := r.Hour()
	h.Minute = 0
	t.keepHours(text, []stamped{{at, h}})
	t.fromHours(text, at)
	switch {
	case r.Thunder():
		t.emit(event.Answered{Step: stepRain, Said: cut(text), Value: event.Word("pick", "thunder")})
	case r.Wet():
		t.emit(event.Answered{Step: stepRain, Said: cut(text), Value: event.Word("pick", "now")})
	}
}

// stamped is an hour of weather at its moment.
type stamped struct {
	at time.Time
	h  weather.Hour
}

// hours takes hours of a forecast, told on the site's clock. They begin today, or
// tomorrow where all of today's are past.
func (t *turn) hours(text string, c weather.Course) {
	now := t.in.When()
	zone := location(t.s.Zone)
	local := now.In(zone)
	first := 0
	if clock := unit.Minutes(local.Hour()*60 + local.Minute()); c[len(c)-1].Minute < clock-nearHour {
		first = 1
	}
	var list []stamped
	for _, h := range c {
		m := int(h.Minute)
		at := time.Date(local.Year(), local.Month(), local.Day()+first, m/60, m%60, 0, 0, zone).UTC()
		list = append(list, stamped{at, h})
	}
	t.keepHours(text, list)
	t.fromHours(text, now)
}

// keepHours puts hours into the record, beside those pasted before them that they
// do not replace: on a terminal each line comes by itself.
func (t *turn) keepHours(text string, list []stamped) {
	all := list
	for _, old := range hoursOf(t.s) {
		fresh := true
		for _, h := range list {
			fresh = fresh && !h.at.Equal(old.at)
		}
		if fresh && t.in.When().Sub(old.at) < 24*time.Hour {
			all = append(all, old)
		}
	}
	slices.SortFunc(all, func(a, b stamped) int { return a.at.Compare(b.at) })
	val := event.Value{Unit: "hours", At: all[0].at}
	var lines []string
	for _, h := range all {
		lines = append(lines, writeHour(h.at.Sub(val.At), h.h))
	}
	val.Text = strings.Join(lines, "; ")
	t.emit(event.Answered{Step: stepHours, Said: cut(text), Value: val})
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

// fromHours answers the weather questions that the hours speak of, as for a moment.
func (t *turn) fromHours(text string, at time.Time) {
	says := spoken(t.s, at)
	for _, step := range weatherSteps {
		val, ok := says[step]
		if set := t.s.Settled[step]; ok && !(set.Answer() && set.Value.Equal(val)) {
			t.emit(event.Answered{Step: step, Said: cut(text), Value: val})
		}
	}
}

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

// offerWeather is what the hours on record say for the time the deck was read, else
// what was answered last, else what is usual.
func offerWeather(id string, usual event.Value) func(View) (event.Value, bool) {
	return func(v View) (event.Value, bool) {
		at := v.S.LastAt
		if read := v.S.Settled[stepDeck]; read.Answer() {
			at = read.At
		}
		if val, ok := spoken(v.S, at)[id]; ok {
			return val, true
		}
		if val, ok := lastAnswer(id)(v); ok && (val.Unit != "time" || val.At.After(at)) {
			return val, true
		}
		return usual, usual.Unit != ""
	}
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

// readPlace reads latitude and longitude as maps and phones give them: "51.5 -0.1",
// "51.5074,-0.1278", "51.5 N 0.1 W".
func readPlace(text string) (event.Value, bool) {
	replace := strings.NewReplacer("°", " ", ";", " ", "−", "-", "n", " n ", "s", " s ", "e", " e ", "w", " w ")
	cells := strings.Fields(replace.Replace(strings.ToLower(strings.ReplaceAll(text, ", ", " "))))
	if len(cells) == 1 { // one comma between two numbers with points
		cells = strings.Split(cells[0], ",")
	}
	var nums []float64
	for _, c := range cells {
		if i := strings.Index("nsew", c); i >= 0 && len(c) == 1 {
			if len(nums) != 1+i/2 || nums[len(nums)-1] < 0 {
				return event.Value{}, false
			}
			if c == "s" || c == "w" {
				nums[len(nums)-1] *= -1
			}
			continue
		}
		c = strings.Trim(strings.Replace(strings.TrimSuffix(c, ","), ",", ".", 1), "+")
		if strings.ContainsAny(c, "x_") {
			return event.Value{}, false
		}
		n, err := strconv.ParseFloat(c, 64)
		if err != nil {
			return event.Value{}, false
		}
		nums = append(nums, n)
	}
	if len(nums) != 2 || nums[0] < -90 || nums[0] > 90 || nums[1] < -180 || nums[1] > 180 {
		return event.Value{}, false
	}
	return event.Of("degree", nums...), true
}

// hoursSpan says which hours a value holds.
func hoursSpan(val event.Value) (n int, from, to time.Time) {
	list := readHours(val)
	if len(list) == 0 {
		return 0, val.At, val.At
	}
	return len(list), list[0].at, list[len(list)-1].at
}

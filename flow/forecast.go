package flow

import (
	"errors"
	"slices"
	"strings"
	"time"

	"chargehand/calc/unit"
	"chargehand/calc/weather"
	"chargehand/flow/event"
	"chargehand/flow/hear/metar"
)

// At the weather questions a person may paste hours of a forecast, or an airfield's
// report (a METAR), instead of tapping. The hours are kept in one value, a line of
// numbers each; what they say for now answers the questions they speak of.

// oldReport is how old a report may be, and earlyReport how far ahead of the clock.
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

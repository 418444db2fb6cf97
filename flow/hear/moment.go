package hear

import (
	"math"
	"slices"
	"time"
)

// moments are the words of a language for time.
type moments struct {
	now        set // phrases
	months     map[string]int
	weekdays   map[string]int // Sunday is 0
	seasons    map[string]int // first month; meteorological, northern half of the world
	days       map[string]int // phrases: days from today
	this       set
	next       set
	last       set
	weekend    set
	week       set // "next WEEK", "friday WEEK"
	month      set
	year       set
	fortnight  map[string]float64 // words that are a number of days by themselves
	monthUnit  set                // after a number
	yearUnit   set
	ago        set // after a span
	ahead      set // before a span: in
	fromNow    set // after a span: from now
	am, pm     set // phrases
	noon       set
	midnight   set
	oclock     set
	past, to   set  // ten past four, quarter to nine
	halfAhead  bool // "half ten" is 10:30; false where nobody says so, or it is 9:30
	start      set  // phrases: start of, beginning of
	mid        set
	end        set
	fill       set // phrases
	monthFirst bool
	dayWords   map[string]int // "twelfth": 12
	hourWords  map[string]int // where an hour is an ordinal: "dziesiątej"
	dayEnds    set            // what follows the figures of an ordinal: th, st
}

// Years a moment may lie in; without a Now to count from a date falls outside.
const firstYear, lastYear = 1900, 2199

// day is one reading of the date in an answer.
type day struct {
	t time.Time // UTC stands for the wall clock of the site
	g Grain
}

// clockTime is a time of day in minutes. free: morning or evening was not said
// and both are possible.
type clockTime struct {
	min  int
	free bool
}

// momentParser reads the pieces of a moment in whatever order they come.
type momentParser struct {
	lineParser
	m       *moments
	w       Want
	today   time.Time
	days    []day
	clocks  []clockTime
	either  bool // days and clocks are two readings of the same words
	weekday int  // -1 when none was said
	half    int  // +1 pm, -1 am, 0 unsaid
	rel     *When
}

func (c Civil) at() time.Time {
	return time.Date(c.Year, time.Month(c.Month), c.Day, c.Hour, c.Minute, 0, 0, time.UTC)
}

func civil(t time.Time) Civil {
	return Civil{Year: t.Year(), Month: int(t.Month()), Day: t.Day(), Hour: t.Hour(), Minute: t.Minute()}
}

// moment reads "10:42", "in 10 min", "friday", "12 may", "spring", "2 weeks".
func (l *listener) moment() Heard {
	p := momentParser{m: &l.t.moments, w: l.w, weekday: -1}
	p.lineParser = lineParser{numberParser: numberParser{toks: l.toks, t: l.t}}
	p.dims = func(int) dimension { return duration }
	now := l.w.Now.at()
	p.today = time.Date(now.Year(), now.Month(), now.Day(), 0, 0, 0, 0, time.UTC)
	for i := 0; i < len(p.toks); {
		next := p.piece(i)
		if next == i {
			return l.refused(RefusedMoment)
		}
		i = next
	}
	found, unlikely := p.found(now)
	var s sensed
	for _, w := range found {
		s.cands = append(s.cands, candidate{v: Value{Kind: Time, When: w, Words: kept(l.said)}})
	}
	switch {
	case len(found) == 0, len(found) > mostOptions:
		return l.refused(RefusedMoment)
	case len(found) > 1 || unlikely:
		a := &Ambiguity{Heard: kept(l.said), Why: AskMoment}
		for _, c := range s.cands {
			a.Options = append(a.Options, Option{Values: []Value{c.v}})
		}
		return Heard{Ask: a}
	}
	return Heard{Values: []Value{s.cands[0].v}}
}

// piece reads one piece at token i and returns the token after it, or i.
func (p *momentParser) piece(i int) int {
	none := p.days == nil && p.clocks == nil && p.rel == nil
	if next := p.phrase(i, p.m.now); next > i && none {
		p.rel = &When{Relative: true}
		return next
	}
	if none {
		if next := p.span(i); next > i {
			return next
		}
	}
	if p.rel == nil {
		if next := p.date(i); next > i {
			return next
		}
		if p.clocks == nil {
			if next := p.clock(i); next > i {
				return next
			}
		}
		if next := p.phrase(i, p.m.am); next > i && p.half == 0 {
			p.half = -1
			return next
		}
		if next := p.phrase(i, p.m.pm); next > i && p.half == 0 {
			p.half = 1
			return next
		}
	}
	if next := p.phrase(i, p.m.fill); next > i {
		return next
	}
	if t := p.toks[i]; t.kind == mark && (t.text == "," || t.text == "." || t.text == "!" || t.text == "~") {
		return i + 1
	}
	return i
}

// span reads "in 10 min", "2 weeks", "half an hour ago", "a fortnight". Whole
// days, weeks and months are days of the calendar; anything shorter is exact.
func (p *momentParser) span(i int) int {
	ahead := p.is(i, p.m.ahead)
	at := i
	if ahead {
		at++
	}
	it, at, ok := p.spanNumber(at)
	if !ok {
		return i
	}
	n := it.fig.num
	var days, months float64
	exact := false
	switch {
	case p.m.fortnight[p.at(at).text] > 0:
		days = n * p.m.fortnight[p.at(at).text]
		at++
	case p.is(at, p.m.monthUnit):
		months = n
		at++
	case p.is(at, p.m.yearUnit):
		months = 12 * n
		at++
	default:
		at = p.measured(&it, at, 0)
		if it.units == nil || measures[it.units[0]].dim != duration {
			return i
		}
		if p.is(at, p.m.to) || p.is(at, p.m.past) {
			return i // ten minutes to eleven
		}
		id := it.units[0]
		if days = it.fig.num * measures[id].factor / 1440; id != "d" && id != "wk" || days != math.Trunc(days) {
			exact = true
		}
		if p.at(at-1).text == "m" && !p.w.Past && !ahead && it.fig.whole != "" && n <= 12 {
			months = n // "2m": minutes to some, months to others
		}
	}
	if months != math.Trunc(months) || days != math.Trunc(days) && !exact || months > 1200 || days > 40000 {
		return i
	}
	sign, at := p.direction(at, ahead)
	if exact {
		p.rel = &When{Relative: true, After: sign * base(it.fig.num, it.units[0])}
	} else if months == 0 {
		p.days = []day{{p.today.AddDate(0, 0, int(sign*days)), GrainDay}}
	}
	if months > 0 {
		t := p.today.AddDate(0, int(sign*months), 0)
		if t.Day() != p.today.Day() { // 31 January and a month: the last of February
			t = t.AddDate(0, 0, -t.Day())
		}
		p.days = []day{{t, GrainDay}}
	}
	return at
}

// spanNumber reads the number of a span: in figures or words, "a", or nothing
// at all where a language says "in week".
func (p *momentParser) spanNumber(i int) (it item, next int, ok bool) {
	it.fig = figure{num: 1, whole: "1"}
	long := func(i int) bool {
		return p.m.fortnight[p.at(i).text] > 0 || p.is(i, p.m.monthUnit) || p.is(i, p.m.yearUnit)
	}
	if _, _, half := p.part(i); !half {
		if at, ok := p.oneOf(i, 0); ok {
			return it, at, true
		}
		if p.is(i, p.t.one) && long(i+1) {
			return it, i + 1, true
		}
	}
	if p.t.bareOne && long(i) {
		return it, i, true
	}
	f, next, ok := p.figure(i)
	p.why = ""
	if !ok || f.slash || f.num < 0 || f.num > 1e6 {
		return it, i, false
	}
	it.fig = f
	return it, next, true
}

// direction reads "ago" or "from now" after a span. With neither, a moment that
// is asked for as past lies in the past.
func (p *momentParser) direction(i int, ahead bool) (sign float64, next int) {
	if p.is(i, p.m.ago) {
		return -1, i + 1
	}
	if next := p.phrase(i, p.m.fromNow); next > i {
		return 1, next
	}
	if p.w.Past && !ahead {
		return -1, i
	}
	return 1, i
}

// found combines the pieces.
func (p *momentParser) found(now time.Time) (out []When, unlikely bool) {
	add := func(t time.Time, g Grain) {
		w := When{At: civil(t), Grain: g}
		if t.Year() >= firstYear && t.Year() <= lastYear && !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	if p.either && p.half != 0 { // 12.05 pm is no date
		p.either, p.days = false, nil
	}
	if p.rel != nil {
		out = append(out, *p.rel)
		for _, d := range p.days { // 2m: minutes or months
			add(d.t, d.g)
		}
		return out, false
	}
	if p.weekday >= 0 && p.days != nil && !p.either {
		p.days = slices.DeleteFunc(p.days, func(d day) bool { return int(d.t.Weekday()) != p.weekday || d.g != GrainDay })
		if len(p.days) == 0 {
			return nil, false
		}
	} else if p.weekday >= 0 && p.days == nil {
		p.days = p.onWeekday(p.weekday)
	}
	clocks := p.halves()
	switch {
	case p.either && p.weekday >= 0: // friday 12.05
		for _, d := range p.onWeekday(p.weekday) {
			for _, t := range p.onDay(clocks, d.t, now) {
				add(t, GrainMinute)
			}
		}
		for _, d := range p.days {
			if int(d.t.Weekday()) == p.weekday {
				add(d.t, d.g)
			}
		}
	case p.either:
		ts, _ := p.free(clocks, now)
		for _, t := range ts {
			add(t, GrainMinute)
		}
		for _, d := range p.days {
			add(d.t, d.g)
		}
	case p.days == nil && clocks == nil:
		return nil, false
	case clocks == nil:
		for _, d := range p.days {
			add(d.t, d.g)
		}
	case p.days == nil:
		var ts []time.Time
		ts, unlikely = p.free(clocks, now)
		for _, t := range ts {
			add(t, GrainMinute)
		}
	default:
		for _, d := range p.days {
			if d.g != GrainDay {
				return nil, false
			}
			for _, c := range p.onDay(clocks, d.t, now) {
				add(c, GrainMinute)
			}
		}
	}
	return out, unlikely
}

// halves applies "am", "in the evening" to the clock times. Times that can't be
// so are dropped.
func (p *momentParser) halves() []clockTime {
	if p.half == 0 || p.clocks == nil {
		return p.clocks
	}
	out := []clockTime{}
	for _, c := range p.clocks {
		h := c.min / 60
		switch {
		case p.half < 0 && h == 12:
			c.min -= 720
		case p.half > 0 && h < 12 && (c.free || h > 0):
			c.min += 720
		case p.half < 0 && h > 12:
			continue
		}
		c.free = false
		out = append(out, c)
	}
	return out
}

// night ends: nobody means three in the morning on a roof without saying so.
const dayBegins = 6 * 60

// free places a clock time without a date: for a moment to come the next one,
// for one gone by the last one. Where morning and evening are both likely, or
// only another day can hold it, there are several answers or an odd one.
func (p *momentParser) free(clocks []clockTime, now time.Time) (out []time.Time, unlikely bool) {
	const skew = 2 * time.Minute // two clocks on one site never agree
	for _, c := range clocks {
		t := p.today.Add(time.Duration(c.min) * time.Minute)
		evening := t.Add(12 * time.Hour)
		day := 24 * time.Hour
		if p.w.Past {
			gone := func(t time.Time) bool { return !t.After(now.Add(skew)) }
			switch {
			case !c.free && gone(t):
				out = append(out, t)
			case !c.free:
				out = append(out, t.Add(-day))
				unlikely = true
			case gone(evening) && c.min < dayBegins:
				out = append(out, evening)
			case gone(evening):
				out = append(out, evening, t)
			case gone(t) && c.min >= dayBegins:
				out = append(out, t)
			case gone(t):
				out = append(out, t, evening.Add(-day))
			default:
				out = append(out, evening.Add(-day), t.Add(-day))
			}
			continue
		}
		coming := func(t time.Time) bool { return !t.Before(now.Add(-skew)) }
		switch {
		case coming(t) && (!c.free || c.min >= dayBegins):
			out = append(out, t)
		case coming(t):
			out = append(out, evening, t)
		case !c.free:
			out = append(out, t.Add(day))
		case coming(evening) && c.min < dayBegins:
			out = append(out, evening)
		case coming(evening):
			out = append(out, evening, t.Add(day))
		case c.min < dayBegins:
			out = append(out, evening.Add(day), t.Add(day))
		default:
			out = append(out, t.Add(day))
		}
	}
	return out, unlikely
}

// onDay places clock times on a given day. An hour from one to five may be
// afternoon; from six on it is what it says.
func (p *momentParser) onDay(clocks []clockTime, d, now time.Time) []time.Time {
	var out []time.Time
	for _, c := range clocks {
		t := d.Add(time.Duration(c.min) * time.Minute)
		pm := t.Add(12 * time.Hour)
		switch gone := func(t time.Time) bool { return t.Before(now) }; {
		case !c.free:
			out = append(out, t)
		case d.Equal(p.today) && p.w.Past && gone(t) && !gone(pm), d.Equal(p.today) && !p.w.Past && !gone(t) && c.min >= dayBegins:
			out = append(out, t)
		case d.Equal(p.today) && !p.w.Past && gone(t) && !gone(pm):
			out = append(out, pm)
		case c.min >= dayBegins && !d.Equal(p.today):
			out = append(out, t)
		default:
			out = append(out, pm, t)
		}
	}
	return out
}

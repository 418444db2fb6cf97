package hear

import (
	"strconv"
	"time"
)

// date reads one date at token i: a day by name, a weekday, a date in figures
// or words, a month, a season.
func (p *momentParser) date(i int) int {
	if p.either { // 12.05 tomorrow: it was a time of day
		days := p.days
		p.days, p.either = nil, false
		for _, read := range []func(int) int{p.namedDay, p.weekdayAt} {
			if next := read(i); next > i {
				return next
			}
		}
		p.days, p.either = days, true
		return i
	}
	if p.days == nil {
		for _, read := range []func(int) int{p.namedDay, p.figures, p.written, p.season, p.month, p.week, p.nth} {
			if next := read(i); next > i {
				return next
			}
		}
	}
	if p.weekday < 0 {
		return p.weekdayAt(i)
	}
	return i
}

func (p *momentParser) set(ds ...day) { p.days = ds }

// namedDay reads "tomorrow", "the day after tomorrow".
func (p *momentParser) namedDay(i int) int {
	text, best := "", i
	for k := i; k < len(p.toks) && k < i+5; k++ {
		if k > i {
			text += " "
		}
		text += p.toks[k].text
		if n, ok := p.m.days[text]; ok {
			p.set(day{p.today.AddDate(0, 0, n), GrainDay})
			best = k + 1
		}
	}
	return best
}

// figures reads 2026-05-12, 12/5/26, 12.5., 12/5. Where day and month could
// change places it keeps both; 12.05 is a time of day as well.
func (p *momentParser) figures(i int) int {
	a := p.at(i)
	if a.kind != digits {
		return i
	}
	sep := p.at(i + 1)
	if sep.kind != mark || sep.space || sep.text != "/" && sep.text != "." && sep.text != "-" || !p.glued(i+2, digits) {
		return i
	}
	b := p.at(i + 2)
	x, y := small(a.text), small(b.text)
	third := ""
	next := i + 3
	if t := p.at(i + 3); t.kind == mark && t.text == sep.text && !t.space && p.glued(i+4, digits) {
		third = p.at(i + 4).text
		next = i + 5
	} else if t.kind == mark && t.text == "." && sep.text == "." && !t.space {
		next = i + 4 // 12.5.
	}
	if len(a.text) == 4 { // 2026-05-12
		if third == "" || !p.add(small(a.text), y, small(third)) {
			return i
		}
		return next
	}
	if len(a.text) > 2 || len(b.text) > 2 {
		return i
	}
	year := 0
	switch len(third) {
	case 0:
	case 2:
		year = 2000 + small(third)
	case 4:
		year = small(third)
	default:
		return i
	}
	p.add(year, y, x)
	if p.m.monthFirst && sep.text == "/" && x != y {
		p.add(year, x, y)
	}
	if third == "" && sep.text == "." && next == i+3 && len(b.text) == 2 && p.clocks == nil {
		if c, ok := p.hourMinute(x, y, a.text); ok {
			p.clocks = []clockTime{c}
			p.either = p.days != nil
		}
	}
	if p.days == nil && p.clocks == nil {
		return i
	}
	return next
}

// small reads a short run of digits; -1 when it is too long to be part of a date.
func small(s string) int {
	if len(s) > 4 {
		return -1
	}
	n, _ := strconv.Atoi(s) // digits only
	return n
}

// add adds a date if it exists. Year 0 is the nearest that fits the question.
func (p *momentParser) add(year, month, dayOf int) bool {
	if month < 1 || month > 12 || dayOf < 1 || dayOf > 31 || year < 0 || year != 0 && (year < firstYear || year > lastYear) {
		return false
	}
	if year == 0 {
		year = p.today.Year()
		at := func() time.Time { return time.Date(year, time.Month(month), dayOf, 0, 0, 0, 0, time.UTC) }
		step := 1
		if p.w.Past {
			step = -1
		}
		for range 9 { // 29 February can be eight years off
			t := at()
			if t.Day() == dayOf && (!p.w.Past && !t.Before(p.today) || p.w.Past && !t.After(p.today)) {
				p.days = append(p.days, day{t, GrainDay})
				return true
			}
			year += step
		}
		return false
	}
	t := time.Date(year, time.Month(month), dayOf, 0, 0, 0, 0, time.UTC)
	if t.Day() != dayOf {
		return false
	}
	p.days = append(p.days, day{t, GrainDay})
	return true
}

// dayNumber reads "12", "12th", "twelfth".
func (p *momentParser) dayNumber(i int) (n, next int) {
	t := p.at(i)
	if t.kind == digits && len(t.text) <= 2 {
		n = small(t.text)
		if _, month := p.monthName(i + 1); p.glued(i+1, word) && !month { // 12may
			if _, ok := p.t.ordinals[t.text+p.at(i+1).text]; !ok && !p.m.dayEnds[p.at(i+1).text] {
				return 0, i
			}
			return n, i + 2
		}
		if p.isMark(i+1, ".") && !p.at(i+1).space && !p.glued(i+2, digits) {
			return n, i + 2
		}
		return n, i + 1
	}
	if t.kind == word {
		if n := p.m.dayWords[t.text]; n > 0 {
			if u := p.m.dayWords[p.at(i+1).text]; n >= 20 && u > 0 && u < 10 { // dwudziestego pierwszego
				return n + u, i + 2
			}
			return n, i + 1
		}
		if tens, ok := p.numeral(i); ok && tens.class == tenWord { // twenty first
			if u := p.m.dayWords[p.at(p.dash(i+1)).text]; u > 0 && u < 10 {
				return int(tens.n) + u, p.dash(i+1) + 1
			}
		}
		if v, next, ok := p.cardinal(i); ok && v >= 1 && v <= 31 {
			return int(v), next
		}
	}
	return 0, i
}

// written reads "12 may", "12th of may 2027", "may 12th".
func (p *momentParser) written(i int) int {
	if m, ok := p.monthName(i); ok {
		n, next := p.dayNumber(p.phrase(i+1, p.m.fill))
		if n == 0 || p.at(next).text == ":" || p.phrase(next, p.m.am) > next || p.phrase(next, p.m.pm) > next {
			return i
		}
		year, end := p.yearAt(next)
		if !p.add(year, m, n) {
			return i
		}
		return end
	}
	n, next := p.dayNumber(i)
	if n == 0 {
		return i
	}
	next = p.phrase(next, p.t.of)
	m, ok := p.monthName(next)
	if !ok {
		return i
	}
	year, end := p.yearAt(next + 1)
	if !p.add(year, m, n) {
		return i
	}
	return end
}

func (p *momentParser) monthName(i int) (int, bool) {
	if p.at(i).kind != word {
		return 0, false
	}
	m, ok := p.m.months[p.at(i).text]
	return m, ok
}

// yearAt reads a year of four digits after a date.
func (p *momentParser) yearAt(i int) (year, next int) {
	at := i
	if p.isMark(at, ",") || p.isMark(at, ".") {
		at++
	}
	if t := p.at(at); t.kind == digits && len(t.text) == 4 && !p.isMark(at+1, ":") {
		if y := small(t.text); y >= firstYear && y <= lastYear {
			return y, at + 1
		}
	}
	return 0, i
}

// season reads "spring", "next autumn", "summer 2027".
func (p *momentParser) season(i int) int {
	at, shift := p.which(i)
	m, ok := p.m.seasons[p.at(at).text]
	if !ok || p.at(at).kind != word {
		return i
	}
	year, next := p.yearAt(at + 1)
	p.set(p.comingMonth(year, m, shift, GrainSeason)...)
	return next
}

// month reads "may", "next june", "end of may", "march 2027".
func (p *momentParser) month(i int) int {
	at, place := i, 0
	for n, s := range []set{p.m.start, p.m.mid, p.m.end} {
		if next := p.phrase(i, s); next > at {
			at, place = next, n+1
		}
	}
	at2, shift := p.which(at)
	var ds []day
	next := at2 + 1
	if m, ok := p.monthName(at2); ok {
		var year int
		year, next = p.yearAt(at2 + 1)
		ds = p.comingMonth(year, m, shift, GrainMonth)
	} else if p.is(at2, p.m.month) && (shift != noShift || place > 0) {
		first := p.today.AddDate(0, 0, 1-p.today.Day())
		switch shift {
		case nextShift:
			first = first.AddDate(0, 1, 0)
		case lastShift:
			first = first.AddDate(0, -1, 0)
		}
		ds = []day{{first, GrainMonth}}
	} else {
		return i
	}
	for k, d := range ds {
		if place == 0 {
			break
		}
		at := func(first time.Time) time.Time {
			switch place {
			case 2:
				return first.AddDate(0, 0, 14)
			case 3:
				return first.AddDate(0, 1, -1)
			}
			return first
		}
		ds[k] = day{at(d.t), GrainDay}
		if early := at(d.t.AddDate(-1, 0, 0)); !p.w.Past && shift != nextShift && !early.Before(p.today) {
			ds[k].t = early // the end of this very month
		}
	}
	p.set(ds...)
	return next
}

// comingMonth returns the first day of month m: of the year said, or the next
// one that begins after today (the last one that has begun, for a moment gone by).
func (p *momentParser) comingMonth(year, m int, s shift, g Grain) []day {
	first := func(y int) time.Time { return time.Date(y, time.Month(m), 1, 0, 0, 0, 0, time.UTC) }
	if year != 0 {
		return []day{{first(year), g}}
	}
	y := p.today.Year()
	if p.w.Past || s == lastShift {
		if first(y).After(p.today) {
			y--
		}
		return []day{{first(y), g}}
	}
	if !first(y).After(p.today) {
		y++
	}
	return []day{{first(y), g}}
}

type shift uint8

const (
	noShift shift = iota
	thisShift
	nextShift
	lastShift
)

// which reads "this", "next", "last" at i.
func (p *momentParser) which(i int) (int, shift) {
	switch {
	case p.is(i, p.m.this):
		return i + 1, thisShift
	case p.is(i, p.m.next):
		return i + 1, nextShift
	case p.is(i, p.m.last):
		return i + 1, lastShift
	}
	return i, noShift
}

// week reads "next week", "the weekend", "next year".
func (p *momentParser) week(i int) int {
	at, s := p.which(i)
	monday := p.today.AddDate(0, 0, -(int(p.today.Weekday())+6)%7)
	steps := map[shift]int{nextShift: 1, lastShift: -1}[s]
	if next := p.phrase(at, p.m.weekend); next > at {
		saturday := monday.AddDate(0, 0, 5+7*steps)
		p.set(day{saturday, GrainDay})
		if s == nextShift && p.today.Weekday() != time.Saturday && p.today.Weekday() != time.Sunday {
			p.set(day{saturday.AddDate(0, 0, -7), GrainDay}, day{saturday, GrainDay}) // this one, or the one after
		}
		return next
	}
	switch {
	case s == noShift:
		return i
	case p.is(at, p.m.week):
		p.set(day{monday.AddDate(0, 0, 7*steps), GrainWeek})
	case p.is(at, p.m.year) && s == nextShift:
		p.set(day{time.Date(p.today.Year()+1, 1, 1, 0, 0, 0, 0, time.UTC), GrainMonth})
	default:
		return i
	}
	return at + 1
}

// nth reads "the 12th" as the nearest twelfth that fits the question.
func (p *momentParser) nth(i int) int {
	n, next := p.dayNumber(i)
	if n == 0 || n > 31 || next == i+1 && p.at(i).kind == digits || p.at(i).kind == word && p.m.dayWords[p.at(i).text] == 0 && next == i+1 {
		return i
	}
	step := 1
	if p.w.Past {
		step = -1
	}
	first := p.today.AddDate(0, 0, 1-p.today.Day())
	for k := range 13 {
		t := first.AddDate(0, step*k, n-1)
		if t.Day() == n && (!p.w.Past && !t.Before(p.today) || p.w.Past && !t.After(p.today)) {
			p.set(day{t, GrainDay})
			return next
		}
	}
	return i
}

// weekdayAt reads "friday", "next friday", "friday week". A plain weekday waits:
// a date may come with it.
func (p *momentParser) weekdayAt(i int) int {
	at, s := p.which(i)
	wd, ok := p.m.weekdays[p.at(at).text]
	if !ok || p.at(at).kind != word {
		return i
	}
	next := at + 1
	if p.is(next, p.m.week) && s == noShift && p.days == nil {
		p.set(day{p.coming(wd, 1).AddDate(0, 0, 7), GrainDay})
		p.weekday = wd
		return next + 1
	}
	p.weekday = wd
	if p.days != nil {
		return next
	}
	switch s {
	case thisShift:
		p.set(day{p.coming(wd, 0), GrainDay})
	case nextShift: // the coming one to some, the one after to others
		first := p.coming(wd, 1)
		p.set(day{first, GrainDay}, day{first.AddDate(0, 0, 7), GrainDay})
	case lastShift:
		p.set(day{p.coming(wd, 0).AddDate(0, 0, -7), GrainDay})
	}
	return next
}

// coming is the first day with that weekday, from days from today on.
func (p *momentParser) coming(wd, from int) time.Time {
	t := p.today.AddDate(0, 0, from)
	return t.AddDate(0, 0, (wd-int(t.Weekday())+7)%7)
}

// onWeekday is a plain weekday: the nearest one that fits the question; both
// when it is today's own.
func (p *momentParser) onWeekday(wd int) []day {
	t := p.coming(wd, 0)
	if p.w.Past {
		if t.Equal(p.today) {
			return []day{{t, GrainDay}, {t.AddDate(0, 0, -7), GrainDay}}
		}
		return []day{{t.AddDate(0, 0, -7), GrainDay}}
	}
	if t.Equal(p.today) {
		return []day{{t, GrainDay}, {t.AddDate(0, 0, 7), GrainDay}}
	}
	return []day{{t, GrainDay}}
}

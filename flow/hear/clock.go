package hear

// clock reads a time of day at token i: 10:42, 10.42, 1042, 10am, half past
// ten, quarter to nine, ten thirty, noon.
func (p *momentParser) clock(i int) int {
	if next := p.phrase(i, p.m.noon); next > i {
		p.clocks = []clockTime{{min: 720}}
		return next
	}
	if next := p.phrase(i, p.m.midnight); next > i {
		p.clocks = []clockTime{{min: 0}}
		if p.days != nil || p.weekday >= 0 {
			p.clocks = append(p.clocks, clockTime{min: 1440}) // its beginning or its end
		} else if !p.w.Past {
			p.clocks[0].min = 1440
		}
		return next
	}
	if next := p.pastOrTo(i); next > i {
		return next
	}
	if i > 0 && p.is(i-1, p.m.ahead) {
		return i // "in 10": ten what?
	}
	t := p.at(i)
	if t.kind == digits {
		return p.clockFigures(i)
	}
	h, next, ok := p.hourSaid(i)
	if !ok || h > 24 {
		return i
	}
	m := 0.0
	if n, is := p.numeral(next); is && n.class == unitWord && n.n == 0 { // ten oh five
		if u, is := p.numeral(next + 1); is && u.class == unitWord {
			m, next = u.n, next+2
		}
	} else if v, end, ok := p.cardinal(next); ok && v >= 10 && v < 60 { // ten thirty
		m, next = v, end
	}
	c, ok := p.hourMinute(int(h), int(m), "")
	if !ok {
		return i
	}
	p.clocks = []clockTime{c}
	return p.phrase(next, p.m.oclock)
}

func (p *momentParser) clockFigures(i int) int {
	t := p.at(i)
	sep := p.at(i + 1)
	if len(t.text) == 4 && !(sep.kind == mark && !sep.space && (sep.text == ":" || sep.text == "/" || sep.text == "-")) {
		n := small(t.text)
		c, ok := p.hourMinute(n/100, n%100, "0")
		if !ok {
			return i
		}
		p.clocks = []clockTime{c}
		return i + 1
	}
	if len(t.text) > 2 {
		return i
	}
	h, m, next := small(t.text), 0, i+1
	if sep.kind == mark && (sep.text == ":" || sep.text == "." || sep.text == "'") && !sep.space && p.glued(i+2, digits) {
		if len(p.at(i+2).text) != 2 {
			return i
		}
		m, next = small(p.at(i+2).text), i+3
		if p.isMark(next, ":") && p.glued(next+1, digits) && len(p.at(next+1).text) == 2 && small(p.at(next+1).text) < 60 {
			next += 2 // seconds are nobody's business here
		}
	}
	c, ok := p.hourMinute(h, m, t.text)
	if !ok {
		return i
	}
	p.clocks = []clockTime{c}
	return p.phrase(next, p.m.oclock)
}

// hourMinute checks a time of day. written is the hour as typed: one with a
// leading zero is on the 24-hour clock.
func (p *momentParser) hourMinute(h, m int, written string) (clockTime, bool) {
	if h < 0 || h > 24 || m < 0 || m > 59 || h == 24 && m > 0 {
		return clockTime{}, false
	}
	zero := written != "" && written[0] == '0'
	return clockTime{min: h*60 + m, free: h >= 1 && h <= 11 && !zero}, true
}

// pastOrTo reads "half past ten", "quarter to nine", "twenty past four", and
// "half ten" where that is said.
func (p *momentParser) pastOrTo(i int) int {
	var minutes float64
	next := i
	if f, at, ok := p.figure(i + 1); ok && p.is(i, p.m.ahead) && p.m.hourWords[p.at(at).text] > 0 && f.num < 60 { // za dziesięć dziesiąta
		if hour, end, ok := p.hourSaid(at); ok {
			total := int(hour*60 - f.num)
			if c, ok := p.hourMinute(total/60, total%60, ""); ok {
				p.clocks = []clockTime{c}
				return end
			}
		}
	}
	p.why = ""
	if part, at, ok := p.part(i); ok {
		minutes, next = part*60, at
	} else if f, at, ok := p.figure(i); ok && f.whole != "" && f.num < 60 {
		minutes, next = f.num, at
		if ids, end := p.unit(at, 0); ids != nil && ids[0] == "min" {
			next = end
		}
	} else {
		p.why = ""
		return i
	}
	sign := 1.0
	switch {
	case p.is(next, p.m.past):
		next++
	case p.is(next, p.m.to):
		sign = -1
		next++
	case p.m.halfAhead && minutes == 30 && p.at(i).kind == word:
	default:
		return i
	}
	hour, end, ok := p.hourSaid(next)
	if !ok || hour > 24 || minutes != float64(int(minutes)) {
		return i
	}
	total := int(hour)*60 + int(sign*minutes)
	if total < 0 {
		total += 1440
	}
	c, ok := p.hourMinute(total/60, total%60, "")
	if !ok {
		return i
	}
	c.free = c.free || hour == 12 && sign < 0
	if hour == 1 && sign < 0 { // quarter to one is 12:45
		c.min, c.free = 720+int(60-minutes), false
	}
	p.clocks = []clockTime{c}
	return p.phrase(end, p.m.oclock)
}

// hourSaid reads an hour in figures or words.
func (p *momentParser) hourSaid(i int) (h float64, next int, ok bool) {
	if t := p.at(i); t.kind == word {
		if h, ok := p.m.hourWords[t.text]; ok {
			if n, ok := p.m.hourWords[p.at(i+1).text]; ok && h == 20 && n < 5 { // dwudziestej drugiej
				return float64(h + n), i + 2, true
			}
			return float64(h), i + 1, true
		}
	} else if t.kind == digits && len(t.text) <= 2 {
		return float64(small(t.text)), i + 1, true
	}
	return p.cardinal(i)
}

package hear

import (
	"math"
	"strconv"
	"strings"
)

// reading is one way to take the signs that have more than one meaning. A text
// is parsed once under each reading it gives cause for.
type reading struct {
	comma commaSense
	group bool // "5 500" is one number
	run   bool // "twenty four forty" is 2440
	dot   bool // "1.200" is 1200
	apart bool // "8ft 4in" are two values
}

type commaSense uint8

const (
	commaDecimal commaSense = iota
	commaGroups
	commaList
)

// figure is a number as written or spoken, before its unit is known.
type figure struct {
	num      float64
	whole    string  // its digits when it is a plain whole number ("05", "40"); "" otherwise
	lead     float64 // "two ninety": the 2; 0 otherwise
	slash    bool    // written n/d or n:d and nothing else
	colon    bool    // written n:d
	over     float64 // the d
	part     bool    // a fraction word: half, quarter
	long     bool    // four digits or more before the point and three or more after
	from, to int
}

// numberParser reads figures from tokens under one reading.
type numberParser struct {
	toks []token
	t    *tongue
	r    reading
	why  string
}

func (p *numberParser) at(i int) token {
	if i < len(p.toks) {
		return p.toks[i]
	}
	return token{kind: mark}
}

func (p *numberParser) isMark(i int, s string) bool {
	return i < len(p.toks) && p.toks[i].kind == mark && p.toks[i].text == s
}

// glued: the token at i exists, has no space before it, and is of kind k.
func (p *numberParser) glued(i int, k tokenKind) bool {
	return i < len(p.toks) && p.toks[i].kind == k && !p.toks[i].space
}

func (p *numberParser) is(i int, s set) bool {
	return i < len(p.toks) && (p.toks[i].kind == word || p.toks[i].kind == mark) && s[p.toks[i].text]
}

// figure reads one number at token i and returns the token after it. ok is
// false when none begins there, or with p.why set when one begins that can't be read.
func (p *numberParser) figure(i int) (f figure, next int, ok bool) {
	start := i
	neg := false
	if p.is(i, p.t.minus) {
		neg = true
		i++
	} else if p.isMark(i, "-") && (p.glued(i+1, digits) || p.glued(i+1, vulgar) || p.isMark(i+1, ".")) &&
		(i == 0 || p.toks[i].space || p.isMark(i-1, ",") || p.isMark(i-1, ";")) { // "10-15" has no minus in it
		neg = true
		i++
	} else if p.isMark(i, "+") && p.glued(i+1, digits) && (i == 0 || p.toks[i].space) {
		i++
	}
	switch tok := p.at(i); tok.kind {
	case digits:
		f, next, ok = p.written(i)
	case vulgar:
		f, next, ok = figure{num: tok.num}, i+1, true
	case word:
		f, next, ok = p.spoken(i)
	case mark:
		if tok.text == "." && p.glued(i+1, digits) && (i == 0 || tok.space || p.toks[i-1].kind == mark && p.toks[i-1].text != ".") {
			f.num, ok = p.parse("0." + p.at(i+1).text)
			next = i + 2
		}
	}
	if !ok || p.why != "" {
		return figure{}, i, false
	}
	if neg {
		f.num, f.whole, f.lead, f.slash = -f.num, "", 0, false
	}
	f.from, f.to = p.toks[start].from, p.toks[next-1].to
	return f, next, true
}

func (p *numberParser) parse(s string) (float64, bool) {
	if len(s) > 40 {
		p.why = RefusedNumber
		return 0, false
	}
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		p.why = RefusedNumber
		return 0, false
	}
	return v, true
}

// written reads digits with whatever points, commas, groups and fractions follow.
func (p *numberParser) written(i int) (f figure, next int, ok bool) {
	first := p.toks[i].text
	whole, frac, i := p.decimal(i)
	if p.why != "" {
		return f, i, false
	}
	if frac != "" {
		v, ok := p.parse(whole + "." + frac)
		return figure{num: v, long: len(first) > 3 && len(frac) > 2 && strings.Trim(frac, "0") != ""}, i, ok
	}
	v, ok := p.parse(whole)
	if !ok {
		return f, i, false
	}
	switch {
	case p.is(i, p.t.point): // 5 point 4
		if s, end := p.decimals(i + 1); s != "" {
			v, ok := p.parse(whole + "." + s)
			return figure{num: v}, end, ok
		}
	case p.at(i).kind == vulgar && !p.at(i).line: // 8½
		return figure{num: v + p.at(i).num}, i + 1, true
	case (p.isMark(i, "/") || p.isMark(i, ":")) && p.at(i+1).kind == digits && p.at(i).space == p.at(i+1).space:
		d, ok := p.parse(p.at(i + 1).text)
		if !ok || d == 0 {
			p.why = RefusedNumber
			return f, i, false
		}
		return figure{num: v / d, slash: true, colon: p.isMark(i, ":"), over: d}, i + 2, true
	}
	if n, d, at, ok := p.mixed(i); ok { // 8 1/2
		return figure{num: v + n/d}, at, true
	}
	if num, is := p.numeral(i); is && num.class == timesWord {
		return p.times(v, num.n, i+1)
	}
	if part, at, ok := p.andPart(i); ok { // 5 and a half
		return figure{num: v + part}, at, true
	}
	return figure{num: v, whole: whole}, i, true
}

// times reads what follows "24 hundred", "5 thousand": after a thousand in
// figures the rest may be in figures too, "5 thousand 400".
func (p *numberParser) times(v, by float64, i int) (f figure, next int, ok bool) {
	v *= by
	if by == 1000 && p.at(i).kind == digits && p.at(i).space && !p.at(i).line && len(p.at(i).text) <= 3 {
		if rest, next, ok := p.written(i); ok && rest.num < 1000 && rest.num == math.Trunc(rest.num) {
			return figure{num: v + rest.num}, next, true
		}
		p.why = ""
	}
	return figure{num: v}, i, true
}

// decimal reads the digits before and after the point of the number at i, taking
// commas, points and spaces as the reading says. Digits that don't fit it set p.why.
func (p *numberParser) decimal(i int) (whole, frac string, next int) {
	whole = p.toks[i].text
	groupable := len(whole) <= 3 && whole[0] != '0'
	i++
	if p.r.group && groupable {
		for p.at(i).kind == digits && p.at(i).space && !p.at(i).line && len(p.at(i).text) == 3 {
			whole += p.at(i).text
			groupable = false
			i++
		}
	}
	follows := func(at int, sep string) bool { return p.isMark(at, sep) && !p.at(at).space && p.glued(at+1, digits) }
	// groups counts the glued groups of digits that follow; threes says that all are thousands
	groups := func(sep string) (n int, threes bool) {
		threes = groupable
		for ; follows(i+2*n, sep); n++ {
			threes = threes && len(p.at(i+2*n+1).text) == 3
		}
		return n, threes
	}
	take := func(n int) {
		for range n {
			whole += p.at(i + 1).text
			i += 2
		}
	}
	if p.r.comma == commaGroups && follows(i, ",") {
		n, threes := groups(",")
		if !threes {
			p.why = RefusedNumber
			return "", "", i
		}
		take(n)
	}
	switch n, threes := groups("."); {
	case n == 0:
	case threes && (n > 1 || p.r.dot || p.r.comma == commaDecimal && follows(i+2, ",")): // 1.200.300, 1.200,5
		take(n)
	case n == 1:
		frac = p.at(i + 1).text
		i += 2
	default:
		p.why = RefusedNumber
		return "", "", i
	}
	if p.r.comma == commaDecimal && follows(i, ",") {
		if frac != "" {
			p.why = RefusedNumber
			return "", "", i
		}
		frac = p.at(i + 1).text
		i += 2
	}
	return whole, frac, i
}

// mixed reads the fraction of "8 1/2" or "8-1/2" that begins at i.
func (p *numberParser) mixed(i int) (n, d float64, next int, ok bool) {
	if p.isMark(i, "-") && !p.at(i).space && p.glued(i+1, digits) {
		i++
	} else if !(p.at(i).kind == digits && p.at(i).space && !p.at(i).line) {
		return 0, 0, i, false
	}
	if !p.isMark(i+1, "/") || p.at(i+1).space || !p.glued(i+2, digits) || len(p.at(i).text) > 2 || len(p.at(i+2).text) > 2 {
		return 0, 0, i, false
	}
	n, _ = strconv.ParseFloat(p.at(i).text, 64)
	d, _ = strconv.ParseFloat(p.at(i+2).text, 64)
	return n, d, i + 3, n > 0 && n < d
}

// andPart reads "and a half", "and three quarters", "and 5/8".
func (p *numberParser) andPart(i int) (part float64, next int, ok bool) {
	if !p.is(i, p.t.and) {
		return 0, i, false
	}
	if p.at(i+1).kind == vulgar {
		return p.at(i + 1).num, i + 2, true
	}
	if n, d, at, ok := p.mixed(i + 1); ok {
		return n / d, at, true
	}
	return p.part(i + 1)
}

// part reads "half", "a quarter", "three eighths".
func (p *numberParser) part(i int) (v float64, next int, ok bool) {
	times := 1.0
	if p.is(i, p.t.one) {
		i++
	} else if n, is := p.numeral(i); is && n.class == unitWord && n.n > 0 {
		if after, is := p.numeral(i + 1); is && after.class == partWord {
			times = n.n
			i++
		}
	}
	n, is := p.numeral(i)
	if !is || n.class != partWord || times*n.n >= 1 {
		return 0, i, false
	}
	return times * n.n, i + 1, true
}

func (p *numberParser) numeral(i int) (numeral, bool) {
	if p.at(i).kind != word {
		return numeral{}, false
	}
	n, ok := p.t.numerals[p.at(i).text]
	return n, ok
}

// dash skips the hyphen of "twenty-four".
func (p *numberParser) dash(i int) int {
	if p.isMark(i, "-") && !p.at(i).space && p.glued(i+1, word) {
		return i + 1
	}
	return i
}

// spoken reads a number in words.
func (p *numberParser) spoken(i int) (f figure, next int, ok bool) {
	if v, at, ok := p.part(i); ok {
		return figure{num: v, part: true}, at, true
	}
	if p.is(i, p.t.point) {
		if s, at := p.decimals(i + 1); s != "" {
			v, ok := p.parse("0." + s)
			return figure{num: v}, at, ok
		}
		return f, i, false
	}
	if n, is := p.numeral(i); is && n.class == aloneWord {
		return figure{num: n.n}, i + 1, true
	}
	if s, at := p.digitWords(i); s != "" && !p.is(at, p.t.point) {
		v, ok := p.parse(s)
		return figure{num: v, whole: s}, at, ok
	}
	v, at, ok := p.cardinal(i)
	if !ok {
		return f, i, false
	}
	f = figure{num: v, whole: strconv.FormatFloat(v, 'f', -1, 64)}
	if p.is(at, p.t.point) {
		if s, end := p.decimals(at + 1); s != "" {
			v, ok := p.parse(f.whole + "." + s)
			return figure{num: v}, end, ok
		}
		p.why = RefusedNumber
		return f, i, false
	}
	if p.r.run && v >= 1 && v < 100 {
		if n, is := p.numeral(p.dash(at)); is && (n.class == teenWord || n.class == tenWord) {
			if b, end, ok := p.cardinal(p.dash(at)); ok && b >= 10 && b < 100 && !p.is(end, p.t.point) {
				f.num = v*100 + b
				f.whole = strconv.FormatFloat(f.num, 'f', -1, 64)
				if v < 10 {
					f.lead = v
				}
				at = end
			}
		}
	}
	if part, end, ok := p.andPart(p.dash(at)); ok {
		return figure{num: f.num + part}, end, true
	}
	return f, at, true
}

// digitWords reads digits spoken one by one: "two four four oh", "oh five",
// "two double four oh".
func (p *numberParser) digitWords(i int) (string, int) {
	if !p.r.run {
		return "", i
	}
	var b strings.Builder
	at := i
	for b.Len() < 12 {
		times := max(p.t.repeats[p.at(at).text], 1)
		if times > 1 {
			at++
		}
		n, is := p.numeral(at)
		if !is || n.class != unitWord || p.is(at+1, p.t.point) {
			break
		}
		b.WriteString(strings.Repeat(strconv.Itoa(int(n.n)), times))
		at++
	}
	s := b.String()
	if len(s) >= 3 || len(s) == 2 && s[0] == '0' {
		return s, at
	}
	return "", i
}

// decimals reads what follows "point", as a string of digits.
func (p *numberParser) decimals(i int) (string, int) {
	var b strings.Builder
	for b.Len() < 6 {
		if p.at(i).kind == digits {
			b.WriteString(p.at(i).text)
			i++
			break
		}
		n, is := p.numeral(i)
		if !is || n.class > tenWord {
			break
		}
		if b.Len() > 0 && (n.class != unitWord || p.is(i+1, p.t.point)) {
			break // the next number begins
		}
		i++
		if n.class == tenWord {
			if u, is := p.numeral(p.dash(i)); is && u.class == unitWord && u.n > 0 {
				n.n += u.n
				i = p.dash(i) + 1
			}
		}
		b.WriteString(strconv.Itoa(int(n.n)))
		if n.class != unitWord {
			break
		}
	}
	return b.String(), i
}

// cardinal reads "two hundred and forty", "twenty-four hundred", "a thousand".
func (p *numberParser) cardinal(i int) (v float64, next int, ok bool) {
	const (
		nothing = iota // only hundred or thousand may follow
		units
		tens
		hundreds
	)
	var total, group float64
	have, big, thousands := false, false, false // big: the last word was hundred or thousand
	room := hundreds
	if p.is(i, p.t.one) {
		if n, is := p.numeral(i + 1); !is || n.class != timesWord {
			return 0, i, false
		}
		group, have, room = 1, true, nothing
		i++
	}
	for {
		at := i
		if have {
			at = p.dash(at)
		}
		if big && p.is(at, p.t.and) { // two hundred AND forty
			at++
			if n, is := p.numeral(at); !is || n.class > tenWord || n.n == 0 {
				break
			}
		}
		if _, _, isPart := p.part(at); isPart && have {
			break // two and THREE QUARTERS
		}
		n, is := p.numeral(at)
		if !is || n.class >= partWord {
			break
		}
		if n.class == unitWord && n.n == 0 {
			if !have {
				return 0, at + 1, true
			}
			break
		}
		fits := false
		switch n.class {
		case unitWord:
			fits = room >= units
			room = nothing
		case teenWord:
			fits = room >= tens
			room = nothing
		case tenWord:
			fits = room >= tens
			room = units
		case hundredWord:
			fits = room >= hundreds
			room = tens
		case timesWord:
			if group == 0 && !have {
				group = 1
			}
			switch {
			case n.n == 1000 && !thousands && group > 0 && group < 1000:
				total, group, thousands, fits = group*1000, 0, true, true
				room = hundreds
			case n.n == 100 && group > 0 && group < 100:
				group, fits = group*100, true
				room = tens
			case n.n == 12 && group > 0 && group < 10 && total == 0:
				return group * 12, at + 1, true
			}
		}
		if !fits {
			break
		}
		if n.class <= hundredWord {
			group += n.n
		}
		big = n.class >= hundredWord
		have = true
		i = at + 1
	}
	if !have {
		return 0, i, false
	}
	return total + group, i, true
}

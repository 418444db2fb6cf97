package hear

import "math"

// item is one value of a line before its field is known: a quantity, a word
// that may be a choice, or the sign that takes the offer.
type item struct {
	fig   figure
	units []string // ids the spelling may mean; nil when bare
	// other is set when a remainder has two readings: 5m4 is 5.40 or 5.04 m.
	other    float64
	compound bool // several units joined; num is in the base unit of units[0]
	word     string
	dot      bool
	from, to int // bytes
}

// lineParser cuts a line into items under one reading.
type lineParser struct {
	numberParser
	wantWords func(i, n int) (string, int) // the word item that begins at token i, as item number n
	dims      func(n int) dimension        // what units item n may have
	suffix    func(n int) string           // what else may follow item n: the unit its question has named
	joined    bool                         // some item was joined from two measures with a space between
}

// items returns the values of the line, or the key of why there are none.
func (p *lineParser) items() ([]item, string) {
	var out []item
	i := 0
	for i < len(p.toks) {
		tok := p.toks[i]
		if p.separator(i, len(out)) {
			i++
			continue
		}
		if tok.kind == mark && (tok.text == "." || tok.text == "...") && !p.glued(i+1, digits) {
			if i > 0 && !tok.space && p.toks[i-1].kind != mark { // the full stop of a sentence
				i++
				continue
			}
			for range tok.text { // "..." takes three offers
				out = append(out, item{dot: true, from: tok.from, to: tok.to})
			}
			i++
			continue
		}
		if p.wantWords != nil {
			if w, next := p.wantWords(i, len(out)); next > i {
				out = append(out, item{word: w, from: tok.from, to: p.toks[next-1].to})
				i = next
				continue
			}
		}
		f, next, ok := p.figure(i)
		if p.why != "" {
			return nil, p.why
		}
		if ok {
			it := item{fig: f, from: f.from, to: f.to}
			i = p.measured(&it, next, len(out))
			if p.why != "" {
				return nil, p.why
			}
			out = append(out, it)
			continue
		}
		if at, ok := p.oneOf(i, len(out)); ok {
			it := item{fig: figure{num: 1, whole: "1"}, from: tok.from, to: tok.to}
			i = p.measured(&it, at, len(out))
			out = append(out, it)
			continue
		}
		if d := p.dims(len(out)); p.is(i, p.t.none) && (d == noDimension || d == length) {
			out = append(out, item{fig: figure{whole: "0"}, from: tok.from, to: tok.to})
			i++
			continue
		}
		if next := p.skip(i, len(out) > 0); next > i {
			i = next
			continue
		}
		return nil, RefusedNumber
	}
	return out, ""
}

// separator says whether token i stands between two values.
func (p *lineParser) separator(i, have int) bool {
	t := p.toks[i]
	switch {
	case t.kind == mark && (t.text == "," || t.text == ";" || t.text == "x" || t.text == "&" || t.text == "|"):
		return have > 0
	case t.kind == word && (p.t.by[t.text] || p.t.and[t.text]):
		return have > 0 && i+1 < len(p.toks)
	}
	return false
}

// skip steps over what changes nothing: filling words, a closing "!", "~".
func (p *lineParser) skip(i int, after bool) int {
	t := p.toks[i]
	switch t.kind {
	case word:
		next := p.phrase(i, p.t.noise)
		if after {
			next = max(next, p.phrase(i, p.t.nouns))
		}
		return next
	case mark:
		switch t.text {
		case "!", "~", "=", "≈", "≃", "(", ")":
			return i + 1
		case ".":
			if i > 0 && !t.space && !p.glued(i+1, digits) {
				return i + 1
			}
		case ",":
			if i > 0 && !after { // um, 5.4
				return i + 1
			}
		}
	}
	return i
}

// phrase returns the token after the longest phrase of s (up to 4 words) at i, or i.
func (p *numberParser) phrase(i int, s set) int {
	text := ""
	best := i
	for k := i; k < len(p.toks) && k < i+4; k++ {
		if p.toks[k].kind != word && p.toks[k].kind != mark {
			break
		}
		if k > i {
			text += " "
		}
		text += p.toks[k].text
		if s[text] {
			best = k + 1
		}
	}
	return best
}

// unit reads a unit at token i that item n may have. It returns every id the
// spelling has when none fits, so that the refusal can say which unit it was.
func (p *lineParser) unit(i, n int) (ids []string, next int) {
	if i >= len(p.toks) {
		return nil, i
	}
	t := p.toks[i]
	if t.kind == mark {
		switch t.text {
		case "'":
			return []string{"ft"}, i + 1
		case `"`:
			return []string{"in"}, i + 1
		case "%":
			return []string{"%"}, i + 1
		case "°":
			if ids, next := p.unit(i+1, n); next == i+2 && (ids[0] == "°C" || ids[0] == "°F") {
				return ids, next
			}
			return []string{"°", "deg"}, i + 1
		}
		return nil, i
	}
	if t.kind != word {
		return nil, i
	}
	text := ""
	best := i
	var found []string
	for k := i; k < len(p.toks) && k < i+4; k++ {
		t := p.toks[k]
		squared := k == i+1 && t.text == "2" && !t.space && p.dims(n) == area // m2; 5m2 is a length elsewhere
		if t.kind != word && !(t.kind == mark && t.text == "/") && !squared {
			break
		}
		if k > i && !squared {
			text += " "
		}
		text += t.text
		if ids := p.t.units[text]; ids != nil {
			found, best = ids, k+1
		}
	}
	if found == nil {
		return nil, i
	}
	var fit []string
	for _, id := range found {
		if measures[id].dim == p.dims(n) {
			fit = append(fit, id)
		}
	}
	if fit == nil {
		fit = found
	}
	if p.isMark(best, ".") && !p.at(best).space && !p.glued(best+1, digits) { // ft.
		best++
	}
	return fit, best
}

// oneOf says whether a unit without a number stands at i and means one of it: "a
// metre", and in some languages "metr" alone. at is the unit.
func (p *lineParser) oneOf(i, n int) (at int, ok bool) {
	if p.is(i, p.t.one) {
		ids, _ := p.unit(i+1, n)
		return i + 1, ids != nil
	}
	if t := p.at(i); p.t.bareOne && t.kind == word && len(t.text) > 2 {
		ids, _ := p.unit(i, n)
		return i, ids != nil
	}
	return i, false
}

// joinable lists which smaller unit may follow which, and how many of it make one.
var joinable = map[string]map[string]float64{
	"m":   {"cm": 100, "mm": 1000, "dm": 10},
	"cm":  {"mm": 10},
	"ft":  {"in": 12},
	"yd":  {"ft": 3, "in": 36},
	"h":   {"min": 60, "s": 3600},
	"min": {"s": 60},
	"d":   {"h": 24},
	"wk":  {"d": 7},
	"kg":  {"g": 1000},
	"st":  {"lb": 14},
	"lb":  {},
	"l":   {"ml": 1000, "cl": 100},
}

// measured reads the unit after figure it.fig and the remainder that belongs to
// it (5m40, 17ft 8in, two metres ninety), and returns the token after.
func (p *lineParser) measured(it *item, i, n int) int {
	ofs := i
	if it.fig.part || it.fig.num < 1 {
		ofs = p.phrase(i, p.t.of)
	}
	if s := p.suffix; s != nil && s(n) != "" {
		if end := p.spelt(i, s(n)); end > i {
			it.to = p.toks[end-1].to
			return end
		}
	}
	ids, next := p.unit(ofs, n)
	if ids == nil {
		if p.is(i, p.t.below) && it.fig.num > 0 && p.dims(n) == temperature {
			it.fig.num = -it.fig.num
			i = p.phrase(i, p.t.below)
			it.to = p.toks[i-1].to
		}
		return i
	}
	it.units = ids
	it.to = p.toks[next-1].to
	i = next
	if p.is(i, p.t.below) && it.fig.num > 0 && p.dims(n) == temperature {
		it.fig.num = -it.fig.num
		i = p.phrase(i, p.t.below)
		it.to = p.toks[i-1].to
		return i
	}
	if part, at, ok := p.andPart(i); ok { // two metres and a half
		if ids, _ := p.unit(p.phrase(at, p.t.of), n); ids == nil {
			it.fig.num += part
			it.fig.whole = ""
			it.to = p.toks[at-1].to
			return at
		}
	}
	id, last := ids[0], it.fig.num
	for joinable[id] != nil && last == math.Trunc(last) && last >= 0 {
		var ok bool
		if i, id, last, ok = p.remainder(it, i, n, id); !ok {
			break
		}
	}
	return i
}

// remainder reads the smaller part that follows a measure in unit id and adds
// it to it. It returns the unit and number of the remainder for the next round.
func (p *lineParser) remainder(it *item, i, n int, id string) (next int, small string, num float64, ok bool) {
	at := i
	if p.is(at, p.t.and) {
		at++
	}
	if p.isMark(at, "-") && !p.at(at).space && p.glued(at+1, digits) { // 17'-8"
		at++
	}
	if at >= len(p.toks) || p.toks[at].kind == mark && p.toks[at].text != "." || p.at(at).line {
		return i, id, 0, false
	}
	loose := p.at(at).space
	if loose && p.r.apart {
		p.joined = true
		return i, id, 0, false
	}
	was := p.r.group
	p.r.group = false
	f, end, isFig := p.figure(at)
	p.r.group = was
	if !isFig || f.num < 0 || f.slash && f.num >= 1 {
		return i, id, 0, false
	}
	ofs := end
	if f.part || f.num < 1 {
		ofs = p.phrase(end, p.t.of)
	}
	ids, unitEnd := p.unit(ofs, n)
	var per float64 // how many of the remainder's unit make one of id
	switch {
	case ids != nil:
		for _, s := range ids {
			if c := joinable[id][s]; c > 0 && f.num < c {
				per, small = c, s
			}
		}
		end = unitEnd
		if part, at, ok := p.andPart(end); ok { // 5 foot 6 inches and a half
			f.num += part
			end = at
		}
	case id == "ft" && f.num < 12:
		per, small = 12, "in"
	case id == "m" && f.lead == 0 && len(f.whole) == 2 || id == "m" && f.lead > 0 && f.num < 100:
		per, small = 100, "cm"
	case id == "m" && len(f.whole) == 3 && f.num >= 100 || id == "m" && len(f.whole) == 3 && f.whole[0] == '0':
		per, small = 1000, "mm"
	case id == "m" && len(f.whole) == 1:
		it.other = it.fig.num + f.num/100 // 5.04, beside 5.4
		per, small = 10, "dm"
	case id == "h" && f.num < 60 && len(f.whole) > 0:
		per, small = 60, "min"
	case id == "min" && f.num < 60 && len(f.whole) == 2:
		per, small = 60, "s"
	}
	if per == 0 {
		return i, id, 0, false
	}
	if it.compound { // the running number is kept in the first unit
		per *= measures[it.units[0]].factor / measures[id].factor
	}
	it.fig.num += f.num / per
	it.fig.whole = ""
	it.compound = true
	it.to = p.toks[end-1].to
	p.joined = p.joined || loose
	return end, small, f.num, true
}

// spelt steps over tokens that together write s, however spaced.
func (p *lineParser) spelt(i int, s string) int {
	text := ""
	for k := i; k < len(p.toks) && len(text) < len(s); k++ {
		text += p.toks[k].text
		if text == s {
			return k + 1
		}
	}
	return i
}

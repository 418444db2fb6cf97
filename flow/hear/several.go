package hear

import (
	"slices"
	"strings"
)

// mostOptions is how many readings are worth asking about.
const mostOptions = 4

// mostValues is how many values one line may hold at all.
const mostValues = 100

// bounds is how many values the line may hold.
func (w Want) bounds() (min, max int) {
	if w.Parts != nil {
		min, max = w.Many.Min, len(w.Parts)
		if min == 0 {
			min = max
		}
		return min, max
	}
	if w.Many == (Many{}) {
		return 1, 1
	}
	min, max = w.Many.Min, w.Many.Max
	if min < 1 {
		min = 1
	}
	if max == 0 || max > mostValues {
		max = mostValues
	}
	return min, max
}

func (l *listener) several() bool {
	_, most := l.w.bounds()
	return most > 1
}

// part is what the line wants in place n.
func (w Want) part(n int) Want {
	if w.Parts != nil {
		if n >= len(w.Parts) {
			n = len(w.Parts) - 1
		}
		p := w.Parts[n]
		p.Lang, p.Now = w.Lang, w.Now
		return p
	}
	p := w
	p.Many, p.Offered = Many{}, nil
	if n < len(w.Offered) {
		p.Offered = w.Offered[n : n+1]
	}
	if w.Kind == BoardLength && n > 0 {
		p.Kind, p.Range = BoardWidth, Range{} // 2440 x 1220: the second is the width
	}
	return p
}

// readings lists the ways of reading that the signs in the text give cause for,
// the likeliest first.
func (l *listener) readings() []reading {
	commas := []commaSense{commaDecimal}
	groups, runs, dots, spoken := []bool{false}, []bool{true}, []bool{false}, 0
	for i, t := range l.toks {
		inside := i > 0 && i+1 < len(l.toks) && !t.space && l.toks[i-1].kind == digits && l.toks[i+1].kind == digits && !l.toks[i+1].space
		if t.text == "," && inside && len(commas) == 1 {
			commas = []commaSense{commaDecimal, commaGroups, commaList}
		}
		if t.text == "." && inside && l.t.dotGroups {
			dots = []bool{false, true}
		}
		if t.kind == digits && len(t.text) == 3 && t.space && i > 0 && l.toks[i-1].kind == digits {
			if groups = []bool{true, false}; l.several() {
				groups = []bool{false, true}
			}
		}
		if _, ok := l.t.numerals[t.text]; ok && t.kind == word {
			if spoken++; spoken == 2 {
				runs = []bool{true, false}
			}
		}
	}
	var out []reading
	for _, c := range commas {
		for _, g := range groups {
			for _, r := range runs {
				for _, d := range dots {
					out = append(out, reading{comma: c, group: g, run: r, dot: d})
				}
			}
		}
	}
	return out
}

// line reads one or several values, trying each reading of the signs.
func (l *listener) line() Heard {
	var found []sentence
	var worst setback
	for _, r := range l.readings() {
		s, no := l.under(r)
		found = append(found, s...)
		worst = worst.or(no)
	}
	if len(found) == 0 {
		return worst.h
	}
	return l.settle(found)
}

// setback is a refusal that another reading may get round. Of several, the one
// of the likeliest reading that could be parsed tells the person most.
type setback struct {
	h      Heard
	parsed bool
}

func (s setback) or(o setback) setback {
	if o.h.Refused != nil && (s.h.Refused == nil || o.parsed && !s.parsed) {
		return o
	}
	return s
}

// under reads the line under one reading.
func (l *listener) under(r reading) (found []sentence, no setback) {
	items, joined, no := l.items(r)
	if items == nil && joined { // too few: "8ft 4in" may be two
		r.apart = true
		var still setback
		items, _, still = l.items(r)
		no = no.or(still)
	}
	if items == nil {
		return nil, no
	}
	for _, its := range l.unitSharing(items) {
		s, miss := l.sense(its)
		no = no.or(miss)
		if s.cands == nil {
			continue
		}
		if s.why == "" && len(found) == 1 && found[0].why != "" {
			found = nil // the unit said once settles what was open without it
		}
		found = append(found, s)
	}
	return found, no
}

// items parses the line under r and checks how many values it came to. joined
// says that two measures were taken as one, so that taking them apart may help.
func (l *listener) items(r reading) (items []item, joined bool, no setback) {
	p := lineParser{numberParser: numberParser{toks: l.toks, t: l.t, r: r}}
	p.dims = func(n int) dimension { return l.w.part(n).Kind.dimension() }
	p.suffix = func(n int) string {
		if w := l.w.part(n); w.Kind == Number {
			return strings.ReplaceAll(folded(w.Bare), " ", "")
		}
		return ""
	}
	if l.w.Parts != nil || l.w.Kind == Choice || l.w.Kind == YesNo {
		p.wantWords = l.wordItem
	}
	items, why := p.items()
	if why != "" {
		return nil, p.joined, setback{h: l.refused(why)}
	}
	items = l.splitPicks(items)
	least, most := l.w.bounds()
	switch {
	case len(items) == 0:
		return nil, false, setback{h: l.refused(RefusedNumber)}
	case len(items) > most:
		why = RefusedMany
	case len(items) < least:
		why = RefusedFew
	default:
		return items, p.joined, setback{}
	}
	return nil, p.joined, setback{l.refusedAt(min(len(items), most), why, nil), true}
}

// refusedAt is a refusal of value n of the line.
func (l *listener) refusedAt(n int, why string, got *Value) Heard {
	h := l.refused(why)
	h.Refused.Part, h.Refused.Got, h.Refused.Example = n, got, l.w.part(n).Kind.Example()
	return h
}

// unitSharing returns the items as they stand and, where a unit was said for
// some only, with that unit on the others of the same kind: "2.4 by 1.2 m".
func (l *listener) unitSharing(items []item) [][]item {
	out := [][]item{items}
	if len(items) < 2 {
		return out
	}
	var units []string
	bare := false
	for i, it := range items {
		dim := l.w.part(i).Kind.dimension()
		if it.word != "" || it.dot || dim != l.w.part(0).Kind.dimension() || dim == noDimension {
			return out
		}
		bare = bare || it.units == nil
		if it.units != nil && !it.compound {
			units = it.units
		}
	}
	if units == nil || !bare {
		return out
	}
	shared := slices.Clone(items)
	for i := range shared {
		if shared[i].units == nil {
			shared[i].units = units
		}
	}
	return append(out, shared)
}

// sentence is a whole line understood one way: for each value its candidates.
type sentence struct {
	cands [][]candidate
	why   string // Ask... key; "" when every value has one candidate to take
}

// sense reads every item in its field.
func (l *listener) sense(items []item) (s sentence, no setback) {
	for i, it := range items {
		w := l.w.part(i)
		words := kept(l.said[it.from:it.to])
		var got sensed
		switch {
		case it.dot && len(w.Offered) > 0:
			got = sensed{cands: []candidate{{w.Offered[0], good}}}
		case it.dot:
			got = refuse(RefusedNoOffer)
		case w.Kind == Choice:
			got = w.pick(l.t, l.chooser(i), it, words)
		case w.Kind == YesNo:
			got = w.agree(l.t, it, words)
		default:
			got = w.sense(it, words)
		}
		if got.refused != "" {
			return sentence{}, setback{l.refusedAt(i, got.refused, got.got), true}
		}
		if s.why == "" {
			s.why = got.why
		}
		s.cands = append(s.cands, got.cands)
	}
	return s, setback{}
}

// settle takes the one reading there is, or asks.
func (l *listener) settle(found []sentence) Heard {
	var options []Option
	why := ""
	for _, s := range found {
		if s.why != "" && why == "" {
			why = s.why
		}
		for _, o := range s.options() {
			if !slices.ContainsFunc(options, func(p Option) bool { return slices.EqualFunc(p.Values, o.Values, same) }) {
				options = append(options, o)
			}
		}
	}
	if len(options) == 1 && why == "" {
		h := Heard{Values: options[0].Values}
		for i, v := range h.Values {
			h.Soft = h.Soft || l.w.part(i).grade(v) == odd
		}
		return h
	}
	if why == "" {
		why = AskNumber
		for _, o := range options {
			if len(o.Values) != len(options[0].Values) {
				why = AskGrouping
			}
		}
	}
	slices.SortStableFunc(options, func(a, b Option) int {
		switch {
		case a.Outside == b.Outside:
			return 0
		case b.Outside:
			return -1
		}
		return 1
	})
	if len(options) == 0 || len(options) > mostOptions {
		return l.refused(RefusedAmbiguous)
	}
	return Heard{Ask: &Ambiguity{Heard: kept(l.said), Why: why, Options: options}}
}

// options spells out the readings of a line: the likeliest reading of each value
// first, then the values that ask all read alike, so that "240 300" asks mm or cm
// once.
func (s sentence) options() []Option {
	best := make([]candidate, len(s.cands))
	var labels []string
	for i, cs := range s.cands {
		best[i] = cs[0]
		for _, c := range cs {
			if len(cs) > 1 && !slices.Contains(labels, label(c.v)) {
				labels = append(labels, label(c.v))
			}
		}
	}
	out := []Option{optionOf(best)}
	for _, lab := range labels {
		alike := slices.Clone(best)
		for i, cs := range s.cands {
			if len(cs) == 1 {
				continue
			}
			k := slices.IndexFunc(cs, func(c candidate) bool { return label(c.v) == lab })
			if k < 0 {
				alike = nil
				break
			}
			alike[i] = cs[k]
		}
		if alike != nil {
			out = append(out, optionOf(alike))
		}
	}
	return out
}

func optionOf(cs []candidate) Option {
	var o Option
	for _, c := range cs {
		o.Values = append(o.Values, c.v)
		o.Outside = o.Outside || c.g == outside
	}
	return o
}

// label is what tells the readings of one value apart.
func label(v Value) string {
	if v.Kind == Choice || v.Kind == YesNo {
		return v.Key
	}
	return v.Unit
}

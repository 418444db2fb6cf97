package hear

import "math"

// fall reads a drop over a run: "1/40", "1:40", "1 in 40", "2.5 %", "25 mm per
// metre", "40".
func (l *listener) fall() Heard {
	p := lineParser{numberParser: numberParser{toks: l.toks, t: l.t, r: reading{run: true}}}
	p.dims = func(int) dimension { return length }
	i := 0
	for i < len(p.toks) {
		next := p.skip(i, false)
		if next == i {
			break
		}
		i = next
	}
	drop, at, why := l.term(&p, i)
	if why == "" && at < len(p.toks) && !drop.fig.slash {
		end := at
		switch {
		case p.is(at, l.t.in), p.isMark(at, "/"), p.isMark(at, ":"):
			end = at + 1
		}
		if e := p.phrase(at, l.t.per); e > end {
			end = e
		}
		if end > at {
			run, last, why := l.term(&p, end)
			if why != "" { // per METRE
				if ids, next := p.unit(end, 0); ids != nil {
					run, last, why = item{fig: figure{num: 1}, units: ids[:1]}, next, ""
				}
			}
			if why == "" && l.onlyNoise(&p, last) && (drop.units == nil) == (run.units == nil) && run.fig.num != 0 {
				d, r := drop.fig.num, run.fig.num
				if drop.units != nil {
					if measures[drop.units[0]].dim != length || measures[run.units[0]].dim != length {
						return l.refused(RefusedUnit)
					}
					d, r = base(d, drop.units[0]), base(r, run.units[0])
				}
				it := item{fig: figure{num: d / r, slash: true}}
				return l.settled(l.w.sense(it, kept(l.said)))
			}
			return l.refused(RefusedNumber)
		}
	}
	p.dims = func(int) dimension { return angle }
	return l.line()
}

// term reads one measure with its unit, if it has one.
func (l *listener) term(p *lineParser, i int) (it item, next int, why string) {
	f, next, ok := p.figure(i)
	if !ok || math.IsNaN(f.num) {
		p.why = ""
		return it, i, RefusedNumber
	}
	it = item{fig: f, from: f.from, to: f.to}
	if p.is(next, l.t.in) && p.at(next+1).kind != mark { // 1 in 40: not an inch
		if _, _, isNumber := p.figure(next + 1); isNumber {
			return it, next, ""
		}
		p.why = ""
	}
	return it, p.measured(&it, next, 0), ""
}

func (l *listener) onlyNoise(p *lineParser, i int) bool {
	for i < len(p.toks) {
		next := p.skip(i, true)
		if next == i {
			return false
		}
		i = next
	}
	return true
}

func (l *listener) settled(s sensed) Heard {
	if s.refused != "" {
		h := l.refused(s.refused)
		h.Refused.Got = s.got
		return h
	}
	return l.settle([]sentence{{cands: [][]candidate{s.cands}, why: s.why}})
}

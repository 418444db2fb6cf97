package hear

// fall reads a drop over a run: "1/40", "1:40", "1 in 40", "2.5 %", "25 mm per
// metre", "40".
func (l *listener) fall() Heard {
	p := lineParser{numberParser: numberParser{toks: l.toks, t: l.t, r: reading{run: true}}}
	p.dims = func(int) dimension { return length }
	i := 0
	for i < len(p.toks) && p.skip(i, false) > i {
		i = p.skip(i, false)
	}
	drop, at, ok := p.term(i)
	next := at
	if p.is(at, l.t.in) || p.isMark(at, "/") || p.isMark(at, ":") {
		next = at + 1
	}
	next = max(next, p.phrase(at, l.t.per))
	if !ok || drop.fig.slash || next == at {
		return l.line()
	}
	run, end, ok := p.term(next)
	if ids, after := p.unit(next, 0); !ok && ids != nil { // per METRE
		run, end, ok = item{fig: figure{num: 1}, units: ids[:1]}, after, true
	}
	for end < len(p.toks) && p.skip(end, true) > end {
		end = p.skip(end, true)
	}
	if !ok || end < len(p.toks) || run.fig.num == 0 {
		return l.refused(RefusedNumber)
	}
	d, r := drop.fig.num, run.fig.num
	switch {
	case drop.units == nil && run.units == nil:
	case drop.units == nil || run.units == nil, measures[drop.units[0]].dim != length, measures[run.units[0]].dim != length:
		return l.refused(RefusedUnit)
	default:
		d, r = base(d, drop.units[0]), base(r, run.units[0])
	}
	s := l.w.sense(item{fig: figure{num: d / r, slash: true}}, kept(l.said))
	if s.refused != "" {
		return l.refusedAt(0, s.refused, s.got)
	}
	return l.settle([]sentence{{cands: [][]candidate{s.cands}, why: s.why}})
}

// term reads one measure with its unit, if it has one.
func (p *lineParser) term(i int) (it item, next int, ok bool) {
	f, next, ok := p.figure(i)
	p.why = ""
	if !ok {
		return it, i, false
	}
	it = item{fig: f, from: f.from, to: f.to}
	if p.is(next, p.t.in) { // 1 in 40: not an inch
		_, _, number := p.figure(next + 1)
		p.why = ""
		if number {
			return it, next, true
		}
	}
	return it, p.measured(&it, next, 0), true
}

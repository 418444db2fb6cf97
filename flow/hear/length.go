package hear

// bareLength settles the unit of a number said without one, by the kind of field.
func (w Want) bareLength(f figure, bare func(float64, string) Value) sensed {
	n := f.num
	at := func(id string) Value { return bare(n, id) }
	switch w.Kind {
	case PlanLength:
		switch {
		case f.lead > 0: // "two ninety": 290 mm or 2.90 m; "five forty" too
			return w.ask(AskUnit, at("cm"), at("mm"))
		case n >= 1000 && w.grade(at("cm")) != good: // hardly anyone says 1200 cm
			return w.one(at("mm"))
		case n >= 500:
			return w.prefer(at("mm"), at("cm"))
		case n >= 30:
			return w.ask(AskUnit, w.likely([]Value{at("mm"), at("cm")}, at("in"), at("ft"))...)
		}
		return w.prefer(at("m"), at("ft"))
	case SectionLength:
		return w.prefer(at("mm"), at("cm"), at("in"), at("m"))
	case SiteLength:
		if n >= 500 {
			return w.prefer(at("m"), at("ft"), at("mm"))
		}
		return w.prefer(at("m"), at("ft"))
	case BoardLength:
		return w.board(n, 2000, 3100, 7, 10, bare)
	case BoardWidth:
		return w.board(n, 590, 1250, 2, 4, bare)
	}
	return refuse(RefusedNumber)
}

// likely adds to vs what of more is usual for the field, when nothing in vs is;
// what is possible, when nothing in vs is even that.
func (w Want) likely(vs []Value, more ...Value) []Value {
	best := outside
	for _, v := range vs {
		best = min(best, w.grade(v))
	}
	if w.Range == (Range{}) || best == good {
		return vs
	}
	for _, v := range more {
		if w.grade(v) < best {
			vs = append(vs, v)
		}
	}
	return vs
}

// board reads a bare board measure: lo to hi mm, the same in metres, or ftLo to
// ftHi feet. Anything else asks, with every unit that lands on a board; "24" may
// be 2.4 with its point lost, which is the same as 24 decimetres.
func (w Want) board(n, lo, hi, ftLo, ftHi float64, bare func(float64, string) Value) sensed {
	const dust = 1e-9
	switch m := n * 1000; {
	case n >= lo && n <= hi:
		return w.one(bare(n, "mm"))
	case m >= lo-dust && m <= hi+dust:
		return w.one(bare(n, "m"))
	case n >= ftLo && n <= ftHi:
		return w.one(bare(n, "ft"))
	}
	if w.Range.HardMin == 0 && w.Range.HardMax == 0 {
		w.Range.HardMin, w.Range.HardMax = lo, hi // what is outside can still be said with its unit
	}
	return w.ask(AskUnit, bare(n, "mm"), bare(n, "cm"), bare(n, "in"), bare(n, "ft"), bare(n, "m"), bare(n, "dm"))
}

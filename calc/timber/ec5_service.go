package timber

import "math"

// lasting returns the sag that stays and the slope at the far bearing, where
// a joist laid to a fall drains to. A tail's relief is left out, which is on
// the large side.
func (r ec5) lasting(clear float64) (sag, slope float64) {
	span := r.designSpan(clear)
	b := beam{span: span}
	for _, l := range r.Joist.permanent(r.own, span).lines {
		b.lines = append(b.lines, lineLoad{l.from, math.Min(l.to, span), l.q0, l.q1})
	}
	b.points = r.Joist.permanent(r.own, span).points
	s := b.solve()
	ei, ga := r.s.E*r.Section.inertia(), r.s.G*r.Section.area()/1.2
	return (1 + r.kdef) * s.maxDeflection(ei, ga), (1 + r.kdef) * s.endSlope(ei)
}

// service takes the deflection conditions of one combination.
func (r ec5) service(w *worst, span float64, a action, g loading) {
	psi2 := r.Psi2
	if a.snow {
		psi2 = 0
	}
	ei := r.s.E * r.Section.inertia()
	ga := r.s.G * r.Section.area() / 1.2
	final := beam{span: span, tail: float64(r.Tail)}
	final.add(g, 1+r.kdef)
	final.add(a.load, 1+psi2*r.kdef)
	f := final.solve()
	n := r.finalLimit()
	w.take(Condition{Final, a.name, f.maxDeflection(ei, ga), span / n, "mm"})
	if r.Tail > 0 {
		w.take(Condition{TailEnd, a.name, f.tipDeflection(ei, ga), 2 * float64(r.Tail) / n, "mm"})
	}
	if r.DeflectionLimit > 0 {
		n = r.DeflectionLimit
	}
	alone := beam{span: span, tail: float64(r.Tail)}
	alone.add(a.load, 1)
	w.take(Condition{Instant, a.name, alone.solve().maxDeflection(ei, ga), span / n, "mm"})
}

// finalLimit returns n of l/n for the final deflection.
func (r ec5) finalLimit() float64 {
	if r.Ceiling == CeilingNone {
		return 150
	}
	return 250
}

package timber

import "math"

// uplift takes bending and shear under wind from below, the weight holding
// down: 1.5 W - 1.0 G, instantaneous. The bottom edge is then the compressed
// one and nothing holds it but the bearings, so it may buckle over the whole
// span.
func (r ec5) uplift(w *worst, span float64, g loading) {
	up := float64(r.WindUp.Over(r.Centres))
	if up == 0 {
		return
	}
	b := beam{span: span, tail: float64(r.Tail)}
	b.add(g, 1)
	b.add(everywhere(up, span, float64(r.Tail)), -gammaQ)
	s := b.solve()
	sigma := s.maxMoment() / r.Section.modulus()
	fmd := r.ksys() * r.kh() * DesignStrength(r.s.Fm, r.instant, gammaM)
	lef := 0.9*span - 0.5*float64(r.Section.H) // uniform load on the tension edge
	w.take(Condition{Bending, "uplift", sigma, fmd, "N/mm²"})
	w.take(Condition{Stability, "uplift", sigma, stability(r.s.Fm, criticalStress(r.Section, r.s.E05, lef)) * fmd, "N/mm²"})
	tau := 1.5 * s.maxShear() / (r.s.Kcr * r.Section.area())
	w.take(Condition{Shear, "uplift", tau, r.ksys() * DesignStrength(r.s.Fv, r.instant, gammaM), "N/mm²"})
}

// hold returns the largest design pull at a bearing: 0.9 G against 1.5 times
// whatever lifts, be it wind or a load on the tail.
func (r ec5) hold(clear float64) float64 {
	span, tail := r.designSpan(clear), float64(r.Tail)
	lifts := []loading{everywhere(-float64(r.WindUp.Over(r.Centres)), span, tail)}
	for _, a := range r.variables(span) {
		if !a.accidental {
			lifts = append(lifts, a.load)
		}
	}
	pull := 0.0
	for _, q := range lifts {
		b := beam{span: span, tail: tail}
		b.add(r.Joist.permanent(r.own, span), 0.9) // EN 1990 Table A1.2(A), from memory
		b.add(q, gammaQ)
		s := b.solve()
		pull = math.Max(pull, math.Max(-s.ra, -s.rb))
	}
	return pull
}

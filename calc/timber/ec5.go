package timber

import (
	"math"

	"chargehand/calc/unit"
)

// ec5 judges a joist by EN 1995-1-1 with the UK set of factors.
//
//	strength   1.35 G + 1.5 Q, and 1.35 G alone with its own k_mod
//	           1.0 G - 1.5 W upwards, the bottom edge free to buckle
//	           G + A for an exceptional drift, γ_M = 1, short-term: a drift
//	           lies for days, so the instantaneous class is not taken
//	bending    M/W           <= k_mod k_h k_sys f_m,k / γ_M
//	stability  M/W           <= k_crit · the same
//	shear      1.5 V/(k_cr b h) <= k_mod k_sys f_v,k / γ_M
//	bearing    R/(b l_ef)    <= k_mod k_c,90 f_c,90,k / γ_M
//	instant    w_Q           <= l/n
//	final      w_G (1+k_def) + w_Q (1+ψ2 k_def) <= l/250 (l/150 without a plastered ceiling)
//	tail end   the same      <= t/125 (t/75)
//
// Deflections include shear with the form factor 1.2. The man load counts in
// deflection as the uniform load does. The design span is the clear span plus
// half the bearing at each end.
//
// Sources: EN 1995-1-1:2004+A1 3.2(3), 3.1.3, 6.1.5, 6.1.6, 6.1.7, 6.3.3, 6.6,
// 2.2.3; EN 1990 (6.10), (6.11); UK annexes (factors from memory where the
// table says so). Deflection limits: UK annex to EN 1995-1-1, from memory; it
// has no limit for the instantaneous deflection, so without a given n the same
// fraction of the span is used, which then never governs.
// ψ2 is Psi2, which is 0 for roof imposed load, and 0 for snow up to 1000 m
// (EN 1990 Table A1.1).
type ec5 struct {
	Joist
	s         Strength
	kdef      float64
	permanent float64 // k_mod of the permanent load alone
	imposed   float64 // k_mod of imposed and man load
	snow      float64
	instant   float64 // k_mod of wind
	own       float64 // N/mm
}

const (
	gammaG = 1.35 // UK annex to EN 1990, Table NA.A1.2(B)
	gammaQ = 1.5
)

func newEC5(j Joist) (rules, error) {
	s, err := StrengthOf(j.Grade, j.Edition)
	if err != nil {
		return nil, err
	}
	r := ec5{Joist: j, s: s}
	if r.imposed, err = Kmod(j.Duration, j.ServiceClass); err != nil {
		return nil, err
	}
	// normal has checked the service class, which is all that can be wrong here.
	r.permanent, _ = Kmod(Permanent, j.ServiceClass)
	r.snow, _ = Kmod(ShortTerm, j.ServiceClass)
	r.instant, _ = Kmod(Instantaneous, j.ServiceClass)
	r.kdef, _ = Kdef(j.ServiceClass)
	r.own = ownWeight(s.Rho, j.Section)
	return r, nil
}

// ownWeight returns the weight of a joist of density rho (kg/m³) in N/mm.
func ownWeight(rho float64, s Section) float64 {
	return rho * 1e-9 * s.area() * unit.StandardGravity
}

func (r ec5) ownWeight() float64               { return r.own }
func (r ec5) designSpan(clear float64) float64 { return clear + float64(r.Bearing) }

func (r ec5) conditions(clear float64) []Condition {
	span := r.designSpan(clear)
	g := r.Joist.permanent(r.own, span)
	var w worst
	r.strength(&w, clear, "permanent", g, gammaG, loading{}, 0, r.permanent, gammaM)
	list := r.variables(span)
	for _, a := range list {
		kmod := r.imposed
		if a.snow {
			kmod = r.snow
		}
		if a.accidental {
			r.strength(&w, clear, a.name, g, 1, a.load, 1, kmod, gammaMAccidental)
			continue
		}
		r.strength(&w, clear, a.name, g, gammaG, a.load, gammaQ, kmod, gammaM)
	}
	r.uplift(&w, span, g)
	r.service(&w, span, action{name: "permanent"}, g)
	for _, a := range list {
		if !a.accidental && !a.close { // an accident has no serviceability limit (EN 1990 6.5)
			r.service(&w, span, a, g)
		}
	}
	return w.list
}

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

// strength takes the four strength conditions of one combination.
func (r ec5) strength(w *worst, clear float64, name string, g loading, fg float64, q loading, fq, kmod, gm float64) {
	b := beam{span: r.designSpan(clear), tail: float64(r.Tail)}
	b.add(g, fg)
	b.add(q, fq)
	s := b.solve()
	ksys := r.ksys()
	sigma := s.maxMoment() / r.Section.modulus()
	fmd := ksys * r.kh() * DesignStrength(r.s.Fm, kmod, gm)
	w.take(Condition{Bending, name, sigma, fmd, "N/mm²"})
	w.take(Condition{Stability, name, sigma, r.kcrit() * fmd, "N/mm²"})
	tau := 1.5 * s.maxShear() / (r.s.Kcr * r.Section.area())
	w.take(Condition{Shear, name, tau, ksys * DesignStrength(r.s.Fv, kmod, gm), "N/mm²"})
	press := math.Max(s.ra, s.rb) / (float64(r.Section.B) * r.bearingLength(clear))
	w.take(Condition{Bearing, name, press, kc90 * DesignStrength(r.s.Fc90, kmod, gm), "N/mm²"})
}

// kc90 is k_c,90 of solid softwood on discrete supports at least 2h apart,
// which is the shortest span Check accepts. EN 1995-1-1 6.1.5(4), from memory.
const kc90 = 1.5

// bearingLength returns the effective contact length: the bearing and up to
// 30 mm more on the span's side; the joist's end is taken as flush.
// EN 1995-1-1 6.1.5(1), from memory.
func (r ec5) bearingLength(clear float64) float64 {
	l := float64(r.Bearing)
	return l + math.Min(30, math.Min(l, clear/2))
}

// kh returns the depth factor of solid timber, EN 1995-1-1 eq. (3.1), from
// memory: min((150/h)^0.2, 1.3) below 150 mm, else 1.
func (r ec5) kh() float64 { return depthFactor(float64(r.Section.H)) }

func depthFactor(h float64) float64 {
	if h >= 150 {
		return 1
	}
	return math.Min(math.Pow(150/h, 0.2), 1.3)
}

// ksys returns the load-sharing factor 1.1 of EN 1995-1-1 6.6 for a row of
// joists under a deck; from centres above 610 mm on none is claimed (limit of
// BS 5268-2, from memory; EN 1995-1-1 gives none).
func (r ec5) ksys() float64 {
	if r.Alone || r.Centres > 610 {
		return 1
	}
	return 1.1
}

// kcrit returns the lateral stability factor of the top edge.
func (r ec5) kcrit() float64 {
	if r.Unbraced == 0 {
		return 1
	}
	h := float64(r.Section.H)
	lef := 0.9*float64(r.Unbraced) + 2*h // uniform load on the compression edge
	return stability(r.s.Fm, criticalStress(r.Section, r.s.E05, lef))
}

// criticalStress returns σ_m,crit of a solid softwood joist.
//
//	σ_m,crit = 0.78 b² E_0,05 / (h l_ef)
//
// Source: EN 1995-1-1 eq. (6.32); checked against Benoit, Legrand, Tastet,
// Calcul de structures en bois (2008), example 2.3.2. N/mm², mm.
func criticalStress(s Section, e05, lef float64) float64 {
	b := float64(s.B)
	return 0.78 * b * b * e05 / (float64(s.H) * lef)
}

// stability returns k_crit from f_m,k and σ_m,crit. EN 1995-1-1 eq. (6.30), (6.34).
func stability(fmk, crit float64) float64 {
	lambda := math.Sqrt(fmk / crit) // λ_rel,m
	switch {
	case lambda <= 0.75:
		return 1
	case lambda <= 1.4:
		return 1.56 - 0.75*lambda
	}
	return 1 / (lambda * lambda)
}

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

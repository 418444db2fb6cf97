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
// Sources: EN 1995-1-1:2004+A1 2.2.3, 3.1.3, 3.2(3), 6.1.5, 6.1.6, 6.1.7,
// 6.3.3, 6.6; EN 1990 (6.10), (6.11); UK annex to EN 1995-1-1 Tables NA.1
// (durations), NA.3 (γ_M), NA.4 (k_cr) and NA.5 (deflection), values of NA.1,
// NA.4 and NA.5 from memory. NA.5 limits the final deflection only, so without
// a given n the instantaneous one is set against the same fraction of the span
// and never governs. ψ2 is Psi2, 0 for a roof's imposed load; for snow it is 0
// up to 1000 m above the sea (EN 1990 Table A1.1).
//
// Checked against the worked examples in the tests.
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

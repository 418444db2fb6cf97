package timber

import (
	"math"

	"chargehand/calc/unit"
)

// nds judges a joist by US allowable stress design, as the joist and rafter
// tables of the residential and building codes were made.
//
//	bending    M/W      <= F_b C_D C_M C_F C_i C_r C_L
//	shear      1.5 V/bh <= F_v C_D C_M C_i
//	bearing    R/(b·l)  <= F_c⊥ C_M
//	instant    w(Q), without shear, <= l/n
//
// Bending under all loads, deflection under the imposed load only; n is
// DeflectionLimit, else 240 under a ceiling and 180 without. The clear span is
// the span. The dead load is taken to hold the joist's own weight, as in the
// tables.
//
// Sources: National Design Specification for Wood Construction 2018, 4.3 and
// 3.3.3, and its Supplement, all values from memory; judged by IRC 2018 Table
// R802.5.1(2), IBC 2018 Table 2308.7.2(2) and the deck guide's Table 2, which
// they reproduce to the inch.
type nds struct {
	Joist
	lumber lumber
}

func newNDS(j Joist) (rules, error) {
	l, err := lumberOf(j.Grade, j.Section)
	if err != nil {
		return nil, err
	}
	j.Section.H = unit.Length(l.depth)
	return nds{Joist: j, lumber: l}, nil
}

func (r nds) lasting(float64) (sag, slope float64) { return 0, 0 }
func (r nds) hold(float64) float64                 { return 0 }
func (r nds) ownWeight() float64                   { return 0 }
func (r nds) designSpan(clear float64) float64     { return clear }

func (r nds) conditions(clear float64) []Condition {
	g := r.permanent(0, clear)
	var w worst
	r.strength(&w, clear, "permanent", g, loading{})
	list := r.variables(clear)
	for _, a := range list {
		r.strength(&w, clear, a.name, g, a.load)
	}
	for _, a := range list {
		if !a.close {
			r.service(&w, clear, a.name, a.load)
		}
	}
	return w.list
}

func (r nds) strength(w *worst, span float64, name string, g, q loading) {
	b := beam{span: span, tail: float64(r.Tail)}
	b.add(g, 1)
	b.add(q, 1)
	s := b.solve()
	sigma := s.maxMoment() / r.Section.modulus()
	fb := r.bending()
	w.take(Condition{Bending, name, sigma, fb, "N/mm²"})
	w.take(Condition{Stability, name, sigma, fb * r.stability(fb), "N/mm²"})
	w.take(Condition{Shear, name, 1.5 * s.maxShear() / r.Section.area(), r.shear(), "N/mm²"})
	press := math.Max(s.ra, s.rb) / float64(r.Section.B) / float64(r.Bearing)
	w.take(Condition{Bearing, name, press, r.across(), "N/mm²"})
}

func (r nds) service(w *worst, span float64, name string, q loading) {
	n := r.DeflectionLimit
	if n == 0 {
		n = 240
		if r.Ceiling == CeilingNone {
			n = 180
		}
	}
	b := beam{span: span, tail: float64(r.Tail)}
	b.add(q, 1)
	s := b.solve()
	ei := r.modulus() * r.Section.inertia()
	w.take(Condition{Instant, name, s.maxDeflection(ei, math.Inf(1)), span / n, "mm"})
	if r.Tail > 0 {
		w.take(Condition{TailEnd, name, s.tipDeflection(ei, math.Inf(1)), 2 * float64(r.Tail) / n, "mm"})
	}
}

// bending returns the allowable bending stress before buckling, N/mm².
//
// Wet service weakens bending by 0.85 only where F_b C_F is above 1150 psi
// (NDS Supplement, adjustment factors of Table 4A, from memory).
func (r nds) bending() float64 {
	f := r.lumber.fb * r.DurationFactor
	if r.Wet && r.lumber.fb > 1150*psi {
		f *= 0.85
	}
	if r.Incised {
		f *= 0.80
	}
	if !r.Alone && r.Centres <= 24*25.4+0.5 { // repetitive member: at most 24 in, printed as 610 mm
		f *= 1.15
	}
	return f
}

func (r nds) shear() float64 {
	f := r.lumber.fv * r.DurationFactor
	if r.Wet {
		f *= 0.97
	}
	if r.Incised {
		f *= 0.80
	}
	return f
}

func (r nds) across() float64 {
	if r.Wet {
		return r.lumber.fcPerp * 0.67
	}
	return r.lumber.fcPerp
}

// modulus returns E for deflection; stiffness of lumber does not depend on the
// duration of load.
func (r nds) modulus() float64 { return r.stiffness(r.lumber.e) }

func (r nds) stiffness(e float64) float64 {
	if r.Wet {
		e *= 0.9
	}
	if r.Incised {
		e *= 0.95
	}
	return e
}

// stability returns C_L for the unbraced length under uniform load.
func (r nds) stability(fb float64) float64 {
	if r.Unbraced == 0 {
		return 1
	}
	lu, d := float64(r.Unbraced), float64(r.Section.H)
	le := 2.06 * lu // NDS Table 3.3.3, uniform load, l_u/d < 7
	if lu/d >= 7 {
		le = 1.63*lu + 3*d
	}
	_, cl := beamStability(r.Section, fb, r.stiffness(r.lumber.eMin), le)
	return cl
}

// beamStability returns the slenderness ratio R_B and the beam stability
// factor C_L.
//
//	R_B = √(l_e d / b²)   F_bE = 1.20 E_min / R_B²   a = F_bE/F_b*
//	C_L = (1+a)/1.9 - √( ((1+a)/1.9)² - a/0.95 )
//
// Source: NDS 3.3.3, eq. (3.3-5), (3.3-6); checked against AWC NDS Structural
// Wood Design Examples, E1.2a. N/mm², mm.
func beamStability(s Section, fb, eMin, le float64) (rb, cl float64) {
	b := float64(s.B)
	rb = math.Sqrt(le*float64(s.H)) / b
	a := 1.20 * eMin / (rb * rb) / fb
	m := (1 + a) / 1.9
	return rb, m - math.Sqrt(m*m-a/0.95)
}

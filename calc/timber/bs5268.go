package timber

import (
	"math"

	"chargehand/calc"
)

// bs5268 judges a joist as the older UK span tables were made: permissible
// stresses, all loads at their plain value.
//
//	bending    M/W      <= K3 K7 K8 σ_m      K7 = (300/h)^0.11
//	shear      1.5 V/bh <= K3 K8 τ
//	bearing    R/(b·l)  <= K3 K8 σ_c (wane allowed)
//	final      w(G + Q), with shear, <= 0.003 l
//	K3 = 1.0 dead, 1.25 uniform imposed or snow (medium term), 1.5 man load (short term)
//	K8 = 1.1 and E_mean for four or more joists at up to 610 mm; else 1 and E_min
//
// The clear span is taken as the span, the own weight at 540 kg/m³.
//
// Sources: BS 5268-2 and BS 5268-7.2, all code values from memory; judged by
// the SC3 tables in the tests, whose inputs were found by fitting them.
type bs5268 struct {
	Joist
	grade bsGrade
	own   float64 // N/mm
}

// bsGrade is a row of BS 5268-2 Table 8, dry stresses in N/mm².
type bsGrade struct {
	class                  string
	bending, shear, across float64
	eMean, eMin            float64
}

// bsGrades holds BS 5268-2 Table 8, from memory; compression across the grain
// is the value that lets the arris be waned.
var bsGrades = [...]bsGrade{
	{"C14", 4.1, 0.60, 1.6, 6800, 4600},
	{"C16", 5.3, 0.67, 1.7, 8800, 5800},
	{"C18", 5.8, 0.67, 1.7, 9100, 6000},
	{"C24", 7.5, 0.71, 1.9, 10800, 7200},
	{"C27", 10.0, 1.10, 2.0, 12300, 8200},
	{"C30", 11.0, 1.20, 2.2, 12300, 8200},
}

func newBS5268(j Joist) (rules, error) {
	for _, g := range bsGrades {
		if g.class == j.Grade {
			return bs5268{Joist: j, grade: g, own: ownWeight(540, j.Section)}, nil
		}
	}
	return nil, &calc.DomainError{Op: spanOp, Field: "grade", Got: j.Grade, Wanted: "one of C14 C16 C18 C24 C27 C30 (BS 5268-2)"}
}

func (r bs5268) lasting(float64) (sag, slope float64) { return 0, 0 }
func (r bs5268) hold(float64) float64                 { return 0 }
func (r bs5268) ownWeight() float64                   { return r.own }
func (r bs5268) designSpan(clear float64) float64     { return clear }

func (r bs5268) conditions(clear float64) []Condition {
	g := r.permanent(r.own, clear)
	var w worst
	r.take(&w, clear, "permanent", g, loading{}, 1)
	for _, a := range r.variables(clear) {
		k3 := 1.25
		if a.man || a.accidental {
			k3 = 1.5
		}
		r.take(&w, clear, a.name, g, a.load, k3)
	}
	return w.list
}

func (r bs5268) take(w *worst, span float64, name string, g, q loading, k3 float64) {
	b := beam{span: span, tail: float64(r.Tail)}
	b.add(g, 1)
	b.add(q, 1)
	s := b.solve()
	k8, e := 1.1, r.grade.eMean
	if r.Alone || r.Centres > 610 {
		k8, e = 1, r.grade.eMin
	}
	k7 := math.Pow(300/float64(r.Section.H), 0.11)
	w.take(Condition{Bending, name, s.maxMoment() / r.Section.modulus(), k3 * k7 * k8 * r.grade.bending, "N/mm²"})
	w.take(Condition{Shear, name, 1.5 * s.maxShear() / r.Section.area(), k3 * k8 * r.grade.shear, "N/mm²"})
	press := math.Max(s.ra, s.rb) / float64(r.Section.B) / float64(r.Bearing)
	w.take(Condition{Bearing, name, press, k3 * k8 * r.grade.across, "N/mm²"})
	ei, ga := e*r.Section.inertia(), e/16*r.Section.area()/1.2
	w.take(Condition{Final, name, s.maxDeflection(ei, ga), 0.003 * span, "mm"})
	if r.Tail > 0 {
		w.take(Condition{TailEnd, name, s.tipDeflection(ei, ga), 0.006 * float64(r.Tail), "mm"})
	}
	if r.DeflectionLimit > 0 {
		alone := beam{span: span, tail: float64(r.Tail)}
		alone.add(q, 1)
		w.take(Condition{Instant, name, alone.solve().maxDeflection(ei, ga), span / r.DeflectionLimit, "mm"})
	}
}

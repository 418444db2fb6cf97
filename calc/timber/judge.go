package timber

import (
	"fmt"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Check judges a joist at a clear span between the faces of its supports.
//
// Source and formulas: the file of each method.
// Shape: utilisation never falls as the clear span grows (without a tail), nor
// as a load grows.
// Domain: section 20..150 by 60..400 mm, centres 100..1200 mm, clear span from
// twice the depth and four tails to 20 m.
// Ignores: see the package comment.
// Errors: DomainError only, its Field the key of the span topic.
func Check(j Joist, clear unit.Length) (Result, error) {
	r, err := j.bind()
	if err != nil {
		return Result{}, err
	}
	if err := j.reaches(float64(clear)); err != nil {
		return Result{}, err
	}
	longest, _, err := search(j, r)
	if err != nil {
		return Result{}, err
	}
	res := judge(r, float64(clear))
	res.MaxClear = unit.Length(longest)
	return res, nil
}

// reaches refuses a clear span the formulas do not hold for.
func (j Joist) reaches(clear float64) error {
	return calc.Outside(spanOp, "clear_span_mm", clear, j.shortest(), longestSpan, "mm")
}

// MaxClearSpan returns the longest clear span at which no condition is over
// its limit, to a hundredth of a millimetre and never rounded up, and the
// condition that stops it. A joist that fails even at the shortest span the
// formulas hold for has a longest span of 0.
//
// Shape: falls with every load and with the centres, grows with the depth.
// Domain and errors: as Check; loads so light that 20 m would pass are refused.
func MaxClearSpan(j Joist) (clear unit.Length, governedBy string, err error) {
	r, err := j.bind()
	if err != nil {
		return 0, "", err
	}
	longest, governedBy, err := search(j, r)
	return unit.Length(longest), governedBy, err
}

// search halves the interval; the count is fixed so that the same joist gives
// the same bits everywhere.
func search(j Joist, r rules) (longest float64, governedBy string, err error) {
	lo, hi := j.shortest(), float64(longestSpan)
	if at := judge(r, lo); at.Utilisation > 1 {
		return 0, at.GovernedBy, nil
	}
	if judge(r, hi).Utilisation <= 1 {
		return 0, "", &calc.DomainError{Op: spanOp, Field: "dead_kn_m2", Got: j.Dead.In(unit.KilonewtonPerM2),
			Wanted: fmt.Sprintf("loads under which the longest span is less than %d m", longestSpan/1000)}
	}
	for range 22 { // 20 m / 2^22 < 0.005 mm
		mid := (lo + hi) / 2
		if judge(r, mid).Utilisation <= 1 {
			lo = mid
		} else {
			hi = mid
		}
	}
	// A hundredth down is still a span that passes, and prints short.
	down := math.Floor(lo*100) / 100
	return down, judge(r, hi).GovernedBy, nil
}

// judge evaluates every condition at one clear span.
func judge(r rules, clear float64) Result {
	res := Result{
		Conditions: r.conditions(clear),
		Span:       unit.Length(r.designSpan(clear)),
		OwnWeight:  unit.LineLoad(r.ownWeight()),
		Hold:       unit.Force(r.hold(clear)),
	}
	sag, slope := r.lasting(clear)
	res.LastingSag, res.LastingFall = unit.Length(sag), unit.Fall(slope)
	for _, c := range res.Conditions {
		// A later condition must be worse by more than rounding to take over,
		// so that stability equal to bending leaves bending named.
		if u := c.Utilisation(); u > res.Utilisation*(1+1e-12) {
			res.Utilisation, res.GovernedBy = u, c.Name
		}
	}
	res.Status = calc.Grade(res.Utilisation)
	return res
}

// worst keeps the worst case of each condition, in the order first met.
type worst struct{ list []Condition }

func (w *worst) take(c Condition) {
	for i := range w.list {
		if w.list[i].Name == c.Name {
			if c.Utilisation() > w.list[i].Utilisation() {
				w.list[i] = c
			}
			return
		}
	}
	w.list = append(w.list, c)
}

package timber

import (
	"math"
	"slices"
)

// beam is a joist on supports at x = 0 and x = span with a tail beyond the
// second one, under loads downwards. It is solved exactly with Macaulay
// brackets: every load is a polynomial that starts at its place, so the n-fold
// integral is written down instead of computed.
//
//	<x-a>^n/n!  starts at a;  a line load ends by starting its negative at b
//
// Source: W. H. Macaulay, Note on the deflection of beams, Messenger of
// Mathematics 48 (1919). Lengths mm, loads N/mm, forces N, moments N·mm.
type beam struct {
	span, tail float64
	lines      []lineLoad
	points     []pointLoad
}

// lineLoad runs straight from q0 at from to q1 at to, N/mm downwards.
type lineLoad struct{ from, to, q0, q1 float64 }

// pointLoad is in N downwards.
type pointLoad struct{ at, p float64 }

// add puts the loads on the beam, times f.
func (b *beam) add(o loading, f float64) {
	if f == 0 {
		return
	}
	for _, l := range o.lines {
		b.lines = append(b.lines, lineLoad{l.from, l.to, l.q0 * f, l.q1 * f})
	}
	for _, p := range o.points {
		b.points = append(b.points, pointLoad{p.at, p.p * f})
	}
}

// loading is a set of loads waiting for a beam.
type loading struct {
	lines  []lineLoad
	points []pointLoad
}

// bracket returns <d>^n/n!.
func bracket(d float64, n int) float64 {
	if d < 0 {
		return 0
	}
	r := 1.0
	for i := 1; i <= n; i++ {
		r *= d / float64(i)
	}
	return r
}

// integral returns the n-fold integral of the loads from 0 to x: n = 1 is the
// load left of x, n = 2 its moment about x.
func (b beam) integral(x float64, n int) float64 {
	sum := 0.0
	for _, l := range b.lines {
		if l.to <= l.from {
			continue
		}
		k := (l.q1 - l.q0) / (l.to - l.from)
		sum += l.q0*bracket(x-l.from, n) + k*bracket(x-l.from, n+1)
		sum -= l.q1*bracket(x-l.to, n) + k*bracket(x-l.to, n+1)
	}
	for _, p := range b.points {
		sum += p.p * bracket(x-p.at, n-1)
	}
	return sum
}

// solved is a beam with its reactions and end rotation.
type solved struct {
	beam
	ra, rb float64 // N upwards
	c1     float64 // EI times the rotation at x = 0, N·mm²
	breaks []float64
}

func (b beam) solve() solved {
	end := b.span + b.tail
	total := b.integral(end, 1)
	about := b.integral(end, 2) // moment of all loads about the tail end
	// Sum of moments about the end: ra·end + rb·tail = about; ra + rb = total.
	ra := (about - total*b.tail) / b.span
	s := solved{beam: b, ra: ra, rb: total - ra}
	s.c1 = (ra*b.span*b.span*b.span/6 - b.integral(b.span, 4)) / b.span
	s.breaks = append(s.breaks, 0, b.span, end)
	for _, l := range b.lines {
		s.breaks = append(s.breaks, l.from, l.to)
	}
	for _, p := range b.points {
		s.breaks = append(s.breaks, p.at)
	}
	slices.Sort(s.breaks)
	s.breaks = slices.Compact(s.breaks)
	return s
}

// shear returns the shear force just right of x.
func (s solved) shear(x float64) float64 {
	return s.ra + s.rb*bracket(x-s.span, 0) - s.integral(x, 1)
}

// shearLeft returns the shear force just left of x.
func (s solved) shearLeft(x float64) float64 {
	v := s.shear(x)
	if x == s.span {
		v -= s.rb
	}
	if x == 0 {
		v -= s.ra
	}
	for _, p := range s.points {
		if p.at == x {
			v += p.p
		}
	}
	return v
}

// moment returns the bending moment at x, sagging positive.
func (s solved) moment(x float64) float64 {
	return s.ra*x + s.rb*bracket(x-s.span, 1) - s.integral(x, 2)
}

// deflection returns the movement downwards at x for bending stiffness ei
// (N·mm²) and shear stiffness ga (N, already divided by the form factor;
// +Inf leaves shear out).
//
//	EI·w = C1·x - (R_A·x³/6 + R_B·<x-l>³/6 - I4(x));   GA/κ·w_v = M(x) - M(l)·x/l
func (s solved) deflection(x, ei, ga float64) float64 {
	bend := s.c1*x - (s.ra*x*x*x/6 + s.rb*bracket(x-s.span, 3) - s.integral(x, 4))
	slide := s.moment(x) - s.moment(s.span)*x/s.span
	return bend/ei + slide/ga
}

// endSlope returns how steeply the sag rises towards the second bearing, from
// bending alone.
func (s solved) endSlope(ei float64) float64 {
	l := s.span
	return (s.ra*l*l/2 - s.integral(l, 3) - s.c1) / ei
}

// maxMoment returns the largest bending moment in size: at the breaks and
// wherever the shear force crosses zero between two of them. Between breaks
// the shear force is at most a parabola, which three of its values give.
func (s solved) maxMoment() float64 {
	worst := 0.0
	take := func(x float64) { worst = math.Max(worst, math.Abs(s.moment(x))) }
	for i, x0 := range s.breaks {
		take(x0)
		if i+1 == len(s.breaks) {
			break
		}
		x1 := s.breaks[i+1]
		v0, vm, v1 := s.shear(x0), s.shear((x0+x1)/2), s.shearLeft(x1)
		a := 2 * (v0 + v1 - 2*vm)
		bb := v1 - v0 - a
		for _, t := range roots(a, bb, v0) {
			if t > 0 && t < 1 {
				take(x0 + t*(x1-x0))
			}
		}
	}
	return worst
}

// roots solves a·t² + b·t + c = 0; the form with q avoids cancellation when a
// is almost nothing, as it is for uniform loads.
func roots(a, b, c float64) []float64 {
	d := b*b - 4*a*c
	if d < 0 {
		return nil
	}
	q := -(b + math.Copysign(math.Sqrt(d), b)) / 2
	var r []float64
	if q != 0 {
		r = append(r, c/q)
	}
	if a != 0 {
		r = append(r, q/a)
	}
	return r
}

// maxShear returns the largest shear force in size. Loads point one way, so it
// lies beside a support or a load's end.
func (s solved) maxShear() float64 {
	worst := 0.0
	for _, x := range s.breaks {
		if x > 0 {
			worst = math.Max(worst, math.Abs(s.shearLeft(x)))
		}
		if x < s.span+s.tail {
			worst = math.Max(worst, math.Abs(s.shear(x)))
		}
	}
	return worst
}

// maxDeflection returns the largest movement downwards between the supports:
// the best of a row of places, then golden section around it.
func (s solved) maxDeflection(ei, ga float64) float64 {
	const rows = 16
	at := func(x float64) float64 { return s.deflection(x, ei, ga) }
	best, worst := 0.0, 0.0
	for i := 1; i < rows; i++ {
		x := s.span * float64(i) / rows
		if w := at(x); w > worst {
			best, worst = x, w
		}
	}
	if worst == 0 {
		return 0
	}
	const golden = 0.6180339887498949
	lo, hi := best-s.span/rows, best+s.span/rows
	a, b := hi-golden*(hi-lo), lo+golden*(hi-lo)
	wa, wb := at(a), at(b)
	for range 14 { // the place to 1e-4 of the span, the flat top to 1e-7
		if wa > wb {
			hi, b, wb = b, a, wa
			a = hi - golden*(hi-lo)
			wa = at(a)
		} else {
			lo, a, wa = a, b, wb
			b = lo + golden*(hi-lo)
			wb = at(b)
		}
	}
	return math.Max(worst, math.Max(wa, wb))
}

// tipDeflection returns the movement downwards at the tail's end; a tail that
// rises returns 0.
func (s solved) tipDeflection(ei, ga float64) float64 {
	if s.tail == 0 {
		return 0
	}
	return math.Max(0, s.deflection(s.span+s.tail, ei, ga))
}

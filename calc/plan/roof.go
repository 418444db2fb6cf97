package plan

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// Fall is the drop over the depth.
type Fall struct {
	Drop   unit.Length
	Slope  unit.Fall
	Status calc.Status // within from 1:40, close from 1:80, over below that
}

// fallID names the fall check.
const fallID = "plan.fall/1"

// Design falls.
//
// Source: BS 6229:2018, as NHBC Standards 7.1 restates it: 1:40 by design, so
// that the finished fall is nowhere under 1:80.
const (
	fallDesign   = 1.0 / 40
	fallFinished = 1.0 / 80
)

func (r *reckoner) roof() {
	in := r.in
	if in.Length == nil || in.Depth == nil {
		return
	}
	area := in.Length.By(*in.Depth)
	diagonal := unit.Length(math.Hypot(float64(*in.Length), float64(*in.Depth)))
	r.p.Area, r.p.Diagonal = &area, &diagonal
	r.used("roof", geom.WalkID)
	if in.Diagonals != nil {
		skew, err := geom.ParallelogramSkew(in.Diagonals[0], in.Diagonals[1], *in.Length)
		if !r.failed("roof", err) {
			r.p.Skew = &skew
			r.used("roof", geom.SkewID)
		}
	}
	if in.Drop == nil {
		return
	}
	f := Fall{Drop: *in.Drop, Slope: unit.Fall(float64(*in.Drop) / float64(*in.Depth)), Status: calc.Within}
	switch {
	case float64(f.Slope) < fallFinished:
		f.Status = calc.Over
	case float64(f.Slope) < fallDesign-1e-4: // a drop rounded to the millimetre still counts as 1:40
		f.Status = calc.Close
	}
	r.p.Fall = &f
	r.used("fall", fallID)
}

package plan

import (
	"errors"
	"math"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/sheet"
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

// WalkError says why a walk does not come round; it is geom's, kept here so that
// the conversation need not know geom's errors.
type WalkError = geom.WalkError

func (r *reckoner) roof() {
	r.outline()
	o := r.p.Outline
	if o == nil {
		return
	}
	b := o.Bounds()
	length, depth, area := b.Length(), b.Depth(), o.Area()
	r.p.Length, r.p.Depth, r.p.Area = &length, &depth, &area
	r.p.Corners = sheet.Corners(*o)
	for _, p := range r.in.Pipes {
		r.p.Openings = append(r.p.Openings, geom.Pipe(geom.Point{X: p.X, Y: p.Y}, p.Dia))
	}
	for _, l := range r.in.Rooflights {
		r.p.Openings = append(r.p.Openings, geom.RooflightAt(geom.Rect{Min: geom.Point{X: l.X, Y: l.Y}, Max: geom.Point{X: l.X + l.Length, Y: l.Y + l.Depth}}))
	}
	for _, t := range o.Tapers() {
		if t.Off() >= 1 {
			r.p.Tapers = append(r.p.Tapers, t)
		}
	}
	if r.in.Drop == nil {
		return
	}
	f := Fall{Drop: *r.in.Drop, Slope: unit.Fall(float64(*r.in.Drop) / float64(depth)), Status: calc.Within}
	switch {
	case float64(f.Slope) < fallFinished:
		f.Status = calc.Over
	case float64(f.Slope) < fallDesign-1e-4: // a drop rounded to the millimetre still counts as 1:40
		f.Status = calc.Close
	}
	r.p.Fall = &f
	r.used("fall", fallID)
}

// outline draws the roof from what was taped. A rectangle whose edges are not
// known yet is drawn with verges all round: length, depth and area need no more.
func (r *reckoner) outline() {
	in := r.in
	switch in.Shape {
	case "four-sided":
		if in.Sides == nil || in.Diagonals == nil {
			return
		}
		f, err := geom.FourSider(geom.Taped{Sides: *in.Sides, Diagonals: *in.Diagonals}, r.kinds())
		if r.failed("roof", err) {
			return
		}
		r.p.Outline, r.p.Skew, r.p.Misclosure = &f.Outline, &f.Skew, &f.Misclosure
		r.used("roof", geom.FourSiderID)
	case "walked":
		if len(in.Walk) == 0 {
			return
		}
		w, err := geom.Walk(in.Walk)
		if err != nil {
			errors.As(err, &r.p.Walk)
			r.failed("roof", err)
			return
		}
		r.p.Outline, r.p.Misclosure = &w.Outline, &w.Misclosure
		r.used("roof", geom.WalkID)
	default:
		if in.Length == nil || in.Depth == nil {
			return
		}
		o, err := geom.Rectangle(*in.Length, *in.Depth, r.kinds())
		if r.failed("roof", err) {
			return
		}
		r.p.Outline = &o
		diagonal := unit.Length(math.Hypot(float64(*in.Length), float64(*in.Depth)))
		r.p.Diagonal = &diagonal
		r.used("roof", geom.WalkID)
		if in.Diagonals == nil {
			return
		}
		skew, err := geom.ParallelogramSkew(in.Diagonals[0], in.Diagonals[1], *in.Length)
		if !r.failed("roof", err) {
			r.p.Skew = &skew
			r.used("roof", geom.SkewID)
		}
	}
}

func (r *reckoner) kinds() [4]geom.Kind {
	k := [4]geom.Kind{geom.Verge, geom.Verge, geom.Verge, geom.Verge}
	if len(r.in.Edges) == 4 {
		for i, e := range r.in.Edges {
			k[i] = geom.Kind(e)
		}
	}
	return k
}

// known says whether it is known what stands on the edges.
func (r *reckoner) known() bool {
	return r.p.Outline != nil && (r.in.Shape == "walked" || len(r.in.Edges) == 4)
}

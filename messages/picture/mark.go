package picture

import (
	"image/color"
	"math"
)

// mark is one thing to paint: a path that is filled, drawn along, or both.
type mark struct {
	path []step
	pen  stroke      // of width 0: not drawn along
	fill color.Color // nil: not filled
}

// step is a part of a path: a straight way to a place, the first of them a jump,
// or part of a circle about it.
type step struct {
	p           pt
	radius      float64 // 0: straight
	from, sweep float64 // radians
	jump, close bool
}

func through(points []pt, closed bool) []step {
	out := make([]step, len(points), len(points)+1)
	for i, p := range points {
		out[i] = step{p: p, jump: i == 0}
	}
	if closed {
		out = append(out, step{close: true})
	}
	return out
}

func circle(at pt, r, from, sweep float64) []step {
	out := []step{{p: at.add(pt{r, 0}.turned(from)), jump: true}, {p: at, radius: r, from: from, sweep: sweep}}
	if math.Abs(sweep) >= 2*math.Pi-1e-9 {
		out = append(out, step{close: true})
	}
	return out
}

// bend is part of a circle as straight lines, for what must keep clear of it.
func bend(at pt, r, from, sweep float64) []pt {
	n := max(2, int(math.Ceil(math.Abs(sweep)/(math.Pi/8))))
	out := make([]pt, n+1)
	for i := range out {
		out[i] = at.add(pt{r, 0}.turned(from + sweep*float64(i)/float64(n)))
	}
	return out
}

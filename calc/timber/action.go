package timber

import "chargehand/calc/unit"

// action is one variable load in one arrangement on the joist.
type action struct {
	name       string // the load case, as Condition.Case shows it
	load       loading
	man        bool // the concentrated load, which has a duration of its own
	close      bool // so near a bearing that it cannot rule a deflection
	snow       bool
	accidental bool
}

// everywhere returns a uniform line load q on span and tail.
func everywhere(q, span, tail float64) loading {
	return loading{lines: []lineLoad{{0, span + tail, q, q}}}
}

// permanent returns the dead load, the joist's own weight and what else stays.
func (j Joist) permanent(own, span float64) loading {
	g := everywhere(float64(j.Dead.Over(j.Centres))+own, span, float64(j.Tail))
	for _, e := range j.Extras {
		from, to, f := float64(e.From), float64(e.To), float64(e.Force)
		if from == to {
			g.points = append(g.points, pointLoad{from, f})
			continue
		}
		g.lines = append(g.lines, lineLoad{from, to, f / (to - from), f / (to - from)})
	}
	return g
}

// variables lists the variable loads, one at a time: a roof's imposed load is
// not taken together with snow (EN 1991-1-1 3.3.2), nor with the man load.
//
// With a tail each uniform load also stands on the span alone and on the tail
// alone, since either may relieve the other. The man stands at mid-span, a
// depth away from the first bearing (closer in, his weight goes straight into
// it: EN 1995-1-1 6.1.7(3)), on the bearing, and at the end of the tail.
func (j Joist) variables(span float64) []action {
	var list []action
	tail := float64(j.Tail)
	uniform := func(name string, q float64, snow bool) {
		if q == 0 {
			return
		}
		list = append(list, action{name: name, load: everywhere(q, span, tail), snow: snow})
		if tail > 0 {
			list = append(list,
				action{name: name + " on span", load: loading{lines: []lineLoad{{0, span, q, q}}}, snow: snow},
				action{name: name + " on tail", load: loading{lines: []lineLoad{{span, span + tail, q, q}}}, snow: snow})
		}
	}
	uniform("imposed", float64(j.Imposed.Over(j.Centres)), false)
	if p := float64(j.Point); p > 0 {
		at := func(x float64, close bool) {
			list = append(list, action{name: "point", load: loading{points: []pointLoad{{x, p}}}, man: true, close: close})
		}
		at(span/2, false)
		at(float64(j.Section.H), true)
		at(0, true)
		at(span, true)
		if tail > 0 {
			at(span+tail, false)
		}
	}
	uniform("snow", float64(j.Snow.Over(j.Centres)), true)
	for _, d := range j.Drifts {
		name := "drift"
		if d.Accidental {
			name = "exceptional drift"
		}
		list = append(list, action{name: name, load: d.load(j.Centres, span, tail), snow: true, accidental: d.Accidental})
	}
	return list
}

// load lays the drift from the first bearing outwards and cuts it off at the
// joist's end.
func (d Drift) load(centres unit.Length, span, tail float64) loading {
	end := span + tail
	peak, far := float64(d.Peak.Over(centres)), float64(d.Far.Over(centres))
	length := float64(d.Length)
	if length >= end {
		return loading{lines: []lineLoad{{0, end, peak, peak + (far-peak)*end/length}}}
	}
	return loading{lines: []lineLoad{{0, length, peak, far}, {length, end, far, far}}}
}

package geom

import (
	"cmp"
	"slices"

	"chargehand/calc/unit"
)

// Span is a stretch of a scan line inside the roof.
type Span struct{ From, To unit.Length }

// Length returns the length of s.
func (s Span) Length() unit.Length { return s.To - s.From }

// UpRoof returns where the line at x from the gutter's left end, running up
// the roof, lies on the roof: the stretches of y from the lowest up. It is
// what a joist centred or faced on x has to reach over.
//
// A line exactly along an edge gets what lies on either side of it, so the
// line at the inside of an L gets the long stretch. A roof merely touched in a
// point gives nothing.
func (p Polygon) UpRoof(x unit.Length) []Span {
	return p.scan(float64(x), func(q Point) (at, along float64) { return float64(q.X), float64(q.Y) })
}

// AlongGutter returns where the line at y above the gutter line, running
// parallel to it, lies on the roof: the stretches of x from the left. It is
// what a row of boards has to cover. Edges count as in UpRoof.
func (p Polygon) AlongGutter(y unit.Length) []Span {
	return p.scan(float64(y), func(q Point) (at, along float64) { return float64(q.Y), float64(q.X) })
}

func (p Polygon) scan(at float64, axes func(Point) (at, along float64)) []Span {
	below := p.crossings(axes, at, func(v float64) bool { return v < at })
	above := p.crossings(axes, at, func(v float64) bool { return v <= at })
	spans := append(below, above...)
	slices.SortFunc(spans, func(a, b Span) int {
		if a.From != b.From {
			return cmp.Compare(a.From, b.From)
		}
		return cmp.Compare(a.To, b.To)
	})
	var joined []Span
	for _, s := range spans {
		if last := len(joined) - 1; last >= 0 && s.From <= joined[last].To {
			joined[last].To = max(joined[last].To, s.To)
			continue
		}
		joined = append(joined, s)
	}
	return joined
}

// crossings pairs the crossings of a line infinitely near at, on the side that
// near chooses.
func (p Polygon) crossings(axes func(Point) (at, along float64), at float64, near func(float64) bool) []Span {
	var hits []unit.Length
	for i := range p {
		a0, a1 := axes(p[i])
		b0, b1 := axes(p.next(i))
		if near(a0) == near(b0) {
			continue
		}
		// Ends taken exactly: a whole millimetre stays one.
		hit := a1
		switch {
		case a1 == b1 || at == a0:
		case at == b0:
			hit = b1
		default:
			hit = a1 + (b1-a1)*(at-a0)/(b0-a0)
		}
		hits = append(hits, unit.Length(hit))
	}
	slices.Sort(hits)
	var spans []Span
	for i := 0; i+1 < len(hits); i += 2 {
		if hits[i] < hits[i+1] {
			spans = append(spans, Span{hits[i], hits[i+1]})
		}
	}
	return spans
}

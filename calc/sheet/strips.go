package sheet

import (
	"cmp"
	"slices"

	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// strips is the problem of covering a shape by strips that run along Y, side by
// side along X.
type strips struct {
	shape     geom.Polygon
	widths    []unit.Length // nil: any
	lap, step unit.Length
	clear     []geom.Rect
}

// total is what is kept small, in this order.
type total struct {
	seams int
	along unit.Length // of seam
	area  unit.Area   // bought
}

func (t total) less(u total) bool {
	if t.seams != u.seams {
		return t.seams < u.seams
	}
	if d := t.along - u.along; d > hair || d < -hair {
		return d < 0
	}
	return t.area < u.area-1
}

// cover is the shape covered.
type cover struct {
	total  total
	strips []Strip
	seams  []Seam
}

// state is the best way to cover the shape up to an end: the end before it, -1
// for the shape's own left, or none.
type state struct {
	total  total
	before int
	ok     bool
}

// lay finds the best cover by dynamic programming over the right edge of each
// strip; the next strip starts a lap before it. ok is false when none keeps
// its seams clear.
func (s strips) lay() (c cover, ok bool) {
	box := s.shape.Bounds()
	left, right := box.Min.X, box.Max.X
	widest := right - left
	if s.widths != nil {
		widest = slices.Max(s.widths)
	}
	if one, ok := s.onePiece(box, widest); ok {
		return one, true
	}
	ends := s.ends(left, right, widest)
	laps := make([][]Seam, len(ends)) // what a seam at each end costs
	for j, end := range ends {
		laps[j] = s.seams(end)
	}
	best := make([]state, len(ends))
	for k, end := range ends {
		if end-left <= widest+hair {
			t := total{area: s.bought(s.pieces(left, end))}
			best[k] = state{total: t, before: -1, ok: true}
		}
		for j := k - 1; j >= 0; j-- {
			start := ends[j] - s.lap
			if end-start > widest+hair {
				break // ends rise, so every earlier start is further off
			}
			if !best[j].ok || s.blocked(start, ends[j]) {
				continue
			}
			t := best[j].total
			for _, seam := range laps[j] {
				t.seams, t.along = t.seams+1, t.along+seam.Length
			}
			if best[k].ok && !t.less(best[k].total) {
				continue // without this strip's area it is no better already
			}
			t.area += s.bought(s.pieces(start, end))
			if !best[k].ok || t.less(best[k].total) {
				best[k] = state{total: t, before: j, ok: true}
			}
		}
	}
	last := len(ends) - 1
	if !best[last].ok {
		return cover{}, false
	}
	c.total = best[last].total
	for k := last; k >= 0; k = best[k].before {
		start := left
		if j := best[k].before; j >= 0 {
			start = ends[j] - s.lap
			c.seams = append(c.seams, laps[j]...)
		}
		c.strips = append(c.strips, s.pieces(start, ends[k])...)
	}
	slices.Reverse(c.strips)
	slices.Reverse(c.seams)
	return c, true
}

// onePiece covers the whole box with one sheet, whichever way round buys less.
func (s strips) onePiece(box geom.Rect, widest unit.Length) (cover, bool) {
	var best cover
	found := false
	for _, way := range [2]struct {
		lies          Run
		across, along unit.Length
	}{{Down, box.Length(), box.Depth()}, {Across, box.Depth(), box.Length()}} {
		if way.across > widest+hair {
			continue
		}
		strip := Strip{Place: box, Lies: way.lies, Width: s.roll(way.across), Length: upTo(way.along, s.step)}
		t := total{area: strip.Width.By(strip.Length)}
		if !found || t.less(best.total) {
			best, found = cover{total: t, strips: []Strip{strip}}, true
		}
	}
	return best, found
}

// roll returns the narrowest sheet to be had that is at least w wide; the
// caller has checked that there is one.
func (s strips) roll(w unit.Length) unit.Length {
	if s.widths == nil {
		return upTo(w, s.step)
	}
	best := unit.Length(0)
	for _, have := range s.widths {
		if have >= w-hair && (best == 0 || have < best) {
			best = have
		}
	}
	return best
}

// pieces returns the strip from start to end, one for each stretch of the
// shape it has to reach over.
func (s strips) pieces(start, end unit.Length) []Strip {
	var out []Strip
	for _, span := range s.reaches(start, end) {
		out = append(out, Strip{
			Place:  geom.Rect{Min: geom.Point{X: start, Y: span.From}, Max: geom.Point{X: end, Y: span.To}},
			Lies:   Down,
			Width:  s.roll(end - start),
			Length: upTo(span.Length(), s.step),
		})
	}
	return out
}

func (s strips) bought(pieces []Strip) unit.Area {
	var sum unit.Area
	for _, p := range pieces {
		sum += p.Width.By(p.Length)
	}
	return sum
}

// seams returns the laps that end at a place.
func (s strips) seams(end unit.Length) []Seam {
	var out []Seam
	for _, span := range s.reaches(end-s.lap, end) {
		out = append(out, Seam{From: end - s.lap, To: end, Length: span.Length()})
	}
	return out
}

// blocked reports whether a lap from one place to another would lie where none
// may.
func (s strips) blocked(from, to unit.Length) bool {
	for _, r := range s.clear {
		if from < r.Max.X-hair && to > r.Min.X+hair {
			return true
		}
	}
	return false
}

// reaches returns how far the shape reaches along Y between two places along X,
// stretches that overlap joined: one piece of sheet each.
func (s strips) reaches(from, to unit.Length) []geom.Span {
	at := []unit.Length{from + hair, to - hair}
	for _, v := range s.shape {
		if v.X > from && v.X < to {
			at = append(at, v.X-hair, v.X+hair)
		}
	}
	slices.Sort(at)
	var all []geom.Span
	for _, x := range slices.Compact(at) {
		all = append(all, s.shape.UpRoof(x)...)
	}
	slices.SortFunc(all, func(a, b geom.Span) int { return cmp.Compare(a.From, b.From) })
	var joined []geom.Span
	for _, span := range all {
		if k := len(joined) - 1; k >= 0 && span.From <= joined[k].To {
			joined[k].To = max(joined[k].To, span.To)
			continue
		}
		joined = append(joined, span)
	}
	return joined
}

// ends returns the places where a strip may end, rising, the last being right.
func (s strips) ends(left, right, widest unit.Length) []unit.Length {
	from := []unit.Length{left, right}
	for _, v := range s.shape {
		from = append(from, v.X)
	}
	for _, r := range s.clear {
		from = append(from, r.Min.X, r.Max.X)
	}
	slices.Sort(from)
	ends := []unit.Length{right}
	net := widest - s.lap // what a strip adds
	for _, c := range slices.Compact(from) {
		for _, first := range [2]unit.Length{c, c + s.lap} { // a lap ends at c, or begins there
			for e := first; e < right; e += net {
				ends = append(ends, e)
			}
			for e := first - net; e > left; e -= net {
				ends = append(ends, e)
			}
		}
	}
	ends = slices.DeleteFunc(ends, func(e unit.Length) bool { return e <= left+s.lap || e > right })
	slices.Sort(ends)
	return slices.CompactFunc(ends, func(a, b unit.Length) bool { return max(a-b, b-a) < hair })
}

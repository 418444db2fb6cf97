package draw

import (
	"slices"

	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// band is the part of a ring between two lines across it: between two heights,
// or, upright, between two places along the gutter. It comes in pieces without
// corners inside them.
func band(ring geom.Polygon, from, to unit.Length, upright bool) []geom.Polygon {
	if from > to {
		from, to = to, from
	}
	along := func(p geom.Point) unit.Length { return p.Y }
	scan := ring.AlongGutter
	place := func(a, x unit.Length) geom.Point { return at(x, a) }
	if upright {
		along = func(p geom.Point) unit.Length { return p.X }
		scan = ring.UpRoof
		place = func(a, y unit.Length) geom.Point { return at(a, y) }
	}
	cuts := []unit.Length{from, to}
	for _, p := range ring {
		if a := along(p); a > from && a < to {
			cuts = append(cuts, a)
		}
	}
	slices.Sort(cuts)
	var out []geom.Polygon
	for i := 1; i < len(cuts); i++ {
		a, b := cuts[i-1], cuts[i]
		if b-a < 0.01 {
			continue
		}
		hair := (b - a) * 1e-6 // a line along an edge gets what lies on either side
		low, high := scan(a+hair), scan(b-hair)
		if len(low) != len(high) {
			continue
		}
		for k := range low {
			out = append(out, geom.Polygon{place(a, low[k].From), place(b, high[k].From), place(b, high[k].To), place(a, low[k].To)})
		}
	}
	return out
}

// clip is the part of a ring inside a rectangle, in pieces.
func clip(ring geom.Polygon, r geom.Rect) []geom.Polygon {
	var out []geom.Polygon
	for _, piece := range band(ring, r.Min.Y, r.Max.Y, false) {
		out = append(out, band(piece, r.Min.X, r.Max.X, true)...)
	}
	return out
}

// acrossRing is where the line at a place lies on a ring, from end to end.
func acrossRing(ring geom.Polygon, a unit.Length, upright bool) [][2]geom.Point {
	var out [][2]geom.Point
	if upright {
		for _, s := range ring.UpRoof(a) {
			out = append(out, [2]geom.Point{at(a, s.From), at(a, s.To)})
		}
		return out
	}
	for _, s := range ring.AlongGutter(a) {
		out = append(out, [2]geom.Point{at(s.From, a), at(s.To, a)})
	}
	return out
}

// widest is a place part of the way along the longest line across a ring.
func widest(ring geom.Polygon, a unit.Length, upright bool, part unit.Length) geom.Point {
	spans := ring.AlongGutter(a)
	if upright {
		spans = ring.UpRoof(a)
	}
	var best geom.Span
	for _, s := range spans {
		if s.Length() > best.Length() {
			best = s
		}
	}
	if upright {
		return at(a, best.From+part*best.Length())
	}
	return at(best.From+part*best.Length(), a)
}

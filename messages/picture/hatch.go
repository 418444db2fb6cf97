package picture

import (
	"math"
	"slices"
)

// lines returns the lines of a hatching inside a ring, as one mark. They lie on
// one grid all over the panel, so that two surfaces of a material match where
// they meet.
func (h hatch) lines(ring []pt) mark {
	dir := pt{1, 0}.turned(h.angle * math.Pi / 180)
	across := dir.left()
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range ring {
		low, high = min(low, p.dot(across)), max(high, p.dot(across))
	}
	m := mark{pen: stroke{h.stroke, nil, black}}
	var hits []float64
	for n := math.Ceil(low / h.apart); n*h.apart < high; n++ {
		at := n * h.apart
		hits = hits[:0]
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			s, t := a.dot(across)-at, b.dot(across)-at
			if (s > 0) == (t > 0) {
				continue
			}
			hits = append(hits, a.dot(dir)+(b.dot(dir)-a.dot(dir))*s/(s-t))
		}
		slices.Sort(hits)
		for i := 0; i+1 < len(hits); i += 2 {
			m.path = h.pieces(m.path, hits[i], hits[i+1], n, dir, across.by(at))
		}
	}
	return m
}

// pieces adds one hatch line from one place to another, whole or in dashes.
// Dashes are counted from the grid, not from the edge, and those of every second
// line stand between those of its neighbours.
func (h hatch) pieces(path []step, from, to, n float64, dir, base pt) []step {
	draw := func(a, b float64) {
		path = append(path, step{p: base.add(dir.by(a)), jump: true}, step{p: base.add(dir.by(b))})
	}
	if len(h.dash) < 2 {
		draw(from, to)
		return path
	}
	dash, whole := h.dash[0], h.dash[0]+h.dash[1]
	start := math.Floor(from/whole) * whole
	if math.Mod(math.Abs(n), 2) == 1 {
		start -= whole / 2
	}
	for ; start < to; start += whole {
		if a, b := max(from, start), min(to, start+dash); b > a {
			draw(a, b)
		}
	}
	return path
}

package sheet

import (
	"slices"

	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// LeastOffcut is the least side of a piece worth keeping: a patch reaches 75 mm
// past a cut on every side. Source: common practice, no source.
const LeastOffcut = 150 * unit.Millimetre

// Offcuts returns the rectangles left over from what was bought, largest
// first, both sides at least LeastOffcut. They overlap nothing and nothing of
// the sheet. Of a shape that is not right-angled only what lies beside its box
// counts.
//
// Source: geometry.
// Shape: their areas and the covering's never exceed what was bought; none for a rectangle ordered to the millimetre.
// Domain: as Lay. The trimmings of the allowances come off later and are not counted.
// Errors: DomainError only.
func Offcuts(in Input) ([]geom.Rect, error) {
	laid, err := Lay(in)
	if err != nil {
		return nil, err
	}
	in, allowances, err := in.ready()
	if err != nil {
		return nil, err
	}
	p, _, err := in.shape(allowances)
	if err != nil {
		return nil, err
	}
	var out []geom.Rect
	for _, s := range laid.Strips {
		out = append(out, left(s.bought(), s.Place, p)...)
	}
	slices.SortStableFunc(out, func(a, b geom.Rect) int {
		switch d := b.Area() - a.Area(); {
		case d < 0:
			return -1
		case d > 0:
			return 1
		}
		return 0
	})
	return out, nil
}

// bought returns the whole of a strip as it came, its lower left corner where
// the strip has it.
func (s Strip) bought() geom.Rect {
	length, depth := s.Width, s.Length
	if s.Lies == Across {
		length, depth = depth, length
	}
	return geom.Rect{Min: s.Place.Min, Max: s.Place.Min.Add(length, depth)}
}

// left cuts what a bought rectangle has beyond the part of p in its place into
// rectangles, the largest first each time.
func left(bought, place geom.Rect, p geom.Polygon) []geom.Rect {
	xs := []unit.Length{bought.Min.X, place.Max.X, bought.Max.X}
	ys := []unit.Length{bought.Min.Y, place.Max.Y, bought.Max.Y}
	if rightAngled(p) {
		for _, v := range p {
			xs, ys = append(xs, v.X), append(ys, v.Y)
		}
	}
	xs, ys = within(xs, bought.Min.X, bought.Max.X), within(ys, bought.Min.Y, bought.Max.Y)
	used := make([][]bool, len(xs)-1)
	for i := range used {
		used[i] = make([]bool, len(ys)-1)
		for j := range used[i] {
			middle := geom.Point{X: (xs[i] + xs[i+1]) / 2, Y: (ys[j] + ys[j+1]) / 2}
			inside := middle.X < place.Max.X && middle.Y < place.Max.Y
			used[i][j] = inside && (!rightAngled(p) || p.Contains(middle))
		}
	}
	var out []geom.Rect
	for {
		r, cells := largest(xs, ys, used)
		if r.Length() < LeastOffcut || r.Depth() < LeastOffcut {
			return out
		}
		for i := cells[0]; i < cells[1]; i++ {
			for j := cells[2]; j < cells[3]; j++ {
				used[i][j] = true
			}
		}
		out = append(out, r)
	}
}

func within(at []unit.Length, low, high unit.Length) []unit.Length {
	at = slices.DeleteFunc(at, func(v unit.Length) bool { return v < low || v > high })
	slices.Sort(at)
	return slices.Compact(at)
}

// largest returns the largest rectangle of cells not used that is LeastOffcut
// both ways, the zero Rect for none, and its cells: from, to along each axis.
func largest(xs, ys []unit.Length, used [][]bool) (best geom.Rect, cells [4]int) {
	for i := range used {
		free := make([]bool, len(used[i])) // rows free in every column from i to k
		for j := range free {
			free[j] = true
		}
		for k := i; k < len(used); k++ {
			for j := range free {
				free[j] = free[j] && !used[k][j]
			}
			for j := 0; j < len(free); j++ {
				n := j
				for n < len(free) && free[n] {
					n++
				}
				if n == j {
					continue
				}
				r := geom.Rect{Min: geom.Point{X: xs[i], Y: ys[j]}, Max: geom.Point{X: xs[k+1], Y: ys[n]}}
				if r.Length() >= LeastOffcut && r.Depth() >= LeastOffcut && r.Area() > best.Area() {
					best, cells = r, [4]int{i, k + 1, j, n}
				}
				j = n
			}
		}
	}
	return best, cells
}

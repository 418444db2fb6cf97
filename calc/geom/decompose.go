package geom

import (
	"cmp"
	"slices"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Axis is a direction on the plan.
type Axis string

const (
	AlongGutterAxis Axis = "along" // along the gutter
	UpRoofAxis      Axis = "up"    // up the roof
)

// Rectangles cuts a right-angled outline into rectangles by lines along the
// given axis, so that rows of boards laid along it stay as long as they can be.
// They come ordered by their low end across the axis, then along it.
//
// Shape: the areas sum to the outline's; n internal corners at n different heights give n+1 rectangles at most; a rectangle gives itself.
// Domain: a right-angled outline.
// Errors: DomainError naming "outline" or "axis".
func (o Outline) Rectangles(rows Axis) ([]Rect, error) {
	const op = "geom.rectangles"
	if !o.IsRightAngled() {
		return nil, &calc.DomainError{Op: op, Field: "outline", Got: "an edge out of square", Wanted: "a right-angled outline"}
	}
	switch rows {
	case AlongGutterAxis:
		return slabs(o.Vertices), nil
	case UpRoofAxis:
		turned := slabs(swapped(o.Vertices))
		for i, r := range turned {
			turned[i] = Rect{Min: r.Min.swapped(), Max: r.Max.swapped()}
		}
		return turned, nil
	}
	return nil, &calc.DomainError{Op: op, Field: "axis", Got: string(rows), Wanted: "along or up"}
}

// slabs cuts p at every height where it has a corner and joins what lies
// straight above each other again.
func slabs(p Polygon) []Rect {
	heights := make([]unit.Length, len(p))
	for i, v := range p {
		heights[i] = v.Y
	}
	slices.Sort(heights)
	heights = slices.Compact(heights)
	var done, growing []Rect
	for i := 0; i+1 < len(heights); i++ {
		low, high := heights[i], heights[i+1]
		var level []Rect
		for _, s := range p.AlongGutter(low + (high-low)/2) {
			r := Rect{Min: Point{s.From, low}, Max: Point{s.To, high}}
			if k := slices.IndexFunc(growing, func(g Rect) bool { return g.Min.X == s.From && g.Max.X == s.To }); k >= 0 {
				r.Min.Y = growing[k].Min.Y
				growing = slices.Delete(growing, k, k+1)
			}
			level = append(level, r)
		}
		done = append(done, growing...)
		growing = level
	}
	done = append(done, growing...)
	slices.SortStableFunc(done, func(a, b Rect) int {
		if a.Min.Y != b.Min.Y {
			return cmp.Compare(a.Min.Y, b.Min.Y)
		}
		return cmp.Compare(a.Min.X, b.Min.X)
	})
	return done
}

func swapped(p Polygon) Polygon {
	q := make(Polygon, len(p))
	for i, v := range p {
		q[i] = v.swapped()
	}
	return q
}

func (p Point) swapped() Point { return Point{X: p.Y, Y: p.X} }

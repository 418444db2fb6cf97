package geom

import (
	"fmt"
	"slices"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Kind is what stands on an edge of the roof.
type Kind string

const (
	Gutter  Kind = "gutter"
	Verge   Kind = "verge"
	Wall    Kind = "wall"
	Parapet Kind = "parapet"
)

// Kinds lists every kind in the order in which totals are told.
func Kinds() []Kind { return []Kind{Gutter, Verge, Wall, Parapet} }

func (k Kind) known() bool { return slices.Contains(Kinds(), k) }

// Edge is one side of an outline.
type Edge struct {
	Kind   Kind
	Length unit.Length
}

// Outline is the plan of a roof: Edges[i] runs from Vertices[i] to the next
// vertex, clockwise from the low edge (the gutter, or the low parapet of a roof
// that drains through it). The zero Outline is no roof.
type Outline struct {
	Vertices Polygon
	Edges    []Edge
}

// The limits of what is taken for a roof edge. They keep the arithmetic
// honest; what is likely for a small roof is asked elsewhere.
const (
	MinEdge  = 1 * unit.Millimetre
	MaxEdge  = 100 * unit.Metre
	MaxEdges = 100
)

// NewOutline returns the outline over the given vertices, one kind per edge.
//
// Domain: 3 to MaxEdges vertices, clockwise, simple, each edge MinEdge to MaxEdge, known kinds.
// Errors: DomainError naming "vertices[i]" or "edges[i]".
func NewOutline(vertices []Point, kinds []Kind) (Outline, error) {
	const op = "geom.outline"
	refuse := func(field string, got any, wanted string) (Outline, error) {
		return Outline{}, &calc.DomainError{Op: op, Field: field, Got: got, Wanted: wanted}
	}
	n := len(vertices)
	if n < 3 || n > MaxEdges {
		return refuse("vertices", n, fmt.Sprintf("3 to %d corners", MaxEdges))
	}
	if len(kinds) != n {
		return refuse("edges", len(kinds), fmt.Sprintf("one kind for each of %d edges", n))
	}
	p := Polygon(slices.Clone(vertices))
	edges := make([]Edge, n)
	for i, k := range kinds {
		if !k.known() {
			return refuse(fmt.Sprintf("edges[%d]", i), string(k), "gutter, verge, wall or parapet")
		}
		edges[i] = Edge{Kind: k, Length: p[i].To(p.next(i))}
		if err := calc.Outside(op, fmt.Sprintf("edges[%d]", i), float64(edges[i].Length), float64(MinEdge), float64(MaxEdge), "mm"); err != nil {
			return Outline{}, err
		}
	}
	if i, j, crossed := p.firstCrossing(); crossed {
		return refuse(fmt.Sprintf("edges[%d]", j), fmt.Sprintf("meets edge %d", i+1), "an outline that neither crosses nor touches itself")
	}
	if p.Orientation() != Clockwise {
		return refuse("vertices", string(p.Orientation()), "corners clockwise from the gutter")
	}
	return Outline{Vertices: p, Edges: edges}, nil
}

// Rectangle returns a square-cornered roof: length along the gutter, depth up
// the fall, kinds clockwise from the gutter.
//
// Errors: DomainError naming "length_mm", "depth_mm" or "edges[i]".
func Rectangle(length, depth unit.Length, kinds [4]Kind) (Outline, error) {
	const op = "geom.rectangle"
	if err := calc.Outside(op, "length_mm", float64(length), float64(MinEdge), float64(MaxEdge), "mm"); err != nil {
		return Outline{}, err
	}
	if err := calc.Outside(op, "depth_mm", float64(depth), float64(MinEdge), float64(MaxEdge), "mm"); err != nil {
		return Outline{}, err
	}
	return NewOutline([]Point{{length, 0}, {0, 0}, {0, depth}, {length, depth}}, kinds[:])
}

// Side returns the ends of edge i in the order walked.
func (o Outline) Side(i int) (from, to Point) { return o.Vertices[i], o.Vertices.next(i) }

// Area returns the plan area.
func (o Outline) Area() unit.Area { return o.Vertices.Area() }

// Perimeter returns the length of all edges.
func (o Outline) Perimeter() unit.Length { return o.PerimeterOf(Kinds()...) }

// PerimeterOf returns the length of the edges of the given kinds.
func (o Outline) PerimeterOf(kinds ...Kind) unit.Length {
	var sum unit.Length
	for _, e := range o.Edges {
		if slices.Contains(kinds, e.Kind) {
			sum += e.Length
		}
	}
	return sum
}

// Bounds returns the rectangle along the gutter that holds the outline.
func (o Outline) Bounds() Rect { return o.Vertices.Bounds() }

// IsRightAngled reports whether every edge runs exactly along or across the
// gutter, as those of Rectangle and Walk do.
func (o Outline) IsRightAngled() bool {
	for i := range o.Edges {
		from, to := o.Side(i)
		if from.X != to.X && from.Y != to.Y {
			return false
		}
	}
	return len(o.Edges) > 0
}

package geom

import (
	"fmt"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// OpeningKind is what goes through the roof.
type OpeningKind string

const (
	PipeOpening OpeningKind = "pipe"
	Rooflight   OpeningKind = "rooflight"
)

// Opening is something that goes through the roof: a round pipe or vent, or a
// rooflight set square to the gutter.
type Opening struct {
	Kind   OpeningKind
	Centre Point
	Dia    unit.Length // of a pipe
	Length unit.Length // of a rooflight, along the gutter
	Depth  unit.Length // of a rooflight, up the roof
}

// Pipe returns a round opening.
func Pipe(centre Point, dia unit.Length) Opening {
	return Opening{Kind: PipeOpening, Centre: centre, Dia: dia}
}

// RooflightAt returns a rooflight by its outer rectangle.
func RooflightAt(r Rect) Opening {
	return Opening{Kind: Rooflight, Centre: Point{(r.Min.X + r.Max.X) / 2, (r.Min.Y + r.Max.Y) / 2}, Length: r.Length(), Depth: r.Depth()}
}

func (o Opening) check(op, field string) error {
	const reach = float64(MaxEdges) * float64(MaxEdge) // mm, beyond any outline
	if err := calc.Outside(op, field+".x_mm", float64(o.Centre.X), -reach, reach, "mm"); err != nil {
		return err
	}
	if err := calc.Outside(op, field+".y_mm", float64(o.Centre.Y), -reach, reach, "mm"); err != nil {
		return err
	}
	switch o.Kind {
	case PipeOpening:
		return calc.Outside(op, field+".dia_mm", float64(o.Dia), float64(MinEdge), float64(MaxEdge), "mm")
	case Rooflight:
		if err := calc.Outside(op, field+".length_mm", float64(o.Length), float64(MinEdge), float64(MaxEdge), "mm"); err != nil {
			return err
		}
		return calc.Outside(op, field+".depth_mm", float64(o.Depth), float64(MinEdge), float64(MaxEdge), "mm")
	}
	return &calc.DomainError{Op: op, Field: field + ".kind", Got: string(o.Kind), Wanted: "pipe or rooflight"}
}

// touching: a gap this small is contact, not a gap and not an overlap. It only
// swallows rounding.
const touching = 1e-6 // mm

// rect is the outside of a rooflight.
func (o Opening) rect() Rect {
	x, y := o.Length/2, o.Depth/2
	return Rect{Min: o.Centre.Add(-x, -y), Max: o.Centre.Add(x, y)}
}

// toEdge returns the clear gap from the opening's face to the edge ab; ok is
// false when the edge runs through the opening.
func (o Opening) toEdge(a, b vec) (gap float64, ok bool) {
	if o.Kind == PipeOpening {
		return clearOf(toSegment(o.Centre.vec(), a, b) - float64(o.Dia)/2)
	}
	r := o.rect()
	if r.cutBy(a, b) {
		return 0, false
	}
	gap = math.Inf(1)
	ring := r.ring()
	for i := range ring {
		c, d := ring.side(i)
		gap = math.Min(gap, betweenSegments(a, b, c, d))
	}
	return gap, true
}

// toOpening returns the clear gap between two openings; ok is false when they
// overlap.
func (o Opening) toOpening(q Opening) (gap float64, ok bool) {
	// Between rectangles, and between a point and a rectangle, the gap is the
	// hypotenuse of the gaps along the axes.
	spread := func(o Opening) (x, y, radius float64) {
		if o.Kind == PipeOpening {
			return 0, 0, float64(o.Dia) / 2
		}
		return float64(o.Length) / 2, float64(o.Depth) / 2, 0
	}
	x1, y1, r1 := spread(o)
	x2, y2, r2 := spread(q)
	dx := math.Abs(float64(o.Centre.X-q.Centre.X)) - x1 - x2
	dy := math.Abs(float64(o.Centre.Y-q.Centre.Y)) - y1 - y2
	if dx < 0 && dy < 0 {
		return clearOf(math.Max(dx, dy) - r1 - r2)
	}
	return clearOf(math.Hypot(math.Max(dx, 0), math.Max(dy, 0)) - r1 - r2)
}

// clearOf tells a gap from contact and from an overlap.
func clearOf(gap float64) (float64, bool) {
	if math.Abs(gap) <= touching {
		return 0, true
	}
	return gap, gap > 0
}

// PipeGaps is a pipe as it is taped on the roof: the clear gap from its face to
// two edges.
type PipeGaps struct {
	Dia   unit.Length
	Edges [2]int
	Gaps  [2]unit.Length
}

// PlacePipe returns the pipe that stands at the given gaps from two edges.
//
// Domain: two edges that are not parallel (within 5°), 0 ≤ gaps ≤ MaxEdge, the centre on the roof.
// Errors: DomainError naming "edges", "dia_mm" or "gaps_mm[i]".
func (o Outline) PlacePipe(g PipeGaps) (Opening, error) {
	const op = "geom.pipe"
	if err := calc.Outside(op, "dia_mm", float64(g.Dia), float64(MinEdge), float64(MaxEdge), "mm"); err != nil {
		return Opening{}, err
	}
	var n [2]vec
	var at [2]float64 // n·q of the line on which the centre lies
	for k, i := range g.Edges {
		if i < 0 || i >= len(o.Edges) {
			return Opening{}, &calc.DomainError{Op: op, Field: "edges", Got: i, Wanted: fmt.Sprintf("0 to %d", len(o.Edges)-1)}
		}
		if err := calc.Outside(op, fmt.Sprintf("gaps_mm[%d]", k), float64(g.Gaps[k]), 0, float64(MaxEdge), "mm"); err != nil {
			return Opening{}, err
		}
		n[k] = o.direction(i).leftNormal()
		at[k] = n[k].dot(o.Vertices[i].vec()) - float64(g.Gaps[k]) - float64(g.Dia)/2
	}
	sin := n[0].cross(n[1])
	if math.Abs(sin) < stepBend {
		return Opening{}, &calc.DomainError{Op: op, Field: "edges", Got: fmt.Sprint(g.Edges), Wanted: "two edges that are not parallel"}
	}
	centre := vec{at[0]*n[1].y - at[1]*n[0].y, at[1]*n[0].x - at[0]*n[1].x}.scale(1 / sin).point()
	if !o.Vertices.Contains(centre) {
		return Opening{}, &calc.DomainError{Op: op, Field: "gaps_mm[0]", Got: fmt.Sprint(g.Gaps), Wanted: "gaps that put the pipe on the roof"}
	}
	return Pipe(centre, g.Dia), nil
}

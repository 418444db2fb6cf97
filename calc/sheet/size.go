package sheet

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ID names the rule for the size of the sheet and its version.
const ID = "sheet.size/1"

// Input is the roof to be covered.
type Input struct {
	Edges         []Edge
	Length, Depth unit.Length // of a rectangle with four edges; both 0: the edges carry an outline
	Skew          unit.Length // how far the head of the roof is shifted along the gutter by being out of square
	Step          unit.Length // the supplier cuts to multiples of this; 0: 100
	Thickness     unit.Length // 0: 1.2
}

// Size is the sheet to order, in one piece.
type Size struct {
	Length, Width unit.Length
	Exact         [2]unit.Length // before the supplier's step: length, width
	Area          unit.Area
	Mass          unit.Mass
	Hands         int // to carry it
	Allowances    []Allowance
	Roof          unit.Area // the outline itself
}

// SizeOf returns the sheet for an outline.
//
//	length = extent along the gutter + allowances + |skew|, width = extent up the fall + allowances, each up to the step
//	free edge 150 · gutter tucked behind the fascia 200 · wall rubber + 50 + 50 · parapet height + top + 50
//
// Source: common practice, no source; the upstand BS 6229 / NHBC 7.1, from memory.
// Shape: never smaller for a larger roof, a higher wall or more skew.
// Domain: rectangle 500 to 20000 by 500 to 10000 mm; an outline of 4 to 40 edges; skew within 1000; step 0 to 1000; thickness 1.0 to 2.5 mm.
// Errors: DomainError only.
func SizeOf(in Input) (Size, error) {
	in, sides, err := in.laid()
	if err != nil {
		return Size{}, err
	}
	var s Size
	wanted := make([]unit.Length, len(in.Edges))
	for i, e := range in.Edges {
		a, err := e.allowance(i)
		if err != nil {
			return Size{}, err
		}
		s.Allowances = append(s.Allowances, a)
		wanted[i] = a.Wanted
	}
	length, width := extent(sides, wanted)
	length += unit.Length(math.Abs(float64(in.Skew)))
	s.Exact = [2]unit.Length{length, width}
	s.Length, s.Width = upTo(length, in.Step), upTo(width, in.Step)
	s.Area = s.Length.By(s.Width)
	s.Mass = PerSquareMetre(in.Thickness).Over(s.Area)
	s.Hands = hands(s.Mass)
	s.Roof = enclosed(in.Edges)
	return s, nil
}

// laid fills in the defaults and places the edges.
func (in Input) laid() (Input, []side, error) {
	const op = "sheet.size"
	if in.Step == 0 {
		in.Step = 100
	}
	if in.Thickness == 0 {
		in.Thickness = 1.2
	}
	for _, c := range []struct {
		field       string
		v, min, max float64
	}{
		{"skew_mm", float64(in.Skew), -1000, 1000},
		{"step_mm", float64(in.Step), 1, 1000},
		{"thickness_mm", float64(in.Thickness), 1, 2.5},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, "mm"); err != nil {
			return in, nil, err
		}
	}
	if err := calc.Outside(op, "edges", float64(len(in.Edges)), 4, 40, "edges"); err != nil {
		return in, nil, err
	}
	if in.Length != 0 || in.Depth != 0 {
		if len(in.Edges) != 4 {
			return in, nil, &calc.DomainError{Op: op, Field: "edges", Got: len(in.Edges), Wanted: "4 edges for a length and a depth"}
		}
		if err := calc.Outside(op, "length_mm", float64(in.Length), 500, 20000, "mm"); err != nil {
			return in, nil, err
		}
		if err := calc.Outside(op, "depth_mm", float64(in.Depth), 500, 10000, "mm"); err != nil {
			return in, nil, err
		}
		edges := append([]Edge(nil), in.Edges...)
		for i := range edges {
			edges[i].Turn, edges[i].Length = Right, in.Length
			if i%2 == 1 {
				edges[i].Length = in.Depth
			}
		}
		in.Edges = edges
	}
	sides, err := walk(in.Edges)
	return in, sides, err
}

// enclosed returns the area of a closed walk by the shoelace sum.
func enclosed(edges []Edge) unit.Area {
	x, y, twice := 0.0, 0.0, 0.0
	going := west
	for _, e := range edges {
		nx, ny := x, y
		switch l := float64(e.Length); going {
		case north:
			ny += l
		case south:
			ny -= l
		case east:
			nx += l
		case west:
			nx -= l
		}
		twice += x*ny - nx*y
		x, y = nx, ny
		if e.Turn == Right {
			going = going.right()
		} else {
			going = going.left()
		}
	}
	return unit.Area(math.Abs(twice) / 2)
}

func upTo(l, step unit.Length) unit.Length {
	return unit.Length(math.Ceil(float64(l)/float64(step)-1e-9)) * step
}

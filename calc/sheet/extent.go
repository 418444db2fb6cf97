package sheet

import (
	"fmt"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// side is where one edge lies: out is the way its outer face looks, at its
// distance that way from the start of the walk.
type side struct {
	out heading
	at  float64 // mm along the axis of out, signed: x for east and west, y for north and south
}

// heading is a compass point on the plan, the fall running south.
type heading int

const (
	north heading = iota
	east
	south
	west
)

func (h heading) right() heading { return (h + 1) % 4 }
func (h heading) left() heading  { return (h + 3) % 4 }

// walk turns a right-angled outline into the lines its edges lie on. The
// gutter edge is walked westward with the roof at the right hand, so its outer
// face looks south.
func walk(edges []Edge) ([]side, error) {
	const op = "sheet.size"
	sides := make([]side, len(edges))
	x, y, turns := 0.0, 0.0, 0
	going := west
	for i, e := range edges {
		if err := calc.Outside(op, fmt.Sprintf("outline[%d].length_mm", i), float64(e.Length), 50, 30000, "mm"); err != nil {
			return nil, err
		}
		sides[i].out = going.left()
		switch going {
		case north, south:
			sides[i].at = x
		default:
			sides[i].at = y
		}
		l := float64(e.Length)
		switch going {
		case north:
			y += l
		case south:
			y -= l
		case east:
			x += l
		case west:
			x -= l
		}
		switch e.Turn {
		case Right:
			going, turns = going.right(), turns+1
		case Left:
			going, turns = going.left(), turns-1
		default:
			return nil, &calc.DomainError{Op: op, Field: fmt.Sprintf("outline[%d].turn", i), Got: string(e.Turn), Wanted: "right or left"}
		}
	}
	if turns != 4 {
		return nil, &calc.DomainError{Op: op, Field: "outline", Got: turns, Wanted: "four more right turns than left, walked clockwise"}
	}
	if gap := math.Hypot(x, y); gap > 0.5 {
		return nil, &calc.DomainError{Op: op, Field: "outline", Got: gap, Wanted: "edges that come back to where they began (mm off)"}
	}
	return sides, nil
}

// extent returns the sheet's size for the edges moved out by give.
func extent(sides []side, give []unit.Length) (length, width unit.Length) {
	least, most := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for i, s := range sides {
		switch s.out {
		case east:
			most[0] = max(most[0], s.at+float64(give[i]))
		case west:
			least[0] = min(least[0], s.at-float64(give[i]))
		case north:
			most[1] = max(most[1], s.at+float64(give[i]))
		case south:
			least[1] = min(least[1], s.at-float64(give[i]))
		}
	}
	return unit.Length(most[0] - least[0]), unit.Length(most[1] - least[1])
}

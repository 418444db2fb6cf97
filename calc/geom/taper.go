package geom

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// TaperID names the formula and its version.
const TaperID = "geom.taper/1"

// EdgeTaper says how an edge runs against the square line through its outermost
// point: boards laid square to the gutter out to that line are cut back by
// CutFrom at the edge's start and CutTo at its end (clockwise), one of which
// is 0.
type EdgeTaper struct {
	Edge           int
	Run            unit.Length // length of the square line beside the edge
	CutFrom, CutTo unit.Length
}

// Off returns the whole run-out of the edge over its run.
func (t EdgeTaper) Off() unit.Length { return t.CutFrom + t.CutTo }

// Tapers returns the taper of every edge but the low one, which is what the
// rest is square to.
//
// Shape: all zero for a right-angled outline; unchanged by a shift.
func (o Outline) Tapers() []EdgeTaper {
	var tapers []EdgeTaper
	for i := 1; i < len(o.Edges); i++ {
		from, to := o.Side(i)
		dx, dy := float64(to.X-from.X), float64(to.Y-from.Y)
		run, out := unit.Length(math.Abs(dx)), unit.Length(dy) // out: how much further from the roof the end lies than the start
		if math.Abs(dy) >= math.Abs(dx) {
			run, out = unit.Length(math.Abs(dy)), unit.Length(-dx)
			if dy < 0 {
				out = -out
			}
		} else if dx < 0 {
			out = -out
		}
		tapers = append(tapers, EdgeTaper{Edge: i, Run: run, CutFrom: max(0, out), CutTo: max(0, -out)})
	}
	return tapers
}

// TaperRow is one row of boards laid parallel to the gutter on a four-sided
// roof that is out of square.
type TaperRow struct {
	Low, High unit.Length // the row's arrises above the gutter line; High is that of an unripped row
	Left      unit.Length // x of the square left end of the run of boards that covers the row
	Length    unit.Length // of that run
	// Cut off each end, measured along the low and the high arris.
	LeftLow, LeftHigh, RightLow, RightHigh unit.Length
	// Height of the row at its ends where the back edge rips it, else High-Low.
	HeightLeft, HeightRight unit.Length
}

// TaperRows returns the rows that cover a convex four-sided outline, each as
// the square-ended run that covers it and what is cut off it.
//
// Shape: no cuts on a rectangle; the areas left after the cuts sum to the roof's area.
// Domain: 50 mm ≤ width ≤ MaxEdge, four edges, convex, the back above the gutter line.
// Errors: DomainError naming "row_mm" or "outline".
func (o Outline) TaperRows(width unit.Length) ([]TaperRow, error) {
	const op = "geom.taper"
	if err := calc.Outside(op, "row_mm", float64(width), 50, float64(MaxEdge), "mm"); err != nil {
		return nil, err
	}
	v := o.Vertices
	if len(v) != 4 || !v.IsConvex() {
		return nil, &calc.DomainError{Op: op, Field: "outline", Got: len(v), Wanted: "a convex outline of four edges"}
	}
	left := side{v[1], v[2]}
	right := side{v[0], v[3]}
	back := side{v[2], v[3]}
	base, top := v[1].Y, max(v[2].Y, v[3].Y)
	if v[0].Y != base || min(v[2].Y, v[3].Y) <= base {
		return nil, &calc.DomainError{Op: op, Field: "outline", Got: float64(v[0].Y - base), Wanted: "a level low edge below all the rest"}
	}
	var rows []TaperRow
	for k := 0; ; k++ {
		low := base + unit.Length(k)*width
		if low >= top {
			return rows, nil
		}
		high := low + width
		l := rowEnd(left, back, low, high)
		r := rowEnd(right, back, low, high)
		x0, x1 := min(l.low, l.high), max(r.low, r.high)
		rows = append(rows, TaperRow{
			Low: low, High: high, Left: x0, Length: x1 - x0,
			LeftLow: l.low - x0, LeftHigh: l.high - x0, RightLow: x1 - r.low, RightHigh: x1 - r.high,
			HeightLeft: l.height, HeightRight: r.height,
		})
	}
}

// side is a straight line between two corners.
type side struct{ from, to Point }

func (s side) xAt(y unit.Length) unit.Length {
	if y == s.to.Y {
		return s.to.X
	}
	return s.from.X + (s.to.X-s.from.X)*(y-s.from.Y)/(s.to.Y-s.from.Y)
}

// end is where a row ends: x at its low arris and at the top of its end.
type end struct{ low, high, height unit.Length }

func rowEnd(flank, back side, low, high unit.Length) end {
	if flank.to.Y <= low { // the back edge has already cut this side away: the row runs out to a point
		x := back.xAt(low)
		return end{low: x, high: x}
	}
	top := min(high, flank.to.Y)
	return end{low: flank.xAt(low), high: flank.xAt(top), height: top - low}
}

package geom

import (
	"fmt"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ClearanceID names the formula and its version.
const ClearanceID = "geom.clearance/1"

// Clearance is the clear gap from the face of an opening to an edge or to
// another opening.
type Clearance struct {
	Opening int
	Edge    int // -1 when the gap is to another opening
	Other   int // -1 when the gap is to an edge
	Gap     unit.Length
}

// Clearances returns the gap from every opening to every edge, and to every
// later opening, in that order.
//
// Units: mm.
// Shape: moves with the roof; a pipe's gap is its centre's distance less its radius.
// Domain: every opening wholly on the roof, none overlapping another; touching is a gap of 0.
// Errors: DomainError naming "openings[i]".
func (o Outline) Clearances(openings []Opening) ([]Clearance, error) {
	keys := make([]string, len(openings))
	for i := range keys {
		keys[i] = fmt.Sprintf("openings[%d]", i)
	}
	return o.clearances(openings, keys)
}

// clearances names a refused opening by its key.
func (o Outline) clearances(openings []Opening, keys []string) ([]Clearance, error) {
	const op = "geom.clearance"
	refuse := func(i int, got, wanted string) ([]Clearance, error) {
		return nil, &calc.DomainError{Op: op, Field: keys[i], Got: got, Wanted: wanted}
	}
	for i, opening := range openings {
		if err := opening.check(op, keys[i]); err != nil {
			return nil, err
		}
	}
	var all []Clearance
	for i, opening := range openings {
		if !o.Vertices.Contains(opening.Centre) {
			return refuse(i, "not on the roof", "an opening inside the outline")
		}
		for e := range o.Edges {
			from, to := o.Side(e)
			gap, ok := opening.toEdge(from.vec(), to.vec())
			if !ok {
				return refuse(i, fmt.Sprintf("across edge %d", e+1), "an opening inside the outline")
			}
			all = append(all, Clearance{Opening: i, Edge: e, Other: -1, Gap: unit.Length(gap)})
		}
		for j := i + 1; j < len(openings); j++ {
			gap, ok := opening.toOpening(openings[j])
			if !ok {
				return refuse(j, "over "+keys[i], "openings apart from each other")
			}
			all = append(all, Clearance{Opening: i, Edge: -1, Other: j, Gap: unit.Length(gap)})
		}
	}
	return all, nil
}

// Room is what a clear gap round a pipe leaves for a patch.
type Room string

const (
	Ample      Room = "ample"      // 150 mm and more
	PatchFits  Room = "patch"      // 75 to 150 mm: patches possible
	Tight      Room = "tight"      // 25 to 75 mm: a patch cannot lie flat; carry it up, box it in or move the pipe
	Unbondable Room = "unbondable" // under 25 mm: another detail
)

// RoomFor grades a gap; a value on a boundary belongs to the better grade.
//
// Source: common practice, no source.
func RoomFor(gap unit.Length) Room {
	switch {
	case gap >= 150:
		return Ample
	case gap >= 75:
		return PatchFits
	case gap >= 25:
		return Tight
	}
	return Unbondable
}

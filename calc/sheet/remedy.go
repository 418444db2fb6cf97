package sheet

import (
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// Act is one thing that can be done about a short edge. Stretching is never
// one.
type Act string

const (
	Shift   Act = "shift"   // move the sheet towards the edge: those facing away have it to spare
	Lower   Act = "lower"   // bring the rubber on this wall down to LeastUpstand
	AddTo   Act = "strip"   // bond a strip of sheet on, lap 100 or more, primer and seam tape; never at a gutter edge
	Reorder Act = "reorder" // nothing else serves: another sheet
)

// Remedy is what can be done about one short edge.
type Remedy struct {
	Edge int
	Act  Act
	By   unit.Length // Shift: how far; Lower: how much; AddTo: width of the strip, lap included
}

// seamLap is what a strip added to a short edge laps the sheet by: common
// practice, no source.
const seamLap = 100 * unit.Millimetre

// Remedies returns what can be done about each short edge, the least work
// first. overlaps are those of [Overlaps] or [Measured].
//
// Moving the sheet towards an edge takes from every edge that faces the other
// way, and gives to every edge that faces the same way.
//
// Source: common practice, no source.
// Shape: nothing for edges that are not short; every short edge ends with Reorder.
// Domain: as SizeOf; one overlap for each edge.
// Errors: DomainError only.
func Remedies(in Input, overlaps []Overlap) ([]Remedy, error) {
	in, _, err := in.ready()
	if err != nil {
		return nil, err
	}
	if len(overlaps) != len(in.Edges) {
		return nil, refusal("overlaps_mm", len(overlaps), "one overlap for each edge")
	}
	var out []Remedy
	for i, o := range overlaps {
		if o.Short == 0 {
			continue
		}
		if by, ok := shift(in.Outline, overlaps, i); ok {
			out = append(out, Remedy{Edge: i, Act: Shift, By: by})
		}
		kind := in.Outline.Edges[i].Kind
		if kind == geom.Wall && o.Least-LeastUpstand >= o.Short {
			out = append(out, Remedy{Edge: i, Act: Lower, By: o.Short})
		}
		if kind != geom.Gutter {
			out = append(out, Remedy{Edge: i, Act: AddTo, By: o.Short + seamLap})
		}
		out = append(out, Remedy{Edge: i, Act: Reorder})
	}
	return out, nil
}

// shift returns how far the sheet must move towards edge i to serve it and all
// that face the same way, and whether those facing away can spare it.
func shift(o geom.Outline, overlaps []Overlap, i int) (unit.Length, bool) {
	by := overlaps[i].Short
	for j, other := range overlaps {
		if facing(o, i, j) > 0 {
			by = max(by, other.Short)
		}
	}
	for j, other := range overlaps {
		if facing(o, i, j) < 0 && other.Have-other.Least < by {
			return 0, false
		}
	}
	return by, true
}

// facing is positive when two edges look the same way within 45 degrees,
// negative when they look opposite ways, zero otherwise.
func facing(o geom.Outline, i, j int) float64 {
	a, b := way(o, i), way(o, j)
	along := a[0]*b[0] + a[1]*b[1]
	if cross := a[0]*b[1] - a[1]*b[0]; along*along <= cross*cross {
		return 0
	}
	return along
}

func way(o geom.Outline, i int) [2]float64 {
	from, to := o.Side(i)
	return [2]float64{float64(to.X - from.X), float64(to.Y - from.Y)}
}

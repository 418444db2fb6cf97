package sheet

import "chargehand/calc/geom"

// Detail is what is done with the rubber at a corner.
type Detail string

const (
	Fold     Detail = "fold"      // two upstands meet as inside a box: folded, never cut
	CutPatch Detail = "cut patch" // the sheet has to be slit: cut and patched
	TrimTurn Detail = "trim turn" // two free edges meet: a corner of the trim
	TrimEnd  Detail = "trim end"  // a free edge runs into an upstand: the trim ends, the sheet turns up beside it
	InLine   Detail = "in line"   // no corner, but the kind of edge changes
	None     Detail = "none"      // no corner and no change
)

// CornerAt is one corner of the outline and its detail.
type CornerAt struct {
	geom.Corner
	Detail Detail
}

// Corners returns the detail at the start of every edge. Where the plan turns
// outwards between two upstands the rubber lies as in a box and is folded;
// where it turns inwards, the inside of an L, the sheet cannot follow without
// a slit, whatever stands there.
//
// Source: common practice, no source.
// Shape: four corners for a rectangle, each of one detail.
func Corners(o geom.Outline) []CornerAt {
	var out []CornerAt
	for _, c := range o.Corners() {
		before, after := o.Edges[c.Before].Kind, o.Edges[c.After].Kind
		d := TrimEnd
		switch {
		case c.Kind == geom.Inline && upstand(before) == upstand(after):
			d = None
		case c.Kind == geom.Inline:
			d = InLine
		case c.Kind == geom.Internal:
			d = CutPatch
		case upstand(before) && upstand(after):
			d = Fold
		case !upstand(before) && !upstand(after):
			d = TrimTurn
		}
		out = append(out, CornerAt{Corner: c, Detail: d})
	}
	return out
}

func upstand(k geom.Kind) bool { return k == geom.Wall || k == geom.Parapet }

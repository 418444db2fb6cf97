package setout

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// CopingID names the rule for copings and its version.
const CopingID = "setout.coping/1"

const (
	// DripClear is how far the throat under a coping stands clear of the wall's
	// face: common practice, no source.
	DripClear = 40 * unit.Millimetre
	// CopingJoint is between two copings: common practice, no source.
	CopingJoint = 10 * unit.Millimetre
)

// CopingInput is a coping on a parapet.
type CopingInput struct {
	Wall    unit.Length // thickness of the parapet with its render
	Coping  unit.Length // width of the coping
	Outside unit.Length // overhang past the outer face
	Throat  unit.Length // from the coping's edge to the near side of its throat
	Run     unit.Length // length of parapet
	Piece   unit.Length // length of one coping
}

// Coping is how it sits.
type Coping struct {
	Inside                    unit.Length // overhang past the inner face
	ClearOutside, ClearInside unit.Length // throat clear of the outer and of the inner face
	OK                        bool        // both at least DripClear
	LeastCoping               unit.Length // width that would do, set in the middle
	Pieces                    int
	Last                      unit.Length // length of the last one, cut
	DPC                       unit.Length // width of the damp-proof course under it: the whole wall
}

// CopingFor returns how a coping clears the wall below it, and how many it
// takes.
//
//	clear = overhang − throat ≥ 40 each side    width ≥ wall + 2·(40 + throat)    n = ⌈(run + joint)/(piece + joint)⌉
//
// Source: 40 mm common practice, no source; DPC the full width, joints sealed: NHBC Risk Guide Parapets and copings 03/16.
// Shape: what the coping gains inside it loses outside; no piece is longer than a whole one.
// Domain: wall 90 to 600; coping 100 to 900; outside −100 to 300; throat 0 to 60; run 300 to 30000; piece 200 to 3000 mm.
// Ignores: the fall of the coping's top, which goes inwards.
// Errors: DomainError only.
func CopingFor(in CopingInput) (Coping, error) {
	const op = "setout.coping"
	for _, c := range []struct {
		field    string
		v        unit.Length
		min, max float64
	}{
		{"wall_mm", in.Wall, 90, 600},
		{"coping_mm", in.Coping, 100, 900},
		{"outside_mm", in.Outside, -100, 300},
		{"throat_mm", in.Throat, 0, 60},
		{"run_mm", in.Run, 300, 30000},
		{"piece_mm", in.Piece, 200, 3000},
	} {
		if err := calc.Outside(op, c.field, float64(c.v), c.min, c.max, "mm"); err != nil {
			return Coping{}, err
		}
	}
	c := Coping{Inside: in.Coping - in.Wall - in.Outside, DPC: in.Wall}
	c.ClearOutside, c.ClearInside = in.Outside-in.Throat, c.Inside-in.Throat
	c.OK = min(c.ClearOutside, c.ClearInside) >= DripClear
	c.LeastCoping = in.Wall + 2*(DripClear+in.Throat)
	whole := float64(in.Piece + CopingJoint)
	c.Pieces = int(math.Max(1, math.Ceil(float64(in.Run+CopingJoint)/whole-1e-9)))
	c.Last = in.Run - unit.Length(float64(c.Pieces-1)*whole)
	if c.Last <= 0 && c.Pieces > 1 { // what is left is no more than a joint: the others open a little
		c.Pieces, c.Last = c.Pieces-1, in.Piece
	}
	return c, nil
}

package glue

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// LayID names the order of strips.
const LayID = "glue.lay/1"

// FieldInput is a rectangular field to be bonded from a fold across its middle,
// the fold parallel to the ladder edge.
type FieldInput struct {
	Batch     BatchInput  // window, share, hands, rates; its Field, Fold and WayOff are set here
	Fold      unit.Length // along the fold
	Depth     unit.Length // square to the fold, from the far edge to the ladder edge
	FarWayOff bool        // a second way off the roof at the far edge
}

// Half is one of the two parts of a folded sheet.
type Half string

const (
	FarHalf  Half = "far"  // bonded first
	NearHalf Half = "near" // with the ladder edge, bonded last
)

// Way is how a hand leaves the roof while film is wet.
type Way string

const (
	ByLadder Way = "ladder" // over dry or bonded ground to the ladder edge
	ByFar    Way = "far"    // over dry or bonded ground to the second way off
	ByStrip  Way = "strip"  // over the strip itself, once it is down
)

// Strip is one batch in its place. Places are measured from the far edge.
type Strip struct {
	Half      Half
	Start     unit.Length // where rolling begins
	End       unit.Length // where rolling ends
	Area      unit.Area
	Direction Direction
	Spread    unit.Minutes // rolling
	Turn      unit.Minutes
	Laying    unit.Minutes
	Oldest    unit.Minutes // age of the oldest film when the strip is down

	RollerWay Way          // of whoever rolls
	FoldWay   Way          // of whoever stays at the fold to lay
	Behind    unit.Minutes // how long the hand at the fold is behind wet film; 0 unless FoldWay is strip
}

// LayPlan is the order in which a field is bonded.
type LayPlan struct {
	Strips []Strip
	FoldAt unit.Length // from the far edge
	NoGo   NoGo        // why nothing should be spread now
}

// Lay returns the strips of a field in working order, none older than the usable
// time when it is down, and the way off for each hand.
//
// The sheet is folded back at the middle, the only line at which neither flap
// hangs over an edge. The far half is bonded first, strip by strip from the fold
// to the far edge, with the ladder free over the half that lies dry. Then the
// near half, strip by strip from the fold to the ladder, where the last one
// ends. Where nobody can get off at the outer edge, and for one hand alone, each
// strip is rolled from its outer edge back to the fold; else from the fold
// outward.
//
// On the near half the hand at the fold has wet film between himself and the
// ladder until the strip is down: Behind says for how long. A second way off at
// the far edge takes it away.
//
// Source: our own model; order and directions common practice, no source.
// Units: in and out by type.
// Shape: strips of a half are equal and cover the field once; a longer window
// never needs more of them.
// Domain: as Batch; fold and depth 0.5..30 m.
// Ignores: pipes and other things to work round.
// Errors: DomainError only.
func Lay(in FieldInput) (LayPlan, error) {
	const op = "glue.lay"
	if err := calc.Outside(op, "fold_mm", float64(in.Fold), 500, 30000, "mm"); err != nil {
		return LayPlan{}, err
	}
	if err := calc.Outside(op, "depth_mm", float64(in.Depth), 500, 30000, "mm"); err != nil {
		return LayPlan{}, err
	}
	plan := LayPlan{FoldAt: in.Depth / 2}
	for _, half := range []Half{FarHalf, NearHalf} {
		b := in.Batch
		b.Fold, b.Field = in.Fold, 0
		b.WayOff = half == NearHalf || in.FarWayOff
		b, err := b.checked()
		if err != nil {
			return LayPlan{}, err
		}
		greatest, err := Batch(b)
		if err != nil {
			return LayPlan{}, err
		}
		if greatest.NoGo != "" {
			return LayPlan{FoldAt: plan.FoldAt, NoGo: greatest.NoGo}, nil
		}
		plan.Strips = append(plan.Strips, in.half(half, b, greatest)...)
	}
	return plan, nil
}

// half divides one half of the field into equal strips from the fold outward.
func (in FieldInput) half(half Half, b BatchInput, greatest BatchPlan) []Strip {
	deep := float64(in.Depth) / 2                       // mm
	const hair = 1e-9                                   // a half that just fits is one strip
	n := math.Ceil(deep/float64(greatest.Strip) - hair) // strips
	width := deep / n                                   // mm
	area := in.Fold.By(unit.Length(width))
	rs, rl := float64(b.Roll), float64(b.Lay)
	s := Strip{
		Half:      half,
		Area:      area,
		Direction: greatest.Direction,
		Spread:    unit.Minutes(area.In(unit.SquareMetre) / rs),
		Turn:      b.Turn,
		Laying:    unit.Minutes(area.In(unit.SquareMetre) / rl),
		RollerWay: ByLadder,
		FoldWay:   ByLadder,
	}
	s.Oldest = s.Turn + s.Spread + s.Laying
	if s.Direction == FoldOutward {
		s.Oldest = s.Turn + max(s.Spread, s.Laying)
		if half == FarHalf {
			s.RollerWay = ByFar
		}
	}
	if half == NearHalf {
		s.FoldWay = ByStrip
		if in.FarWayOff {
			s.FoldWay = ByFar
		} else {
			s.Behind = s.Spread + s.Turn + s.Laying
		}
		if s.Direction == OuterInward {
			s.RollerWay = s.FoldWay // he ends at the fold himself
		}
	}
	outward := 1.0
	if half == FarHalf {
		outward = -1
	}
	strips := make([]Strip, int(n))
	for i := range strips {
		inner := deep + outward*width*float64(i)
		outer := deep + outward*width*float64(i+1)
		s.Start, s.End = unit.Length(inner), unit.Length(outer)
		if s.Direction == OuterInward {
			s.Start, s.End = s.End, s.Start
		}
		strips[i] = s
	}
	return strips
}

package timber

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// CutKind is what was done to the joist.
type CutKind string

const (
	Notch CutKind = "notch"
	Hole  CutKind = "hole"
)

// Cut is a notch or hole as found or wanted. At is the place of its middle,
// from the face of the first bearing.
type Cut struct {
	Kind   CutKind
	At     unit.Length
	Size   unit.Length // depth of the notch, diameter of the hole
	Length unit.Length // of the notch along the joist; not read for a hole
}

// CutFault says which limit a cut breaks.
type CutFault struct {
	Cut           int // index of the cut
	Rule          string
	Found, Limit  unit.Length
	MoreThanLimit bool // Found should be at most Limit; else at least
}

// Names of the limits in CutFault.Rule.
const (
	FaultSize     = "size"
	FaultNear     = "too near the bearing"
	FaultFar      = "too near mid-span"
	FaultApart    = "holes too close"
	FaultTogether = "hole and notch too close"
)

// CheckCuts returns every limit that the cuts in one joist break; none means
// the rule has nothing against them.
//
// Source, domain and what it ignores: LimitsOfCuts.
// Shape: the order of the cuts does not matter; a smaller cut never breaks more.
// Errors: DomainError only.
func CheckCuts(rule CutRule, depth, span unit.Length, cuts []Cut) ([]CutFault, error) {
	lim, err := LimitsOfCuts(rule, depth, span)
	if err != nil {
		return nil, err
	}
	var faults []CutFault
	for i, c := range cuts {
		if err := c.domain(depth, span); err != nil {
			return nil, err
		}
		size, from, to, half := lim.NotchDepth, lim.NotchFrom, lim.NotchTo, c.Length/2
		if c.Kind == Hole {
			size, from, to, half = lim.HoleDiameter, lim.HoleFrom, lim.HoleTo, 0
		}
		near := min(c.At, span-c.At)
		if c.Size > size {
			faults = append(faults, CutFault{i, FaultSize, c.Size, size, true})
		}
		if near-half < from {
			faults = append(faults, CutFault{i, FaultNear, near - half, from, false})
		}
		if near+half > to {
			faults = append(faults, CutFault{i, FaultFar, near + half, to, true})
		}
		for k, o := range cuts[:i] {
			faults = append(faults, lim.between(k, o, i, c)...)
		}
	}
	return faults, nil
}

// between checks two cuts against each other; holes by their centres, a hole
// and a notch by the timber left between them.
func (lim CutLimits) between(k int, o Cut, i int, c Cut) []CutFault {
	gap := unit.Length(math.Abs(float64(o.At - c.At)))
	switch {
	case o.Kind == Hole && c.Kind == Hole:
		least := unit.Length(lim.HolesApart) * max(o.Size, c.Size)
		if gap < least {
			return []CutFault{{i, FaultApart, gap, least, false}}
		}
	case o.Kind != c.Kind:
		hole, notch := o, c
		if c.Kind == Hole {
			hole, notch = c, o
		}
		clear := gap - hole.Size/2 - notch.Length/2
		if clear < lim.HoleToNotch {
			return []CutFault{{i, FaultTogether, clear, lim.HoleToNotch, false}}
		}
	}
	return nil
}

func (c Cut) domain(depth, span unit.Length) error {
	if c.Kind != Notch && c.Kind != Hole {
		return &calc.DomainError{Op: cutOp, Field: "kind", Got: string(c.Kind), Wanted: "notch or hole"}
	}
	if err := calc.Outside(cutOp, "at_mm", float64(c.At), 0, float64(span), "mm"); err != nil {
		return err
	}
	if err := calc.Outside(cutOp, "size_mm", float64(c.Size), 0, float64(depth), "mm"); err != nil {
		return err
	}
	return calc.Outside(cutOp, "length_mm", float64(c.Length), 0, float64(span), "mm")
}

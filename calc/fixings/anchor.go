package fixings

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Limits on setting an anchor through timber into masonry.
//
// Source: common practice, no source. The 30 mm behind a hole and the 150 mm
// from an end give way to the anchor's own sheet.
const (
	washer      = 3.0   // mm under the nut
	leastLeft   = 38.0  // mm of timber under a counterbore, and half of it at least
	leastBehind = 30.0  // mm of brick left behind a hole
	masonryEdge = 150.0 // mm from the end, an opening or the top of a wall
)

// Packet is what the packet of an anchor says about its size.
type Packet struct {
	Diameter   unit.Length
	Length     unit.Length
	MaxFixture unit.Length // the thickest thing it may hold down
	Embedment  unit.Length // in the wall
}

// Fit is how one anchor sits in its timber.
type Fit struct {
	Sink      unit.Length // depth of counterbore, 0 for none
	Left      unit.Length // timber left under the washer
	NeedsLong bool        // a counterbore would leave too little: take a longer anchor
	Length    unit.Length // least length of anchor as it then sits
	LongOK    bool        // the packet's length reaches it
}

// FitAnchor returns how an anchor sits in timber of a thickness, with packers
// between timber and wall.
//
//	sink = (timber + packer) - max fixture, where that is above 0
//	timber left ≥ max(38, timber/2), else a longer anchor and no sink
//	length ≥ timber left + packer + 3 (washer) + d (nut) + embedment
//
// Source: common practice, no source.
// Units: in and out by type; internal mm.
// Shape: a longer maximum fixture never sinks deeper; length grows with embedment.
// Domain: d 5 to 30, length 30 to 500, fixture 1 to 400, embedment 30 to 400,
// timber 19 to 300, packer 0 to 50 mm.
// Ignores: what the anchor carries; a longer anchor's own maximum fixture.
// Errors: DomainError only.
func FitAnchor(p Packet, timber, packer unit.Length) (Fit, error) {
	const op = "fixings.anchor"
	d, embed := float64(p.Diameter), float64(p.Embedment) // mm
	t, pack := float64(timber), float64(packer)           // mm
	for _, c := range []struct {
		field    string
		v        unit.Length
		min, max float64
	}{
		{"anchor_d_mm", p.Diameter, 5, 30},
		{"anchor_length_mm", p.Length, 30, 500},
		{"max_fixture_mm", p.MaxFixture, 1, 400},
		{"embedment_mm", p.Embedment, 30, 400},
		{"timber_b_mm", timber, 19, 300},
		{"packer_mm", packer, 0, 50},
	} {
		if err := calc.Outside(op, c.field, float64(c.v), c.min, c.max, "mm"); err != nil {
			return Fit{}, err
		}
	}
	sink := math.Max(t+pack-float64(p.MaxFixture), 0)
	left := t - sink
	f := Fit{Sink: unit.Length(sink), Left: unit.Length(left)}
	if sink > 0 && left < math.Max(leastLeft, t/2) {
		f = Fit{Left: timber, NeedsLong: true}
		left = t
	}
	f.Length = unit.Length(left + pack + washer + d + embed)
	f.LongOK = !f.NeedsLong && p.Length >= f.Length
	return f, nil
}

// BrickBehind returns the brick left behind a hole and whether it is the 30 mm
// wanted.
//
// Source: common practice, no source.
// Domain: wall 50 to 1000, embedment 30 to 400 mm.
// Errors: DomainError only.
func BrickBehind(wall, embedment unit.Length) (left unit.Length, enough bool, err error) {
	const op = "fixings.anchor"
	if err := calc.Outside(op, "wall_mm", float64(wall), 50, 1000, "mm"); err != nil {
		return 0, false, err
	}
	if err := calc.Outside(op, "embedment_mm", float64(embedment), 30, 400, "mm"); err != nil {
		return 0, false, err
	}
	left = unit.Length(float64(wall) - float64(embedment))
	return left, left >= leastBehind, nil
}

// Distances are the least distances of a bolt in a ledger loaded across the grain.
type Distances struct {
	Between unit.Length // along the grain
	End     unit.Length // to the end of the timber
	Loaded  unit.Length // to the edge the bolt presses towards: the top of a ledger that carries
	Far     unit.Length // to the other edge
}

// BoltDistances returns the least distances of a bolt of diameter d in solid
// timber for a load at right angles to the grain.
//
//	a1 = (4 + |cos α|)·d   a3,c = (1 + 6·sin α)·d   a4,t = max[(2 + 2·sin α)·d; 3d]   a4,c = 3d
//
// with α = 90°: 4d, 7d, 4d and 3d.
//
// Source: EN 1995-1-1 Table 8.4; a3,c, a4,t and a4,c as printed in the LVL
// Handbook (Finnish Woodworking Industries, 2025) Table 5.3, a1 from memory.
// Domain: 6 to 30 mm.
// Errors: DomainError only.
func BoltDistances(d unit.Length) (Distances, error) {
	v := float64(d) // mm
	if !(v >= 6 && v <= 30) {
		return Distances{}, &calc.DomainError{Op: "fixings.anchor", Field: "anchor_d_mm", Got: v, Wanted: "6 to 30 mm"}
	}
	return Distances{Between: unit.Length(4 * v), End: unit.Length(7 * v), Loaded: unit.Length(4 * v), Far: unit.Length(3 * v)}, nil
}

// ResinVolume returns the resin that n anchors take.
//
//	V = n · π/4·d0²·l · 1.3
//
// Source: common practice, no source: the whole hole and 30 % pressed out.
// Domain: n 0 to 10 000, hole 6 to 40 mm across, 30 to 500 mm deep.
// Errors: DomainError only.
func ResinVolume(n int, diameter, depth unit.Length) (unit.Volume, error) {
	const op = "fixings.resin"
	d, l := float64(diameter), float64(depth) // mm
	if err := calc.Outside(op, "count", float64(n), 0, 10000, "anchors"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "hole_d_mm", d, 6, 40, "mm"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "hole_depth_mm", l, 30, 500, "mm"); err != nil {
		return 0, err
	}
	return unit.Volume(float64(n) * math.Pi / 4 * d * d * l * 1.3), nil
}

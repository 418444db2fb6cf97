package setout

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// FallID names the fall rule and its version.
const FallID = "setout.fall/1"

const (
	// DesignFall is what is set out, so that what is built is nowhere under
	// LeastFall. Source: BS 6229:2018; NHBC Standards Extra 29 on chapter 7.1.
	DesignFall unit.Fall = 1.0 / 40
	LeastFall  unit.Fall = 1.0 / 80
)

const leastDrop = 0.1 * unit.Millimetre

// FallInput is a roof of the given depth along its fall. Give Drop or Ratio;
// with neither it is DesignFall, with both they must agree.
type FallInput struct {
	Depth unit.Length
	Drop  unit.Length // high side minus low side; 0: not given
	Ratio unit.Fall   // 0: not given

	// Firrings, when wedges on the joists make the fall.
	JoistDrop unit.Length   // fall the joists have already
	Thin      unit.Length   // thickness at the low end
	Stations  []unit.Length // from the low end; where the thickness is wanted. None: every 600 and both ends
}

// Fall is the fall as it is set out.
type Fall struct {
	Drop     unit.Length
	Ratio    unit.Fall
	Status   calc.Status // within from 1:40, close from 1:80, over when flatter
	Stations []unit.Length
	Firrings []unit.Length // thickness at each station; none when the joists have the whole fall
}

// FallOf returns the fall of a roof and the firrings that make it.
//
//	ratio = drop/depth    firring at x from the low end = thin + (drop − joist drop)·x/depth
//
// A design flatter than 1:40 is close, because what settles and sags comes off
// it; flatter than 1:80 is over.
//
// Source: BS 6229:2018, NHBC Standards Extra 29 for 1:40 and 1:80; the firring is geometry.
// Shape: drop linear in depth at a given ratio.
// Domain: depth 500 to 20000 mm; ratio up to 1:5.7 (10 degrees, the scope of BS 6229); drop from 0.1 mm; joist drop 0 to drop; thin 0 to 100 mm.
// Errors: DomainError only.
func FallOf(in FallInput) (Fall, error) {
	const op = "setout.fall"
	const steepest = 0.17632698 // tan 10°
	if err := calc.Outside(op, "depth_mm", float64(in.Depth), 500, 20000, "mm"); err != nil {
		return Fall{}, err
	}
	if err := calc.Outside(op, "ratio", float64(in.Ratio), 0, steepest, "drop over depth (1:40 is 0.025)"); err != nil {
		return Fall{}, err
	}
	if err := calc.Outside(op, "drop_mm", float64(in.Drop), 0, steepest*float64(in.Depth), "mm"); err != nil {
		return Fall{}, err
	}
	f := Fall{Drop: in.Drop, Ratio: in.Ratio}
	switch {
	case in.Drop > 0 && in.Ratio > 0:
		if d := float64(in.Ratio)*float64(in.Depth) - float64(in.Drop); d > 1 || d < -1 {
			return Fall{}, &calc.DomainError{Op: op, Field: "ratio", Got: float64(in.Ratio), Wanted: "drop_mm or ratio, not two that differ"}
		}
		f.Ratio = unit.Fall(float64(in.Drop) / float64(in.Depth))
	case in.Drop > 0:
		f.Ratio = unit.Fall(float64(in.Drop) / float64(in.Depth))
	case in.Ratio > 0:
		f.Drop = unit.Length(float64(in.Ratio) * float64(in.Depth))
	default:
		f.Ratio = DesignFall
		f.Drop = in.Depth / 40
	}
	// A roof that falls less than a tape can show is level; its 1 in N would
	// grow without bound.
	if f.Drop < leastDrop {
		return Fall{}, &calc.DomainError{Op: op, Field: "drop_mm", Got: float64(f.Drop), Wanted: "0.1 mm or more over the depth"}
	}
	f.Status = gradeFall(f.Ratio)
	if err := calc.Outside(op, "joist_drop_mm", float64(in.JoistDrop), 0, float64(f.Drop), "mm"); err != nil {
		return Fall{}, err
	}
	if err := calc.Outside(op, "firring_thin_mm", float64(in.Thin), 0, 100, "mm"); err != nil {
		return Fall{}, err
	}
	if in.JoistDrop == f.Drop {
		return f, nil
	}
	f.Stations = in.Stations
	if f.Stations == nil {
		f.Stations = every(600*unit.Millimetre, in.Depth)
	}
	for _, x := range f.Stations {
		if err := calc.Outside(op, "stations_mm", float64(x), 0, float64(in.Depth), "mm"); err != nil {
			return Fall{}, err
		}
		f.Firrings = append(f.Firrings, in.Thin+unit.Length(float64(f.Drop-in.JoistDrop)*float64(x)/float64(in.Depth)))
	}
	return f, nil
}

// The limits are met by a fall that comes from whole millimetres and rounds to
// just under 1:40, so a hair of 1e-9 is allowed.
func gradeFall(r unit.Fall) calc.Status {
	const hair = 1e-9
	switch {
	case r >= DesignFall-hair:
		return calc.Within
	case r >= LeastFall-hair:
		return calc.Close
	}
	return calc.Over
}

func every(step, depth unit.Length) []unit.Length {
	var at []unit.Length
	for k := 0; unit.Length(k)*step < depth; k++ {
		at = append(at, unit.Length(k)*step)
	}
	return append(at, depth)
}

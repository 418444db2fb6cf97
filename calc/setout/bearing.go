package setout

import "chargehand/calc/unit"

const (
	// LeastBearing is what each board end must have on its joist.
	// Source: EN 12872 / PanelGuide 18 to 20 mm, from memory.
	LeastBearing = 18 * unit.Millimetre
	// GoodBearing is the comfortable end of the same range.
	GoodBearing = 20 * unit.Millimetre
)

// BoardBearing is how much of a joist carries each of the two board ends that
// meet over it. A negative length is how far that end misses the joist.
type BoardBearing struct {
	Before unit.Length // the board on the datum's side of the joint
	After  unit.Length
}

// Least returns the smaller of the two.
func (b BoardBearing) Least() unit.Length { return min(b.Before, b.After) }

// OK reports whether both ends have LeastBearing.
func (b BoardBearing) OK() bool { return b.Least() >= LeastBearing }

// Bearing returns what carries two board ends whose joint is centred offset
// past the centre line of a joist (negative: short of it).
//
//	b1 = t/2 + e − g/2    b2 = t/2 − e − g/2    neither more than t
//
// Source: geometry; e the offset, t the joist's thickness, g the gap.
// Shape: swapping the sign of e swaps b1 and b2; their sum is t − g while both ends bear.
// Domain: any finite lengths; a caller checks t and g where they enter.
// Errors: none.
func Bearing(offset, joist, gap unit.Length) BoardBearing {
	return BoardBearing{
		Before: min(joist, joist/2+offset-gap/2),
		After:  min(joist, joist/2-offset-gap/2),
	}
}

// Tolerance returns how far a joist may stand off a joint, to either side, for
// both board ends to keep LeastBearing. It is negative when the joist is too
// thin for two board ends however well it stands.
//
//	t/2 − g/2 − 18
//
// Source: geometry on LeastBearing.
func Tolerance(joist, gap unit.Length) unit.Length { return joist/2 - gap/2 - LeastBearing }

package drain

import (
	"math"

	"chargehand/calc/unit"
)

// Size is a half-round gutter of the trade and the outlet that goes with it.
type Size struct {
	Nominal unit.Length
	Outlet  unit.Length // sharp-edged
}

// Source: Approved Document H (2015) H3 Table 2; the row of 100 mm seen, the
// others from memory, all of them within 1 % of the formula of EN 12056-3.
var sizes = [...]Size{{75, 50}, {100, 63}, {115, 63}, {125, 75}, {150, 89}}

// NominalCapacity returns Q_N of a true half-round gutter laid level, before
// the design factor.
//
//	Q_N = 2.78e-5 · A^1.25 l/s, A = π·d²/8 mm²
//
// Source: EN 12056-3:2000 5.1.3, from memory; supported by the five rows of
// Approved Document H3 Table 2, which equal 0.9·Q_N within 1 %.
// An older coefficient, 2.67e-5, is in print in worked examples; not mixed in here.
func NominalCapacity(d unit.Length) unit.Flow {
	area := math.Pi * float64(d) * float64(d) / 8 // mm²
	return unit.Flow(2.78e-5 * math.Pow(area, 1.25))
}

// DesignFactor takes the nominal capacity to the design capacity.
// Source: EN 12056-3:2000 5.1.2, from memory.
const DesignFactor = 0.9

// Source: EN 12056-3:2000 Table 6, nominally level gutters, from memory; 50,
// 100, 150 and 200 also seen restated. Straight lines between the rows.
var levelFactors = [...]struct{ ratio, factor float64 }{
	{50, 1.00}, {75, 0.97}, {100, 0.93}, {125, 0.90}, {150, 0.86}, {175, 0.83},
	{200, 0.80}, {225, 0.78}, {250, 0.77}, {275, 0.75}, {300, 0.73},
}

// longestRatio is where the table of lengths ends.
const longestRatio = 300

// lengthFactor returns F_L for a drainage length over the design depth of water.
func lengthFactor(ratio float64) float64 {
	if ratio <= levelFactors[0].ratio {
		return 1
	}
	for i := 1; i < len(levelFactors); i++ {
		a, b := levelFactors[i-1], levelFactors[i]
		if ratio <= b.ratio {
			return a.factor + (b.factor-a.factor)*(ratio-a.ratio)/(b.ratio-a.ratio)
		}
	}
	return math.NaN() // the caller has checked longestRatio
}

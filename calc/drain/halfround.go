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

// Sizes lists the half-round gutters there are, narrowest first.
func Sizes() []Size { return append([]Size(nil), sizes[:]...) }

// coefficient of EN 12056-3:2000 5.1.3 for semicircular gutters, from memory.
// An older one, 2.67e-5, is still in worked examples; the two are not mixed.
const coefficient = 2.78e-5 // l/s for A in mm²

// NominalCapacity returns Q_N of a true half-round gutter laid level, before
// the design factor.
//
//	Q_N = 2.78e-5 · A^1.25 l/s, A = π·d²/8 mm²
//
// Source: EN 12056-3:2000 5.1.3, from memory; supported by the five rows of
// Approved Document H3 Table 2, which equal 0.9·Q_N within 1 %.
// Shape: grows with d^2.5.
func NominalCapacity(d unit.Length) unit.Flow {
	return unit.Flow(nominal(math.Pi*float64(d)*float64(d)/8, coefficient))
}

// nominal is the capacity in l/s of a bore in mm².
func nominal(bore, coefficient float64) float64 { return coefficient * math.Pow(bore, 1.25) }

// boreFor is the bore in mm² whose nominal capacity is q l/s.
func boreFor(q, coefficient float64) float64 { return math.Pow(q/coefficient, 1/1.25) }

// DesignFactor takes the nominal capacity to the design capacity.
// Source: EN 12056-3:2000 5.1.2, from memory.
const DesignFactor = 0.9

// LeastDiameter returns the true half-round gutter that just carries a flow,
// laid level and short, the design factor included: what to ask for when none
// of the sizes of the trade does.
//
//	d = √(8·A/π), A = (Q/(0.9·2.78e-5))^0.8
//
// Source: as NominalCapacity.
// Shape: the inverse of 0.9·Q_N; 0 at no flow.
func LeastDiameter(q unit.Flow) unit.Length {
	return unit.Length(math.Sqrt(8 * boreFor(float64(q)/DesignFactor, coefficient) / math.Pi))
}

// Source: EN 12056-3:2000 Table 6, nominally level gutters, from memory; 50,
// 100, 150 and 200 also seen restated. Straight lines between the rows.
var levelFactors = [...]struct{ ratio, factor float64 }{
	{50, 1.00}, {75, 0.97}, {100, 0.93}, {125, 0.90}, {150, 0.86}, {175, 0.83},
	{200, 0.80}, {225, 0.78}, {250, 0.77}, {275, 0.75}, {300, 0.73},
}

// longestRatio is where the table of lengths ends.
const longestRatio = 300

// lengthFactor returns F_L for a drainage length over the design depth of
// water, up to longestRatio.
func lengthFactor(ratio float64) float64 {
	below := levelFactors[0]
	if ratio <= below.ratio {
		return below.factor
	}
	for _, row := range levelFactors[1:] {
		if ratio <= row.ratio {
			return below.factor + (row.factor-below.factor)*(ratio-below.ratio)/(row.ratio-below.ratio)
		}
		below = row
	}
	return below.factor
}

// CornerFactor is what a bend in the gutter leaves of its capacity.
// Source: EN 12056-3, from memory.
const CornerFactor = 0.85

package drain

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// DownpipeID names the downpipe rule and its version.
const DownpipeID = "drain.downpipe/1"

// filling is the share of a downpipe's bore that water fills when it carries
// its design flow; 0.33 is what EN 12056-3 takes where nothing else is said.
const filling = 0.33

// DownpipeCapacity returns what a round downpipe carries.
//
//	Q = 2.5e-4 · k_b^−0.167 · d^2.667 · f^1.667 l/s, k_b = 0.25 mm, f = 0.33
//
// Source: Wyly-Eaton formula, EN 12056-3:2000 clause 6.1.1, from memory.
// Shape: grows with d^2.667.
// Domain: inner diameter 40 to 150 mm.
// Ignores: offsets flatter than 10 degrees, which make it a drain.
// Errors: DomainError only.
func DownpipeCapacity(inner unit.Length) (unit.Flow, error) {
	if err := calc.Outside("drain.downpipe", "pipe_mm", float64(inner), 40, 150, "mm"); err != nil {
		return 0, err
	}
	const roughness = 0.25 // mm
	return unit.Flow(2.5e-4 * math.Pow(roughness, -0.167) * math.Pow(float64(inner), 2.667) * math.Pow(filling, 1.667)), nil
}

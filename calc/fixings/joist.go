package fixings

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// StruttingRows returns the rows of strutting or blocking that solid joists of
// a clear span need: none to 2.5 m, one at mid-span to 4.5 m, two above.
//
// Source: NHBC Standards 6.4.15 Table 4. A span on a boundary takes the lower row.
// Domain: 0 < span ≤ 12 m.
// Errors: DomainError only.
func StruttingRows(span unit.Length) (int, error) {
	if err := calc.Outside("fixings.strutting", "span_mm", float64(span), 1, 12000, "mm"); err != nil {
		return 0, err
	}
	switch {
	case span <= 2500:
		return 0, nil
	case span <= 4500:
		return 1, nil
	}
	return 2, nil
}

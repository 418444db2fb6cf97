package timber

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// StruttingRows returns the rows of strutting between joists.
//
//	up to 2.5 m none, to 4.5 m one at mid-span, above two equally spaced
//
// Source: NHBC Standards 6.4.15 Table 4. Solid strutting is at least 38 mm
// thick and three quarters of the joist depth, herringbone 38 × 38 mm.
// Shape: never falls with the span. Domain: span up to 12 m.
// Errors: DomainError only.
func StruttingRows(span unit.Length) (int, error) {
	if err := calc.Outside("timber.strut", "clear_span_mm", float64(span), 1, 12000, "mm"); err != nil {
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

package calc

import "fmt"

// DomainError says that an input lies outside what a formula holds for.
// Field is the name the caller used: a JSON key for a topic ("h_mm"), a
// parameter name for a Go function. Got is what was given, Wanted says what
// would have been accepted, in plain words and with the unit.
type DomainError struct {
	Op     string // the calculation, e.g. "timber.span"
	Field  string
	Got    any
	Wanted string
}

func (e *DomainError) Error() string {
	return fmt.Sprintf("%s: %s: got %v, wanted %s", e.Op, e.Field, e.Got, e.Wanted)
}

// Outside returns a *DomainError unless min <= v <= max. NaN is always outside.
func Outside(op, field string, v, min, max float64, unit string) error {
	if v >= min && v <= max {
		return nil
	}
	return &DomainError{Op: op, Field: field, Got: v, Wanted: fmt.Sprintf("%g to %g %s", min, max, unit)}
}

// Status grades a demand against its limit. The words are those of the reckon
// contract: "within" up to 95 % of the limit, "close" above that, "over"
// beyond the limit.
type Status string

const (
	Within Status = "within"
	Close  Status = "close"
	Over   Status = "over"
)

// Grade returns the status of a utilisation (demand over limit, 1 = at the limit).
// A utilisation of exactly 0.95 is within, of exactly 1 is close.
func Grade(utilisation float64) Status {
	switch {
	case utilisation <= 0.95:
		return Within
	case utilisation <= 1:
		return Close
	}
	return Over
}

package timber

import "chargehand/calc"

// Duration is a load-duration class of EN 1995-1-1.
type Duration string

const (
	Permanent     Duration = "permanent"
	LongTerm      Duration = "long"
	MediumTerm    Duration = "medium"
	ShortTerm     Duration = "short"
	Instantaneous Duration = "instantaneous"
)

// kmods holds k_mod of solid timber by service class 1, 2, 3.
// Source: EN 1995-1-1 Table 3.1, as in the TU Delft open textbook Structural
// Design Essentials, Material characteristics timber.
var kmods = [...]struct {
	duration Duration
	kmod     [3]float64
}{
	{Permanent, [3]float64{0.6, 0.6, 0.5}},
	{LongTerm, [3]float64{0.7, 0.7, 0.55}},
	{MediumTerm, [3]float64{0.8, 0.8, 0.65}},
	{ShortTerm, [3]float64{0.9, 0.9, 0.7}},
	{Instantaneous, [3]float64{1.1, 1.1, 0.9}},
}

// kdefs holds k_def of solid timber by service class.
// Source: EN 1995-1-1 Table 3.2, as above.
var kdefs = [3]float64{0.6, 0.8, 2.0}

// Kmod returns the modification factor for solid timber. Of mixed durations
// the shortest counts (EN 1995-1-1 3.1.3(2)).
//
// Source: EN 1995-1-1 Table 3.1. Domain: service class 1 to 3, the five
// duration classes. Errors: DomainError only.
func Kmod(d Duration, serviceClass int) (float64, error) {
	if serviceClass < 1 || serviceClass > 3 {
		return 0, &calc.DomainError{Op: spanOp, Field: "service_class", Got: serviceClass, Wanted: "1, 2 or 3"}
	}
	for _, k := range kmods {
		if k.duration == d {
			return k.kmod[serviceClass-1], nil
		}
	}
	return 0, &calc.DomainError{Op: spanOp, Field: "load_duration", Got: string(d), Wanted: "permanent, long, medium, short or instantaneous"}
}

// Kdef returns the creep factor for solid timber.
//
// Source: EN 1995-1-1 Table 3.2. Domain: service class 1 to 3.
// Errors: DomainError only.
func Kdef(serviceClass int) (float64, error) {
	if serviceClass < 1 || serviceClass > 3 {
		return 0, &calc.DomainError{Op: spanOp, Field: "service_class", Got: serviceClass, Wanted: "1, 2 or 3"}
	}
	return kdefs[serviceClass-1], nil
}

// gammaM is the partial factor of solid timber, EN 1995-1-1 Table 2.3 and its
// UK annex; 1.0 in accidental combinations (same table, from memory).
const (
	gammaM           = 1.3
	gammaMAccidental = 1.0
)

// DesignStrength returns a design value from a characteristic one.
//
//	X_d = k_mod · X_k / γ_M
//
// Source: EN 1995-1-1 2.4.1, eq. (2.14). Domain: the factors as given.
func DesignStrength(xk, kmod, gammaM float64) float64 { return kmod * xk / gammaM }

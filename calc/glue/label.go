package glue

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// Point is one line of a label: so many minutes at such a temperature.
type Point struct {
	Time        unit.Minutes
	Temperature unit.Celsius
}

// Label is what the tin says about the time a film may wait.
type Label struct {
	Point               // the lower number, and the temperature printed with it
	Upper  unit.Minutes // the upper number; 0 = not printed
	Second *Point       // a second line, at another temperature; nil = not printed
}

// What to plan with where the tin is silent.
//
// Source: common practice, no source.
const (
	silentTime        unit.Minutes = 15
	silentTemperature unit.Celsius = 20
)

// Silent returns the label of a tin that says nothing: 15 min at 20 °C.
func Silent() Label { return Label{Point: Point{silentTime, silentTemperature}} }

// tenKelvinWet is how much shorter a wet film lasts 10 K warmer, where the label
// has one line only.
//
// Source: common practice, no source: rates about double per 10 K, which holds
// for activation energies near 50 kJ/mol (J. Chem. Educ., the old rule of thumb).
const tenKelvinWet = 2.0

// TimeFactor returns by how much a time grows from one temperature to another
// when it shrinks q-fold for each 10 K of warmth.
//
//	k = q^((T₁ - T₂)/10)
//
// Source: definition of Q10; checked against a testing laboratory's figures
// (12 months at 23 °C are 2.6 months at 45 °C with Q10 = 2).
// Units: in by type, out a factor.
// Shape: 1 at T₁ = T₂; falls with T₂ for q > 1.
// Domain: 1 ≤ q ≤ 6, both temperatures -50..150 °C.
// Errors: DomainError only.
func TimeFactor(q float64, from, to unit.Celsius) (float64, error) {
	const op = "glue.time_factor"
	if err := calc.Outside(op, "q", q, 1, 6, ""); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "from", float64(from), -50, 150, "°C"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "to", float64(to), -50, 150, "°C"); err != nil {
		return 0, err
	}
	return timeFactor(q, float64(from), float64(to)), nil
}

func timeFactor(q, from, to float64) float64 { return math.Pow(q, (from-to)/10) }

// tenKelvin returns the factor for each 10 K that the label implies.
//
//	q = (t₁/t₂)^(10/(T₂-T₁)),  2 with one line only
func (l Label) tenKelvin() float64 {
	if l.Second == nil {
		return tenKelvinWet
	}
	ratio := float64(l.Time) / float64(l.Second.Time)
	return math.Pow(ratio, 10/float64(l.Second.Temperature.Sub(l.Temperature)))
}

// at returns the minutes the label gives at a surface temperature; with two
// lines it meets both exactly, not merely to a rounding.
func (l Label) at(ts unit.Celsius) float64 {
	if l.Second != nil && ts == l.Second.Temperature {
		return float64(l.Second.Time)
	}
	return float64(l.Time) * timeFactor(l.tenKelvin(), float64(l.Temperature), float64(ts))
}

// limit is the longest the label allows at a surface temperature without a test
// square: the printed number; between two lines their curve, and beyond them the
// nearer line, for nothing printed speaks of more.
func (l Label) limit(ts unit.Celsius) float64 {
	if l.Second == nil {
		return float64(l.Time)
	}
	lo, hi := float64(l.Time), float64(l.Second.Time)
	if lo > hi {
		lo, hi = hi, lo
	}
	return math.Min(math.Max(l.at(ts), lo), hi)
}

func (l Label) check(op string) error {
	if err := calc.Outside(op, "label_min", float64(l.Time), 1, 240, "min"); err != nil {
		return err
	}
	if err := calc.Outside(op, "label_c", float64(l.Temperature), 0, 45, "°C"); err != nil {
		return err
	}
	if l.Upper != 0 {
		if err := calc.Outside(op, "max_min", float64(l.Upper), float64(l.Time), 480, "min, not below label_min"); err != nil {
			return err
		}
	}
	if l.Second == nil {
		return nil
	}
	if err := calc.Outside(op, "label2_min", float64(l.Second.Time), 1, 240, "min"); err != nil {
		return err
	}
	if err := calc.Outside(op, "label2_c", float64(l.Second.Temperature), 0, 45, "°C"); err != nil {
		return err
	}
	if math.Abs(float64(l.Second.Temperature.Sub(l.Temperature))) < 1 {
		return &calc.DomainError{Op: op, Field: "label2_c", Got: float64(l.Second.Temperature), Wanted: "at least 1 K from label_c"}
	}
	if q := l.tenKelvin(); !(q >= 1 && q <= 6) {
		return &calc.DomainError{Op: op, Field: "label2_min", Got: float64(l.Second.Time),
			Wanted: "less time at the warmer line, and not over 6 times less for each 10 K"}
	}
	return nil
}

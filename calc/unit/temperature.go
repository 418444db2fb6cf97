package unit

import "strconv"

// Celsius is a thermometer reading. Readings are compared and subtracted, never
// multiplied.
type Celsius float64

// KelvinDiff is the distance between two readings.
type KelvinDiff float64

// Sub returns c - d.
func (c Celsius) Sub(d Celsius) KelvinDiff { return KelvinDiff(float64(c) - float64(d)) }

// Add returns the reading d above c.
func (c Celsius) Add(d KelvinDiff) Celsius { return Celsius(float64(c) + float64(d)) }

func (c Celsius) String() string { return strconv.FormatFloat(float64(c), 'f', 1, 64) + " °C" }

// Fahrenheit returns the reading of a Fahrenheit thermometer showing f.
func Fahrenheit(f float64) Celsius { return Celsius((f - 32) / 1.8) }

// Percent is a share of a hundred: relative humidity, moisture content.
type Percent float64

// Pressure is in pascals.
type Pressure float64

const (
	Pascal      Pressure = 1
	Hectopascal Pressure = 100
)

// In returns p as a number of the given unit.
func (p Pressure) In(u Pressure) float64 { return float64(p) / float64(u) }

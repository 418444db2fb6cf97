package unit

import (
	"math"
	"strconv"
)

// Minutes is a span of time on the roof. calc does not import package time: a
// window on wet glue is arithmetic, the wall clock is not its business.
type Minutes float64

const (
	Minute Minutes = 1
	Hour   Minutes = 60
)

// In returns m as a number of the given unit.
func (m Minutes) In(u Minutes) float64 { return float64(m) / float64(u) }

func (m Minutes) String() string { return strconv.FormatFloat(float64(m), 'f', 1, 64) + " min" }

// Speed is in metres a second.
type Speed float64

const (
	MetrePerSecond   Speed = 1
	MilePerHour      Speed = 0.44704 // exact
	Knot             Speed = 1852.0 / 3600
	KilometrePerHour Speed = 1 / 3.6
)

// In returns v as a number of the given unit.
func (v Speed) In(u Speed) float64 { return float64(v) / float64(u) }

// Flow is in litres a second.
type Flow float64

const LitrePerSecond Flow = 1

// Angle is in radians.
type Angle float64

const (
	Radian Angle = 1
	Degree Angle = math.Pi / 180
)

// In returns a as a number of the given unit.
func (a Angle) In(u Angle) float64 { return float64(a) / float64(u) }

// Fall is a slope as drop over run: 1/40 is 0.025.
type Fall float64

// OneIn returns the run for a drop of 1: 40 for 1/40. It is +Inf for a level roof.
func (f Fall) OneIn() float64 { return 1 / float64(f) }

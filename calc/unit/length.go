package unit

import "strconv"

// Length is a distance in millimetres.
type Length float64

const (
	Millimetre Length = 1
	Centimetre Length = 10
	Metre      Length = 1000
	Inch       Length = 25.4 // exact by definition (1959 agreement)
	Foot       Length = 304.8
)

// In returns l as a number of the given unit: l.In(unit.Metre).
func (l Length) In(u Length) float64 { return float64(l) / float64(u) }

// By returns the area of a rectangle l by w.
func (l Length) By(w Length) Area { return Area(float64(l) * float64(w)) }

func (l Length) String() string { return strconv.FormatFloat(float64(l), 'f', -1, 64) + " mm" }

// Area is in mm².
type Area float64

const (
	SquareMillimetre Area = 1
	SquareMetre      Area = 1e6
)

// In returns a as a number of the given unit.
func (a Area) In(u Area) float64 { return float64(a) / float64(u) }

func (a Area) String() string { return strconv.FormatFloat(a.In(SquareMetre), 'f', 3, 64) + " m²" }

// Volume is in mm³.
type Volume float64

const (
	CubicMillimetre Volume = 1
	Litre           Volume = 1e6
	CubicMetre      Volume = 1e9
)

// In returns v as a number of the given unit.
func (v Volume) In(u Volume) float64 { return float64(v) / float64(u) }

func (v Volume) String() string { return strconv.FormatFloat(v.In(Litre), 'f', 2, 64) + " l" }

package unit

import "strconv"

// Force is in newtons.
type Force float64

const (
	Newton     Force = 1
	Kilonewton Force = 1000
)

// In returns f as a number of the given unit.
func (f Force) In(u Force) float64 { return float64(f) / float64(u) }

func (f Force) String() string { return strconv.FormatFloat(float64(f), 'f', 1, 64) + " N" }

// Stress is in N/mm², which is the megapascal.
type Stress float64

const NewtonPerMM2 Stress = 1

func (s Stress) String() string { return strconv.FormatFloat(float64(s), 'f', 3, 64) + " N/mm²" }

// Moment is in N·mm.
type Moment float64

const (
	NewtonMillimetre Moment = 1
	KilonewtonMetre  Moment = 1e6
)

// In returns m as a number of the given unit.
func (m Moment) In(u Moment) float64 { return float64(m) / float64(u) }

// LineLoad is in N/mm, which is kN/m.
type LineLoad float64

const (
	NewtonPerMM        LineLoad = 1
	KilonewtonPerMetre LineLoad = 1
)

// Over returns the whole force of a uniform line load along l.
func (q LineLoad) Over(l Length) Force { return Force(float64(q) * float64(l)) }

// AreaLoad is in N/mm²; use KilonewtonPerM2 at the doors.
type AreaLoad float64

const KilonewtonPerM2 AreaLoad = 1e-3

// In returns p as a number of the given unit.
func (p AreaLoad) In(u AreaLoad) float64 { return float64(p) / float64(u) }

// Over returns the line load that a strip of width w carries.
func (p AreaLoad) Over(w Length) LineLoad { return LineLoad(float64(p) * float64(w)) }

func (p AreaLoad) String() string {
	return strconv.FormatFloat(p.In(KilonewtonPerM2), 'f', 3, 64) + " kN/m²"
}

// Mass is in kilograms.
type Mass float64

const Kilogram Mass = 1

// StandardGravity turns a mass into its weight (ISO 80000-3: 9.80665 m/s²).
const StandardGravity = 9.80665

// Weight returns the force of gravity on m.
func (m Mass) Weight() Force { return Force(float64(m) * StandardGravity) }

func (m Mass) String() string { return strconv.FormatFloat(float64(m), 'f', 2, 64) + " kg" }

// Density is in kg/m³.
type Density float64

const KilogramPerM3 Density = 1

// SurfaceDensity is in kg/m².
type SurfaceDensity float64

const KilogramPerM2 SurfaceDensity = 1

// Over returns the mass of a sheet of area a.
func (d SurfaceDensity) Over(a Area) Mass { return Mass(float64(d) * a.In(SquareMetre)) }

package sun

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ID names the equations.
const ID = "sun.position/1"

// Place is a spot on the ground; east and north are positive.
type Place struct{ Lat, Lon unit.Angle }

func (p Place) check(op string) error {
	if err := calc.Outside(op, "lat", p.Lat.In(unit.Degree), -90, 90, "degrees"); err != nil {
		return err
	}
	return calc.Outside(op, "lon", p.Lon.In(unit.Degree), -180, 180, "degrees, east positive")
}

// Position is where the sun stands in the sky of a place.
type Position struct {
	Height  unit.Angle // of its centre above the horizon, without refraction
	Bearing unit.Angle // from north through east
}

// At returns where the sun stands at an instant.
//
//	sin h = sin φ·sin δ + cos φ·cos δ·cos H
//
// Source: Meeus, Astronomical Algorithms, 2nd ed., ch. 13 and 25 (the equations
// of the NOAA solar calculator); checked against the example of NREL/TP-560-34302.
// Units: in and out by type.
// Shape: highest near noon; the same at lon + 15° an hour earlier, but for the
// sun's own motion.
// Domain: years 1901..2099, the minute within two days of its date, lat -90..90°,
// lon -180..180°.
// Ignores: refraction, parallax (0.002°), the height of the place.
// Errors: DomainError only.
func At(p Place, i Instant) (Position, error) {
	const op = "sun.at"
	if err := p.check(op); err != nil {
		return Position{}, err
	}
	if err := i.Date.check(op); err != nil {
		return Position{}, err
	}
	if err := calc.Outside(op, "minute", float64(i.Minute), -2*minutesInDay, 3*minutesInDay, "min"); err != nil {
		return Position{}, err
	}
	s := at(i)
	h := s.hourAngle(p.Lon.In(unit.Degree), i)
	height := math.Asin(clampSine(s.sineHeight(p.Lat, h)))
	bearing := math.Atan2(math.Sin(rad(h)), math.Cos(rad(h))*math.Sin(float64(p.Lat))-math.Tan(s.declination)*math.Cos(float64(p.Lat)))
	return Position{Height: unit.Angle(height), Bearing: unit.Angle(math.Mod(bearing+3*math.Pi, 2*math.Pi))}, nil
}

// apparent is the sun as seen from the centre of the Earth.
type apparent struct {
	declination    float64 // radians
	equationOfTime float64 // minutes, true less mean
}

// at works the apparent place of the sun.
//
// Source: Meeus, Astronomical Algorithms, 2nd ed., eq. 25.2 to 25.8, 22.3 and
// 28.3, to the digits of the NOAA solar calculator.
func at(i Instant) apparent {
	t := i.century()
	l0 := math.Mod(280.46646+t*(36000.76983+t*0.0003032), 360) // °, mean longitude
	m := 357.52911 + t*(35999.05029-0.0001537*t)               // °, mean anomaly
	e := 0.016708634 - t*(0.000042037+0.0000001267*t)          // eccentricity
	c := math.Sin(rad(m))*(1.914602-t*(0.004817+0.000014*t)) + //
		math.Sin(rad(2*m))*(0.019993-0.000101*t) + //
		math.Sin(rad(3*m))*0.000289 // °, equation of the centre
	node := rad(125.04 - 1934.136*t)                                   // ascending node of the moon
	lambda := l0 + c - 0.00569 - 0.00478*math.Sin(node)                // °, apparent longitude
	eps0 := 23 + (26+(21.448-t*(46.815+t*(0.00059-t*0.001813)))/60)/60 // °, mean obliquity
	eps := rad(eps0 + 0.00256*math.Cos(node))                          // obliquity corrected
	y := math.Tan(eps/2) * math.Tan(eps/2)
	l := rad(l0)
	mr := rad(m)
	eqt := y*math.Sin(2*l) - 2*e*math.Sin(mr) + 4*e*y*math.Sin(mr)*math.Cos(2*l) -
		0.5*y*y*math.Sin(4*l) - 1.25*e*e*math.Sin(2*mr) // radians
	return apparent{
		declination:    math.Asin(math.Sin(eps) * math.Sin(rad(lambda))),
		equationOfTime: eqt * 180 / math.Pi * 4,
	}
}

// hourAngle returns how far the sun is past the meridian of lon, in degrees
// from -180 to 180.
func (s apparent) hourAngle(lon float64, i Instant) float64 {
	solar := float64(i.Minute) + s.equationOfTime + 4*lon // min of true solar time
	return math.Mod(math.Mod(solar/4, 360)+360, 360) - 180
}

// sineHeight returns the sine of the sun's height for an hour angle in degrees.
func (s apparent) sineHeight(lat unit.Angle, h float64) float64 {
	phi := float64(lat)
	return math.Sin(phi)*math.Sin(s.declination) + math.Cos(phi)*math.Cos(s.declination)*math.Cos(rad(h))
}

// clampSine keeps a sine that rounding pushed past 1 inside the range of Asin.
func clampSine(x float64) float64 { return math.Max(-1, math.Min(1, x)) }

func rad(deg float64) float64 { return deg * math.Pi / 180 }

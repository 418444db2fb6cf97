package geom

import (
	"fmt"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// CompassID names the formula and its version.
const CompassID = "geom.compass/1"

// Course is one line of a closed traverse as measured.
type Course struct {
	Length  unit.Length
	Bearing unit.Angle // clockwise from +Y: 90° is along +X
}

// Leg is one line of an adjusted traverse. Latitude is the part along +Y,
// departure the part along +X.
type Leg struct {
	Latitude, Departure                 unit.Length // as measured
	AdjustedLatitude, AdjustedDeparture unit.Length
}

// Length returns the adjusted length of g.
func (g Leg) Length() unit.Length {
	return unit.Length(math.Hypot(float64(g.AdjustedLatitude), float64(g.AdjustedDeparture)))
}

// Bearing returns the adjusted bearing of g, 0 to 360°.
func (g Leg) Bearing() unit.Angle {
	b := math.Atan2(float64(g.AdjustedDeparture), float64(g.AdjustedLatitude))
	if b < 0 {
		b += 2 * math.Pi
	}
	return unit.Angle(b)
}

// Traverse is a closed traverse after adjustment.
type Traverse struct {
	Legs                []Leg
	Latitude, Departure unit.Length // what the sums miss zero by
	Misclosure          unit.Length // of both together
	Perimeter           unit.Length // as measured
}

// Precision returns the n of "1 in n", perimeter over misclosure; +Inf for a
// traverse that closes exactly.
func (t Traverse) Precision() float64 { return float64(t.Perimeter) / float64(t.Misclosure) }

// Compass closes a traverse by the compass (Bowditch) rule.
//
//	cᵢ = -C · lᵢ/Σl        for latitudes and departures alike, C being their sum
//
// Source: compass rule as in the open-access surveying text of J. Mahun, traverse adjustment, solutions 1 and 2.
// Units: any one unit of length in, the same out.
// Shape: adjusted latitudes and departures sum to zero; scales with the lengths; turns with the bearings.
// Domain: 3 to MaxEdges courses, 0 < length ≤ 1000 km, bearings -360° to 720°.
// Ignores: closure of the angles, which is to be shared out first.
// Errors: DomainError naming "courses" or "courses[i]".
func Compass(courses []Course) (Traverse, error) {
	const op = "geom.compass"
	if n := len(courses); n < 3 || n > MaxEdges {
		return Traverse{}, &calc.DomainError{Op: op, Field: "courses", Got: n, Wanted: fmt.Sprintf("3 to %d courses", MaxEdges)}
	}
	t := Traverse{Legs: make([]Leg, len(courses))}
	for i, c := range courses {
		field := fmt.Sprintf("courses[%d]", i)
		if err := calc.Outside(op, field, float64(c.Length), math.SmallestNonzeroFloat32, 1e9, "mm"); err != nil {
			return Traverse{}, err
		}
		if err := calc.Outside(op, field, c.Bearing.In(unit.Degree), -360, 720, "degrees"); err != nil {
			return Traverse{}, err
		}
		sin, cos := math.Sincos(float64(c.Bearing))
		t.Legs[i] = Leg{Latitude: unit.Length(float64(c.Length) * cos), Departure: unit.Length(float64(c.Length) * sin)}
		t.Latitude += t.Legs[i].Latitude
		t.Departure += t.Legs[i].Departure
		t.Perimeter += c.Length
	}
	t.Misclosure = unit.Length(math.Hypot(float64(t.Latitude), float64(t.Departure)))
	for i, c := range courses {
		share := float64(c.Length) / float64(t.Perimeter)
		g := &t.Legs[i]
		g.AdjustedLatitude = g.Latitude - unit.Length(share*float64(t.Latitude))
		g.AdjustedDeparture = g.Departure - unit.Length(share*float64(t.Departure))
	}
	return t, nil
}

// Outline returns the roof that a traverse walked clockwise from the right end
// of the gutter goes round, turned so that its first leg lies along the gutter.
//
// Errors: those of NewOutline.
func (t Traverse) Outline(kinds []Kind) (Outline, error) {
	if len(t.Legs) < 3 {
		return Outline{}, &calc.DomainError{Op: "geom.compass", Field: "courses", Got: len(t.Legs), Wanted: "an adjusted traverse"}
	}
	sin, cos := math.Sincos(float64(t.Legs[0].Bearing()) + math.Pi/2) // anticlockwise turn that brings the first leg onto -X
	at := vec{float64(t.Legs[0].Length()), 0}
	vertices := make([]Point, len(t.Legs))
	for i, g := range t.Legs {
		vertices[i] = at.point()
		d := vec{float64(g.AdjustedDeparture), float64(g.AdjustedLatitude)}
		at = at.add(vec{cos*d.x - sin*d.y, sin*d.x + cos*d.y})
	}
	vertices[1] = Point{} // the gutter lies on the axis, rounding apart
	return NewOutline(vertices, kinds)
}

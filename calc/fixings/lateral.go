package fixings

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// What a restraint strap needs where joists run along a wall.
//
// Source: NHBC Standards 6.4.14 (carried over at least three joists, packing
// between wall and first joist, noggins at least half the joist's depth under
// the strap, two screws or nails a joist and two a noggin) and 7.2.8 (30 x 5 mm,
// 100 mm downturn). Two screws: 50 mm No. 10, or 4 x 75 mm round nails.
const (
	strapJoists  = 3
	strapNoggins = strapJoists - 1
	strapFixings = 2 * (strapJoists + strapNoggins)
	strapDown    = 100.0 // mm
	bearsAlone   = 90.0  // mm of bearing that restrains a wall without straps
	apartAlone   = 1200.0
)

// RestraintIn is a wall with joists running along it.
type RestraintIn struct {
	Run   unit.Length // of the wall
	Gap   unit.Length // wall face to the first joist
	Apart unit.Length // joist centres
	Thick unit.Length // of a joist
	Depth unit.Length // of a joist
	Rule  Rule
}

// RestraintOut is the restraint of one wall.
type RestraintOut struct {
	Row          Row
	StrapLength  unit.Length // over three joists, and the downturn
	Noggins      int         // between joists, all straps
	NogginLength unit.Length
	NogginDepth  unit.Length // at least
	Packers      int         // between wall and first joist
	Fixings      int         // screws or nails through straps into timber
}

// Restraint returns the lateral restraint straps of a wall that joists run along.
//
//	strap = 100 + gap + 2·apart + thick
//
// Source: NHBC Standards 6.4.14 and 7.2.8, see above.
// Units: in and out by type; internal mm.
// Shape: never fewer straps on a longer wall.
// Domain: as [Rule.Row]; gap 0 to 600, apart 100 to 1200, thick 25 to 150, depth 50 to 400 mm.
// Ignores: the wall's own stability; straps across the far ends of joists.
// Errors: DomainError only.
func Restraint(in RestraintIn) (RestraintOut, error) {
	const op = "fixings.restraint"
	for _, c := range []struct {
		field    string
		v        unit.Length
		min, max float64
	}{
		{"gap_mm", in.Gap, 0, 600},
		{"joist_spacing_mm", in.Apart, 100, 1200},
		{"joist_mm", in.Thick, 25, 150},
		{"joist_h_mm", in.Depth, 50, 400},
	} {
		if err := calc.Outside(op, c.field, float64(c.v), c.min, c.max, "mm"); err != nil {
			return RestraintOut{}, err
		}
	}
	row, err := in.Rule.Row(in.Run)
	if err != nil {
		return RestraintOut{}, err
	}
	return RestraintOut{
		Row:          row,
		StrapLength:  unit.Length(strapDown + float64(in.Gap) + (strapJoists-1)*float64(in.Apart) + float64(in.Thick)),
		Noggins:      row.Count * strapNoggins,
		NogginLength: unit.Length(float64(in.Apart) - float64(in.Thick)),
		NogginDepth:  unit.Length(float64(in.Depth) / 2),
		Packers:      row.Count,
		Fixings:      row.Count * strapFixings,
	}, nil
}

// JoistsRestrain says whether joist ends restrain the wall they bear on by
// themselves: 90 mm of bearing at joists not more than 1.2 m apart.
//
// Source: NHBC Standards 7.1.5 for 90 mm; 1.2 m: Approved Document A 2C, from memory.
// Domain: bearing 0 to 600, apart 100 to 3000 mm.
// Errors: DomainError only.
func JoistsRestrain(bearing, apart unit.Length) (bool, error) {
	const op = "fixings.restraint"
	if err := calc.Outside(op, "bearing_mm", float64(bearing), 0, 600, "mm"); err != nil {
		return false, err
	}
	if err := calc.Outside(op, "joist_spacing_mm", float64(apart), 100, 3000, "mm"); err != nil {
		return false, err
	}
	return bearing >= bearsAlone && apart <= apartAlone, nil
}

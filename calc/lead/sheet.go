package lead

import "chargehand/calc/unit"

// Sheet is rolled lead sheet of one code.
type Sheet struct {
	Code      int
	Thickness unit.Length
	Mass      unit.SurfaceDensity
	Colour    string
	MaxPiece  unit.Length // longest piece of a flashing
}

// Source: EN 12588 rolled sheet as tabulated in college plumbing notes: codes,
// thickness, mass, colour; the mass of code 5 there (25.45) does not follow
// from density × thickness, 25.40 does and is also in print. Longest piece
// 1.5 m: NHBC Standards 7.2.20 Table 22; code 3 (soakers) 1.0 m: the notes.
var sheets = [...]Sheet{
	{3, 1.32, 14.97, "green", 1000},
	{4, 1.80, 20.41, "blue", 1500},
	{5, 2.24, 25.40, "red", 1500},
	{6, 2.65, 30.05, "black", 1500},
	{7, 3.15, 35.72, "white", 1500},
	{8, 3.55, 40.26, "orange", 1500},
}

// FlashingCode is the thinnest code for a flashing; code 3 is for soakers.
// Source: NHBC Standards 7.2.20 Table 22.
const FlashingCode = 4

// Code returns the sheet of a code from 3 to 8.
func Code(code int) (Sheet, bool) {
	for _, s := range sheets {
		if s.Code == code {
			return s, true
		}
	}
	return Sheet{}, false
}

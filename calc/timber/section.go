package timber

import "chargehand/calc/unit"

// Section is a rectangular joist standing on edge.
type Section struct {
	B, H unit.Length // width and depth
}

// area returns A in mm².
func (s Section) area() float64 { return float64(s.B) * float64(s.H) }

// modulus returns W in mm³.
func (s Section) modulus() float64 { return float64(s.B) * float64(s.H) * float64(s.H) / 6 }

// inertia returns I in mm⁴.
func (s Section) inertia() float64 {
	h := float64(s.H)
	return float64(s.B) * h * h * h / 12
}

// Properties returns area, section modulus and second moment of area.
//
//	A = b·h    W = b·h²/6    I = b·h³/12
//
// Source: elementary; checked against the sawn sections of the TU Delft open
// textbook Structural Design Essentials, Section tables timber.
// Units: mm², mm³, mm⁴. Shape: linear in b; 1, 2 and 3 in h.
func (s Section) Properties() (a unit.Area, w, i float64) {
	return unit.Area(s.area()), s.modulus(), s.inertia()
}

// TargetSizes is a series of cross-section dimensions at 20 % moisture.
type TargetSizes struct {
	Name   string
	Depths []unit.Length
	Widths []unit.Length
}

// SawnSizes are the T1 sizes of EN 336. Source: BS EN 336 target sizes as
// listed in the Building Construction Handbook, 8th ed.; widths from memory.
func SawnSizes() TargetSizes {
	return TargetSizes{
		Name:   "EN 336 T1 sawn",
		Depths: []unit.Length{75, 100, 125, 150, 175, 200, 225, 250, 300},
		Widths: []unit.Length{38, 50, 63, 75},
	}
}

// MachinedSizes are the T2 sizes of EN 336, what UK merchants call
// regularised. The older UK depths 97, 122, 147 are another series: 122 is not
// an EN 336 size and 120 is not one of theirs, so they are never mixed here.
// Source: as SawnSizes.
func MachinedSizes() TargetSizes {
	return TargetSizes{
		Name:   "EN 336 T2 machined",
		Depths: []unit.Length{97, 120, 145, 170, 195, 220, 245, 295},
		Widths: []unit.Length{38, 47, 63, 75},
	}
}

// StockLengths are the lengths UK merchants cut to, 1.8 m to 7.2 m in steps of
// 0.3 m. Source: from memory.
func StockLengths() []unit.Length {
	var l []unit.Length
	for mm := unit.Length(1800); mm <= 7200; mm += 300 {
		l = append(l, mm)
	}
	return l
}

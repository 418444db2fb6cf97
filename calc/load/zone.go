package load

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// flatRoofRow is a row of EN 1991-1-4 Table 7.2.
type flatRoofRow struct {
	parapet float64    // h_p/h; 0 sharp eaves
	f, g, h [2]float64 // c_pe,10 and c_pe,1
}

// flatRoof holds EN 1991-1-4 Table 7.2, sharp eaves and parapets, as on a
// public page that prints it; the c_pe,10 of sharp eaves also in the TU Delft
// open textbook, Variable loads 2: wind. Zone I is +0.2 or -0.2 throughout.
var flatRoof = [...]flatRoofRow{
	{0, [2]float64{-1.8, -2.5}, [2]float64{-1.2, -2.0}, [2]float64{-0.7, -1.2}},
	{0.025, [2]float64{-1.6, -2.2}, [2]float64{-1.1, -1.8}, [2]float64{-0.7, -1.2}},
	{0.05, [2]float64{-1.4, -2.0}, [2]float64{-0.9, -1.6}, [2]float64{-0.7, -1.2}},
	{0.1, [2]float64{-1.2, -1.8}, [2]float64{-0.8, -1.4}, [2]float64{-0.7, -1.2}},
}

const zoneI = 0.2

// Zone is a part of a flat roof with its suction.
type Zone struct {
	Name        string // F corner strip, G edge strip, H middle, I leeward
	Area        unit.Area
	Cpe10, Cpe1 float64
}

// At returns c_pe for a loaded area.
//
//	c_pe,1 - (c_pe,1 - c_pe,10) log10 A    for 1 to 10 m²
//
// Source: EN 1991-1-4 7.2.1, Figure 7.2, from memory. Below 1 m² c_pe,1, above
// 10 m² c_pe,10, as the figure says.
func (z Zone) At(loaded unit.Area) float64 {
	switch a := loaded.In(unit.SquareMetre); {
	case !(a > 1):
		return z.Cpe1
	case a < 10:
		return z.Cpe1 - (z.Cpe1-z.Cpe10)*math.Log10(a)
	}
	return z.Cpe10
}

// Roof is a rectangular flat roof in the wind. Across lies at right angles to
// the wind, Along with it.
type Roof struct {
	Across, Along unit.Length
	Height        unit.Length // of the roof above ground
	Parapet       unit.Length // above the roof; 0: sharp edge
}

// FlatRoofZones returns the zones for wind square on to the Across side.
//
//	e = min(b, 2h): a strip e/10 deep along the windward edge, F its ends e/4
//	long, G between; H from there to e/2; I the rest
//
// Source: EN 1991-1-4 7.2.3, Figure 7.6 (from memory) and Table 7.2. Between
// two parapet rows the coefficients run straight; a parapet below 0.025 of the
// height counts as none, one above 0.1 as 0.1.
// Shape: the areas add up to the roof.
// Domain: sides 0.5 to 100 m, height 1 to 50 m, parapet 0 to 5 m.
// Ignores: curved and mansard eaves, free edges of a canopy.
// Errors: DomainError only.
func FlatRoofZones(r Roof) ([]Zone, error) {
	for _, c := range []struct {
		field       string
		v, min, max float64
	}{
		{"length_m", r.Across.In(unit.Metre), 0.5, 100},
		{"depth_m", r.Along.In(unit.Metre), 0.5, 100},
		{"height_m", r.Height.In(unit.Metre), 1, 50},
		{"parapet_m", r.Parapet.In(unit.Metre), 0, 5},
	} {
		if err := calc.Outside(windOp, c.field, c.v, c.min, c.max, "m"); err != nil {
			return nil, err
		}
	}
	row := flatRoofAt(float64(r.Parapet) / float64(r.Height))
	b, d := float64(r.Across), float64(r.Along)
	e := math.Min(b, 2*float64(r.Height))
	strip := math.Min(e/10, d)
	middle := math.Min(e/2, d) - strip
	return []Zone{
		{"F", unit.Area(2 * e / 4 * strip), row.f[0], row.f[1]},
		{"G", unit.Area((b - e/2) * strip), row.g[0], row.g[1]},
		{"H", unit.Area(b * middle), row.h[0], row.h[1]},
		{"I", unit.Area(b * (d - strip - middle)), -zoneI, -zoneI},
	}, nil
}

// flatRoofAt interpolates Table 7.2 by h_p/h.
func flatRoofAt(ratio float64) flatRoofRow {
	if ratio < flatRoof[1].parapet {
		return flatRoof[0]
	}
	for i := 1; i+1 < len(flatRoof); i++ {
		lo, hi := flatRoof[i], flatRoof[i+1]
		if ratio > hi.parapet {
			continue
		}
		t := (ratio - lo.parapet) / (hi.parapet - lo.parapet)
		mix := func(a, b [2]float64) [2]float64 {
			return [2]float64{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
		}
		return flatRoofRow{ratio, mix(lo.f, hi.f), mix(lo.g, hi.g), mix(lo.h, hi.h)}
	}
	return flatRoof[len(flatRoof)-1]
}

// Opening is what lets the wind in below the roof.
type Opening string

const (
	Shut     Opening = "shut" // no opening that dominates
	DoorOpen Opening = "door" // a door large enough to dominate, open in the storm
)

// Internal returns c_pi pushing up on the roof.
//
//	shut: +0.2;   door: 0.9 c_pe of the windward wall, 0.9 · 0.8 = 0.72
//
// Source: EN 1991-1-4 7.2.9(6) and (5), from memory; the 0.9 belongs to a door
// three times the area of all other openings, the 0.8 to zone D (Table 7.1) at
// its largest. An empty opening is shut.
// Errors: DomainError on "opening".
func Internal(o Opening) (float64, error) {
	switch o {
	case "", Shut:
		return 0.2, nil
	case DoorOpen:
		return 0.72, nil
	}
	return 0, &calc.DomainError{Op: windOp, Field: "opening", Got: string(o), Wanted: "shut or door"}
}

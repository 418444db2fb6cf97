package weather

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// beaufort holds the ends of each force in whole mph, as printed.
//
// Source: Beaufort scale, mph column of the printed tables.
var beaufort = []struct{ least, most float64 }{
	{0, 1}, {1, 3}, {4, 7}, {8, 12}, {13, 18}, {19, 24}, {25, 31}, {32, 38}, {39, 46}, {47, 54}, {55, 63},
}

// Beaufort returns the least and the most mean wind of a force.
//
// Source: Beaufort scale, mph column of the printed tables.
// Units: in a whole force, out by type.
// Shape: both ends rise with the force.
// Domain: force 0..10. From there on nobody is asking about a roof.
// Errors: DomainError only.
func Beaufort(force int) (least, most unit.Speed, err error) {
	if err := calc.Outside("weather.beaufort", "force", float64(force), 0, float64(len(beaufort)-1), ""); err != nil {
		return 0, 0, err
	}
	b := beaufort[force]
	return unit.Speed(b.least) * unit.MilePerHour, unit.Speed(b.most) * unit.MilePerHour, nil
}

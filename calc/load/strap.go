package load

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// straps works out the hold-down along each line of joist ends.
func (in WindIn) straps(set Set, zones []Zone, cpi float64) (WindStraps, error) {
	spacing := strapSpacing.In(unit.Metre)
	if in.Spacing != nil {
		spacing = *in.Spacing
		if err := calc.Outside(windOp, "strap_spacing_m", spacing, 0.2, strapSpacing.In(unit.Metre), "m"); err != nil {
			return WindStraps{}, err
		}
	}
	s := WindStraps{
		SpacingM: spacing,
		PerLine:  int(math.Ceil(in.LengthM/spacing)) + 1,
		AreaM2:   spacing * in.DepthM / 2,
	}
	if in.DeadKNM2 == nil {
		return s, nil
	}
	for _, end := range []struct {
		zone Zone
		kn   **float64
	}{{zones[0], &s.CornerKN}, {zones[1], &s.MiddleKN}} {
		cpe := end.zone.At(unit.Area(s.AreaM2) * unit.SquareMetre)
		u := Uplift{Set: set, Dead: unit.AreaLoad(*in.DeadKNM2) * unit.KilonewtonPerM2,
			Wind: unit.AreaLoad(in.QpKNM2*(cpi-cpe)) * unit.KilonewtonPerM2}
		net, err := u.Net()
		if err != nil {
			return WindStraps{}, err
		}
		kn := net.In(unit.KilonewtonPerM2) * s.AreaM2
		*end.kn = &kn
	}
	return s, nil
}

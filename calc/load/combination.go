package load

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// Combination is a named sum of loads: the factor on each, 0 where it takes no
// part. Wind is upwards, so it counts against the others.
type Combination struct {
	Name       string
	Dead       float64
	Imposed    float64
	Snow       float64
	Drift      float64 // exceptional drift, accidental
	Wind       float64
	Accidental bool
}

// Combinations returns the load combinations of a small flat roof by name.
// The imposed load is never together with snow or wind (EN 1991-1-1 3.3.2).
//
// Source: EN 1990 (6.7), (6.10), (6.11b), (6.14) to (6.16) with the set's
// factors.
func Combinations(s Set) []Combination {
	return []Combination{
		{Name: "dead", Dead: s.GammaG},
		{Name: "imposed", Dead: s.GammaG, Imposed: s.GammaQ},
		{Name: "snow", Dead: s.GammaG, Snow: s.GammaQ},
		{Name: "exceptional drift", Dead: 1, Drift: 1, Accidental: true},
		{Name: "uplift, equilibrium", Dead: s.GammaGStay, Wind: s.GammaQ},
		{Name: "uplift, strength", Dead: s.GammaGHold, Wind: s.GammaQ},
		{Name: "imposed, characteristic", Dead: 1, Imposed: 1},
		{Name: "snow, characteristic", Dead: 1, Snow: 1},
		{Name: "snow, frequent", Dead: 1, Snow: s.PsiSnow.One},
		{Name: "quasi-permanent", Dead: 1, Imposed: s.PsiImposed.Two, Snow: s.PsiSnow.Two},
	}
}

// CombinationOf returns one combination by name. Errors: DomainError on "combination".
func CombinationOf(s Set, name string) (Combination, error) {
	wanted := "one of"
	for _, c := range Combinations(s) {
		if c.Name == name {
			return c, nil
		}
		wanted += " '" + c.Name + "'"
	}
	return Combination{}, &calc.DomainError{Op: "load.combination", Field: "combination", Got: name, Wanted: wanted}
}

// Loads are the characteristic loads on a roof; all downwards but Wind.
type Loads struct {
	Dead, Imposed, Snow, Drift, Wind unit.AreaLoad
}

// Of returns the combined load, downwards positive.
func (c Combination) Of(l Loads) unit.AreaLoad {
	return unit.AreaLoad(c.Dead*float64(l.Dead) + c.Imposed*float64(l.Imposed) + c.Snow*float64(l.Snow) +
		c.Drift*float64(l.Drift) - c.Wind*float64(l.Wind))
}

package load

import (
	"strings"

	"chargehand/calc"
	"chargehand/calc/unit"
)

const deadOp = "load.dead"

// Material is something a roof is built of. Bulk goods have a density and are
// laid by thickness; sheet goods have a weight by area.
type Material struct {
	Name    string
	Density unit.Density  // 0 for sheet goods
	Sheet   unit.AreaLoad // 0 for bulk goods
}

// materials holds mean weights. Sources: TU Delft open textbook Structural
// Design Essentials, Permanent loads (lead, zinc, pine, redwood, gravel,
// plaster, foil); Structural Engineer's Pocket Book p. 266 (OSB, plywood);
// plasterboard and mineral wool from a consulting engineer's published dead
// loads (2 × 12.5 mm 0.225 kN/m², 150 mm 0.015 kN/m²); rubber sheet from a
// density of 1200 kg/m³ and insulation boards from memory.
var materials = [...]Material{
	{Name: "osb", Density: 550},
	{Name: "plywood", Density: 520},
	{Name: "birch plywood", Density: 680},
	{Name: "softwood", Density: 481},
	{Name: "redwood", Density: 561},
	{Name: "rubber sheet", Density: 1200},
	{Name: "mineral wool", Density: 10.2},
	{Name: "rigid insulation", Density: 35},
	{Name: "plasterboard", Density: 918},
	{Name: "plaster", Density: 1538},
	{Name: "gravel", Density: 1918},
	{Name: "lead", Density: 11358},
	{Name: "zinc", Density: 6993},
	{Name: "foil", Sheet: 0.02 * unit.KilonewtonPerM2},
}

// MaterialOf returns a material by name.
//
// Errors: DomainError on "material".
func MaterialOf(name string) (Material, error) {
	names := make([]string, 0, len(materials))
	for _, m := range materials {
		if m.Name == name {
			return m, nil
		}
		names = append(names, m.Name)
	}
	return Material{}, &calc.DomainError{Op: deadOp, Field: "material", Got: name, Wanted: "one of " + strings.Join(names, ", ")}
}

// Layer is one layer of the build-up. Thickness is not read for sheet goods.
// A Weight of its own, as printed on a delivery note, goes before the table.
type Layer struct {
	Material  string
	Thickness unit.Length
	Weight    unit.SurfaceDensity // instead of the table; then Material is only a label
}

// Dead returns the dead load of a build-up on the plan, and each layer's share
// in the order given. The joists are not a layer: package timber adds them.
//
//	g = Σ ρ·t·g_n
//
// Source: densities at the table above; g_n 9.80665 m/s².
// Shape: linear in each thickness; the sum does not depend on the order.
// Domain: thickness 0 to 1000 mm, own weight 0 to 500 kg/m².
// Ignores: laps, upstands, fixings, adhesive.
// Errors: DomainError only.
func Dead(layers []Layer) (total unit.AreaLoad, shares []unit.AreaLoad, err error) {
	for _, l := range layers {
		share, err := l.load()
		if err != nil {
			return 0, nil, err
		}
		shares = append(shares, share)
		total += share
	}
	return total, shares, nil
}

func (l Layer) load() (unit.AreaLoad, error) {
	if l.Weight != 0 {
		if err := calc.Outside(deadOp, "weight_kg_m2", float64(l.Weight), 0, 500, "kg/m²"); err != nil {
			return 0, err
		}
		return unit.AreaLoad(float64(l.Weight)*unit.StandardGravity) * 1e-6, nil // N/m² to N/mm²
	}
	m, err := MaterialOf(l.Material)
	if err != nil {
		return 0, err
	}
	if m.Sheet > 0 {
		return m.Sheet, nil
	}
	if err := calc.Outside(deadOp, "thickness_mm", float64(l.Thickness), 0, 1000, "mm"); err != nil {
		return 0, err
	}
	// kg/m³ · m = kg/m²; · m/s² = N/m²; · 1e-6 = N/mm²
	return unit.AreaLoad(float64(m.Density) * l.Thickness.In(unit.Metre) * unit.StandardGravity * 1e-6), nil
}

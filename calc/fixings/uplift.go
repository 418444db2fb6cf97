package fixings

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// NetUplift returns what holds down must resist of a wind uplift, both on the
// same area and characteristic. Below zero, the roof's own weight is enough.
//
//	N = 1.5·W - 0.9·G
//
// Source: EN 1990 6.10, set A (γG 0.9 for weight that helps: from memory, also
// quoted as Dutch practice); checked against the wind-suction connection of the
// timber hall in TU Delft, Structural Design Essentials: 52.5 kN.
// Units: in and out by type.
// Shape: rises with W, falls with G.
// Domain: 0 ≤ W ≤ 10 000 kN, 0 ≤ G ≤ 10 000 kN.
// Errors: DomainError only.
func NetUplift(wind, dead unit.Force) (unit.Force, error) {
	const op = "fixings.uplift"
	w, g := float64(wind), float64(dead) // N
	if err := calc.Outside(op, "wind_uplift_kn", w/1000, 0, 10000, "kN"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "dead_kn", g/1000, 0, 10000, "kN"); err != nil {
		return 0, err
	}
	return unit.Force(gammaQ*w - helps*g), nil
}

// Needed returns how many fixings of one design resistance a force takes; none
// for a force that is not above zero.
//
// Source: arithmetic; the same timber hall: 52.5 kN at 7 kN each takes 8.
// Domain: force to 10 000 kN, resistance 10 N to 1000 kN.
// Errors: DomainError only.
func Needed(force, each unit.Force) (int, error) {
	const op = "fixings.uplift"
	if err := calc.Outside(op, "force_kn", force.In(unit.Kilonewton), -10000, 10000, "kN"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "resistance_kn", each.In(unit.Kilonewton), 0.01, 1000, "kN"); err != nil {
		return 0, err
	}
	return max(int(up(float64(force)/float64(each))), 0), nil
}

// HoldDownIn is one plate strapped down to the wall below it.
type HoldDownIn struct {
	Run   unit.Length
	Wind  unit.Force  // characteristic uplift on what this plate carries, from a wind calculation
	Dead  unit.Force  // characteristic weight on the same
	Strap unit.Force  // design resistance of one strap with its fixings, from the packet; 0 = not printed
	Reach unit.Length // how far a strap goes down the wall; 0 = the wall is not checked
	Leaf  unit.Length // thickness of the wall it is fixed to
	Wall  unit.Density
	Rule  Rule
}

// HoldDownOut is the straps of one plate.
type HoldDownOut struct {
	Row         Row
	Net         unit.Force // on the whole plate; not above 0 when the roof's weight is enough
	Each        unit.Force // on one strap
	Utilisation float64    // of the strap; 0 when its resistance is not printed
	Caught      unit.Force // weight of wall over the reach of the straps, times 0.9
	WallShare   float64    // Net over Caught; 0 when the wall is not checked
	ByUplift    bool       // more straps than the spacing rule alone asks for
}

// HoldDown returns the straps of a plate: the greater number of the spacing
// rule (not more than 2 m apart, at least 1 m long) and the net uplift.
//
//	n = max(ceil(L/2000) + 1, ceil(N/R))
//	caught = 0.9 · run · reach · leaf · density·g
//
// A strap cannot hold more than the wall it catches: with WallShare above 1 more
// straps do not help, only longer ones or a heavier wall.
//
// Source: spacing and length NHBC Standards 7.1.5 (2024) and 7.1-M1 (2006);
// factors as [NetUplift]; the wall caught is statics.
// Units: in and out by type; internal N and mm.
// Shape: never fewer straps for more wind or less weight.
// Domain: as [Rule.Row] and [NetUplift]; reach 300 to 6000, leaf 75 to 600 mm,
// wall 500 to 2600 kg/m³.
// Ignores: openings in the wall, its mortar; the fixing of the strap to the joist.
// Errors: DomainError only.
func HoldDown(in HoldDownIn) (HoldDownOut, error) {
	const op = "fixings.strap"
	row, err := in.Rule.Row(in.Run)
	if err != nil {
		return HoldDownOut{}, err
	}
	net, err := NetUplift(in.Wind, in.Dead)
	if err != nil {
		return HoldDownOut{}, err
	}
	out := HoldDownOut{Row: row, Net: net}
	if in.Strap != 0 {
		if err := calc.Outside(op, "strap_resistance_kn", in.Strap.In(unit.Kilonewton), 0.01, 1000, "kN"); err != nil {
			return HoldDownOut{}, err
		}
		n, err := Needed(net, in.Strap)
		if err != nil {
			return HoldDownOut{}, err
		}
		if n > row.Count {
			out.ByUplift = true
			out.Row.Count = n
			out.Row.Spacing = unit.Length((float64(in.Run) - 2*float64(row.First)) / float64(n-1))
		}
	}
	out.Each = unit.Force(math.Max(float64(net), 0) / float64(out.Row.Count))
	if in.Strap != 0 {
		out.Utilisation = float64(out.Each) / float64(in.Strap)
	}
	if in.Reach == 0 {
		return out, nil
	}
	if err := calc.Outside(op, "strap_length_mm", float64(in.Reach), 300, 6000, "mm"); err != nil {
		return HoldDownOut{}, err
	}
	if err := calc.Outside(op, "wall_mm", float64(in.Leaf), 75, 600, "mm"); err != nil {
		return HoldDownOut{}, err
	}
	if err := calc.Outside(op, "wall_kg_m3", float64(in.Wall), 500, 2600, "kg/m³"); err != nil {
		return HoldDownOut{}, err
	}
	volume := in.Run.In(unit.Metre) * in.Reach.In(unit.Metre) * in.Leaf.In(unit.Metre) // m³
	out.Caught = unit.Force(helps * float64(unit.Mass(volume*float64(in.Wall)).Weight()))
	out.WallShare = math.Max(float64(net), 0) / float64(out.Caught)
	return out, nil
}

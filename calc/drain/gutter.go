package drain

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ID names the gutter rule and its version.
const ID = "drain.gutter/1"

// GutterInput is one gutter with its outlet at one end.
type GutterInput struct {
	Roof   unit.Area // on plan
	Wall   unit.Area // elevation of walls that drain on to it
	Rain   Rain
	Size   unit.Length // 0: the smallest that does
	Length unit.Length // drainage length: from the far end to the outlet
	Fall   unit.Fall   // 0: level
}

// Gutter is what it must carry and what it can.
type Gutter struct {
	Area     unit.Area // effective
	Flow     unit.Flow
	Capacity unit.Flow // design: 0.9 included
	Size     Size
	Factor   float64 // F_L for the length
	Status   calc.Status
}

// GutterFor returns the half-round eaves gutter and the outlet for a roof.
//
//	Q = r·(A_roof + 0.5·A_wall)    Q_design = 0.9·Q_N·F_L    W = d/2, F_L by L/W
//
// With no size given the smallest that carries the flow is taken; if none
// does, the largest, with status over. A fall up to 3 in 1000 counts as level;
// a steeper one is not credited.
//
// Source: EN 12056-3:2000 clause 5, from memory; outlets Approved Document H3 Table 2.
// Shape: capacity rises with size, never rises with length; flow linear in area and rain.
// Domain: roof above 0 m²; rain 0.005 to 0.2 l/s per m²; length 300 to 300·W mm; fall 0 to 1:50.
// Ignores: corners, leaves, the downpipe.
// Errors: DomainError only.
func GutterFor(in GutterInput) (Gutter, error) {
	const op = "drain.gutter"
	area, err := EffectiveArea(in.Roof, in.Wall)
	if err != nil {
		return Gutter{}, err
	}
	if err := calc.Outside(op, "rainfall_l_s_m2", float64(in.Rain), 0.005, 0.2, "l/s per m²"); err != nil {
		return Gutter{}, err
	}
	if err := calc.Outside(op, "fall", float64(in.Fall), 0, 1.0/50, "drop over run"); err != nil {
		return Gutter{}, err
	}
	g := Gutter{Area: area, Flow: in.Rain.On(area)}
	candidates, longest := sizes[:], sizes[len(sizes)-1].Nominal
	if in.Size != 0 {
		if candidates = sized(in.Size); candidates == nil {
			return Gutter{}, &calc.DomainError{Op: op, Field: "size_mm", Got: float64(in.Size), Wanted: "75, 100, 115, 125 or 150 mm"}
		}
		longest = in.Size
	}
	if err := calc.Outside(op, "length_m", in.Length.In(unit.Metre), 0.3, longestRatio*float64(longest)/2/1000, "m"); err != nil {
		return Gutter{}, err
	}
	for _, s := range candidates {
		ratio := float64(in.Length) / (float64(s.Nominal) / 2)
		if ratio > longestRatio {
			continue
		}
		g.Size, g.Factor = s, lengthFactor(ratio)
		g.Capacity = unit.Flow(DesignFactor * float64(NominalCapacity(s.Nominal)) * g.Factor)
		if g.Flow <= g.Capacity {
			break
		}
	}
	g.Status = calc.Grade(float64(g.Flow) / float64(g.Capacity))
	return g, nil
}

func sized(d unit.Length) []Size {
	for i, s := range sizes {
		if s.Nominal == d {
			return sizes[i : i+1]
		}
	}
	return nil
}

// BracketsInput is a gutter hung on brackets from its high end to its outlet.
type BracketsInput struct {
	Run     unit.Length
	Fall    unit.Fall
	Spacing unit.Length // at most
	First   unit.Length // from each end
}

// Bracket is one bracket: where it goes, and how far below the string at the high end.
type Bracket struct{ At, Below unit.Length }

// Brackets returns the brackets of a gutter, evenly spaced.
//
//	n = ⌈(L − 2·first)/spacing⌉ + 1    below = fall·x
//
// Source: spacing 0.8 to 0.9 m, falls 1:350 to 1:600 common practice, no source.
// Shape: no gap exceeds spacing; the first and the last stand first from the ends.
// Domain: run 300 to 50000; spacing 200 to 1200; first 0 to spacing, and twice first within the run; fall 0 to 1:50.
// Errors: DomainError only.
func Brackets(in BracketsInput) ([]Bracket, error) {
	const op = "drain.brackets"
	for _, c := range []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"run_mm", float64(in.Run), 300, 50000, "mm"},
		{"spacing_mm", float64(in.Spacing), 200, 1200, "mm"},
		{"first_mm", float64(in.First), 0, math.Min(float64(in.Spacing), float64(in.Run)/2-1), "mm"},
		{"fall", float64(in.Fall), 0, 1.0 / 50, "drop over run"},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.unit); err != nil {
			return nil, err
		}
	}
	between := float64(in.Run - 2*in.First) // mm
	bays := int(math.Ceil(between / float64(in.Spacing)))
	out := make([]Bracket, bays+1)
	for i := range out {
		at := float64(in.First) + between*float64(i)/float64(bays)
		out[i] = Bracket{At: unit.Length(at), Below: unit.Length(float64(in.Fall) * at)}
	}
	return out, nil
}

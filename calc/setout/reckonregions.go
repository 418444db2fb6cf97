package setout

import (
	"errors"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// RegionsIn is the topic regions: a right-angled outline set out in
// rectangles, or a four-sided roof out of square.
type RegionsIn struct {
	Walk       []geom.RoofStep `json:"walk,omitempty" doc:"right-angled outline, clockwise from the right end of the gutter"`
	Sides      []float64       `json:"sides_mm,omitempty" doc:"or four sides clockwise: gutter, left, back, right; with diagonals_mm"`
	Diagonals  []float64       `json:"diagonals_mm,omitempty" doc:"from the gutter's left end, from its right end"`
	Board      float64         `json:"board_length_mm" doc:"board as measured" min:"600" max:"6000"`
	Gap        float64         `json:"joint_gap_mm" doc:"gap between two board ends" min:"0" max:"20"`
	Joist      float64         `json:"joist_mm" doc:"thickness of the joist" min:"25" max:"150"`
	MaxCentres float64         `json:"max_centres_mm" doc:"true limit of the centres: 410 for what the trade calls 400" min:"50" max:"1200"`
	Joists     *string         `json:"joists,omitempty" doc:"the way all joists run, with walk; none: each rectangle's short way" enum:"up,along"`
}

// RegionsOut is the answer of the topic regions; regions count from 1.
type RegionsOut struct {
	Centres   float64       `json:"centres_mm"`
	Count     int           `json:"count" doc:"joists, those along a flank included"`
	Longest   float64       `json:"longest_span_mm" doc:"of the deck along the joists"`
	Regions   []RegionOut   `json:"regions,omitempty"`
	Junctions []JunctionOut `json:"junctions,omitempty"`
	Joists    []SquareOut   `json:"joists,omitempty" doc:"of a roof out of square, those square to the gutter"`
	Flanks    []FlankOut    `json:"flanks,omitempty" doc:"left, right"`
	Diagonal  *float64      `json:"square_diagonal_mm,omitempty" doc:"from the gutter's left end to the point over its right end at square_depth_mm: tape it to set the square line"`
	Depth     *float64      `json:"square_depth_mm,omitempty"`
}

// RegionOut is one rectangle.
type RegionOut struct {
	X      float64 `json:"x_mm" doc:"left side, from the left end of the gutter"`
	Y      float64 `json:"y_mm" doc:"low side"`
	Length float64 `json:"length_mm"`
	Depth  float64 `json:"depth_mm"`
	Joists string  `json:"joists" doc:"the way they run" enum:"up,along"`
	Marks  []int   `json:"marks_mm" doc:"from the left side for up, from the low side for along"`
}

// JunctionOut is a line between two regions.
type JunctionOut struct {
	A       int     `json:"a" doc:"for doubled: the region whose joists end there"`
	B       int     `json:"b"`
	Length  float64 `json:"length_mm"`
	Support Support `json:"support" enum:"bearer,doubled,edge joists"`
}

// SquareOut is one joist square to the gutter.
type SquareOut struct {
	Low    int     `json:"low_mm" doc:"mark along the gutter line"`
	High   int     `json:"high_mm" doc:"mark along the back edge from its left end"`
	Length float64 `json:"length_mm"`
	Jack   bool    `json:"jack" doc:"starts or ends on a flank"`
}

// FlankOut is the joist along a side that is not square.
type FlankOut struct {
	Length  float64 `json:"length_mm"`
	Lean    float64 `json:"lean_mm" doc:"how far its head lies to the right"`
	BayLow  float64 `json:"bay_low_mm"`
	BayHigh float64 `json:"bay_high_mm"`
}

// ReckonRegions is Regions and SetSkewed as the topic regions.
func ReckonRegions(in RegionsIn) (RegionsOut, error) {
	const op = "setout.regions"
	if in.Walk != nil && (in.Sides != nil || in.Diagonals != nil) || in.Walk == nil && in.Sides == nil {
		return RegionsOut{}, &calc.DomainError{Op: op, Field: "walk", Got: len(in.Walk), Wanted: "walk, or sides_mm with diagonals_mm"}
	}
	if in.Walk == nil {
		return in.skewed()
	}
	steps := make([]geom.Step, len(in.Walk))
	for i, s := range in.Walk {
		steps[i] = geom.Step{Length: unit.Length(s.LengthMM), Turn: geom.Turn(s.Turn), Kind: geom.Kind(s.Kind)}
	}
	w, err := geom.Walk(steps)
	if err != nil {
		var domain *calc.DomainError
		if errors.As(err, &domain) {
			return RegionsOut{}, domain
		}
		return RegionsOut{}, err
	}
	input := RegionsInput{
		Outline: w.Outline, BoardLength: unit.Length(in.Board), JointGap: unit.Length(in.Gap),
		Joist: unit.Length(in.Joist), MaxCentres: unit.Length(in.MaxCentres),
	}
	if in.Joists != nil {
		input.Joists = geom.Axis(*in.Joists)
	}
	l, err := Regions(input)
	if err != nil {
		return RegionsOut{}, err
	}
	out := RegionsOut{Centres: float64(l.Regions[0].Plan.Centres), Count: l.Joists, Longest: float64(l.Longest)}
	for _, r := range l.Regions {
		to := RegionOut{
			X: float64(r.Rect.Min.X), Y: float64(r.Rect.Min.Y), Length: float64(r.Rect.Length()), Depth: float64(r.Rect.Depth()), Joists: string(r.Joists),
		}
		for _, m := range r.Plan.Marks {
			to.Marks = append(to.Marks, Whole(m))
		}
		out.Regions = append(out.Regions, to)
	}
	for _, n := range l.Junctions {
		out.Junctions = append(out.Junctions, JunctionOut{A: n.A + 1, B: n.B + 1, Length: float64(n.From.To(n.To)), Support: n.Support})
	}
	return out, nil
}

func (in RegionsIn) skewed() (RegionsOut, error) {
	const op = "setout.skewed"
	if len(in.Sides) != 4 {
		return RegionsOut{}, &calc.DomainError{Op: op, Field: "sides_mm", Got: len(in.Sides), Wanted: "four sides"}
	}
	if len(in.Diagonals) != 2 {
		return RegionsOut{}, &calc.DomainError{Op: op, Field: "diagonals_mm", Got: len(in.Diagonals), Wanted: "two diagonals"}
	}
	if in.Joists != nil && *in.Joists != string(geom.UpRoofAxis) {
		return RegionsOut{}, &calc.DomainError{Op: op, Field: "joists", Got: *in.Joists, Wanted: "up, on a roof out of square"}
	}
	taped := geom.Taped{
		Sides:     [4]unit.Length{unit.Length(in.Sides[0]), unit.Length(in.Sides[1]), unit.Length(in.Sides[2]), unit.Length(in.Sides[3])},
		Diagonals: [2]unit.Length{unit.Length(in.Diagonals[0]), unit.Length(in.Diagonals[1])},
	}
	four, err := geom.FourSider(taped, [4]geom.Kind{geom.Gutter, geom.Verge, geom.Verge, geom.Verge})
	if err != nil {
		return RegionsOut{}, err
	}
	s, err := SetSkewed(SkewedInput{
		Outline: four.Outline, BoardLength: unit.Length(in.Board), JointGap: unit.Length(in.Gap),
		Joist: unit.Length(in.Joist), MaxCentres: unit.Length(in.MaxCentres),
	})
	if err != nil {
		return RegionsOut{}, err
	}
	out := RegionsOut{Centres: float64(s.Centres), Count: len(s.Joists) + 2, Diagonal: number(s.Diagonal), Depth: number(s.Depth)}
	for _, j := range s.Joists {
		out.Joists = append(out.Joists, SquareOut{Low: Whole(j.Low), High: Whole(j.High), Length: float64(j.Length), Jack: j.Jack})
		out.Longest = max(out.Longest, float64(j.Length))
	}
	for _, f := range s.Flanks {
		out.Flanks = append(out.Flanks, FlankOut{Length: float64(f.Length), Lean: float64(f.Lean), BayLow: float64(f.BayLow), BayHigh: float64(f.BayHigh)})
		out.Longest = max(out.Longest, float64(f.Length))
	}
	return out, nil
}

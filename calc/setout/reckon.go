package setout

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// JoistsIn is the topic joists.
type JoistsIn struct {
	Length     float64 `json:"length_mm" doc:"deck across the joists, outer face to outer face" min:"500" max:"20000"`
	Board      float64 `json:"board_length_mm" doc:"board as measured" min:"600" max:"6000"`
	Gap        float64 `json:"joint_gap_mm" doc:"gap between two board ends" min:"0" max:"20"`
	Joist      float64 `json:"joist_mm" doc:"thickness of the joist" min:"25" max:"150"`
	MaxCentres float64 `json:"max_centres_mm" doc:"true limit of the centres: 410 for what the trade calls 400" min:"50" max:"1200"`
}

// JoistsOut is the answer of the topic joists.
type JoistsOut struct {
	Centres      float64   `json:"centres_mm" doc:"module, exact"`
	Bays         int       `json:"bays_per_board"`
	Count        int       `json:"count" doc:"joists"`
	Marks        []int     `json:"marks_mm" doc:"centre lines from the outer face of the first joist, rounded once, half up"`
	Exact        []float64 `json:"marks_exact_mm" doc:"the same before rounding"`
	JointLines   []float64 `json:"joint_lines_mm" doc:"centres of the joints between full boards laid from the datum"`
	JointBearing float64   `json:"joint_bearing_mm" doc:"least bearing of a board end when the joist stands on its mark"`
	Tolerance    float64   `json:"tolerance_mm" doc:"how far a joist under a joint may stand off; negative: too thin for two board ends"`
	LastBay      float64   `json:"last_bay_mm"`
	Doubled      bool      `json:"last_doubled" doc:"the last two joists stand side by side"`
	StaggerBays  int       `json:"stagger_bays" doc:"bays of the first piece of every second row; 0: none possible"`
	StaggerMM    float64   `json:"stagger_mm" doc:"least distance between end joints of neighbouring rows"`
}

// ReckonJoists is Joists as the topic joists.
func ReckonJoists(in JoistsIn) (JoistsOut, error) {
	p, err := Joists(Input{
		Length:      unit.Length(in.Length),
		BoardLength: unit.Length(in.Board),
		JointGap:    unit.Length(in.Gap),
		Joist:       unit.Length(in.Joist),
		MaxCentres:  unit.Length(in.MaxCentres),
	})
	if err != nil {
		return JoistsOut{}, err
	}
	out := JoistsOut{
		Centres:      float64(p.Centres),
		Bays:         p.BaysPerBoard,
		Count:        len(p.Marks),
		JointLines:   millimetres(p.JointLines),
		Exact:        millimetres(p.Marks),
		JointBearing: float64(p.JointBearing),
		Tolerance:    float64(p.Tolerance),
		LastBay:      float64(p.LastBay),
		Doubled:      p.Doubled,
		StaggerBays:  p.Stagger.Bays,
		StaggerMM:    float64(p.Stagger.Distance),
	}
	for _, m := range p.Marks {
		out.Marks = append(out.Marks, Whole(m))
	}
	return out, nil
}

// FallIn is the topic fall.
type FallIn struct {
	Depth     float64   `json:"depth_mm" doc:"depth of the roof along its fall" min:"500" max:"20000"`
	Drop      *float64  `json:"drop_mm,omitempty" doc:"high side minus low side; neither drop_mm nor ratio: 1:40" min:"0"`
	Ratio     *float64  `json:"ratio,omitempty" doc:"drop over depth, 0.025 for 1:40; a number from 5.68 up is read as 1 in that" min:"0"`
	JoistDrop *float64  `json:"joist_drop_mm,omitempty" doc:"fall the joists have already; the firrings make the rest" min:"0"`
	Thin      *float64  `json:"firring_thin_mm,omitempty" doc:"firring at the low end" min:"0" max:"100"`
	Stations  []float64 `json:"stations_mm,omitempty" doc:"from the low end: where the firring is measured; none: every 600 mm and both ends"`
}

// FallOut is the answer of the topic fall.
type FallOut struct {
	Drop     float64     `json:"drop_mm"`
	Ratio    float64     `json:"ratio" doc:"drop over depth"`
	OneIn    float64     `json:"one_in" doc:"the same as 1 in this; 0: level"`
	Stations []float64   `json:"stations_mm,omitempty"`
	Firrings []float64   `json:"firrings_mm,omitempty" doc:"thickness at each station"`
	Status   calc.Status `json:"status" enum:"within,close,over" doc:"within from 1:40, close from 1:80, over when flatter"`
}

// ReckonFall is FallOf as the topic fall. A drop or ratio that is given as
// zero is a level roof, not a missing one.
func ReckonFall(in FallIn) (FallOut, error) {
	f := FallInput{
		Depth:     unit.Length(in.Depth),
		Drop:      unit.Length(value(in.Drop)),
		Ratio:     RatioOf(value(in.Ratio)),
		JoistDrop: unit.Length(value(in.JoistDrop)),
		Thin:      unit.Length(value(in.Thin)),
	}
	for _, x := range in.Stations {
		f.Stations = append(f.Stations, unit.Length(x))
	}
	level := (in.Drop != nil || in.Ratio != nil) && value(in.Drop) == 0 && value(in.Ratio) == 0
	if level {
		return FallOut{Status: calc.Over}, calc.Outside("setout.fall", "depth_mm", in.Depth, 500, 20000, "mm")
	}
	r, err := FallOf(f)
	if err != nil {
		return FallOut{}, err
	}
	return FallOut{
		Drop: float64(r.Drop), Ratio: float64(r.Ratio), OneIn: r.Ratio.OneIn(),
		Stations: millimetres(r.Stations), Firrings: millimetres(r.Firrings), Status: r.Status,
	}, nil
}

// RatioOf reads a fall written either as drop over run or as the run for a
// drop of 1. No flat roof is steeper than 10 degrees, 1 in 5.67, so the two
// cannot be mistaken for each other.
func RatioOf(v float64) unit.Fall {
	if v >= 5.68 && v <= 1e4 {
		return unit.Fall(1 / v)
	}
	return unit.Fall(v)
}

func value(p *float64) float64 {
	if p == nil {
		return 0
	}
	return *p
}

func millimetres(ls []unit.Length) []float64 {
	out := make([]float64, len(ls))
	for i, l := range ls {
		out[i] = float64(l)
	}
	return out
}

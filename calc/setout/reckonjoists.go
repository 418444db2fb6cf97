package setout

import (
	"slices"

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

	Measured []float64 `json:"measured_mm,omitempty" doc:"centres of the joists as taped from the datum: checked under the joints of whole and of staggered rows"`
}

// JoistsOut is the answer of the topic joists.
type JoistsOut struct {
	Centres      float64   `json:"centres_mm" doc:"module, exact"`
	Bays         int       `json:"bays_per_board"`
	Count        int       `json:"count" doc:"joists"`
	Marks        []int     `json:"marks_mm" doc:"centre lines from the outer face of the first joist, rounded once, half up"`
	Exact        []float64 `json:"marks_exact_mm" doc:"the same before rounding"`
	JointLines   []float64 `json:"joint_lines_mm" doc:"centres of the joints between full boards laid from the datum"`
	StaggerLines []float64 `json:"stagger_lines_mm" doc:"the same for the rows that start with the staggered piece"`
	JointBearing float64   `json:"joint_bearing_mm" doc:"least bearing of a board end when the joist stands on its mark"`
	Tolerance    float64   `json:"tolerance_mm" doc:"how far a joist under a joint may stand off; negative: too thin for two board ends"`
	LastBay      float64   `json:"last_bay_mm"`
	Doubled      bool      `json:"last_doubled" doc:"the last two joists stand side by side"`
	StaggerBays  int       `json:"stagger_bays" doc:"bays of the first piece of every second row; 0: none possible"`
	StaggerMM    float64   `json:"stagger_mm" doc:"least distance between end joints of neighbouring rows"`
	Checked      *CheckOut `json:"checked,omitempty" doc:"what the tape said"`
}

// CheckOut is joists that stand, held against joints and limit; joists count from 1.
type CheckOut struct {
	Joints []JointOut `json:"joints"`
	Wide   []BayOut   `json:"wide_bays" doc:"over the greatest centres"`
	OK     bool       `json:"ok"`
}

// JointOut is one joint over the joist nearest to it.
type JointOut struct {
	Joint  float64 `json:"joint_mm"`
	Joist  int     `json:"joist"`
	Offset float64 `json:"offset_mm" doc:"joint past the centre of that joist"`
	Before float64 `json:"before_mm" doc:"bearing of the board on the datum's side; negative: it misses"`
	After  float64 `json:"after_mm"`
	OK     bool    `json:"ok"`
}

// BayOut is a bay too wide.
type BayOut struct {
	From    int     `json:"from_joist"`
	Spacing float64 `json:"spacing_mm"`
	Over    float64 `json:"over_mm"`
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
		StaggerLines: millimetres(p.StaggerLines),
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
	if in.Measured == nil {
		return out, nil
	}
	joints := slices.Concat(p.JointLines, p.StaggerLines)
	slices.Sort(joints)
	out.Checked, err = checkOut(Standing{
		Centres: lengths(in.Measured), Joints: joints,
		Joist: unit.Length(in.Joist), JointGap: unit.Length(in.Gap), MaxCentres: unit.Length(in.MaxCentres),
	})
	return out, err
}

func checkOut(s Standing) (*CheckOut, error) {
	c, err := CheckCentres(s)
	if err != nil {
		return nil, err
	}
	out := &CheckOut{Joints: []JointOut{}, Wide: []BayOut{}, OK: c.OK}
	for _, j := range c.Joints {
		out.Joints = append(out.Joints, JointOut{
			Joint: float64(j.Joint), Joist: j.Joist + 1, Offset: float64(j.Offset),
			Before: float64(j.Bearing.Before), After: float64(j.Bearing.After), OK: j.Bearing.OK(),
		})
	}
	for _, b := range c.Bays {
		if b.Over > 0 {
			out.Wide = append(out.Wide, BayOut{From: b.From + 1, Spacing: float64(b.Spacing), Over: float64(b.Over)})
		}
	}
	return out, nil
}

func lengths(mm []float64) []unit.Length {
	out := make([]unit.Length, len(mm))
	for i, v := range mm {
		out[i] = unit.Length(v)
	}
	return out
}

func value(p *float64) float64 { return or(p, 0) }

func or(p *float64, none float64) float64 {
	if p == nil {
		return none
	}
	return *p
}

// usual is a figure with a usual value. One that was said to be zero is
// refused: in the inputs behind it a zero stands for the usual one.
func usual(op, field string, p *float64, none float64) (float64, error) {
	if p != nil && *p == 0 {
		return 0, &calc.DomainError{Op: op, Field: field, Got: 0.0, Wanted: "more than 0"}
	}
	return or(p, none), nil
}

func number(l unit.Length) *float64 {
	v := float64(l)
	return &v
}

func millimetres(ls []unit.Length) []float64 {
	out := make([]float64, len(ls))
	for i, l := range ls {
		out[i] = float64(l)
	}
	return out
}

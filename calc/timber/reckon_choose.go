package timber

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// ChooseIn is the question of the choose topic. Loads and method are those of
// the span topic.
type ChooseIn struct {
	ClearMM      float64   `json:"clear_span_mm" doc:"clear span the joists must reach" min:"120" max:"20000"`
	DeadKNM2     float64   `json:"dead_kn_m2" doc:"build-up without the joists" min:"0" max:"5"`
	ImposedKNM2  *float64  `json:"imposed_kn_m2,omitempty" doc:"0.6 when left out" min:"0" max:"10"`
	PointKN      *float64  `json:"point_kn,omitempty" doc:"0.9 when left out" min:"0" max:"10"`
	SnowKNM2     *float64  `json:"snow_kn_m2,omitempty" doc:"snow on the roof, even" min:"0" max:"20"`
	Ceiling      *bool     `json:"ceiling,omitempty" doc:"left out counts as yes"`
	BearingMM    *float64  `json:"bearing_mm,omitempty" doc:"50 when left out" min:"20" max:"300"`
	BoardMM      *float64  `json:"board_length_mm,omitempty" doc:"board as measured; left out: the centres themselves" min:"300" max:"6000"`
	GapMM        *float64  `json:"joint_gap_mm,omitempty" doc:"3 when left out" min:"0" max:"20"`
	MaxCentresMM []float64 `json:"max_centres_mm,omitempty" doc:"largest centres of each class; 410 and 601 when left out" min:"100" max:"1200"`
	Grades       []string  `json:"grades,omitempty" doc:"stocked, cheapest first; C16 and C24 when left out"`
	WidthsMM     []float64 `json:"widths_mm,omitempty" doc:"stocked; 47 when left out" min:"20" max:"150"`
	DepthsMM     []float64 `json:"depths_mm,omitempty" doc:"stocked; the EN 336 machined depths when left out" min:"60" max:"400"`

	DriftKNM2       *float64 `json:"drift_kn_m2,omitempty" doc:"as in the span topic" min:"0" max:"20"`
	DriftFarKNM2    *float64 `json:"drift_far_kn_m2,omitempty" doc:"as in the span topic" min:"0" max:"20"`
	DriftLengthMM   *float64 `json:"drift_length_mm,omitempty" doc:"as in the span topic" min:"1" max:"30000"`
	DriftAccidental *bool    `json:"drift_accidental,omitempty" doc:"as in the span topic"`
}

// ChooseOut is the answer of the choose topic.
type ChooseOut struct {
	Found   bool        `json:"found" doc:"some option is not over its limit"`
	Best    *ChooseRow  `json:"best,omitempty" doc:"least timber among those within; else among those close"`
	Changes []ChooseRow `json:"changes" doc:"what one change to the best would do"`
	Options []ChooseRow `json:"options" doc:"every option, least timber first"`
	Formula string      `json:"formula"`
}

// ChooseRow is one option.
type ChooseRow struct {
	Change       string  `json:"change,omitempty" doc:"what differs from the best" enum:"depth,centres,width,grade"`
	BMM          float64 `json:"b_mm"`
	HMM          float64 `json:"h_mm"`
	Grade        string  `json:"grade"`
	CentresMM    float64 `json:"centres_mm"`
	BaysPerBoard int     `json:"bays_per_board,omitempty"`
	TimberLM2    float64 `json:"timber_l_m2" doc:"litres of joist on a square metre of roof"`
	MaxClearMM   float64 `json:"max_clear_span_mm"`
	Utilisation  float64 `json:"utilisation" doc:"largest, at the span asked for"`
	GovernedBy   string  `json:"governed_by"`
	Status       string  `json:"status" enum:"within,close,over"`
}

// ReckonChoose answers the choose topic, by the ec5 method.
//
// Source, formulas and shape: Choose. Errors: DomainError only, Field the JSON key.
func ReckonChoose(in ChooseIn) (ChooseOut, error) {
	w, err := in.wish()
	if err != nil {
		return ChooseOut{}, err
	}
	c, err := Choose(w)
	if err != nil {
		return ChooseOut{}, listed(err)
	}
	out := ChooseOut{Found: c.Best >= 0, Formula: ChooseID, Changes: []ChooseRow{}}
	for _, o := range c.Options {
		out.Options = append(out.Options, o.row(""))
	}
	if c.Best >= 0 {
		best := c.Options[c.Best].row("")
		out.Best = &best
	}
	for _, ch := range c.Changes {
		out.Changes = append(out.Changes, c.Options[ch.Option].row(ch.What))
	}
	return out, nil
}

// listed gives an error of one joist the key of the list it was taken from.
func listed(err error) error {
	d, ok := err.(*calc.DomainError)
	if !ok {
		return err
	}
	key, ok := map[string]string{"b_mm": "widths_mm", "h_mm": "depths_mm", "grade": "grades", "centres_mm": "max_centres_mm"}[d.Field]
	if ok {
		d.Field = key
	}
	return d
}

func (o Option) row(change string) ChooseRow {
	return ChooseRow{Change: change, BMM: float64(o.Section.B), HMM: float64(o.Section.H), Grade: o.Grade,
		CentresMM: float64(o.Centres), BaysPerBoard: o.Bays, TimberLM2: o.Timber, MaxClearMM: float64(o.MaxClear),
		Utilisation: o.Utilisation, GovernedBy: o.GovernedBy, Status: string(o.Status)}
}

// wish fills the defaults. The joist is read by the span topic's own reader,
// so both topics understand a key the same way.
func (in ChooseIn) wish() (Wish, error) {
	j, err := SpanIn{Method: string(EC5), Grade: "C16", DeadKNM2: in.DeadKNM2, ImposedKNM2: in.ImposedKNM2, PointKN: in.PointKN,
		SnowKNM2: in.SnowKNM2, Ceiling: in.Ceiling, BearingMM: in.BearingMM, DriftKNM2: in.DriftKNM2,
		DriftFarKNM2: in.DriftFarKNM2, DriftLengthMM: in.DriftLengthMM, DriftAccidental: in.DriftAccidental}.joist()
	if err != nil {
		return Wish{}, err
	}
	w := Wish{Joist: j, Clear: unit.Length(in.ClearMM), Gap: 3, Grades: in.Grades}
	if len(w.Grades) == 0 {
		w.Grades = []string{"C16", "C24"}
	}
	if in.BoardMM != nil {
		if *in.BoardMM == 0 {
			return Wish{}, &calc.DomainError{Op: chooseOp, Field: "board_length_mm", Got: 0.0, Wanted: "300 to 6000 mm, or the key left out"}
		}
		w.Board = unit.Length(*in.BoardMM)
	}
	if in.GapMM != nil {
		w.Gap = unit.Length(*in.GapMM)
	}
	w.Limits = lengths(in.MaxCentresMM, []unit.Length{410, 601})
	depths := lengths(in.DepthsMM, MachinedSizes().Depths)
	for _, b := range lengths(in.WidthsMM, []unit.Length{47}) {
		for _, h := range depths {
			w.Sections = append(w.Sections, Section{b, h})
		}
	}
	return w, nil
}

func lengths(mm []float64, otherwise []unit.Length) []unit.Length {
	if len(mm) == 0 {
		return otherwise
	}
	var l []unit.Length
	for _, v := range mm {
		l = append(l, unit.Length(v))
	}
	return l
}

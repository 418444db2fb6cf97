package glue

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// BatchIn is what the topic batch is asked.
type BatchIn struct {
	WindowMin   float64  `json:"window_min" doc:"usable time of the film, from the topic window" min:"0" max:"480"`
	Hands       int      `json:"hands" doc:"people on the roof" min:"1" max:"3"`
	Rollers     *int     `json:"rollers,omitempty" doc:"how many of them roll; left out = one, or two of three" min:"1" max:"3"`
	Factor      *float64 `json:"factor,omitempty" doc:"share of the window to plan with; left out = 0.6, a first batch" min:"0.1" max:"1"`
	FieldM2     *float64 `json:"field_m2,omitempty" doc:"area to be bonded in all" min:"0.1" max:"1000"`
	FoldMM      *float64 `json:"fold_mm,omitempty" doc:"length of the fold line" min:"500" max:"30000"`
	WayOffOuter *bool    `json:"way_off_outer,omitempty" doc:"a way off the roof at the outer edge of the batch; left out = yes for two hands or more"`
	RollM2Min   *float64 `json:"roll_m2_min,omitempty" doc:"learned: area rolled a minute, all rollers" min:"0.1" max:"6"`
	LayM2Min    *float64 `json:"lay_m2_min,omitempty" doc:"learned: area laid a minute" min:"0.1" max:"6"`
	TurnMin     *float64 `json:"turn_min,omitempty" doc:"learned: from the last spread to the first laid" min:"0.1" max:"30"`
}

// BatchOut is what the topic batch answers.
type BatchOut struct {
	AreaM2      float64  `json:"area_m2" doc:"the most to spread at once; 0 = nothing, see stop"`
	StripMM     *float64 `json:"strip_mm,omitempty" doc:"its width, square to the fold"`
	Batches     *int     `json:"batches,omitempty" doc:"for the whole field"`
	Direction   string   `json:"direction" doc:"fold_outward: roll from the fold, off at the outer edge, lay from the fold; outer_inward: roll from the outer edge to the fold, lay outward" enum:"fold_outward,outer_inward"`
	OldestMin   float64  `json:"oldest_min" doc:"age of the oldest film when the greatest batch is down"`
	UsableMin   float64  `json:"usable_min" doc:"the window times the factor"`
	EachM2      *float64 `json:"each_m2,omitempty" doc:"of equal batches"`
	EachStripMM *float64 `json:"each_strip_mm,omitempty" doc:"strip of equal batches"`
	Stop        *string  `json:"stop,omitempty" doc:"why nothing should be spread now: wait for shade or a cooler hour" enum:"area_small,strip_narrow"`
	Assumed     []string `json:"assumed" doc:"what was not given and assumed"`
}

// ReckonBatch answers the topic batch: Batch over plain numbers.
func ReckonBatch(in BatchIn) (BatchOut, error) {
	out := BatchOut{Assumed: []string{}}
	b := BatchInput{Window: unit.Minutes(in.WindowMin), Hands: in.Hands, WayOff: true}
	if in.WayOffOuter != nil {
		b.WayOff = *in.WayOffOuter
	} else if in.Hands > 1 {
		out.Assumed = append(out.Assumed, "way_off_outer")
	}
	if in.Factor == nil {
		out.Assumed = append(out.Assumed, "factor")
	}
	if in.Rollers != nil {
		if err := calc.Outside("glue.batch", "rollers", float64(*in.Rollers), 1, float64(in.Hands), "rollers, no more than hands"); err != nil {
			return BatchOut{}, err
		}
		b.Rollers = *in.Rollers
	}
	// A zero in BatchInput means "default"; a zero that was typed is refused here.
	for _, f := range []struct {
		field    string
		v        *float64
		min, max float64
		unit     string
		put      func(float64)
	}{
		{"factor", in.Factor, 0.1, 1, "", func(v float64) { b.Factor = v }},
		{"field_m2", in.FieldM2, 0.1, 1000, "m²", func(v float64) { b.Field = unit.Area(v) * unit.SquareMetre }},
		{"fold_mm", in.FoldMM, 500, 30000, "mm", func(v float64) { b.Fold = unit.Length(v) }},
		{"roll_m2_min", in.RollM2Min, 0.1, 6, "m²/min", func(v float64) { b.Roll = Rate(v) }},
		{"lay_m2_min", in.LayM2Min, 0.1, 6, "m²/min", func(v float64) { b.Lay = Rate(v) }},
		{"turn_min", in.TurnMin, 0.1, 30, "min", func(v float64) { b.Turn = unit.Minutes(v) }},
	} {
		if f.v == nil {
			continue
		}
		if err := calc.Outside("glue.batch", f.field, *f.v, f.min, f.max, f.unit); err != nil {
			return BatchOut{}, err
		}
		f.put(*f.v)
	}
	p, err := Batch(b)
	if err != nil {
		return BatchOut{}, err
	}
	out.AreaM2 = p.Area.In(unit.SquareMetre)
	out.Direction = string(p.Direction)
	out.OldestMin, out.UsableMin = float64(p.Oldest), float64(p.Usable)
	if p.NoGo != "" {
		out.Stop = (*string)(&p.NoGo)
		return out, nil
	}
	if in.FoldMM != nil {
		out.StripMM = (*float64)(&p.Strip)
	}
	if in.FieldM2 != nil {
		each := p.Each.In(unit.SquareMetre)
		out.Batches, out.EachM2 = &p.Batches, &each
		if in.FoldMM != nil {
			out.EachStripMM = (*float64)(&p.EachStrip)
		}
	}
	return out, nil
}

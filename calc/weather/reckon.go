package weather

import "chargehand/calc/unit"

// GoIn is what the topic go is asked.
type GoIn struct {
	SurfaceC        float64  `json:"surface_c" doc:"surface temperature of the deck or face, °C" min:"-45" max:"90"`
	AirC            float64  `json:"air_c" doc:"air temperature, °C" min:"-45" max:"60"`
	RHPct           float64  `json:"rh_pct" doc:"relative humidity, %" min:"1" max:"100"`
	Min24hC         float64  `json:"min_24h_c" doc:"least air temperature forecast for the next 24 h, °C" min:"-45" max:"60"`
	MoisturePct     *float64 `json:"moisture_pct,omitempty" doc:"moisture content of the deck, %" min:"0" max:"100"`
	WindMS          float64  `json:"wind_m_s" doc:"mean wind, m/s" min:"0" max:"75"`
	GustMS          float64  `json:"gust_m_s" doc:"gusts, m/s; not below the mean" min:"0" max:"100"`
	RainInMin       *float64 `json:"rain_in_min,omitempty" doc:"minutes to the first rain, 0 = raining; left out = not known" min:"0" max:"10080"`
	MinutesToSunset *float64 `json:"minutes_to_sunset,omitempty" doc:"minutes to sunset, negative after it" min:"-10080" max:"10080"`
	TaskMin         *float64 `json:"task_min,omitempty" doc:"how long the work takes; left out = rain and sunset are counted from its end" min:"0" max:"10080"`
	Kind            string   `json:"kind" doc:"the work" enum:"wet,contact,sheet,roof"`
	Thunder         *bool    `json:"thunder,omitempty" doc:"thunder heard"`
	Frost           *bool    `json:"frost,omitempty" doc:"frost or ice seen"`
	LabelMinC       *float64 `json:"label_min_c,omitempty" doc:"least surface temperature on the tin, °C" min:"-20" max:"40"`
	LabelMaxC       *float64 `json:"label_max_c,omitempty" doc:"greatest surface temperature on the tin, °C" min:"10" max:"90"`
	LabelRHMaxPct   *float64 `json:"label_rh_max_pct,omitempty" doc:"greatest humidity on the tin, %" min:"1" max:"100"`
}

// GoOut is what the topic go answers.
type GoOut struct {
	Verdict   Verdict  `json:"verdict" doc:"the worst of the reasons" enum:"go,care,stop"`
	Reasons   []Reason `json:"reasons" doc:"every limit met, worst first"`
	DewPointC float64  `json:"dew_point_c" doc:"dew point of the air, °C"`
	Unjudged  []Key    `json:"unjudged" doc:"limits not judged, because nothing was given for them"`
}

// ReckonGo answers the topic go: Judge over plain numbers.
func ReckonGo(in GoIn) (GoOut, error) {
	m := Moment{
		Kind:     Kind(in.Kind),
		Surface:  unit.Celsius(in.SurfaceC),
		Air:      unit.Celsius(in.AirC),
		RH:       unit.Percent(in.RHPct),
		Min24h:   unit.Celsius(in.Min24hC),
		Wind:     unit.Speed(in.WindMS) * unit.MetrePerSecond,
		Gust:     unit.Speed(in.GustMS) * unit.MetrePerSecond,
		Moisture: (*unit.Percent)(in.MoisturePct),
		RainIn:   (*unit.Minutes)(in.RainInMin),
		ToSunset: (*unit.Minutes)(in.MinutesToSunset),
		Thunder:  in.Thunder != nil && *in.Thunder,
		Frost:    in.Frost != nil && *in.Frost,
		Label: Label{
			SurfaceMin: (*unit.Celsius)(in.LabelMinC),
			SurfaceMax: (*unit.Celsius)(in.LabelMaxC),
			RHMax:      (*unit.Percent)(in.LabelRHMaxPct),
		},
	}
	if in.TaskMin != nil {
		m.Task = unit.Minutes(*in.TaskMin)
	}
	j, err := Judge(m)
	if err != nil {
		return GoOut{}, err
	}
	out := GoOut{Verdict: j.Verdict, Reasons: j.Reasons, DewPointC: float64(j.DewPoint), Unjudged: j.Unjudged}
	// An empty list prints as [], not null.
	if out.Reasons == nil {
		out.Reasons = []Reason{}
	}
	if out.Unjudged == nil {
		out.Unjudged = []Key{}
	}
	return out, nil
}

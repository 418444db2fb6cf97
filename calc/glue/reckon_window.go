package glue

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/air"
	"chargehand/calc/unit"
)

// WindowIn is what the topic window is asked.
type WindowIn struct {
	Method        string   `json:"method" doc:"wet: water-based, laid wet; contact: two faces, pressed touch-dry" enum:"wet,contact"`
	LabelMin      *float64 `json:"label_min,omitempty" doc:"wet: the lower number on the tin; contact: touch-dry after; left out = 15, assumed" min:"1" max:"240"`
	LabelC        *float64 `json:"label_c,omitempty" doc:"temperature printed with it; left out = 20" min:"0" max:"45"`
	Label2Min     *float64 `json:"label2_min,omitempty" doc:"wet: a second line of the tin, at label2_c" min:"1" max:"240"`
	Label2C       *float64 `json:"label2_c,omitempty" doc:"wet: temperature of the second line" min:"0" max:"45"`
	MaxMin        *float64 `json:"max_min,omitempty" doc:"wet: the upper number on the tin, used only with a test square of today; contact: press within, left out = 45" min:"1" max:"480"`
	SurfaceC      float64  `json:"surface_c" doc:"wet: deck surface; contact: the first face, °C" min:"-20" max:"80"`
	OtherSurfaceC *float64 `json:"other_surface_c,omitempty" doc:"contact: the other face; left out = as the first" min:"-10" max:"80"`
	AirC          *float64 `json:"air_c,omitempty" doc:"air temperature; needed for wet, °C" min:"-20" max:"50"`
	RHPct         *float64 `json:"rh_pct,omitempty" doc:"relative humidity" min:"1" max:"100"`
	Damp          *string  `json:"damp,omitempty" doc:"instead of rh_pct; with neither, the cautious end is assumed" enum:"dry,normal,damp"`
	WindMS        *float64 `json:"wind_m_s,omitempty" doc:"mean wind" min:"0" max:"40"`
	Wind          *string  `json:"wind,omitempty" doc:"instead of wind_m_s; with neither, windy is assumed" enum:"calm,breeze,windy"`
	Substrate     *string  `json:"substrate,omitempty" doc:"what the film lies on; needed for wet" enum:"sealed,board,thirsty,very"`
	JobFactor     *float64 `json:"job_factor,omitempty" doc:"wet: from a test square" min:"0.3" max:"2"`
	SquareToday   *bool    `json:"square_today,omitempty" doc:"wet: job_factor is from a bracketed test square of today; left out = yes when job_factor is given"`
	Film          *string  `json:"film,omitempty" doc:"contact: how thick the coats are; left out = normal" enum:"thin,normal,thick"`
}

// WindowOut is what the topic window answers.
type WindowOut struct {
	WindowMin    float64  `json:"window_min" doc:"wet: how long the film stays usable; contact: how long the joint can be pressed, both faces coated at once; 0 = no window"`
	ReadyMin     *float64 `json:"ready_min,omitempty" doc:"contact: both faces touch-dry after"`
	DeadMin      *float64 `json:"dead_min,omitempty" doc:"contact: the first face is dead after"`
	PressByMin   *float64 `json:"press_by_min,omitempty" doc:"contact: four fifths of dead_min"`
	CoatFirst    *string  `json:"coat_first,omitempty" doc:"contact: the slower face" enum:"surface,other_surface"`
	WaitMin      *float64 `json:"wait_min,omitempty" doc:"contact: coat the other face so much later, best"`
	LeastWaitMin *float64 `json:"least_wait_min,omitempty" doc:"contact: and at least so much, for a window to open"`
	By           WindowBy `json:"by" doc:"the rules behind window_min"`
	Stop         *string  `json:"stop,omitempty" doc:"why there is no window" enum:"dew_margin,condensing,empty,never_opens"`
	Cap          *string  `json:"cap,omitempty" doc:"what cut the window short of the rules" enum:"label,longest"`
	DewPointC    *float64 `json:"dew_point_c,omitempty" doc:"dew point of the air"`
	Assumed      []string `json:"assumed" doc:"what was not given and taken at its cautious end"`
	Cautions     []string `json:"cautions" doc:"what the weather rules would say to the surface: ask the topic go"`
}

// WindowBy holds the numbers behind a window.
type WindowBy struct {
	PocketMin      *float64 `json:"pocket_min,omitempty" doc:"wet: pocket rule, before factor and caps"`
	EvaporationMin *float64 `json:"evaporation_min,omitempty" doc:"wet: evaporation rule, before factor and caps; 0 = condensing"`
	SurfaceReady   *float64 `json:"surface_ready_min,omitempty" doc:"contact: the first face touch-dry after"`
	SurfaceDead    *float64 `json:"surface_dead_min,omitempty" doc:"contact: the first face dead after"`
	OtherReady     *float64 `json:"other_ready_min,omitempty" doc:"contact: the other face touch-dry after"`
	OtherDead      *float64 `json:"other_dead_min,omitempty" doc:"contact: the other face dead after"`
}

// ReckonWindow answers the topic window: Window or Contact, with the cautious
// end of whatever is not known.
func ReckonWindow(in WindowIn) (WindowOut, error) {
	switch in.Method {
	case "wet":
		return in.wet()
	case "contact":
		return in.contact()
	}
	return WindowOut{}, &calc.DomainError{Op: "glue.window", Field: "method", Got: in.Method, Wanted: "wet or contact"}
}

func (in WindowIn) wet() (WindowOut, error) {
	const op = "glue.window"
	out := WindowOut{Assumed: []string{}, Cautions: []string{}}
	if in.AirC == nil {
		return WindowOut{}, &calc.DomainError{Op: op, Field: "air_c", Got: nil, Wanted: "the air temperature, as 18"}
	}
	if in.Substrate == nil {
		return WindowOut{}, &calc.DomainError{Op: op, Field: "substrate", Got: nil, Wanted: "sealed, board, thirsty or very"}
	}
	if in.OtherSurfaceC != nil {
		return WindowOut{}, &calc.DomainError{Op: op, Field: "other_surface_c", Got: *in.OtherSurfaceC, Wanted: "nothing: wet has one face"}
	}
	if in.Film != nil {
		return WindowOut{}, &calc.DomainError{Op: op, Field: "film", Got: *in.Film, Wanted: "nothing: it is for contact only"}
	}
	label, err := in.label(&out)
	if err != nil {
		return WindowOut{}, err
	}
	wind, err := in.speed(&out)
	if err != nil {
		return WindowOut{}, err
	}
	wet := WetInput{
		Label:     label,
		Surface:   unit.Celsius(in.SurfaceC),
		Air:       unit.Celsius(*in.AirC),
		Wind:      wind,
		Substrate: Substrate(*in.Substrate),
	}
	if in.JobFactor != nil {
		if err := calc.Outside(op, "job_factor", *in.JobFactor, 0.3, 2, ""); err != nil {
			return WindowOut{}, err
		}
		wet.JobFactor = *in.JobFactor
		wet.SquareToday = in.SquareToday == nil || *in.SquareToday
	}
	rh, known, err := in.humidity()
	if err != nil {
		return WindowOut{}, err
	}
	if !known {
		out.Assumed = append(out.Assumed, "rh_pct")
	}
	w, err := unknownAir(wet, rh, known)
	if err != nil {
		return WindowOut{}, err
	}
	out.WindowMin = float64(w.Usable)
	out.By.PocketMin, out.By.EvaporationMin = (*float64)(&w.ByPocket), (*float64)(&w.ByEvaporation)
	out.DewPointC = (*float64)(&w.DewPoint)
	if w.Stop != "" {
		out.Stop = (*string)(&w.Stop)
	}
	if w.Cap != "" {
		out.Cap = (*string)(&w.Cap)
	}
	out.caution(in.SurfaceC, in.SurfaceC)
	return out, nil
}

// unknownAir reckons a window with the humidity given, or, where it is not
// known, with dry air for the window and damp air for the dew margin: each the
// cautious end for its own question.
func unknownAir(wet WetInput, rh unit.Percent, known bool) (WetWindow, error) {
	if known {
		wet.RH = rh
		return Window(wet)
	}
	dry, err := Dry.RH()
	if err != nil {
		return WetWindow{}, err
	}
	damp, err := Humid.RH()
	if err != nil {
		return WetWindow{}, err
	}
	wet.RH = damp
	if w, err := Window(wet); err != nil || w.Stop != "" {
		return w, err
	}
	wet.RH = dry
	return Window(wet)
}

func (in WindowIn) contact() (WindowOut, error) {
	out := WindowOut{Assumed: []string{}, Cautions: []string{}}
	const op = "glue.contact"
	for _, f := range []struct {
		field string
		v     *float64
	}{{"label2_min", in.Label2Min}, {"label2_c", in.Label2C}, {"job_factor", in.JobFactor}} {
		if f.v != nil {
			return WindowOut{}, &calc.DomainError{Op: op, Field: f.field, Got: *f.v, Wanted: "nothing: it is for wet only"}
		}
	}
	if in.SquareToday != nil {
		return WindowOut{}, &calc.DomainError{Op: op, Field: "square_today", Got: *in.SquareToday, Wanted: "nothing: it is for wet only"}
	}
	wind, err := in.speed(&out)
	if err != nil {
		return WindowOut{}, err
	}
	c := ContactInput{Temperature: silentTemperature, Wind: wind, A: Face{Surface: unit.Celsius(in.SurfaceC)}}
	if in.LabelMin != nil {
		c.Dry = unit.Minutes(*in.LabelMin)
		if err := calc.Outside(op, "label_min", *in.LabelMin, 1, 240, "min"); err != nil {
			return WindowOut{}, err
		}
	} else {
		out.Assumed = append(out.Assumed, "label_min")
	}
	if in.MaxMin != nil {
		c.Max = unit.Minutes(*in.MaxMin)
		if err := calc.Outside(op, "max_min", *in.MaxMin, 1, 480, "min"); err != nil {
			return WindowOut{}, err
		}
	} else {
		out.Assumed = append(out.Assumed, "max_min")
	}
	if in.LabelC != nil {
		c.Temperature = unit.Celsius(*in.LabelC)
	}
	if in.Film != nil {
		c.A.Film = Film(*in.Film)
	}
	c.B = c.A
	if in.OtherSurfaceC != nil {
		c.B.Surface = unit.Celsius(*in.OtherSurfaceC)
	} else {
		out.Assumed = append(out.Assumed, "other_surface_c")
	}
	j, err := Contact(c)
	if err != nil {
		return WindowOut{}, err
	}
	out.fill(j)
	if err := in.bloom(&out, min(c.A.Surface, c.B.Surface)); err != nil {
		return WindowOut{}, err
	}
	out.caution(float64(min(c.A.Surface, c.B.Surface)), float64(max(c.A.Surface, c.B.Surface)))
	return out, nil
}

// fill puts a joint window of two faces coated at minute 0 into the answer.
func (out *WindowOut) fill(j JointWindow) {
	dead := math.Min(float64(j.A.Dead), float64(j.B.Dead))
	out.ReadyMin, out.DeadMin, out.PressByMin = (*float64)(&j.From), &dead, (*float64)(&j.Until)
	out.By.SurfaceReady, out.By.SurfaceDead = (*float64)(&j.A.Ready), (*float64)(&j.A.Dead)
	out.By.OtherReady, out.By.OtherDead = (*float64)(&j.B.Ready), (*float64)(&j.B.Dead)
	if j.First != Neither {
		first := "surface"
		if j.First == FaceB {
			first = "other_surface"
		}
		out.CoatFirst, out.WaitMin, out.LeastWaitMin = &first, (*float64)(&j.Wait), (*float64)(&j.LeastWait)
	}
	stop := ""
	switch {
	case j.NeverOpens:
		stop = "never_opens"
	case j.Empty:
		stop = "empty"
	default:
		out.WindowMin = float64(j.Until - j.From)
		return
	}
	out.Stop = &stop
}

// bloom stops a contact joint whose colder face is within 5 K of the dew point,
// where the air is known.
func (in WindowIn) bloom(out *WindowOut, coldest unit.Celsius) error {
	rh, known, err := in.humidity()
	if err != nil {
		return err
	}
	if in.AirC == nil || !known {
		out.Assumed = append(out.Assumed, "dew_margin")
		return nil
	}
	if err := calc.Outside("glue.contact", "air_c", *in.AirC, -20, 50, "°C"); err != nil {
		return err
	}
	if err := calc.Outside("glue.contact", "rh_pct", float64(rh), 1, 100, "%"); err != nil {
		return err
	}
	td, err := air.DewPoint(unit.Celsius(*in.AirC), rh)
	if err != nil {
		return err
	}
	out.DewPointC = (*float64)(&td)
	if coldest.Sub(td) < contactMargin {
		stop := string(DewMargin)
		out.WindowMin, out.Stop = 0, &stop
	}
	return nil
}

// caution repeats what the weather table says of the surfaces, so that a window
// shown by itself does not read as leave to spread.
func (out *WindowOut) caution(coldest, hottest float64) {
	if coldest < 10 {
		out.Cautions = append(out.Cautions, "surface_low")
	}
	if hottest > 30 {
		out.Cautions = append(out.Cautions, "surface_high")
	}
}

func (in WindowIn) label(out *WindowOut) (Label, error) {
	l := Silent()
	if in.LabelMin != nil {
		l.Time = unit.Minutes(*in.LabelMin)
	} else {
		out.Assumed = append(out.Assumed, "label_min")
	}
	if in.LabelC != nil {
		l.Temperature = unit.Celsius(*in.LabelC)
	}
	if in.MaxMin != nil {
		if err := calc.Outside("glue.window", "max_min", *in.MaxMin, float64(l.Time), 480, "min, not below label_min"); err != nil {
			return Label{}, err
		}
		l.Upper = unit.Minutes(*in.MaxMin)
	}
	if (in.Label2Min == nil) != (in.Label2C == nil) {
		field := "label2_min"
		if in.Label2C == nil {
			field = "label2_c"
		}
		return Label{}, &calc.DomainError{Op: "glue.window", Field: field, Got: nil, Wanted: "both label2_min and label2_c, or neither"}
	}
	if in.Label2Min != nil {
		l.Second = &Point{Time: unit.Minutes(*in.Label2Min), Temperature: unit.Celsius(*in.Label2C)}
	}
	return l, nil
}

func (in WindowIn) speed(out *WindowOut) (unit.Speed, error) {
	switch {
	case in.WindMS != nil && in.Wind != nil:
		return 0, &calc.DomainError{Op: "glue.window", Field: "wind", Got: *in.Wind, Wanted: "wind or wind_m_s, not both"}
	case in.WindMS != nil:
		return unit.Speed(*in.WindMS) * unit.MetrePerSecond, nil
	case in.Wind != nil:
		return Wind(*in.Wind).Speed()
	}
	out.Assumed = append(out.Assumed, "wind")
	return Windy.Speed()
}

func (in WindowIn) humidity() (rh unit.Percent, known bool, err error) {
	switch {
	case in.RHPct != nil && in.Damp != nil:
		return 0, false, &calc.DomainError{Op: "glue.window", Field: "damp", Got: *in.Damp, Wanted: "damp or rh_pct, not both"}
	case in.RHPct != nil:
		return unit.Percent(*in.RHPct), true, nil
	case in.Damp != nil:
		rh, err = Damp(*in.Damp).RH()
		return rh, err == nil, err
	}
	return 0, false, nil
}

package plan

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/glue"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// Window is how long the deck adhesive may lie open.
type Window struct {
	Usable        unit.Minutes
	ByPocket      float64 // min, both rules kept for the record
	ByEvaporation float64 // min
	Stop          string  // why there is no window
}

// Minutes is the window in minutes, rounded down to a tenth.
func (w *Window) Minutes() float64 { return math.Floor(float64(w.Usable)*10) / 10 }

// Batch is how much of the sheet to glue at once.
type Batch struct {
	Area      unit.Area
	Strip     unit.Length
	UsableMin float64
	Count     int
	Direction string
	NoGo      string
}

// Go is the verdict on the weather.
type Go struct {
	Verdict string
	Reasons []Reason
}

// Reason is one limit met.
type Reason struct {
	Key     string
	Verdict string
	Value   float64
	Unit    string // as in the record
}

// Face is when one face of a contact joint is dry, and when it is dead.
type Face struct{ ReadyMin, DeadMin float64 }

// Contact is the window of a contact joint, from coating both faces.
type Contact struct {
	Wall, Rubber Face
	First        string  // wall or rubber: the slower face
	WaitMin      float64 // how much later to coat the other
	Empty, Never bool
	Run          unit.Length // most to coat at once
}

// dryStrip is the strip along every edge that is bonded with contact adhesive
// instead: 150 mm. Common practice, no source.
const dryStrip = 150 * unit.Millimetre

// Humidity and wind behind the three taps each: common practice, no source.
var (
	humidity = map[string]unit.Percent{"dry": 35, "normal": 55, "damp": 80}
	winds    = map[string]unit.Speed{"calm": 0.5, "breeze": 2, "windy": 5}
)

// gustFactor is how far gusts exceed the mean wind when only the mean is known:
// common practice, no source.
const gustFactor = 1.6

func (r *reckoner) glue() {
	r.fields()
	in := r.in
	if in.SurfaceC == nil || in.AirC == nil || in.Damp == "" || in.Wind == "" {
		return
	}
	rh, wind := humidity[in.Damp], winds[in.Wind]
	if in.NightC != nil && in.Rain != "" {
		r.goOrStop(rh, wind)
	}
	if in.LabelMin != nil {
		r.window(rh, wind)
	}
	if in.WallC != nil && in.RubberC != nil {
		r.contact(wind)
	}
}

// fields are the areas of the two adhesives: inside the dry strip along every
// edge, and the strip with what goes up or down beyond it.
func (r *reckoner) fields() {
	if !r.known() {
		return
	}
	o := r.p.Outline
	inwards := make([]unit.Length, len(o.Edges))
	for i := range inwards {
		inwards[i] = -dryStrip
	}
	core, err := o.Offset(inwards)
	if r.failed("field", err) {
		return
	}
	field := core.Area()
	contact := o.Area() - field
	for _, e := range o.Edges {
		contact += unit.Area(float64(e.Length) * float64(r.rubberUp(e.Kind)))
	}
	r.p.Field, r.p.ContactArea = &field, &contact
	r.used("field", geom.OffsetID)
}

// rubberUp is how far the rubber is bonded beyond the deck at an edge: up an
// upstand, over a parapet, or down a free edge.
func (r *reckoner) rubberUp(kind geom.Kind) unit.Length {
	switch kind {
	case "wall":
		return r.rubberHeight()
	case "parapet":
		if r.in.ParapetHeight != nil && r.in.ParapetTop != nil {
			return *r.in.ParapetHeight + *r.in.ParapetTop
		}
		return r.rubberHeight()
	}
	return 100 // over a 38 mm batten and down its face; common practice, no source
}

func (r *reckoner) goOrStop(rh unit.Percent, wind unit.Speed) {
	in := r.in
	m := weather.Moment{
		Surface: unit.Celsius(*in.SurfaceC), Air: unit.Celsius(*in.AirC), RH: rh, Min24h: unit.Celsius(*in.NightC),
		Wind: wind, Gust: unit.Speed(gustFactor) * wind, Kind: weather.Wet,
	}
	if in.DeckDamp != nil {
		damp := unit.Percent(*in.DeckDamp)
		m.Moisture = &damp
	}
	rain := map[string]unit.Minutes{"none": 12 * unit.Hour, "within-3h": 2 * unit.Hour, "now": 0}[in.Rain]
	m.RainIn = &rain
	j, err := weather.Judge(m)
	if r.failed("go", err) {
		return
	}
	g := Go{Verdict: string(j.Verdict)}
	for _, reason := range j.Reasons {
		g.Reasons = append(g.Reasons, Reason{Key: string(reason.Key), Verdict: string(reason.Verdict), Value: reason.Value, Unit: reasonUnit(reason.Key)})
	}
	r.p.Go = &g
	r.used("go", weather.GradeID)
}

func reasonUnit(k weather.Key) string {
	switch k {
	case weather.SurfaceLow, weather.SurfaceHigh, weather.NightCold, weather.SurfaceFreezes:
		return "celsius"
	case weather.HumidityHigh, weather.MoistureHigh:
		return "pct"
	case weather.RainSoon, weather.DaylightShort:
		return "min"
	case weather.WindMean, weather.WindGust:
		return "m_s"
	}
	return "number"
}

func (r *reckoner) window(rh unit.Percent, wind unit.Speed) {
	in := r.in
	label := glue.Label{Point: glue.Point{Time: unit.Minutes(*in.LabelMin), Temperature: 20}}
	if in.LabelC != nil {
		label.Point.Temperature = unit.Celsius(*in.LabelC)
	}
	w, err := glue.Window(glue.WetInput{
		Label: label, Surface: unit.Celsius(*in.SurfaceC), Air: unit.Celsius(*in.AirC), RH: rh, Wind: wind, Substrate: glue.Board,
	})
	if r.failed("window", err) {
		return
	}
	r.p.Window = &Window{Usable: w.Usable, ByPocket: float64(w.ByPocket), ByEvaporation: float64(w.ByEvaporation), Stop: string(w.Stop)}
	r.used("window", glue.WetID)
	hands := max(in.Hands, 1)
	b := glue.BatchInput{Window: w.Usable, Hands: hands, WayOff: r.wayOffOutside(), Fold: r.fold()}
	if r.p.Field != nil {
		b.Field = *r.p.Field
	}
	plan, err := glue.Batch(b)
	if r.failed("batch", err) {
		return
	}
	r.p.Batch = &Batch{Area: plan.Area, Strip: plan.Strip, UsableMin: math.Floor(float64(plan.Usable)*10) / 10, Count: plan.Batches, Direction: string(plan.Direction), NoGo: string(plan.NoGo)}
	r.used("batch", glue.BatchID)
}

// wayOffOutside says whether one can get off at the outer edge of the first
// batch: only if that is the edge one leaves by. A hatch or window is at a wall.
func (r *reckoner) wayOffOutside() bool { return r.in.Exit == "gutter" || r.in.Exit == "verge" }

// fold is the length of the fold line, parallel to the edge one leaves by.
func (r *reckoner) fold() unit.Length {
	if r.p.Length == nil || r.p.Depth == nil {
		return 0
	}
	if r.in.Exit == "verge" {
		return *r.p.Depth
	}
	return *r.p.Length
}

// Handling bounds a contact run before time does, because it grabs once: 1.5 m
// alone, 3 m with two. Common practice, no source.
func handling(hands int) unit.Length {
	if hands > 1 {
		return 3 * unit.Metre
	}
	return 1500
}

// coatPace is how long a metre of run takes to coat, both faces: common
// practice, no source.
const coatPace = 1.5 // min a metre

func (r *reckoner) contact(wind unit.Speed) {
	in := r.in
	c := glue.ContactInput{Temperature: 20, Wind: wind, A: glue.Face{Surface: unit.Celsius(*in.WallC)}, B: glue.Face{Surface: unit.Celsius(*in.RubberC)}}
	if in.ContactDry != nil && in.ContactMax != nil {
		c.Dry, c.Max = unit.Minutes(*in.ContactDry), unit.Minutes(*in.ContactMax)
	}
	j, err := glue.Contact(c)
	if r.failed("contact", err) {
		return
	}
	out := Contact{
		Wall: Face{float64(j.A.Ready), float64(j.A.Dead)}, Rubber: Face{float64(j.B.Ready), float64(j.B.Dead)},
		First:   map[glue.Which]string{glue.FaceA: "wall", glue.FaceB: "rubber", glue.Neither: "wall"}[j.First],
		WaitMin: float64(j.Wait), Empty: j.Empty, Never: j.NeverOpens,
	}
	slack := math.Min(0.8*out.Wall.DeadMin-out.Wall.ReadyMin, 0.8*out.Rubber.DeadMin-out.Rubber.ReadyMin)
	out.Run = min(handling(max(in.Hands, 1)), unit.Length(math.Max(slack, 0)/coatPace*1000))
	r.p.Contact = &out
	r.used("contact", glue.ContactID)
	if out.Run > 0 && r.p.Outline != nil {
		for _, e := range r.p.Outline.Edges {
			r.p.ContactRuns += int(math.Ceil(float64(e.Length) / float64(out.Run)))
		}
	}
}

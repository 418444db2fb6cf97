package plan

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/glue"
	"chargehand/calc/unit"
)

// Window is how long the deck adhesive may lie open.
type Window struct {
	Usable        unit.Minutes
	ByPocket      float64       // min, both rules kept for the record
	ByEvaporation float64       // min
	Stop          string        // why there is no window
	JobFactor     float64       // of the test squares; 1 without
	Film          glue.WetInput // as the rules were asked
}

// Minutes is the window in minutes, rounded down to a tenth.
func (w *Window) Minutes() float64 { return down(w.Usable) }

// Model is what the rules give before factor and caps: a test square is held
// against it.
func (w *Window) Model() unit.Minutes {
	return unit.Minutes(math.Min(w.ByPocket, w.ByEvaporation))
}

// SquareLow is the Stop of a window whose film was gone so early that tin, board
// or thermometer must be wrong.
const SquareLow = "square_low"

// DryStrip is the strip along every edge that is bonded with contact adhesive
// instead: 150 mm. Common practice, no source.
const DryStrip = 150 * unit.Millimetre

func (r *reckoner) glue() {
	r.fields()
	if r.in.SurfaceC == nil || r.in.AirC == nil {
		return
	}
	a, ok := r.sky()
	if !ok {
		return
	}
	if r.in.LabelMin == nil {
		r.weather(a, 0)
	} else {
		r.window(a)
		r.batches(a)
	}
	if r.in.WallC != nil && r.in.RubberC != nil {
		r.contact(a)
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
		inwards[i] = -DryStrip
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
	if fold, _, left, ok := r.halves(); ok {
		sum := fold.By(max(left[glue.FarHalf], 0)+max(left[glue.NearHalf], 0)) * r.part()
		r.p.Left = &sum
	}
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

// wet is the film as the rules of the deck adhesive see it. Air that nobody knows
// is dry here, which is the shorter.
func (r *reckoner) wet(a sky) glue.WetInput {
	in := r.in
	label := glue.Label{Point: glue.Point{Time: unit.Minutes(*in.LabelMin), Temperature: 20}, Second: in.Label2}
	if in.LabelC != nil {
		label.Point.Temperature = unit.Celsius(*in.LabelC)
	}
	if in.LabelUpper != nil && *in.LabelUpper > *in.LabelMin {
		label.Upper = unit.Minutes(*in.LabelUpper)
	}
	w := glue.WetInput{
		Label: label, Surface: unit.Celsius(*in.SurfaceC), Air: unit.Celsius(*in.AirC), RH: a.dry, Wind: a.mean, Substrate: glue.Board,
	}
	if in.Substrate != "" {
		w.Substrate = glue.Substrate(in.Substrate)
	}
	return w
}

// calibrated puts what the test squares say into the film. ok is false when they
// say that something is wrong.
func (r *reckoner) calibrated(w glue.WetInput) (_ glue.WetInput, ok bool) {
	if len(r.in.Squares) == 0 {
		return w, true
	}
	c, err := glue.Calibrate(r.in.Squares...)
	if r.failed("square", err) {
		return w, false
	}
	w.JobFactor, w.SquareToday = c.Factor, c.Bracketed && r.in.SquareToday
	r.used("square", glue.CalibrateID)
	return w, true
}

func (r *reckoner) window(a sky) {
	in, ok := r.calibrated(r.wet(a))
	w, err := glue.Window(in)
	if r.failed("window", err) {
		return
	}
	if a.dry != a.damp && w.Stop == "" { // dew is judged at the damp end
		humid := in
		humid.RH = a.damp
		if h, err := glue.Window(humid); err == nil && h.Stop != "" {
			w.Stop, w.Usable = h.Stop, 0
		}
	}
	r.p.Window = &Window{Usable: w.Usable, ByPocket: float64(w.ByPocket), ByEvaporation: float64(w.ByEvaporation), Stop: string(w.Stop), JobFactor: 1}
	if in.JobFactor != 0 {
		r.p.Window.JobFactor = in.JobFactor
	}
	if !ok {
		r.p.Window.Stop, r.p.Window.Usable = SquareLow, 0
	}
	r.used("window", append([]string{glue.WetID}, r.p.formulas["square"]...)...)
	r.p.Window.Film = in
	r.wetIn = in
}

// down rounds minutes down to a tenth: a window never grows in print.
func down(m unit.Minutes) float64 { return math.Floor(float64(m)*10) / 10 }

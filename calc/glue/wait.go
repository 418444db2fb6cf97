package glue

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// WaitID names the search for a workable hour.
const WaitID = "glue.wait/1"

// WaitInput asks when a batch can be laid in the course of a day.
type WaitInput struct {
	Now    WetInput       // label, substrate and factor; its air and wind stand in where the course is silent
	Batch  BatchInput     // hands, rates and fold; its Window is set here
	Course weather.Course // with surface temperatures: see weather.Course.WithSurface
	From   unit.Minutes   // not before, on the axis of the course
	Sunset *unit.Minutes  // on the same axis; nil = not judged
	Label  weather.Label  // stricter limits on the tin
}

// Gap is a stretch of a day in which a batch can be laid.
type Gap struct {
	Found  bool
	From   unit.Minutes // about: to five minutes
	Until  unit.Minutes // the last start found workable without a break
	Window WetWindow    // at From
	Batch  BatchPlan    // at From
	Care   bool         // the weather asks for care at From
}

// waitStep is how finely a day is looked through; a forecast is no finer.
const waitStep = 5.0 // min

// Wait returns the first stretch of a day in which a batch worth laying fits.
//
// At each step the limits of weather.Judge must not say stop, there must be a
// window, and the batch must reach its least area and strip. In weather that
// asks for care, no more than 0.6 of the window is planned with.
//
// Source: Window, Batch and weather.Judge along the course.
// Units: in and out by type.
// Shape: looking from later never finds an earlier start.
// Domain: as those three; a course that covers From, with air and surface from
// there on.
// Ignores: that a window shortens while the batch is laid on a warming morning:
// ask again when the tin is opened.
// Errors: DomainError only. No workable hour is not an error: Found is false.
func Wait(in WaitInput) (Gap, error) {
	h, err := in.Course.At(in.From)
	if err != nil {
		return Gap{}, err
	}
	if h.Air == nil || h.Surface == nil {
		return Gap{}, &calc.DomainError{Op: "glue.wait", Field: "hours", Got: "nothing", Wanted: "air and surface temperatures from that time on"}
	}
	var gap Gap
	last := in.Course[len(in.Course)-1].Minute
	for t := in.From; t <= last; t = nextStep(t) {
		at, ok, err := in.at(t)
		if err != nil {
			return Gap{}, err
		}
		switch {
		case ok && !gap.Found:
			gap = at
		case ok:
			gap.Until = t
		case gap.Found:
			return gap, nil
		}
	}
	return gap, nil
}

// nextStep keeps to whole steps, so that a time is told as about 18:35.
func nextStep(t unit.Minutes) unit.Minutes {
	return unit.Minutes((math.Floor(float64(t)/waitStep) + 1) * waitStep)
}

// at judges one start.
func (in WaitInput) at(t unit.Minutes) (Gap, bool, error) {
	h, err := in.Course.At(t)
	if err != nil {
		return Gap{}, false, err
	}
	if h.Air == nil || h.Surface == nil {
		return Gap{}, false, nil
	}
	wet := in.Now
	wet.Air, wet.Surface = *h.Air, *h.Surface
	if h.RH != nil {
		wet.RH = *h.RH
	}
	if h.Wind != nil {
		wet.Wind = *h.Wind
	}
	j, err := in.judge(wet, h)
	if err != nil || j.Verdict == weather.Stop {
		return Gap{}, false, err
	}
	w, err := Window(wet)
	if err != nil || w.Stop != "" {
		return Gap{}, false, err
	}
	b := in.Batch
	b.Window = w.Usable
	care := j.Verdict == weather.Care
	if care && (b.Factor == 0 || b.Factor > FirstBatch) {
		b.Factor = FirstBatch
	}
	plan, err := Batch(b)
	if err != nil || plan.NoGo != "" {
		return Gap{}, false, err
	}
	return Gap{Found: true, From: t, Until: t, Window: w, Batch: plan, Care: care}, true, nil
}

// judge grades the weather at a start, with what the course knows.
func (in WaitInput) judge(wet WetInput, h weather.Hour) (weather.Judgement, error) {
	t := h.Minute
	least, _, err := in.Course.Least(t, 24*unit.Hour)
	if err != nil {
		return weather.Judgement{}, err
	}
	m := weather.Moment{
		Kind: weather.Wet, Surface: wet.Surface, Air: wet.Air, RH: wet.RH, Min24h: least,
		Wind: wet.Wind, Gust: wet.Wind, Label: in.Label,
		Task: longestWindow, // no batch takes longer
	}
	if h.Gust != nil {
		m.Gust = max(wet.Wind, *h.Gust)
	}
	if in.Sunset != nil {
		left := *in.Sunset - t
		m.ToSunset = &left
	}
	if h.Rain != nil {
		rain, wetDay, err := in.Course.RainAfter(t)
		if err != nil {
			return weather.Judgement{}, err
		}
		if wetDay {
			m.RainIn = &rain
		}
	}
	return weather.Judge(m)
}

// CurvePoint is one point of the chart of window against temperature.
type CurvePoint struct {
	Surface unit.Celsius
	Window  WetWindow
}

// Curve returns the window over a range of surface temperatures, the air and all
// else as given.
//
// Source: Window.
// Domain: as Window; from ≤ to, step 0.1..20 K, 500 points at most.
// Errors: DomainError only.
func Curve(in WetInput, from, to unit.Celsius, step unit.KelvinDiff) ([]CurvePoint, error) {
	const op = "glue.curve"
	if err := calc.Outside(op, "step_k", float64(step), 0.1, 20, "K"); err != nil {
		return nil, err
	}
	if err := calc.Outside(op, "to_c", float64(to), float64(from), float64(from)+499*float64(step), "°C, within 500 steps of from_c"); err != nil {
		return nil, err
	}
	var points []CurvePoint
	for i := 0; ; i++ {
		in.Surface = from.Add(unit.KelvinDiff(float64(step) * float64(i)))
		if in.Surface > to {
			return points, nil
		}
		w, err := Window(in)
		if err != nil {
			return nil, err
		}
		points = append(points, CurvePoint{Surface: in.Surface, Window: w})
	}
}

package draw

import (
	"math"
	"slices"

	"chargehand/calc/geom"
	"chargehand/calc/glue"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// Begun is a batch as it went: how warm the deck was when it was begun, and how
// long its oldest film lay open.
type Begun struct {
	Deck unit.Celsius
	Open unit.Minutes
	Good bool // down within its window
}

// The chart's axes: so many mm for a degree and a minute, from 0 °C to where the
// window is hardly worth spreading for.
const (
	perDegree  = 10.0
	perMinute  = 12.0
	hottest    = 50.0
	longestMin = 30.0
)

func chartAt(c unit.Celsius, m unit.Minutes) (x, y unit.Length) {
	return unit.Length(perDegree * float64(c)), unit.Length(perMinute * float64(m))
}

// openTime is how long deck adhesive may lie open against the heat of the deck, in
// today's air: where today stands on it, and how the job's own batches went.
func openTime(s Subject) (talk.Picture, bool) {
	w := s.Plan.Window
	if w == nil || s.In.SurfaceC == nil {
		return talk.Picture{}, false
	}
	curve, err := glue.Curve(w.Film, 0, hottest, 1)
	if err != nil {
		return talk.Picture{}, false
	}
	shapes := axes()
	run := talk.Stroke{Pen: talk.Heavy}
	for _, p := range curve {
		if p.Window.Stop != "" || p.Window.Usable > longestMin {
			if len(run.Points) > 1 {
				shapes = append(shapes, run)
			}
			run.Points = nil
			continue
		}
		x, y := chartAt(p.Surface, p.Window.Usable)
		run.Points = append(run.Points, at(x, y))
	}
	if len(run.Points) > 1 {
		shapes = append(shapes, run)
	}
	minutes := unit.Minutes(w.Minutes())
	today := unit.Celsius(*s.In.SurfaceC)
	x, y := chartAt(unit.Celsius(math.Min(math.Max(float64(today), 0), hottest)), unit.Minutes(math.Min(float64(minutes), longestMin)))
	shapes = append(shapes,
		line(talk.Measured, at(x, 0), at(x, y), at(0, y)),
		talk.Arc{Pen: talk.Measured, Tone: talk.Solid, At: at(x, y), Radius: 6, Sweep: 2 * math.Pi},
		talk.Word{At: at(x, y), Text: talk.P("label.today", "deck", today, "window", minutes), Size: talk.Large, Anchor: talk.RightOf})
	var told []any
	for i, b := range s.Batches {
		told = append(told, talk.P("picture.open-time.batch", "n", i+1, "deck", b.Deck, "open", b.Open))
	}
	shapes = append(shapes, crosses(s.Batches)...)
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Shapes: shapes}}}}
	args := []any{"deck", today, "window", minutes}
	pic.Caption = talk.P("picture.open-time", args...)
	var some []any
	for _, c := range []int{10, 20, 30, 40} {
		if q := curve[c].Window; q.Stop == "" {
			some = append(some, talk.P("picture.open-time.at", "deck", curve[c].Surface, "window", unit.Minutes(math.Floor(float64(q.Usable)*10)/10)))
		}
	}
	pic.Alt = talk.P("picture.open-time.alt", append(args, "curve", some)...)
	if len(told) > 0 {
		pic.Alt = talk.P("picture.open-time.batches.alt", append(args, "curve", some, "batches", told)...)
	}
	return pic, true
}

// axes are the two scales with their lines.
func axes() []talk.Shape {
	x, y := chartAt(hottest, longestMin)
	var shapes []talk.Shape
	for m := 5.0; m <= longestMin; m += 5 {
		_, h := chartAt(0, unit.Minutes(m))
		shapes = append(shapes, line(talk.Narrow, at(-6, h), at(x, h)),
			talk.Word{At: at(-6, h), Text: talk.P("label.tick", "n", m), Anchor: talk.LeftOf, Fixed: true})
	}
	for c := 0.0; c <= hottest; c += 10 {
		v, _ := chartAt(unit.Celsius(c), 0)
		shapes = append(shapes, line(talk.Narrow, at(v, -6), at(v, y)),
			talk.Word{At: at(v, -6), Text: talk.P("label.tick", "n", c), Anchor: talk.Below, Fixed: true})
	}
	return append(shapes,
		line(talk.Wide, at(0, y), at(0, 0), at(x, 0)),
		talk.Word{At: at(0, y+16), Text: talk.P("label.axis.minutes"), Anchor: talk.Above, Fixed: true},
		talk.Word{At: at(x/2, -34), Text: talk.P("label.axis.deck"), Anchor: talk.Below, Fixed: true})
}

// crosses are the batches on the chart; those that lie on one another have one
// cross with all their numbers.
func crosses(batches []Begun) []talk.Shape {
	const arm = 9
	var places []geom.Point
	var numbers [][]any
	for i, b := range batches {
		x, y := chartAt(unit.Celsius(math.Min(math.Max(float64(b.Deck), 0), hottest)), unit.Minutes(math.Min(float64(b.Open), longestMin)))
		p := at(x, y)
		k := slices.IndexFunc(places, func(q geom.Point) bool { return p.To(q) < arm })
		if k < 0 {
			k = len(places)
			places, numbers = append(places, p), append(numbers, nil)
		}
		numbers[k] = append(numbers[k], i+1)
	}
	var shapes []talk.Shape
	for k, p := range places {
		shapes = append(shapes, line(talk.Wide, p.Add(-arm, -arm), p.Add(arm, arm)), line(talk.Wide, p.Add(-arm, arm), p.Add(arm, -arm)),
			talk.Word{At: p.Add(0, -arm), Text: talk.P("label.batch", "n", numbers[k]), Anchor: talk.Below})
	}
	return shapes
}

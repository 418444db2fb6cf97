package flow

import (
	"math"
	"time"

	"chargehand/calc/glue"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
)

// watched is a batch as it happened, for what it teaches about rates. ok is false
// for one that was not tapped through or went badly.
func watched(w Work) (glue.Rates, bool) {
	if end, _ := ended(w); end != "down" || !w.Done("last") {
		return glue.Rates{}, false
	}
	r, err := glue.Learn(glue.Watched{
		Area:   unit.Area(w.Has["area"].Num()) * m2,
		Spread: unit.Minutes(w.age("begun", "last").Minutes()), Laid: unit.Minutes(w.age("last", "down").Minutes()), Turn: unit.Minutes(w.Has["turn"].Num()),
	})
	return r, err == nil
}

// good says whether a batch went down within its window.
func good(w Work) bool {
	end, _ := ended(w)
	return end == "down" && w.age("begun", "down") <= after(w, "window")
}

// gluedInto writes what the batches and squares so far say into the plan's inputs.
func gluedInto(in *plan.Inputs, s State) {
	read := s.Settled[stepDeck].At
	if !s.Settled["label-second-temp"].Answer() {
		in.Label2 = nil // minutes without a temperature
	}
	for _, w := range batches(s) {
		if end, _ := ended(w); end != "down" {
			continue
		}
		if half := w.Has["half"].Text; half != "" {
			in.Laid = append(in.Laid, plan.Strip{Half: glue.Half(half), Width: unit.Length(w.Has["strip"].Num())})
		}
		if begun := w.Marks["begun"]; good(w) && sameDay(begun, read, s.Zone) && begun.After(s.Settled["tin"].At) {
			in.GoodBatches++
		}
		if r, ok := watched(w); ok {
			if in.Rates != nil {
				r = r.Slower(*in.Rates)
			}
			in.Rates = &r
		}
	}
	in.Squares, in.SquareToday = squares(s, read)
}

func sameDay(a, b time.Time, zone string) bool {
	x, y := civil(a, zone), civil(b, zone)
	return x.Year == y.Year && x.Month == y.Month && x.Day == y.Day
}

// pace is how fast the last batch was rolled and laid, for the tap that ended
// it.
func pace(w Work) (glue.Rates, bool) {
	r, ok := watched(w)
	r.Roll, r.Lay = glue.Rate(math.Round(float64(r.Roll)*10)/10), glue.Rate(math.Round(float64(r.Lay)*10)/10)
	return r, ok
}

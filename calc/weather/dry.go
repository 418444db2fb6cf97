package weather

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// DryID names the dry-window check.
const DryID = "weather.dry/1"

// leastRain is the depth an hour from which it counts as rain: forecasts print
// tenths of a millimetre.
const leastRain unit.Length = 0.1

// RainAfter returns how long after a minute the first rain of the course falls.
// When it is dry to the end of the course, wet is false and the time is how long
// the course still speaks for.
//
// Source: definition.
// Units: in and out by type.
// Domain: a course that Check passes and that gives rain; a minute within it.
// Errors: DomainError only.
func (c Course) RainAfter(minute unit.Minutes) (in unit.Minutes, wet bool, err error) {
	now, err := c.At(minute)
	if err != nil {
		return 0, false, err
	}
	if now.Rain != nil && *now.Rain >= leastRain {
		return 0, true, nil
	}
	told := now.Rain != nil
	for _, h := range c {
		if h.Minute <= minute {
			continue
		}
		if !told {
			break
		}
		if in = h.Minute - minute; h.Rain == nil {
			return in, false, nil // dry as far as anybody has said
		}
		if *h.Rain >= leastRain {
			return in, true, nil
		}
	}
	if !told {
		return 0, false, &calc.DomainError{Op: "weather.dry", Field: "rain_mm", Got: "nothing", Wanted: "rain for each hour, 0 when dry"}
	}
	return in, false, nil
}

// DryGap is whether a block of work that must be finished once started fits
// before the rain.
type DryGap struct {
	Verdict Verdict
	Rain    unit.Minutes // from the start to the first rain, or to the end of what is known
	Wet     bool         // rain was found; false: dry as far as the course speaks
}

// DryWindow grades a start for a block of work that must be finished once
// started: deck laid to covered, tin opened to edges down, chase cut to sealed.
//
//	go: dry for the task and 3 h more, care: 1 h to 3 h more, stop: less
//
// A course that ends dry before the three hours are up is graded as if rain
// began where it ends: what nobody has forecast is not promised dry.
//
// Source: common practice, no source: the rain row of Judge.
// Units: in and out by type.
// Shape: a longer task never improves the verdict.
// Domain: as RainAfter; task 0..1 week.
// Errors: DomainError only.
func DryWindow(c Course, start, task unit.Minutes) (DryGap, error) {
	if err := calc.Outside("weather.dry", "task_min", float64(task), 0, week, "min"); err != nil {
		return DryGap{}, err
	}
	in, wet, err := c.RainAfter(start)
	if err != nil {
		return DryGap{}, err
	}
	g := grader{verdict: Go}
	g.below(RainSoon, float64(in-task), rain, nil)
	return DryGap{Verdict: g.verdict, Rain: in, Wet: wet}, nil
}

// NextDry returns the first start, not before from, at which DryWindow says go.
// ok is false when the course holds none.
//
// Domain: as DryWindow.
// Errors: DomainError only.
func NextDry(c Course, from, task unit.Minutes) (start unit.Minutes, ok bool, err error) {
	gap, err := DryWindow(c, from, task)
	if err != nil {
		return 0, false, err
	}
	if gap.Verdict == Go {
		return from, true, nil
	}
	for _, h := range c {
		if h.Minute <= from || h.Rain == nil {
			continue
		}
		gap, err := DryWindow(c, h.Minute, task)
		if err != nil {
			return 0, false, err
		}
		if gap.Verdict == Go {
			return h.Minute, true, nil
		}
	}
	return 0, false, nil
}

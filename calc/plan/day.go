package plan

import (
	"math"
	"slices"

	"chargehand/calc/air"
	"chargehand/calc/glue"
	"chargehand/calc/sun"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// Wait is the next stretch in which a batch can be laid.
type Wait struct{ From, Until unit.Minutes }

// look adds what the weather table does not know: the window and what can be laid
// in it, dew to come, and where the answer is no, when to look again.
func (r *reckoner) look(a sky) {
	g, w := r.p.Go, r.p.Window
	if g == nil || w == nil {
		return
	}
	dewSaid := slices.ContainsFunc(g.Reasons, func(x Reason) bool { return x.Key == string(weather.DewMargin) && x.Verdict == string(weather.Stop) })
	switch {
	case w.Stop == SquareLow:
		g.stop("square_low", 0, "number")
	case w.Stop != "" && !dewSaid:
		g.stop(string(glue.Condensing), 0, "number")
	case w.Stop == "" && r.p.Batch != nil && r.p.Batch.NoGo != "" && !r.covered():
		g.stop("window_short", w.Minutes(), "min")
	}
	c, ok := r.course(a)
	if !ok {
		return
	}
	if in, ok, err := c.DewAfter(0, dewMargin); err == nil && ok {
		g.Dew = &in
	}
	if g.Verdict != string(weather.Stop) || !r.passes(g, c) {
		return
	}
	in := glue.WaitInput{Now: r.wetIn, Batch: r.batchInput(glue.Share(false, r.wetIn.SquareToday, r.in.GoodBatches)), Course: c, Sunset: g.Sunset, Label: r.labelLimits()}
	in.Batch.WayOff = r.in.FarWayOff // the far half comes first
	if r.p.Batch != nil && r.p.Batch.Half == glue.NearHalf {
		in.Batch.WayOff = true
	}
	gap, err := glue.Wait(in)
	if r.failed("wait", err) {
		return
	}
	r.used("go", append(r.p.formulas["go"], glue.WaitID)...)
	switch {
	case !gap.Found:
		g.Gone = true
	case gap.From > 0:
		g.Wait = &Wait{From: gap.From, Until: gap.Until}
	}
}

// passes says whether waiting can help: whether every stop is one that the course
// of the day speaks of.
func (r *reckoner) passes(g *Go, c weather.Course) bool {
	for _, reason := range g.Reasons {
		if reason.Verdict != string(weather.Stop) {
			continue
		}
		switch weather.Key(reason.Key) {
		case weather.MoistureHigh, weather.Thunder, weather.Frost, "square_low":
			return false
		case weather.RainSoon:
			if c[0].Rain == nil {
				return false
			}
		}
	}
	return true
}

// dewMargin is how close to the dew point a deck is wet to glue on: as weather's
// table for water-based glue.
const dewMargin unit.KelvinDiff = 3

// at is a moment, in minutes from the reading.
func (r *reckoner) at(m unit.Minutes) sun.Instant {
	return sun.Instant{Date: r.in.Read.Day, Minute: r.in.Read.Clock - r.in.Read.Ahead + m}
}

// today is what the sun does on the day of the reading; nil where the place is
// not known.
func (r *reckoner) today() *sun.Day {
	if r.in.Place == nil || r.in.Read == nil {
		return nil
	}
	day, err := sun.Of(*r.in.Place, r.in.Read.Day, func(sun.Instant) (unit.Minutes, error) { return r.in.Read.Ahead, nil })
	if r.failed("sun", err) {
		return nil
	}
	return &day
}

// sunset is how long after the reading the sun sets; negative after it. Where it
// does not rise at all there is no daylight, where it does not set no limit.
func (r *reckoner) sunset() *unit.Minutes {
	day := r.today()
	if day == nil {
		return nil
	}
	var left unit.Minutes
	switch {
	case day.Sunset != nil:
		left = day.Sunset.At.Minute - r.at(0).Minute
	case day.Sun == sun.AllNight:
	default:
		return nil
	}
	return &left
}

// sunHeight is the sun's height some minutes after the reading. Where the place is
// not known it stands low at all hours: a deck then keeps the warmth it was read
// with, which is the hotter.
func (r *reckoner) sunHeight(m unit.Minutes) unit.Angle {
	if r.in.Place == nil || r.in.Read == nil {
		return 5 * unit.Degree
	}
	p, err := sun.At(*r.in.Place, r.at(m))
	if err != nil {
		return 0
	}
	return p.Height
}

// lookAhead bounds how far a course is looked along.
const lookAhead = 24 * unit.Hour

// course is the air and the deck of the next day, in minutes from the reading: as
// pasted, or guessed from the taps where the sun is known.
func (r *reckoner) course(a sky) (weather.Course, bool) {
	c := weather.Course{}
	now := r.now(a)
	for _, h := range r.in.Hours {
		if h.Minute > 0 && h.Minute <= lookAhead {
			c = append(c, h)
		}
	}
	switch {
	case len(c) > 0:
		if last := c[len(c)-1]; r.in.NightC != nil && last.Minute < lookAhead {
			night := unit.Celsius(*r.in.NightC)
			c = append(c, weather.Hour{Minute: lookAhead, Air: &night, Dew: coolest(now.Dew, night)})
		}
		c = append(weather.Course{now}, c...)
		if in := r.rainIn(); in != nil && c[1].Rain != nil {
			depth := unit.Length(0)
			if *in == 0 {
				depth = 1
			}
			c[0].Rain = &depth
		}
	default:
		guess, ok := r.guessed(now)
		if !ok {
			return nil, false
		}
		c = guess
	}
	c, err := c.WithSurface(weather.Reading{
		Surface: unit.Celsius(*r.in.SurfaceC), Air: unit.Celsius(*r.in.AirC), SunHeight: r.sunHeight(0), ClearSky: true, // the colder night
	}, r.sunHeight)
	if r.failed("course", err) {
		return nil, false
	}
	return c, true
}

// now is the reading as an hour of a course. Its dew point is that of damp air
// where the air is not known.
func (r *reckoner) now(a sky) weather.Hour {
	t, surface := unit.Celsius(*r.in.AirC), unit.Celsius(*r.in.SurfaceC)
	h := weather.Hour{Air: &t, Surface: &surface, Wind: &a.mean, Gust: &a.gust}
	if td, err := air.DewPoint(t, a.damp); err == nil {
		h.Dew = &td
	}
	return h
}

// guessed is a course made of taps: the air stays as it is until two hours before
// sunset and then falls evenly to the coldest of the night at sunrise; the water
// in it stays. Our own guess, no source: it errs to the hot side before the
// evening.
func (r *reckoner) guessed(now weather.Hour) (weather.Course, bool) {
	day := r.today()
	if day == nil || day.Sunset == nil || day.Sunrise == nil || r.in.NightC == nil {
		return nil, false
	}
	night := unit.Celsius(min(*r.in.NightC, *r.in.AirC))
	begin := day.Sunset.At.Minute - r.at(0).Minute - 2*unit.Hour
	end := day.Sunrise.At.Minute - r.at(0).Minute
	if end <= 0 {
		end += 24 * unit.Hour
	}
	c := weather.Course{now}
	if begin > 0 && begin < end {
		c = append(c, weather.Hour{Minute: begin, Air: now.Air, Dew: now.Dew})
	}
	return append(c, weather.Hour{Minute: end, Air: &night, Dew: coolest(now.Dew, night)}), true
}

// coolest keeps a dew point from lying above its air.
func coolest(dew *unit.Celsius, t unit.Celsius) *unit.Celsius {
	if dew == nil {
		return nil
	}
	d := unit.Celsius(math.Min(float64(*dew), float64(t)))
	return &d
}

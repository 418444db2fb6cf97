package draw

import (
	"math"
	"time"

	"chargehand/calc/geom"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// Mark says what an entry of the timeline is.
type Mark string

const (
	Entered Mark = "entered" // a phase was begun
	Passed  Mark = "passed"  // a hold point was passed
	Left    Mark = "left"    // a hold point was skipped or put off
	Glued   Mark = "glued"   // glue lay open
	Did     Mark = "did"     // something else was done at a time that matters
	Due     Mark = "due"     // a clock that will ring
)

// Entry is one thing of the timeline.
type Entry struct {
	At   time.Time
	Mark Mark
	Text talk.Phrase
	// Of glue: how long it lay open, how long it was planned to, and how long it
	// could.
	Open, Usable, Window unit.Minutes
}

// Story is a job in order of time.
type Story struct {
	Zone    string
	Entries []Entry
}

// mostEntries is how many of the last entries are shown.
const mostEntries = 45

// The timeline's columns and rows. The width is a page's, 10 to a millimetre.
const (
	axisX     unit.Length = 130
	textX     unit.Length = 165
	rowTall   unit.Length = 56
	gaugeTall unit.Length = 18
	gaugeMin              = 20.0 // a minute of glue
	signSize  unit.Length = 15
)

// timeline is the job so far, downwards: phases, hold points, wet glue against
// its window, and the clocks that will ring.
func timeline(s Subject) (talk.Picture, bool) {
	if s.Story == nil || len(s.Story.Entries) == 0 {
		return talk.Picture{}, false
	}
	st := *s.Story
	st.Entries = st.Entries[max(0, len(st.Entries)-mostEntries):]
	loc, err := time.LoadLocation(st.Zone)
	if err != nil {
		loc = time.UTC
	}
	var shapes []talk.Shape
	var told []any
	y, day := unit.Length(0), ""
	from := y
	holds, passed := 0, 0
	for _, e := range st.Entries {
		moment := talk.Moment{At: e.At, Zone: st.Zone}
		if d := e.At.In(loc).Format(time.DateOnly); d != day {
			day = d
			y -= rowTall * 0.35
			date := moment
			date.Date = true
			shapes = append(shapes, talk.Word{At: at(textX, y), Text: talk.P("label.day", "day", date), Size: talk.Large, Anchor: talk.RightOf, Fixed: true})
			y -= rowTall * 1.15
		}
		shapes = append(shapes, sign(e.Mark, at(axisX, y))...)
		shapes = append(shapes,
			talk.Word{At: at(axisX-signSize, y), Text: talk.P("label.time", "at", moment), Anchor: talk.LeftOf, Fixed: true},
			talk.Word{At: at(textX-signSize*0.5, y), Text: e.Text, Anchor: talk.RightOf, Fixed: true})
		told = append(told, talk.P("picture.entry", "at", moment, "text", e.Text))
		switch e.Mark {
		case Glued:
			y -= rowTall * 0.75
			shapes = append(shapes, gauge(e, at(textX, y))...)
		case Passed:
			holds, passed = holds+1, passed+1
		case Left:
			holds++
		}
		y -= rowTall
	}
	shapes = append([]talk.Shape{line(talk.Narrow, at(axisX, from), at(axisX, y+rowTall))}, shapes...)
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Shapes: shapes, Long: true, Tall: (from - y) / 10}}}}
	args := []any{"passed", passed, "holds", holds}
	pic.Caption = talk.P("picture.timeline", args...)
	pic.Alt = talk.P("picture.timeline.alt", append(args, "entries", told)...)
	return pic, true
}

// sign is an entry's mark on the line of time.
func sign(m Mark, p geom.Point) []talk.Shape {
	r := signSize
	diamond := geom.Polygon{at(p.X-r, p.Y), at(p.X, p.Y+r), at(p.X+r, p.Y), at(p.X, p.Y-r)}
	switch m {
	case Entered:
		return []talk.Shape{line(talk.Heavy, at(p.X-r, p.Y), at(p.X+r, p.Y))}
	case Passed:
		return []talk.Shape{talk.Area{Tone: talk.Solid, Pen: talk.Wide, Points: diamond}}
	case Left:
		return []talk.Shape{talk.Area{Tone: talk.Blank, Pen: talk.Wide, Points: diamond}}
	case Glued:
		return []talk.Shape{talk.Area{Tone: talk.Wet, Pen: talk.Wide, Points: oblong(p.X-r*0.8, p.Y-r*0.8, p.X+r*0.8, p.Y+r*0.8)}}
	case Due:
		return []talk.Shape{talk.Arc{Tone: talk.Blank, Pen: talk.Wide, At: p, Radius: r * 0.8, Sweep: 2 * math.Pi}}
	}
	return []talk.Shape{talk.Arc{Tone: talk.Solid, Pen: talk.Wide, At: p, Radius: r * 0.4, Sweep: 2 * math.Pi}}
}

// gauge is how long glue lay open, against what was planned and what the window
// was.
func gauge(e Entry, p geom.Point) []talk.Shape {
	wide := func(m unit.Minutes) unit.Length { return unit.Length(gaugeMin * math.Min(float64(m), 38)) }
	h := gaugeTall
	shapes := []talk.Shape{
		talk.Area{Tone: talk.Blank, Pen: talk.Narrow, Points: oblong(p.X, p.Y, p.X+wide(e.Window), p.Y+h)},
		talk.Area{Tone: talk.Shade, Pen: talk.Wide, Points: oblong(p.X, p.Y, p.X+wide(e.Open), p.Y+h)},
	}
	return append(shapes, line(talk.Wide, at(p.X+wide(e.Usable), p.Y-h*0.4), at(p.X+wide(e.Usable), p.Y+h*1.4)))
}

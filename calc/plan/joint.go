package plan

import (
	"slices"

	"chargehand/calc/geom"
	"chargehand/calc/glue"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// Face is when one face of a contact joint is dry, and when it is dead.
type Face struct{ ReadyMin, DeadMin float64 }

// Contact is the window of a contact joint, from coating both faces.
type Contact struct {
	Wall, Rubber Face
	First        string  // wall or rubber: the slower face
	WaitMin      float64 // how much later to coat the other
	LeastWaitMin float64 // and at least, for the window to open
	Empty, Never bool
	Run          unit.Length // most to coat at once
	Runs         []glue.Run  // still to do, in order
	Verdict      string
	Reasons      []Reason
}

func (r *reckoner) contact(a sky) {
	in := r.in
	c := glue.ContactInput{Temperature: 20, Wind: a.mean, A: glue.Face{Surface: unit.Celsius(*in.WallC)}, B: glue.Face{Surface: unit.Celsius(*in.RubberC)}}
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
		WaitMin: float64(j.Wait), LeastWaitMin: float64(j.LeastWait), Empty: j.Empty, Never: j.NeverOpens,
	}
	run, _, err := glue.RunLength(r.hands(), min(j.Open, 480))
	if r.failed("contact", err) {
		return
	}
	out.Run = run
	r.joinWeather(&out, a)
	r.p.Contact = &out
	r.used("contact", glue.ContactID, glue.RunsID, weather.GradeID)
	r.runsLeft(&out)
}

// runsLeft divides what is not pressed yet into runs. What is done of an edge is
// always its beginning, so the rest is divided as an edge of its own.
func (r *reckoner) runsLeft(c *Contact) {
	if r.p.Outline == nil || c.Run <= 0 {
		return
	}
	var left, done []unit.Length
	for i, e := range r.p.Outline.Edges {
		var d unit.Length
		for _, p := range r.in.Pressed {
			if p.Edge == i {
				d = max(d, p.To)
			}
		}
		rest := e.Length - d
		if rest < leastLeft {
			rest = 0
		}
		left, done = append(left, rest), append(done, d)
	}
	runs, err := glue.Runs(left, r.ladder(), c.Run)
	if r.failed("contact", err) {
		return
	}
	for _, run := range runs {
		run.From += done[run.Edge]
		run.To += done[run.Edge]
		c.Runs = append(c.Runs, run)
	}
}

// ladder is the edge one leaves by; a window or hatch is at a wall.
func (r *reckoner) ladder() int {
	kind := geom.Kind(r.in.Exit)
	if !slices.Contains([]geom.Kind{geom.Gutter, geom.Verge}, kind) {
		kind = geom.Wall
	}
	return max(0, slices.IndexFunc(r.p.Outline.Edges, func(e geom.Edge) bool { return e.Kind == kind }))
}

// joinWeather grades the weather for the colder face: solvent cools it further.
func (r *reckoner) joinWeather(c *Contact, a sky) {
	in := r.in
	m := weather.Moment{
		Kind: weather.Contact, Surface: unit.Celsius(min(*in.WallC, *in.RubberC)), Air: unit.Celsius(*in.AirC), RH: a.damp,
		Min24h: unit.Celsius(*in.AirC), Wind: a.mean, Gust: a.gust, Thunder: in.Rain == "thunder", RainIn: r.rainIn(), ToSunset: r.sunset(),
		Task: 30, // one run, from the first coat to the last press
	}
	j, err := weather.Judge(m)
	if r.failed("contact", err) {
		return
	}
	c.Verdict = string(j.Verdict)
	for _, reason := range j.Reasons {
		c.Reasons = append(c.Reasons, Reason{Key: string(reason.Key), Verdict: string(reason.Verdict), Value: reason.Value, Unit: reasonUnit(reason.Key), Label: reason.Label})
	}
}

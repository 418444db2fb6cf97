package plan

import (
	"chargehand/calc"
	"chargehand/calc/drain"
	"chargehand/calc/geom"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// Gutter is the gutter and what it carries.
type Gutter struct {
	Size, Outlet unit.Length
	Outlets      int
	Place        drain.Placement
	Share        float64 // flow over capacity
	Status       calc.Status
	Brackets     int
	Drop, Run    unit.Length
	Runs         []GutterRun
}

// GutterRun is one straight gutter with its brackets.
type GutterRun struct {
	Run      unit.Length
	Brackets []drain.Bracket // from the high end, where the outlet is at the other
}

// rainfall is the two-minute storm of one year return for eaves gutters,
// 0.022 l/s per m²: the London value of EN 12056-3 category 1 (BS EN 12056-3,
// national annex), the heavier end of the map.
const rainfall = 0.022

// nominal is the half-round size that a gutter of the measured width carries at
// least: the next one down, so that its capacity is never overstated.
func nominal(width unit.Length) unit.Length {
	size := unit.Length(75)
	for _, s := range drain.Sizes() {
		if s.Nominal <= width {
			size = s.Nominal
		}
	}
	return size
}

func (r *reckoner) gutter() {
	in := r.in
	if !r.known() || !r.has(geom.Gutter) {
		return
	}
	var run unit.Length // the longest is judged for the whole roof
	for _, l := range r.runs(geom.Gutter) {
		run = max(run, l)
	}
	gi := drain.GutterInput{Roof: *r.p.Area, Length: run, Rain: rainfall}
	if in.WallAbove != nil && *in.WallAbove > 0 {
		var wall unit.Area
		for _, run := range r.runs(geom.Wall) {
			wall += run.By(*in.WallAbove)
		}
		gi.Wall = wall
	}
	if in.GutterSize != nil {
		gi.Size = nominal(*in.GutterSize)
	}
	gi.Outlet = placements[in.Outlet]
	g, err := drain.GutterFor(gi)
	if r.failed("gutter", err) {
		return
	}
	out := Gutter{Size: g.Size.Nominal, Outlet: g.Size.Outlet, Outlets: g.Outlets, Place: gi.Outlet, Share: float64(g.Flow) / float64(g.Capacity), Status: g.Status, Run: run}
	fall := or(in.GutterFall, drain.UsualFall)
	for _, run := range r.runs(geom.Gutter) {
		row, err := drain.Brackets(drain.BracketsInput{Run: run, Outlet: gi.Outlet, Fall: fall, Spacing: drain.BracketSpacing, First: drain.BracketFirst, Joints: r.gutterJoints(run)})
		if r.failed("gutter", err) {
			return
		}
		out.Runs = append(out.Runs, GutterRun{Run: run, Brackets: row})
		out.Brackets += len(row)
		for _, b := range row {
			out.Drop = max(out.Drop, b.Below)
		}
	}
	r.p.Gutter = &out
	r.used("gutter", drain.ID, drain.BracketsID)
}

// placements are where the outlets are, as the conversation calls them.
var placements = map[string]drain.Placement{"": drain.AtEnd, "end": drain.AtEnd, "middle": drain.AtMiddle, "both-ends": drain.AtBothEnds}

// gutterJoints are the joints of a run made of the gutter lengths that can be
// had, from its left end.
func (r *reckoner) gutterJoints(run unit.Length) []unit.Length {
	var out []unit.Length
	at := unit.Length(0)
	pieces := r.inRun(takeoff.Gutter, run, 0)
	for _, p := range pieces[:max(len(pieces)-1, 0)] {
		at += p.Length
		out = append(out, at)
	}
	return out
}

package plan

import (
	"chargehand/calc/fixings"
	"chargehand/calc/geom"
	"chargehand/calc/lead"
	"chargehand/calc/sheet"
	"chargehand/calc/unit"
)

// Bar is the bar over the rubber's top edge.
type Bar struct {
	Runs   []unit.Length
	Screws []int
}

// Lead is the flashing.
type Lead struct {
	Lap  unit.Length
	Need unit.Length // narrowest that turns in, passes the gap and covers the bar
	Runs []LeadRun
}

// LeadRun is the flashing of one wall.
type LeadRun struct {
	Run, Piece            unit.Length
	Starts                []unit.Length // of each piece; it laps the one before
	Pieces, Wedges, Clips int
	Mass                  unit.Mass
}

// What a flashing is unless something else is told: common practice, no source.
const (
	usualLeadCode  = lead.FlashingCode
	usualLeadWidth = 180 * unit.Millimetre
)

func (r *reckoner) bar() {
	runs := r.runs(geom.Wall)
	if len(runs) == 0 {
		return
	}
	b := Bar{Runs: runs}
	for _, run := range runs {
		row, err := fixings.BarScrews(run)
		if r.failed("bar", err) {
			return
		}
		b.Screws = append(b.Screws, row.Count)
	}
	r.p.Bar = &b
	r.used("bar", fixings.ID)
}

func (r *reckoner) lead() {
	in := r.in
	r.p.Patches = r.patches()
	runs := r.runs(geom.Wall)
	if len(runs) == 0 {
		return
	}
	code, width, lap := or(in.LeadCode, usualLeadCode), or(in.LeadWidth, usualLeadWidth), 100*unit.Millimetre
	if in.Severe {
		lap = 150
	}
	l := Lead{Lap: lap}
	for _, c := range r.p.Chases {
		need, _, err := lead.WidthFor(lead.TurnIn, max(c.Joint, c.Most+lead.BoardGap)-r.rubberHeight(), lead.Cover)
		if !r.failed("lead", err) {
			l.Need = max(l.Need, need)
		}
	}
	for _, run := range runs {
		c, err := lead.Pieces(lead.Run{Length: run, Width: width, Code: code, Lap: lap, Exposed: in.Severe})
		if r.failed("lead", err) {
			return
		}
		l.Runs = append(l.Runs, LeadRun{Run: run, Piece: c.Piece, Starts: c.Starts, Pieces: c.Pieces, Wedges: c.Wedges, Clips: c.Clips, Mass: c.Mass})
	}
	r.p.Lead = &l
	r.used("lead", lead.ID)
}

// patches are the cuts this roof brings: one at each pipe, at each corner of a
// rooflight, and at each corner where the sheet has to be slit or turns from an
// upstand to a free edge.
// Corners between two upstands are folded, not cut.
func (r *reckoner) patches() int {
	n := len(r.in.Pipes) + 4*len(r.in.Rooflights) // a light has four outer corners
	for _, c := range r.p.Corners {
		if r.known() && (c.Detail == sheet.CutPatch || c.Detail == sheet.TrimEnd) {
			n++
		}
	}
	if s := r.p.Sheet; s != nil && r.in.SheetRemedy == string(sheet.AddTo) {
		n += len(s.Lacks) // a strip bonded on has a seam to seal
	}
	return n
}

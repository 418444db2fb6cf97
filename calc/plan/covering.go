package plan

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/drain"
	"chargehand/calc/fixings"
	"chargehand/calc/geom"
	"chargehand/calc/lead"
	"chargehand/calc/sheet"
	"chargehand/calc/unit"
)

// Upstands are the boards along walls.
type Upstands struct {
	Runs               []unit.Length
	BoardTop, BedJoint unit.Length
	Rubber             unit.Length // height of the rubber above the finished roof
	Plugs              int
}

// Sheet is the rubber as ordered.
type Sheet struct {
	Length, Width unit.Length
	Mass          unit.Mass
	Hands         int
	Allow, Least  []unit.Length // beyond the deck at each edge, wanted and least
	Short         unit.Length   // by how much the delivered sheet is short; 0 = not
}

// Trims are the edge trims.
type Trims struct {
	Edges         []TrimEdge
	Corners, Ends int
}

// TrimEdge is the trim of one edge.
type TrimEdge struct {
	Kind   string
	Run    unit.Length
	Pieces []unit.Length
	Nails  int
}

// Gutter is the gutter and what it carries.
type Gutter struct {
	Size, Outlet              unit.Length
	Share                     float64 // flow over capacity
	Status                    calc.Status
	Brackets                  int
	BracketSpacing, Drop, Run unit.Length
}

// Bar is the bar over the rubber's top edge.
type Bar struct {
	Runs   []unit.Length
	Screws []int
}

// Lead is the flashing.
type Lead struct {
	Lap  unit.Length
	Runs []LeadRun
}

// LeadRun is the flashing of one wall.
type LeadRun struct {
	Run, Piece            unit.Length
	Pieces, Wedges, Clips int
	Mass                  unit.Mass
}

// rubberHeight is how high the rubber stands at a wall: the upstand asked for,
// never under 150 mm.
func (r *reckoner) rubberHeight() unit.Length {
	if r.in.Upstand != nil {
		return max(*r.in.Upstand, sheet.LeastUpstand)
	}
	return sheet.LeastUpstand
}

func (r *reckoner) upstands() {
	in := r.in
	runs := r.runs(geom.Wall, geom.Parapet)
	if len(runs) == 0 {
		return
	}
	u := Upstands{Runs: runs, Rubber: r.rubberHeight()}
	if in.BoardTop != nil {
		u.BoardTop = *in.BoardTop
	}
	if in.BedJoint != nil {
		u.BedJoint = *in.BedJoint
	}
	height := max(u.BoardTop, u.Rubber)
	for _, run := range runs {
		row, rows, err := fixings.UpstandPlugs(run, height)
		if r.failed("upstands", err) {
			return
		}
		u.Plugs += row.Count * rows
	}
	r.p.Upstands = &u
	r.used("upstands", fixings.ID)
}

// sheetInput is the roof as the sheet sees it.
func (r *reckoner) sheetInput() sheet.Input {
	si := sheet.Input{Outline: *r.p.Outline}
	for _, edge := range r.p.Outline.Edges {
		var e sheet.Edge
		switch edge.Kind {
		case geom.Wall:
			e.Rubber = r.rubberHeight()
		case geom.Parapet:
			e.Rubber = r.rubberHeight()
			if r.in.ParapetHeight != nil && r.in.ParapetTop != nil {
				e.Rubber, e.Top = *r.in.ParapetHeight, *r.in.ParapetTop
			}
		case geom.Gutter:
			e.Tuck = r.in.Tuck
		}
		si.Edges = append(si.Edges, e)
	}
	if r.p.Skew != nil && r.p.Outline.IsRightAngled() {
		si.Skew = unit.Length(math.Abs(float64(*r.p.Skew)))
	}
	if r.in.SheetStep != nil {
		si.Step = *r.in.SheetStep
	}
	return si
}

func (r *reckoner) sheet() {
	if !r.known() {
		return
	}
	si := r.sheetInput()
	size, err := sheet.SizeOf(si)
	if r.failed("sheet", err) {
		return
	}
	s := Sheet{Length: size.Length, Width: size.Width, Mass: size.Mass, Hands: size.Hands}
	for _, a := range size.Allowances {
		s.Allow, s.Least = append(s.Allow, a.Wanted), append(s.Least, a.Least)
	}
	if r.in.SheetLength != nil && r.in.SheetWidth != nil {
		d, err := sheet.Deliver(si, sheet.Delivered{Length: *r.in.SheetLength, Width: *r.in.SheetWidth})
		if r.failed("sheet", err) {
			return
		}
		for _, o := range d.Overlaps {
			s.Short = max(s.Short, o.Short)
		}
	}
	r.p.Sheet = &s
	r.used("sheet", sheet.ID)
}

func (r *reckoner) edges() {
	r.trims()
	r.gutter()
	r.bar()
}

// trims chooses the pieces of each free edge.
func (r *reckoner) trims() {
	if !r.known() || len(r.in.TrimStock) == 0 {
		return
	}
	var t Trims
	for _, e := range r.p.Outline.Edges {
		if e.Kind != geom.Gutter && e.Kind != geom.Verge {
			continue
		}
		pieces := trimPieces(e.Length, r.in.TrimStock)
		nails, err := fixings.TrimNails(pieces)
		if r.failed("trims", err) {
			return
		}
		t.Edges = append(t.Edges, TrimEdge{Kind: string(e.Kind), Run: e.Length, Pieces: pieces, Nails: nails})
	}
	for _, c := range r.p.Corners {
		switch c.Detail {
		case sheet.TrimTurn:
			t.Corners++
		case sheet.TrimEnd:
			t.Ends++
		}
	}
	r.p.Trims = &t
	r.used("trims", fixings.ID)
}

// trimPieces covers a run with stock lengths: fewest pieces, then least waste.
// It walks all counts of each stock; a run of 20 m in 1 m lengths is the worst.
func trimPieces(run unit.Length, stock []unit.Length) []unit.Length {
	longest := stock[0]
	for _, s := range stock {
		longest = max(longest, s)
	}
	n := int(math.Ceil(float64(run) / float64(longest)))
	var best []unit.Length
	bestOver := unit.Length(math.Inf(1))
	var walk func(from int, left int, sum unit.Length, chosen []unit.Length)
	walk = func(from, left int, sum unit.Length, chosen []unit.Length) {
		if left == 0 {
			if over := sum - run; over >= 0 && over < bestOver {
				bestOver, best = over, append([]unit.Length(nil), chosen...)
			}
			return
		}
		for i := from; i < len(stock); i++ {
			walk(i, left-1, sum+stock[i], append(chosen, stock[i]))
		}
	}
	walk(0, n, 0, nil)
	// The last piece is cut to the run; it is the shortest, so that the offcut
	// comes off the piece with least to lose.
	rest := run
	for i := range best {
		best[i] = min(best[i], rest)
		rest -= best[i]
	}
	return best
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
	var run unit.Length // the longest, with its outlet at one end
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
	g, err := drain.GutterFor(gi)
	if r.failed("gutter", err) {
		return
	}
	out := Gutter{Size: g.Size.Nominal, Outlet: g.Size.Outlet, Share: float64(g.Flow) / float64(g.Capacity), Status: g.Status, Run: run}
	row, err := fixings.Run(fixings.Bracket, run)
	if r.failed("gutter", err) {
		return
	}
	out.Brackets, out.BracketSpacing = row.Count, row.Spacing
	fall := unit.Fall(1.0 / 500)
	if in.GutterFall != nil {
		fall = *in.GutterFall
	}
	out.Drop = unit.Length(float64(run) * float64(fall))
	r.p.Gutter = &out
	r.used("gutter", drain.ID)
}

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
	code, width, lap := 4, 180*unit.Millimetre, 100*unit.Millimetre
	if in.LeadCode != nil {
		code = *in.LeadCode
	}
	if in.LeadWidth != nil {
		width = *in.LeadWidth
	}
	if in.Severe {
		lap = 150
	}
	l := Lead{Lap: lap}
	for _, run := range runs {
		c, err := lead.Pieces(lead.Run{Length: run, Width: width, Code: code, Lap: lap, Exposed: in.Severe})
		if r.failed("lead", err) {
			return
		}
		l.Runs = append(l.Runs, LeadRun{Run: run, Piece: c.Piece, Pieces: c.Pieces, Wedges: c.Wedges, Clips: c.Clips, Mass: c.Mass})
	}
	r.p.Lead = &l
	r.used("lead", lead.ID)
}

// patches are the cuts this roof brings: one at each pipe, at each corner of a
// rooflight, and at each corner
// where the sheet has to be slit or turns from an upstand to a free edge.
// Corners between two upstands are folded, not cut.
func (r *reckoner) patches() int {
	n := len(r.in.Pipes) + 4*len(r.in.Rooflights) // a light has four outer corners
	for _, c := range r.p.Corners {
		if r.known() && (c.Detail == sheet.CutPatch || c.Detail == sheet.TrimEnd) {
			n++
		}
	}
	return n
}

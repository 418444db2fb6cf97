package plan

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/cut"
	"chargehand/calc/drain"
	"chargehand/calc/fixings"
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
	Length, Width         unit.Length
	NeedLength, NeedWidth unit.Length // the least that can be made to do
	Mass                  unit.Mass
	Hands                 int
	Allow, Least          []unit.Length // beyond the deck at each edge, wanted and least
	Short                 unit.Length   // by how much the delivered sheet is short; 0 = not
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
	runs := r.runs("wall", "parapet")
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

// sheetEdges are the edges as the sheet sees them.
func (r *reckoner) sheetEdges() []sheet.Edge {
	var out []sheet.Edge
	for _, k := range r.in.Edges {
		e := sheet.Edge{Kind: sheet.Kind(k)}
		switch k {
		case "wall":
			e.Rubber = r.rubberHeight()
		case "parapet":
			if r.in.ParapetHeight != nil && r.in.ParapetTop != nil {
				e.Rubber, e.Top = *r.in.ParapetHeight, *r.in.ParapetTop
			} else {
				e.Rubber = r.rubberHeight()
			}
		case "gutter":
			e.Tuck = r.in.Tuck
		}
		out = append(out, e)
	}
	return out
}

func (r *reckoner) sheet() {
	in := r.in
	if in.Length == nil || in.Depth == nil || len(in.Edges) != 4 {
		return
	}
	si := sheet.Input{Edges: r.sheetEdges(), Length: *in.Length, Depth: *in.Depth}
	if r.p.Skew != nil {
		si.Skew = unit.Length(math.Abs(float64(*r.p.Skew)))
	}
	if in.SheetStep != nil {
		si.Step = *in.SheetStep
	}
	size, err := sheet.SizeOf(si)
	if r.failed("sheet", err) {
		return
	}
	s := Sheet{Length: size.Length, Width: size.Width, Mass: size.Mass, Hands: size.Hands}
	for _, a := range size.Allowances {
		s.Allow, s.Least = append(s.Allow, a.Wanted), append(s.Least, a.Least)
	}
	s.NeedLength = *in.Length + s.Least[1] + s.Least[3] + si.Skew
	s.NeedWidth = *in.Depth + s.Least[0] + s.Least[2]
	if in.SheetLength != nil && in.SheetWidth != nil {
		long, wide := max(*in.SheetLength, *in.SheetWidth), min(*in.SheetLength, *in.SheetWidth)
		needLong, needWide := max(s.NeedLength, s.NeedWidth), min(s.NeedLength, s.NeedWidth)
		s.Short = max(needLong-long, needWide-wide, 0)
	}
	r.p.Sheet = &s
	r.used("sheet", sheet.ID)
}

func (r *reckoner) edges() {
	r.trims()
	r.gutter()
	r.bar()
}

// trims chooses the pieces of each edge: the exact cut list for that edge alone,
// since a trim is bought per edge.
func (r *reckoner) trims() {
	in := r.in
	if in.Length == nil || in.Depth == nil || len(in.TrimStock) == 0 {
		return
	}
	var t Trims
	n := len(in.Edges)
	for i, k := range in.Edges {
		free := k == "gutter" || k == "verge"
		if !free {
			continue
		}
		pieces := trimPieces(r.side(i), in.TrimStock)
		nails, err := fixings.TrimNails(pieces)
		if r.failed("trims", err) {
			return
		}
		t.Edges = append(t.Edges, TrimEdge{Kind: k, Run: r.side(i), Pieces: pieces, Nails: nails})
		next := in.Edges[(i+1)%n]
		if next == "gutter" || next == "verge" {
			t.Corners++
		} else {
			t.Ends++
		}
		before := in.Edges[(i+n-1)%n]
		if before != "gutter" && before != "verge" {
			t.Ends++
		}
	}
	r.p.Trims = &t
	r.used("trims", fixings.ID, cut.ID)
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

func (r *reckoner) gutter() {
	in := r.in
	if in.Length == nil || in.Depth == nil || !r.has("gutter") {
		return
	}
	gi := drain.GutterInput{Roof: in.Length.By(*in.Depth), Length: *in.Length, Rain: rainfall}
	if in.WallAbove != nil && *in.WallAbove > 0 {
		var wall unit.Area
		for _, run := range r.runs("wall") {
			wall += run.By(*in.WallAbove)
		}
		gi.Wall = wall
	}
	if in.GutterSize != nil {
		gi.Size = *in.GutterSize
	}
	g, err := drain.GutterFor(gi)
	if r.failed("gutter", err) {
		return
	}
	out := Gutter{Size: g.Size.Nominal, Outlet: g.Size.Outlet, Share: float64(g.Flow) / float64(g.Capacity), Status: g.Status, Run: *in.Length}
	row, err := fixings.Run(fixings.Bracket, *in.Length)
	if r.failed("gutter", err) {
		return
	}
	out.Brackets, out.BracketSpacing = row.Count, row.Spacing
	fall := unit.Fall(1.0 / 500)
	if in.GutterFall != nil {
		fall = *in.GutterFall
	}
	out.Drop = unit.Length(float64(*in.Length) * float64(fall))
	r.p.Gutter = &out
	r.used("gutter", drain.ID)
}

func (r *reckoner) bar() {
	runs := r.runs("wall")
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
	runs := r.runs("wall")
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

// patches are the cuts this roof brings: one at each pipe and at each external
// corner of the sheet between an upstand and a free edge. Internal corners are
// folded, not cut.
func (r *reckoner) patches() int {
	n := len(r.in.Pipes)
	for i, k := range r.in.Edges {
		next := r.in.Edges[(i+1)%len(r.in.Edges)]
		up := k == "wall" || k == "parapet"
		upNext := next == "wall" || next == "parapet"
		if up != upNext {
			n++
		}
	}
	return n
}

package plan

import (
	"chargehand/calc/geom"
	"chargehand/calc/lead"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// bill collects what the other parts found into the materials list.
func (r *reckoner) bill() {
	p := r.p
	if !r.known() {
		return
	}
	ti := takeoff.Input{DeckArea: p.Area, Deck: &takeoff.Size{Length: *p.Length, Width: *p.Depth}, NoResin: true, FieldArea: p.Field, ContactArea: p.ContactArea}
	r.billTimber(&ti)
	r.billCovering(&ti)
	r.billEdges(&ti)
	ti.Packs = map[takeoff.Key][]takeoff.PackSize{}
	for _, key := range takeoff.Keys() {
		if own := r.told(key); len(own) > 0 {
			ti.Packs[key] = own
		}
	}
	ti.Packs[takeoff.Trim] = r.sizes(takeoff.Trim)
	ti.Sawn = r.sawn()
	b, err := takeoff.List(ti)
	if r.failed("list", err) {
		return
	}
	p.Bill = &b
	r.orders()
	r.used("list", takeoff.ID)
}

func (r *reckoner) billTimber(ti *takeoff.Input) {
	in, p := r.in, r.p
	if p.Plates != nil {
		ti.PlateRuns = append(append([]unit.Length{}, p.Plates.Runs...), p.Plates.Ledgers...)
		ti.DPCRuns = append([]unit.Length{}, p.Plates.Runs...)
		anchors, straps := p.Plates.Anchors, p.Plates.Straps
		ti.Anchors, ti.Straps = &anchors, &straps
	}
	if x := p.Restraint; x != nil {
		ti.LateralRuns = append([]unit.Length{}, x.Runs...)
	}
	if j := p.Joists; j != nil && j.Stock > 0 {
		ti.Joists = j.Pieces
		if e := p.Ends; e != nil {
			ti.HangerEnds, ti.PlateEnds = &e.Hangers, &e.Clips
		}
		ti.Firrings = []takeoff.Piece{}
		if s := p.Strutting; s != nil {
			ti.Noggins, ti.Strutting = s.Under, s.Pieces
			if x := p.Restraint; x != nil && x.Noggins > 0 {
				ti.Noggins = append(ti.Noggins[:len(ti.Noggins):len(ti.Noggins)], takeoff.Piece{Count: x.Noggins, Length: j.Centres - j.B})
			}
		}
		if _, ok := p.Lengths[takeoff.JoistTimber]; ok { // they are sawn from the joists' own lengths
			ti.Noggins, ti.Strutting = []takeoff.Piece{}, []takeoff.Piece{}
		}
	}
	if d := p.Deck; d != nil {
		ti.Boards = &d.Boards
		ti.DeckScrews = &d.Screws
	}
	ti.FromDeck = in.UpstandCut
	ti.DeckEdge = takeoff.TongueAndGroove
	if in.Noggins {
		ti.DeckEdge = takeoff.SquareEdge
	}
	free := r.runs(geom.Gutter, geom.Verge)
	ti.Battens, ti.Fascias = free, r.runs(geom.Gutter)
	ti.Corners = max(len(free)-1, 0)
	ti.Upstands = []takeoff.Upstand{}
	for i, e := range p.Outline.Edges {
		if e.Kind == geom.Wall || e.Kind == geom.Parapet {
			ti.Upstands = append(ti.Upstands, takeoff.Upstand{Run: e.Length, Height: r.boardHeight(i)})
		}
	}
}

func (r *reckoner) billCovering(ti *takeoff.Input) {
	p := r.p
	seams := unit.Length(0)
	if s := p.Sheet; s != nil {
		ti.Sheet = s.bought()
		for _, seam := range s.Seams {
			seams += 2 * seam.Length // both edges of a lap are sealed
		}
	}
	pipes := len(r.in.Pipes)
	ti.Pipes = &pipes
	corners := p.Patches - pipes
	ti.Patches = []takeoff.Patch{}
	if corners > 0 {
		// The cut plus 75 mm on all sides: common practice, no source.
		ti.Patches = append(ti.Patches, takeoff.Patch{Count: corners, Length: 300, Width: 300})
	}
	edge := unit.Length(float64(p.Patches)*1200) + seams
	ti.PatchEdge = &edge
	if b := p.Batch; b != nil && b.Count > 0 {
		ti.Batches = &b.Count
	}
}

func (r *reckoner) billEdges(ti *takeoff.Input) {
	in, p := r.in, r.p
	ti.BarRuns = r.runs(geom.Wall)
	if t := p.Trims; t != nil {
		ti.Trims = []takeoff.TrimEdge{}
		for _, e := range t.Edges {
			ti.Trims = append(ti.Trims, takeoff.TrimEdge{Run: e.Run})
		}
		ti.TrimCorners, ti.TrimEnds, ti.TrimNails = &t.Corners, &t.Ends, new(int)
		for _, e := range t.Edges {
			*ti.TrimNails += e.Nails
		}
	}
	ti.GutterRuns = r.runs(geom.Gutter)
	outlets := len(ti.GutterRuns)
	if g := p.Gutter; g != nil {
		outlets *= g.Outlets
		ti.Brackets = &g.Brackets
	}
	ti.Outlets = &outlets
	ti.LeadRuns, ti.ChaseRuns = []takeoff.LeadRun{}, r.runs(geom.Wall)
	if l := p.Lead; l != nil {
		s, _ := lead.Code(or(in.LeadCode, usualLeadCode)) // lead.Pieces has refused an unknown code before
		for _, run := range l.Runs {
			ti.LeadRuns = append(ti.LeadRuns, takeoff.LeadRun{Run: run.Run, Width: or(in.LeadWidth, usualLeadWidth), Density: s.Mass, Lap: l.Lap, Exposed: in.Severe})
		}
	}
}

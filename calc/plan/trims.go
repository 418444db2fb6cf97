package plan

import (
	"chargehand/calc/fixings"
	"chargehand/calc/geom"
	"chargehand/calc/sheet"
	"chargehand/calc/unit"
)

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
		pieces := trimPieces(e.Length, 0, r.in.TrimStock)
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

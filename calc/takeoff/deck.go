package takeoff

import (
	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

const (
	// mitre is what the mitre at a corner costs in length.
	//
	// Source: common practice, no source.
	mitre = 0.1 // m

	// upstandWaste is cut away from upstand boards.
	//
	// Source: common practice, no source.
	upstandWaste = 0.10
)

// deck writes boards, screws, battens, fascias and upstand boards.
func (s *sheet) deck() {
	in := s.in
	s.each(Boards, "boards", in.Boards)
	switch {
	case in.DeckScrews != nil:
		s.each(DeckScrews, "deck_screws", in.DeckScrews)
	case in.DeckArea != nil && in.DeckEdge != "":
		n, err := fixings.DeckScrewEstimate(*in.DeckArea, in.DeckEdge == SquareEdge)
		if !s.failAs("deck_area_m2", err) {
			s.packed(DeckScrews, float64(n))
		}
	default:
		s.miss(DeckScrews)
	}
	if !s.count("corners", in.Corners) {
		return
	}
	s.metres(Battens, "battens_mm", in.Battens, mitre*float64(in.Corners))
	s.metres(Fascias, "fascias_mm", in.Fascias, mitre*float64(in.Corners))
	s.upstands()
}

// upstands writes upstand boards and their plugs. Offcuts of the deck come
// first, so no packs are chosen for the boards.
func (s *sheet) upstands() {
	if s.in.Upstands == nil {
		s.miss(UpstandBoard, UpstandPlugs)
		return
	}
	area, plugs := 0.0, 0
	for _, u := range s.in.Upstands {
		row, rows, err := fixings.UpstandPlugs(u.Run, u.Height)
		if s.failAs("upstands", err) {
			return
		}
		plugs += row.Count * rows
		area += u.Run.By(u.Height).In(unit.SquareMetre)
	}
	if area > 0 && !s.in.FromDeck {
		s.lines = append(s.lines, Line{Key: UpstandBoard, Unit: SquareMetre, Where: Timber,
			Needed: area, Waste: upstandWaste * area, ToBuy: area + upstandWaste*area,
			Cost: s.priceBy(UpstandBoard, area+upstandWaste*area)})
	}
	s.packed(UpstandPlugs, float64(plugs))
}

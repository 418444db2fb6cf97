package takeoff

import (
	"chargehand/calc"
	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// mitre is the length a mitred end costs.
//
// Source: common practice, no source.
const mitre = 0.1 // m

// deck writes boards, screws, battens, fascias and upstand boards.
func (s *sheet) deck() {
	in := s.in
	s.each(Boards, in.Boards)
	switch {
	case in.DeckScrews != nil:
		s.each(DeckScrews, in.DeckScrews)
	case in.DeckArea != nil && in.DeckEdge != "":
		n, err := fixings.DeckScrewEstimate(*in.DeckArea, in.DeckEdge == SquareEdge)
		if !s.fail(err) {
			s.packed(DeckScrews, float64(n))
		}
	default:
		s.miss(DeckScrews)
	}
	s.metres(Battens, in.Battens, mitre*float64(in.Mitres))
	s.metres(Fascias, in.Fascias, mitre*float64(in.Mitres))
	if in.Upstands == nil {
		s.miss(UpstandBoard, UpstandPlugs)
		return
	}
	var area float64
	plugs := 0
	for _, u := range in.Upstands {
		row, rows, err := fixings.UpstandPlugs(u.Run, u.Height)
		if s.fail(err) {
			return
		}
		plugs += row.Count * rows
		area += u.Run.By(u.Height).In(unit.SquareMetre)
	}
	if area > 0 {
		// Offcuts of the deck come first, so no packs are chosen.
		s.lines = append(s.lines, Line{Key: UpstandBoard, Unit: SquareMetre, Where: Timber, Needed: area, Waste: 0.1 * area, ToBuy: 1.1 * area})
	}
	s.packed(UpstandPlugs, float64(plugs))
}

// each writes a line told as a number of things.
func (s *sheet) each(key Key, n *int) {
	if n == nil {
		s.miss(key)
		return
	}
	if s.count(key, *n) {
		s.packed(key, float64(*n))
	}
}

// metres writes a line bought by the metre whatever its joints.
func (s *sheet) metres(key Key, runs []unit.Length, more float64) {
	if runs == nil {
		s.miss(key)
		return
	}
	if len(runs) == 0 {
		return
	}
	m := more
	for _, r := range runs {
		if s.fail(calc.Outside("takeoff.list", string(key), float64(r), 0, 50000, "mm")) {
			return
		}
		m += r.In(unit.Metre)
	}
	s.packed(key, m)
}

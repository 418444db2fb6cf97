package takeoff

import (
	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// The rates used until the tin says otherwise.
//
// Source: common practice, no source.
const (
	fieldRate    = 3.0  // m² a litre, one face
	contactRate  = 1.5  // m² a litre, both faces
	primerRate   = 0.15 // l/m² of patch
	primerLeast  = 0.25 // l bought at least
	pipePieces   = 5    // four patches and a strip round one pipe
	pipePiece    = 0.04 // m², of one such piece
	cartridgeRun = 6.0  // m a 300 ml cartridge, the low end of 6 to 8
)

// covering writes the sheet, what sticks it and what patches it.
func (s *sheet) covering() {
	in := s.in
	s.membrane()
	s.spread(DeckAdhesive, "field", in.FieldArea, in.FieldRate, fieldRate)
	s.spread(Contact, "contact", in.ContactArea, in.ContactRate, contactRate)
	s.patches()
	s.sealants()
}

// membrane writes the sheet, cut to size by the supplier.
func (s *sheet) membrane() {
	if s.in.Sheet == nil {
		s.miss(Sheet)
		return
	}
	l, w := s.in.Sheet.Length, s.in.Sheet.Width
	if !s.within("sheet_length_mm", float64(l), 100, 60000, "mm") || !s.within("sheet_width_mm", float64(w), 100, 60000, "mm") {
		return
	}
	a := l.By(w).In(unit.SquareMetre)
	s.lines = append(s.lines, Line{Key: Sheet, Unit: SquareMetre, Where: Roofing, Needed: a, ToBuy: a, Packs: whole(a),
		Cost: s.priceBy(Sheet, a), Size: []unit.Length{l, w}})
}

// spread writes an adhesive from the area it covers.
func (s *sheet) spread(key Key, field string, area *unit.Area, told, usual float64) {
	if area == nil {
		s.miss(key)
		return
	}
	rate := told
	if rate == 0 {
		rate = usual
	}
	a := area.In(unit.SquareMetre)
	if s.within(field+"_m2", a, 0, 1000, "m²") && s.within(field+"_rate_m2_l", rate, 0.2, 20, "m² a litre") {
		s.packed(key, a/rate)
	}
}

// patches writes patches and the primer under them.
func (s *sheet) patches() {
	in := s.in
	if in.Patches == nil || in.Pipes == nil {
		s.miss(Primer, Patches)
		return
	}
	if !s.count("pipes", *in.Pipes) {
		return
	}
	n := pipePieces * *in.Pipes
	area := float64(n) * pipePiece // m²
	for _, p := range in.Patches {
		if !s.count("patches", p.Count) || !s.within("patches", float64(p.Length), 1, 5000, "mm") || !s.within("patches", float64(p.Width), 1, 5000, "mm") {
			return
		}
		n += p.Count
		area += float64(p.Count) * p.Length.By(p.Width).In(unit.SquareMetre)
	}
	if !s.count("patches", n) || !s.within("patches", area, 0, 1000, "m²") || n == 0 {
		return
	}
	s.primer(area * primerRate)
	s.packed(Patches, float64(n))
}

// primer writes primer, which dries in the tin and on the rag: a quarter litre
// at least is bought, whatever is needed.
func (s *sheet) primer(needed float64) {
	p, err := wares[Primer].manner.Packs(max(needed, primerLeast), 0, s.sizes(Primer))
	if s.failAs("packs", err) {
		return
	}
	p.LeftOver = p.ToBuy - needed
	line := s.judged(Primer, needed, 0, p)
	line.Surplus = false
	s.lines = append(s.lines, line)
}

// sealants writes edge sealant, water-stop, bar and its screws.
func (s *sheet) sealants() {
	in := s.in
	reach := in.CartridgeRun.In(unit.Metre)
	if reach == 0 {
		reach = cartridgeRun
	}
	if !s.within("cartridge_run_mm", 1000*reach, 1000, 30000, "mm") {
		return
	}
	bar := 0.0
	for _, r := range in.BarRuns {
		bar += r.In(unit.Metre)
	}
	switch {
	case in.BarRuns == nil || in.PatchEdge == nil:
		s.miss(EdgeSealant)
	case s.within("patch_edge_mm", float64(*in.PatchEdge), 0, 1e6, "mm"):
		s.packed(EdgeSealant, (in.PatchEdge.In(unit.Metre)+bar)/reach)
	}
	if in.BarRuns == nil {
		s.miss(WaterStop)
	} else {
		s.packed(WaterStop, bar/reach)
	}
	s.metres(Bar, "bar_runs_mm", in.BarRuns, 0)
	n, _ := s.along(BarScrews, fixings.Bar, "", nil, "bar_runs_mm", in.BarRuns)
	s.packed(BarScrews, float64(n))
}

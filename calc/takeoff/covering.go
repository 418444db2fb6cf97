package takeoff

import (
	"chargehand/calc"
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
	primerLeast  = 0.25 // l
	pipePieces   = 4    // patches round one pipe, beside its strip
	cartridgeRun = 6.0  // m a 300 ml cartridge, the low end of 6 to 8
)

// covering writes the sheet, what sticks it and what patches it.
func (s *sheet) covering() {
	in := s.in
	if in.Sheet == nil {
		s.miss(Sheet)
	} else {
		a := in.Sheet.Length.By(in.Sheet.Width).In(unit.SquareMetre)
		if s.fail(calc.Outside("takeoff.list", "sheet_m2", a, 0.1, 1000, "m²")) {
			return
		}
		one := []Pack{{Size: a, Count: 1}}
		s.lines = append(s.lines, Line{Key: Sheet, Unit: SquareMetre, Where: Roofing, Needed: a, ToBuy: a, Packs: one,
			Cost: s.priceOf(Sheet, one), Size: []unit.Length{in.Sheet.Length, in.Sheet.Width}})
	}
	s.spread(DeckAdhesive, in.FieldArea, in.FieldRate, fieldRate)
	s.spread(Contact, in.ContactArea, in.ContactRate, contactRate)
	if in.Patches == nil {
		s.miss(Primer, Patches)
	} else {
		n, area := 0, 0.0
		for _, p := range in.Patches {
			n += p.Count
			area += float64(p.Count) * p.Length.By(p.Width).In(unit.SquareMetre)
		}
		if in.Pipes != nil {
			n += pipePieces * *in.Pipes
		}
		if !s.count(Patches, n) || s.fail(calc.Outside("takeoff.list", "patch_area_m2", area, 0, 1000, "m²")) {
			return
		}
		if n > 0 {
			s.packed(Primer, max(area*primerRate, primerLeast))
			s.packed(Patches, float64(n))
		}
	}
	s.sealants()
}

// spread writes an adhesive from the area it covers.
func (s *sheet) spread(key Key, area *unit.Area, told, usual float64) {
	if area == nil {
		s.miss(key)
		return
	}
	rate := told
	if rate == 0 {
		rate = usual
	}
	a := area.In(unit.SquareMetre)
	if s.fail(calc.Outside("takeoff.list", string(key)+" area", a, 0, 1000, "m²")) ||
		s.fail(calc.Outside("takeoff.list", string(key)+" rate", rate, 0.2, 20, "m² a litre")) {
		return
	}
	s.packed(key, a/rate)
}

// sealants writes edge sealant, water-stop, bar and its screws.
func (s *sheet) sealants() {
	in := s.in
	reach := in.CartridgeRuns.In(unit.Metre)
	if reach == 0 {
		reach = cartridgeRun
	}
	if s.fail(calc.Outside("takeoff.list", "cartridge_run_m", reach, 1, 30, "m")) {
		return
	}
	if in.BarRuns == nil {
		s.miss(EdgeSealant, WaterStop, Bar, BarScrews)
		return
	}
	bar := 0.0
	for _, r := range in.BarRuns {
		bar += r.In(unit.Metre)
	}
	if in.PatchEdge == nil {
		s.miss(EdgeSealant)
	} else {
		s.packed(EdgeSealant, (in.PatchEdge.In(unit.Metre)+bar)/reach)
	}
	s.packed(WaterStop, bar/reach)
	s.metres(Bar, in.BarRuns, 0)
	n, _ := s.along(fixings.Bar, nil, in.BarRuns)
	s.packed(BarScrews, float64(n))
}

package takeoff

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// around writes what is used up, hired or thrown away.
func (s *sheet) around() {
	in := s.in
	if in.Batches == nil {
		s.miss(Rollers)
	} else if s.count(Rollers, *in.Batches) && *in.Batches > 0 {
		s.plain(Rollers, Each, Sundry, float64(*in.Batches))
	}
	for _, key := range []Key{Brushes, Gloves, Cloths, Tape, Cleaner} {
		s.plain(key, Each, Sundry, 1)
	}
	if len(in.LeadRuns) > 0 {
		s.plain(Patination, Each, Lead, 1)
	}
	if in.TowerDays == nil {
		s.miss(Access)
	} else if !s.fail(calc.Outside("takeoff.list", "tower_days", *in.TowerDays, 0, 365, "days")) && *in.TowerDays > 0 {
		s.plain(Access, Day, Hire, up(*in.TowerDays))
	}
	if in.Deck == nil {
		s.miss(Cover)
	} else {
		l, w := in.Deck.Length.In(unit.Metre)+1, in.Deck.Width.In(unit.Metre)+1
		if !s.fail(calc.Outside("takeoff.list", "deck_m2", l*w, 1, 1000, "m²")) {
			s.plain(Cover, SquareMetre, Sundry, l*w)
			s.lines[len(s.lines)-1].Size = []unit.Length{unit.Length(l * 1000), unit.Length(w * 1000)}
		}
	}
	if in.Rubbish == nil {
		s.miss(Skip)
	} else {
		s.packed(Skip, in.Rubbish.In(unit.CubicMetre))
	}
}

// plain writes a line bought exactly as needed.
func (s *sheet) plain(key Key, u Unit, where Where, n float64) {
	if s.err != nil {
		return
	}
	s.lines = append(s.lines, Line{Key: key, Unit: u, Where: where, Needed: n, ToBuy: n})
}

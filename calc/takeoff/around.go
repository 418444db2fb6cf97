package takeoff

import "chargehand/calc/unit"

// around writes what is used up, hired or thrown away.
func (s *sheet) around() {
	in := s.in
	if in.Batches == nil {
		s.miss(Rollers)
	} else if s.count("batches", *in.Batches) {
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
	} else if s.within("tower_days", *in.TowerDays, 0, 365, "days") {
		s.plain(Access, Day, Hire, up(*in.TowerDays))
	}
	s.cover()
	if in.Rubbish == nil {
		s.miss(Skip)
	} else if v := in.Rubbish.In(unit.CubicMetre); s.within("rubbish_m3", v, 0, 1000, "m³") {
		s.packed(Skip, v)
	}
}

// cover writes the temporary cover: the deck and a metre each way.
func (s *sheet) cover() {
	if s.in.Deck == nil {
		s.miss(Cover)
		return
	}
	l, w := s.in.Deck.Length.In(unit.Metre)+1, s.in.Deck.Width.In(unit.Metre)+1
	if !s.within("deck_length_mm", 1000*(l-1), 500, 50000, "mm") || !s.within("deck_width_mm", 1000*(w-1), 500, 50000, "mm") {
		return
	}
	s.plain(Cover, SquareMetre, Sundry, l*w)
	s.lines[len(s.lines)-1].Size = []unit.Length{unit.Length(l * 1000), unit.Length(w * 1000)}
}

// plain writes a line bought exactly as needed, at the builder's price of one unit.
func (s *sheet) plain(key Key, u Unit, where Where, n float64) {
	if s.err != nil || n == 0 {
		return
	}
	packs := []Pack{{Size: 1, Count: int(n)}}
	if u == SquareMetre {
		packs = whole(n)
	}
	s.lines = append(s.lines, Line{Key: key, Unit: u, Where: where, Needed: n, ToBuy: n, Packs: packs, Cost: s.priceBy(key, n)})
}

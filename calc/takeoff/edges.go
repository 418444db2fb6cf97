package takeoff

import (
	"math"

	"chargehand/calc/fixings"
	"chargehand/calc/unit"
)

// edges writes trims, their corners and their nails.
func (s *sheet) edges() {
	nails := s.trims()
	if s.in.TrimNails != nil && s.count("trim_nails", *s.in.TrimNails) {
		nails = *s.in.TrimNails
	}
	s.each(TrimCorners, "trim_corners", s.in.TrimCorners)
	s.each(TrimEnds, "trim_ends", s.in.TrimEnds)
	s.packed(TrimNails, float64(nails))
}

// trims writes trims edge by edge and counts the nails through the pieces as cut.
func (s *sheet) trims() (nails int) {
	if s.sawn(Trim) {
		if s.in.TrimNails == nil {
			s.miss(TrimNails)
		}
		return 0
	}
	if s.in.Trims == nil {
		s.miss(Trim, TrimNails)
		return 0
	}
	runs := make([]unit.Length, len(s.in.Trims))
	for i, t := range s.in.Trims {
		if !s.count("trims", t.Mitres) {
			return 0
		}
		runs[i] = unit.Length(float64(t.Run) + 1000*mitre*float64(t.Mitres))
	}
	for i, cut := range s.lengths(Trim, "trims", runs, 0) {
		n, err := fixings.TrimNails(asCut(cut, float64(runs[i])))
		if s.failAs("trims", err) {
			return 0
		}
		nails += n
	}
	return nails
}

// asCut is the pieces of a run of l mm: whole lengths, and the last sawn off.
// Should the last come out shorter than a nailed piece may be, the one before
// gives up its share.
func asCut(stock []float64, l float64) []unit.Length {
	var pieces []unit.Length
	for i, p := range stock {
		left := float64(len(stock) - 1 - i)
		piece := math.Min(p*1000, l-left*leastTrim)
		pieces = append(pieces, unit.Length(piece))
		l -= piece
	}
	return pieces
}

// leastTrim is the shortest piece of trim worth nailing.
//
// Source: common practice, no source.
const leastTrim = 100.0 // mm

// rainwater writes gutter and downpipe.
func (s *sheet) rainwater() {
	in := s.in
	if in.GutterRuns == nil {
		s.miss(Gutter, StopEnds)
	} else {
		s.lengths(Gutter, "gutter_runs_mm", in.GutterRuns, 0)
		s.packed(StopEnds, 2*float64(len(in.GutterRuns)))
	}
	n, _ := s.along(Brackets, fixings.Bracket, "gutter_brackets", in.Brackets, "gutter_runs_mm", in.GutterRuns)
	s.packed(Brackets, float64(n))
	s.each(Outlets, "outlets", in.Outlets)
	switch {
	case in.Downpipe == nil:
		s.miss(Downpipe)
	case *in.Downpipe != 0:
		s.lengths(Downpipe, "downpipe_mm", []unit.Length{*in.Downpipe}, 0)
	}
}

package plan

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/sheet"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// Sheet is the rubber as ordered.
type Sheet struct {
	Length, Width unit.Length // in one piece
	Mass          unit.Mass
	Hands         int           // to carry the heaviest piece
	Allow, Least  []unit.Length // beyond the deck at each edge, wanted and least
	Strips        []sheet.Strip // where no sheet is wide enough: more than one
	Seams         []sheet.Seam
	Run           sheet.Run   // the way strips lie
	Offcuts       []geom.Rect // left over from what is bought, largest first

	// Of a sheet that came in one piece:
	Short    unit.Length // greatest shortfall at an edge; 0 = none
	Lacks    []Lack
	Remedies []sheet.Act // what would cure every short edge, the least work first
}

// Lack is a short edge and what can be done about it.
type Lack struct {
	Edge  int // from 0
	Short unit.Length
	Least unit.Length
	Acts  []sheet.Remedy
}

// Pieces is how many strips the covering is made of.
func (s *Sheet) Pieces() int { return max(len(s.Strips), 1) }

// bought is the sheet as it is ordered: the one piece, or the strips end to end,
// as wide as the widest of them.
func (s *Sheet) bought() *takeoff.Size {
	if len(s.Strips) == 0 {
		return &takeoff.Size{Length: s.Length, Width: s.Width}
	}
	var out takeoff.Size
	for _, st := range s.Strips {
		out.Length, out.Width = out.Length+st.Length, max(out.Width, st.Width)
	}
	return &out
}

// sheetInput is the roof as the sheet sees it.
func (r *reckoner) sheetInput() sheet.Input {
	si := sheet.Input{Outline: *r.p.Outline}
	for _, edge := range r.p.Outline.Edges {
		var e sheet.Edge
		switch edge.Kind {
		case geom.Wall:
			e.Rubber = r.rubberHeight()
		case geom.Parapet:
			e.Rubber = r.rubberHeight()
			if r.in.ParapetHeight != nil && r.in.ParapetTop != nil {
				e.Rubber, e.Top = *r.in.ParapetHeight, *r.in.ParapetTop
			}
		case geom.Gutter:
			e.Tuck = r.in.Tuck
		}
		si.Edges = append(si.Edges, e)
	}
	if r.p.Skew != nil && r.p.Outline.IsRightAngled() {
		si.Skew = unit.Length(math.Abs(float64(*r.p.Skew)))
	}
	if r.in.SheetStep != nil {
		si.Step = *r.in.SheetStep
	}
	si.Widths = r.in.SheetWidths
	for _, o := range r.p.Openings {
		x, y := max(o.Dia, o.Length)/2+openingRoom, max(o.Dia, o.Depth)/2+openingRoom
		si.Clear = append(si.Clear, geom.Rect{Min: o.Centre.Add(-x, -y), Max: o.Centre.Add(x, y)})
	}
	return si
}

// openingRoom is what a seam keeps from a pipe or rooflight: the room of its
// patch, common practice, no source.
const openingRoom = 150 * unit.Millimetre

func (r *reckoner) sheet() {
	if !r.known() {
		return
	}
	si := r.sheetInput()
	size, err := sheet.SizeOf(si)
	if r.failed("sheet", err) {
		return
	}
	s := Sheet{Length: size.Length, Width: size.Width, Mass: size.Mass, Hands: size.Hands}
	for _, a := range size.Allowances {
		s.Allow, s.Least = append(s.Allow, a.Wanted), append(s.Least, a.Least)
	}
	if len(si.Widths) > 0 {
		laid, err := sheet.Lay(si)
		if !r.failed("sheet-strips", err) && len(laid.Strips) > 1 {
			s.Strips, s.Seams, s.Run, s.Mass, s.Hands = laid.Strips, laid.Seams, laid.Run, laid.Mass, laid.Hands
		}
	}
	if offcuts, err := sheet.Offcuts(si); !r.failed("sheet-offcuts", err) {
		s.Offcuts = offcuts
	}
	if r.in.SheetLength != nil && r.in.SheetWidth != nil && len(s.Strips) == 0 {
		d, err := sheet.Deliver(si, sheet.Delivered{Length: *r.in.SheetLength, Width: *r.in.SheetWidth})
		if r.failed("sheet", err) {
			return
		}
		s.lacks(d.Overlaps, d.Remedies)
	}
	r.p.Sheet = &s
	r.used("sheet", sheet.ID, sheet.LayID, sheet.OverlapID)
}

// lacks notes the short edges, and the acts that would cure them all.
func (s *Sheet) lacks(overlaps []sheet.Overlap, remedies []sheet.Remedy) {
	times := map[sheet.Act]int{}
	for i, o := range overlaps {
		if o.Short <= 0 {
			continue
		}
		l := Lack{Edge: i, Short: o.Short, Least: o.Least}
		for _, m := range remedies {
			if m.Edge == i {
				l.Acts = append(l.Acts, m)
				times[m.Act]++
			}
		}
		s.Short = max(s.Short, o.Short)
		s.Lacks = append(s.Lacks, l)
	}
	for _, a := range []sheet.Act{sheet.Shift, sheet.Lower, sheet.AddTo, sheet.Reorder} {
		if len(s.Lacks) > 0 && times[a] == len(s.Lacks) {
			s.Remedies = append(s.Remedies, a)
		}
	}
}

// Lacking are the overlaps as read off the dry-laid sheet, judged: the short
// edges and what can be done about each.
func Lacking(in Inputs, overlaps []unit.Length) []Lack {
	r := reckoner{in: in, p: blank()}
	r.roof()
	if !r.known() {
		return nil
	}
	si := r.sheetInput()
	if in.SheetRemedy == string(sheet.Lower) {
		for i, e := range r.p.Outline.Edges {
			if e.Kind == geom.Wall {
				si.Edges[i].Rubber = sheet.LeastUpstand
			}
		}
	}
	have, err := sheet.Measured(si, overlaps)
	if err != nil {
		return nil
	}
	remedies, err := sheet.Remedies(si, have)
	if err != nil {
		return nil
	}
	var s Sheet
	s.lacks(have, remedies)
	return s.Lacks
}

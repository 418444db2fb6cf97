package fixings

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// decked counts deck screws from the layout, or estimates them from the area.
func (in FixingsIn) decked() (FixingsOut, error) {
	out := FixingsOut{Notes: []Note{}}
	if in.BoardTMM != nil {
		l, d, err := DeckScrewSize(unit.Length(*in.BoardTMM))
		if err != nil {
			return FixingsOut{}, err
		}
		out.ScrewLenMM, out.ScrewDMM = mm(l), mm(d)
	}
	var err error
	if len(in.Rows) == 0 {
		area, err := need("area_m2", in.AreaM2)
		if err != nil {
			return out, err
		}
		out.Count, err = DeckScrewEstimate(unit.Area(area)*unit.SquareMetre, or(in.SeamNoggins, true))
		out.note(Estimate)
		return out, err
	}
	deck := DeckLayout{SeamNoggins: or(in.SeamNoggins, true), OuterEdges: or(in.OuterEdges, false)}
	if deck.Lines, err = in.lines(); err != nil {
		return out, err
	}
	for _, row := range in.Rows {
		r := DeckRow{Width: unit.Length(row.WidthMM)}
		for _, j := range row.JointsMM {
			at, ok := nearest(deck.Lines, j)
			if !ok {
				return out, &calc.DomainError{Op: topic, Field: "rows", Got: j, Wanted: "joints on support lines"}
			}
			r.Joints = append(r.Joints, at)
		}
		deck.Rows = append(deck.Rows, r)
	}
	if out.Count, err = DeckScrews(deck); err != nil {
		return FixingsOut{}, inField(inField(err, "rows", "joints"), "rows", "width_mm")
	}
	out.FirstMM, out.SpacingMM = deckInset, deckEdge
	return out, nil
}

// lines are the support lines as told, or every joist_spacing_mm of run_mm.
func (in FixingsIn) lines() ([]unit.Length, error) {
	if len(in.LinesMM) > 0 {
		return lengths(in.LinesMM), nil
	}
	run, err := need("run_mm", in.RunMM)
	if err != nil {
		return nil, err
	}
	apart, err := need("joist_spacing_mm", in.JoistSpacingMM)
	if err != nil {
		return nil, err
	}
	if err := calc.Outside(topic, "joist_spacing_mm", apart, 100, 3000, "mm"); err != nil {
		return nil, err
	}
	if err := calc.Outside(topic, "run_mm", run, 100, float64(longestRun), "mm"); err != nil {
		return nil, err
	}
	var lines []unit.Length
	for i := 0; float64(i)*apart < run-1e-6; i++ {
		lines = append(lines, unit.Length(float64(i)*apart))
	}
	return append(lines, unit.Length(run)), nil
}

// nearest is the line within a millimetre of a place.
func nearest(lines []unit.Length, at float64) (int, bool) {
	for i, l := range lines {
		if math.Abs(float64(l)-at) <= 1 {
			return i, true
		}
	}
	return 0, false
}

func lengths(v []float64) []unit.Length {
	l := make([]unit.Length, len(v))
	for i := range v {
		l[i] = unit.Length(v[i])
	}
	return l
}

func (in FixingsIn) ended() (FixingsOut, error) {
	ends, err := Ends(or(in.HangerEnds, 0), or(in.PlateEnds, 0))
	if err != nil {
		return FixingsOut{}, err
	}
	out := FixingsOut{Count: ends.Hangers, SkewNails: ends.SkewNails, Clips: ends.Clips, Notes: []Note{}}
	if ends.Hangers > 0 {
		out.note(AllHoles)
	}
	if ends.SkewNails > 0 {
		out.note(LocatingOnly)
	}
	return out, nil
}

func (in FixingsIn) nogged() (FixingsOut, error) {
	thick, err := need("joist_mm", in.JoistMM)
	if err != nil {
		return FixingsOut{}, err
	}
	n, err := need("board_lines", in.BoardLines)
	if err != nil {
		return FixingsOut{}, err
	}
	groups, err := Noggins(lengths(in.LinesMM), unit.Length(thick), n)
	if err != nil {
		return FixingsOut{}, err
	}
	out := FixingsOut{Notes: []Note{}}
	out.cut(groups)
	return out, nil
}

func (in FixingsIn) strutted() (FixingsOut, error) {
	span, err := need("clear_span_mm", in.ClearSpanMM)
	if err != nil {
		return FixingsOut{}, err
	}
	out := FixingsOut{Notes: []Note{}}
	if len(in.LinesMM) == 0 {
		out.Rows, err = StruttingRows(unit.Length(span))
		return out, err
	}
	thick, err := need("joist_mm", in.JoistMM)
	if err != nil {
		return FixingsOut{}, err
	}
	depth, err := need("joist_h_mm", in.JoistHMM)
	if err != nil {
		return FixingsOut{}, err
	}
	res, err := Strutting(StruttingIn{Span: unit.Length(span), Centres: lengths(in.LinesMM), Thick: unit.Length(thick), Depth: unit.Length(depth)})
	if err != nil {
		return FixingsOut{}, err
	}
	out.Rows, out.DepthMM = res.Rows, mm(res.Depth)
	out.cut(res.Solid)
	for _, g := range res.Crossed {
		out.Crossed = append(out.Crossed, FixingsPieces{Count: g.Count, LengthMM: float64(g.Length)})
	}
	out.Blocks = res.Blocks
	for i, at := range res.At {
		out.MarksMM = append(out.MarksMM, float64(at))
		if i == 0 {
			out.FirstMM, out.SpacingMM = float64(at), float64(at)
		}
	}
	if res.Rows > 0 {
		out.note(BlockEnds)
	}
	return out, nil
}

// cut writes pieces and counts them.
func (o *FixingsOut) cut(groups []Pieces) {
	for _, g := range groups {
		o.Pieces = append(o.Pieces, FixingsPieces{Count: g.Count, LengthMM: float64(g.Length)})
		o.Count += g.Count
	}
}

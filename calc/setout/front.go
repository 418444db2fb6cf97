package setout

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// FrontID names the rule for the front line and its version.
const FrontID = "setout.front/1"

const (
	// mostTail bounds an overhang that nobody designed: common practice, no source.
	mostTail      = 450 * unit.Millimetre
	mostTailShare = 0.25 // of the span behind it
)

// FrontInput is the gutter edge before anything is cut. Every distance runs
// outwards from one datum, the outer face of the wall plate.
type FrontInput struct {
	Drip  DripInput
	Face  unit.Length   // where the face of the fascia is to stand
	Tails []unit.Length // ends of the joists as they are, uncut
	Span  unit.Length   // clear span behind the tails; 0: unknown, not judged
}

// TailCut is one joist end at the string line.
type TailCut struct {
	Off   unit.Length // to cut off
	Short unit.Length // missing: sister a tail on
}

// Front is the lines of the gutter edge, from the same datum.
type Front struct {
	Cut        unit.Length // string line: joist ends and deck edge
	Face       unit.Length // face of the fascia, back of the gutter
	DripLine   unit.Length // outermost point of the trim
	GutterFrom unit.Length
	GutterTo   unit.Length
	Drip       Drip
	Tails      []TailCut
	Short      int         // tails that do not reach
	MostTail   unit.Length // longest tail that needs no design; 0: span unknown
	TooLong    bool
}

// FrontLine returns the string line the tails and the deck are cut to, and
// what each tail needs.
//
//	cut = face − fascia    drip line = face + drip
//
// Source: common practice, no source; overhang at most a quarter of the span and 450 mm common practice, no source.
// Shape: every tail is either cut or short, never both; a thicker fascia moves the cut in.
// Domain: as DripPast; face 0 to 1000 and not inside the fascia's own thickness; tails 0 to 3000, at most 200; span 0 or 500 to 10000 mm.
// Ignores: what the overhang weighs and what wind lifts.
// Errors: DomainError only.
func FrontLine(in FrontInput) (Front, error) {
	const op = "setout.front"
	drip, err := DripPast(in.Drip)
	if err != nil {
		return Front{}, err
	}
	if err := calc.Outside(op, "face_mm", float64(in.Face), float64(in.Drip.Fascia), 1000, "mm"); err != nil {
		return Front{}, err
	}
	if err := calc.Outside(op, "tails_mm", float64(len(in.Tails)), 0, 200, "joists"); err != nil {
		return Front{}, err
	}
	if in.Span != 0 {
		if err := calc.Outside(op, "span_mm", float64(in.Span), 500, 10000, "mm"); err != nil {
			return Front{}, err
		}
	}
	f := Front{
		Cut: in.Face - in.Drip.Fascia, Face: in.Face, DripLine: in.Face + drip.Past,
		GutterFrom: in.Face, GutterTo: in.Face + in.Drip.Gutter, Drip: drip,
	}
	for _, tail := range in.Tails {
		if err := calc.Outside(op, "tails_mm", float64(tail), 0, 3000, "mm"); err != nil {
			return Front{}, err
		}
		f.Tails = append(f.Tails, TailCut{Off: max(0, tail-f.Cut), Short: max(0, f.Cut-tail)})
		if tail < f.Cut {
			f.Short++
		}
	}
	if in.Span != 0 {
		f.MostTail = min(mostTail, unit.Length(mostTailShare*float64(in.Span)))
		f.TooLong = f.Cut > f.MostTail
	}
	return f, nil
}

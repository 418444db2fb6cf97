package plan

import (
	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/setout"
	"chargehand/calc/unit"
)

// Drip is how far the trim's edge stands past the fascia.
type Drip struct {
	Drip, Least, Most unit.Length
	Status            calc.Status
}

// Front is the lines of the gutter edge, outwards from the outer face of the
// wall plate.
type Front struct {
	Cut, Face, DripLine  unit.Length
	GutterFrom, GutterTo unit.Length
	MostTail             unit.Length // longest tail that needs no design
	TooLong              bool
}

func (r *reckoner) drip() {
	in := r.in
	if in.Fascia == nil || in.Batten == nil || in.Trim == nil || in.GutterSize == nil {
		return
	}
	di := setout.DripInput{Fascia: *in.Fascia, Batten: *in.Batten, Trim: *in.Trim, Gutter: *in.GutterSize, BattenOnFascia: in.BattenOnFascia}
	d, err := setout.DripPast(di)
	if r.failed("drip", err) {
		return
	}
	r.p.Drip = &Drip{Drip: d.Past, Least: d.Least, Most: d.Most}
	r.used("drip", setout.DripID)
	if in.Face == nil || in.ClearSpan == nil {
		return
	}
	f, err := setout.FrontLine(setout.FrontInput{Drip: di, Face: *in.Face, Span: *in.ClearSpan})
	if r.failed("front", err) {
		return
	}
	// Without the tails as they are, the length that would be cut is the tail.
	r.p.Front = &Front{Cut: f.Cut, Face: *in.Face, DripLine: f.DripLine, GutterFrom: f.GutterFrom, GutterTo: f.GutterTo, MostTail: f.MostTail, TooLong: f.Cut > f.MostTail}
	r.used("front", setout.FrontID)
}

// UsualFace is where the fascia stands by the roof's own measures: what the
// deck's depth leaves beyond the span and its two bearings, and the fascia
// itself. Where that is not known or leaves nothing it is the tail as ordered.
func (p *Plan) UsualFace(in Inputs) *unit.Length {
	if in.Fascia == nil || p.Outline == nil {
		return nil
	}
	past := unit.Length(tailLength)
	if in.ClearSpan != nil && in.Shape != "walked" && p.Outline.Edges[0].Kind == geom.Gutter {
		if d := *p.Depth - *in.ClearSpan - 2*joistBearing; d > 0 {
			past = d
		}
	}
	face := past + *in.Fascia
	return &face
}

package setout

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// FrontIn is the topic front.
type FrontIn struct {
	Fascia   float64   `json:"fascia_mm" doc:"as measured" min:"0" max:"100"`
	Batten   float64   `json:"batten_mm" doc:"thickness of the batten behind the trim" min:"0" max:"100"`
	Trim     float64   `json:"trim_mm" doc:"how far the trim stands out from the batten" min:"0" max:"50"`
	Gutter   float64   `json:"gutter_mm" doc:"width across the gutter" min:"60" max:"250"`
	OnFascia *bool     `json:"batten_on_fascia,omitempty" doc:"the batten is fixed on the face of the fascia"`
	Face     *float64  `json:"face_mm,omitempty" doc:"from the outer face of the wall plate to where the face of the fascia is to stand" min:"0" max:"1000"`
	Tails    []float64 `json:"tails_mm,omitempty" doc:"ends of the joists as they are, from the same plate; with face_mm"`
	Span     *float64  `json:"span_mm,omitempty" doc:"clear span behind the tails" min:"500" max:"10000"`
}

// FrontOut is the answer of the topic front.
type FrontOut struct {
	Drip        float64    `json:"drip_mm" doc:"past the face of the fascia"`
	Least       float64    `json:"least_mm"`
	Most        float64    `json:"most_mm" doc:"55, and half the gutter"`
	Reach       Reach      `json:"reach" enum:"reaches,short,beyond"`
	BattenLeast float64    `json:"batten_least_mm" doc:"batten that would do, the rest unchanged"`
	BattenMost  float64    `json:"batten_most_mm"`
	Cut         *float64   `json:"cut_mm,omitempty" doc:"string line: joist ends and deck edge"`
	DripLine    *float64   `json:"drip_line_mm,omitempty"`
	GutterTo    *float64   `json:"gutter_to_mm,omitempty"`
	Tails       []TailSpan `json:"tails,omitempty"`
	MostTail    *float64   `json:"most_tail_mm,omitempty" doc:"longest tail that needs no design"`
	TooLong     bool       `json:"too_long,omitempty"`
}

// TailSpan is what one joist end needs.
type TailSpan struct {
	Off   float64 `json:"off_mm" doc:"to cut off"`
	Short float64 `json:"short_mm" doc:"missing"`
}

// ReckonFront is DripPast and, with face_mm, FrontLine as the topic front.
func ReckonFront(in FrontIn) (FrontOut, error) {
	drip := DripInput{
		Fascia: unit.Length(in.Fascia), Batten: unit.Length(in.Batten), Trim: unit.Length(in.Trim),
		Gutter: unit.Length(in.Gutter), BattenOnFascia: in.OnFascia != nil && *in.OnFascia,
	}
	d, err := DripPast(drip)
	if err != nil {
		return FrontOut{}, err
	}
	out := FrontOut{
		Drip: float64(d.Past), Least: float64(d.Least), Most: float64(d.Most), Reach: d.Reach,
		BattenLeast: float64(d.BattenLeast), BattenMost: float64(d.BattenMost),
	}
	if in.Face == nil {
		if in.Tails != nil || in.Span != nil {
			return FrontOut{}, &calc.DomainError{Op: "setout.front", Field: "face_mm", Got: nil, Wanted: "where the face of the fascia is to stand, beside tails_mm or span_mm"}
		}
		return out, nil
	}
	span, err := usual("setout.front", "span_mm", in.Span, 0)
	if err != nil {
		return FrontOut{}, err
	}
	f, err := FrontLine(FrontInput{Drip: drip, Face: unit.Length(*in.Face), Tails: lengths(in.Tails), Span: unit.Length(span)})
	if err != nil {
		return FrontOut{}, err
	}
	out.Cut, out.DripLine, out.GutterTo = number(f.Cut), number(f.DripLine), number(f.GutterTo)
	for _, t := range f.Tails {
		out.Tails = append(out.Tails, TailSpan{Off: float64(t.Off), Short: float64(t.Short)})
	}
	if in.Span != nil {
		out.MostTail, out.TooLong = number(f.MostTail), f.TooLong
	}
	return out, nil
}

package sheet

import (
	"errors"
	"strings"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// WalkedEdge is one edge of an outline, walked clockwise from the right end of
// the gutter.
type WalkedEdge struct {
	Length float64 `json:"length_mm" min:"1" max:"100000"`
	Turn   string  `json:"turn,omitempty" doc:"at the end of the edge: right is an external corner; may be left out in the last" enum:"right,left,straight"`
}

// SheetIn is the topic sheet.
type SheetIn struct {
	Length    *float64     `json:"length_mm,omitempty" doc:"deck along the gutter; with depth_mm, or else outline" min:"500" max:"20000"`
	Depth     *float64     `json:"depth_mm,omitempty" doc:"deck along the fall" min:"500" max:"20000"`
	Outline   []WalkedEdge `json:"outline,omitempty" doc:"a right-angled outline, clockwise from the gutter"`
	Edges     []string     `json:"edges" doc:"what stands on each edge, clockwise from the gutter" enum:"gutter,verge,wall,parapet"`
	Rubber    []float64    `json:"rubber_heights_mm,omitempty" doc:"for each edge: greatest height of rubber on a wall (0: 150), inside height of a parapet, 0 on a free edge"`
	Tops      []float64    `json:"parapet_tops_mm,omitempty" doc:"for each edge: across the top of a parapet that the sheet is taken over, else 0"`
	Tuck      *bool        `json:"tuck,omitempty" doc:"rubber goes down behind the fascia at the gutter"`
	Skew      *float64     `json:"skew_mm,omitempty" doc:"how far the head of the roof is shifted along the gutter" min:"-1000" max:"1000"`
	Step      *float64     `json:"step_mm,omitempty" doc:"supplier's cutting step; none: 100" min:"1" max:"1000"`
	Thickness *float64     `json:"thickness_mm,omitempty" doc:"none: 1.2" min:"1" max:"2.5"`
	Widths    []float64    `json:"widths_mm,omitempty" doc:"sheet widths to be had; none: any"`
}

// SheetOut is the answer of the topic sheet.
type SheetOut struct {
	Length     float64            `json:"length_mm" doc:"along the gutter"`
	Width      float64            `json:"width_mm" doc:"up the fall"`
	Mass       float64            `json:"mass_kg"`
	Hands      int                `json:"hands" doc:"people to carry it"`
	Area       float64            `json:"area_m2"`
	Roof       float64            `json:"roof_area_m2"`
	Allowances map[string]float64 `json:"allowances" doc:"greatest past the deck for each kind of edge, mm: gutter, verge, wall, parapet"`
	ByEdge     []float64          `json:"edge_allowances_mm" doc:"past each edge, in the order of edges"`
	Seams      []float64          `json:"seams"`
}

// ReckonSheet is SizeOf as the topic sheet.
func ReckonSheet(in SheetIn) (SheetOut, error) {
	input, err := in.input()
	if err != nil {
		return SheetOut{}, err
	}
	s, err := SizeOf(input)
	if err != nil {
		return SheetOut{}, err
	}
	out := SheetOut{
		Length: float64(s.Length), Width: float64(s.Width), Mass: float64(s.Mass), Hands: s.Hands,
		Area: s.Area.In(unit.SquareMetre), Roof: input.Outline.Area().In(unit.SquareMetre),
		Allowances: map[string]float64{}, Seams: []float64{},
	}
	for i, a := range s.Allowances {
		out.Allowances[in.Edges[i]] = max(out.Allowances[in.Edges[i]], float64(a.Wanted))
		out.ByEdge = append(out.ByEdge, float64(a.Wanted))
	}
	return out, nil
}

func (in SheetIn) input() (Input, error) {
	o, err := in.outline()
	if err != nil {
		return Input{}, err
	}
	for _, given := range []struct {
		field string
		v     *float64
	}{{"step_mm", in.Step}, {"thickness_mm", in.Thickness}} {
		if given.v != nil && *given.v == 0 { // a zero in Input means the usual one
			return Input{}, refusal(given.field, 0.0, "more than 0")
		}
	}
	n := len(in.Edges)
	if in.Rubber != nil && len(in.Rubber) != n {
		return Input{}, refusal("rubber_heights_mm", len(in.Rubber), "one height for each of edges")
	}
	if in.Tops != nil && len(in.Tops) != n {
		return Input{}, refusal("parapet_tops_mm", len(in.Tops), "one width for each of edges")
	}
	out := Input{
		Outline: o, Edges: make([]Edge, n),
		Skew: unit.Length(or(in.Skew, 0)), Step: unit.Length(or(in.Step, float64(usualStep))), Thickness: unit.Length(or(in.Thickness, float64(usualThickness))),
	}
	for i, kind := range in.Edges {
		e := &out.Edges[i]
		e.Tuck = in.Tuck != nil && *in.Tuck && geom.Kind(kind) == geom.Gutter
		if in.Rubber != nil {
			e.Rubber = unit.Length(in.Rubber[i])
		}
		if in.Tops != nil {
			e.Top = unit.Length(in.Tops[i])
		}
	}
	for _, w := range in.Widths {
		out.Widths = append(out.Widths, unit.Length(w))
	}
	return out, nil
}

// outline reads the plan in either of its two forms.
func (in SheetIn) outline() (geom.Outline, error) {
	n := len(in.Edges)
	rectangle := in.Length != nil || in.Depth != nil
	switch {
	case rectangle && in.Outline != nil:
		return geom.Outline{}, refusal("outline", len(in.Outline), "length_mm and depth_mm, or outline, not both")
	case rectangle && in.Length == nil:
		return geom.Outline{}, refusal("length_mm", nil, "500 to 20000 mm")
	case rectangle && in.Depth == nil:
		return geom.Outline{}, refusal("depth_mm", nil, "500 to 20000 mm")
	case rectangle && n != 4:
		return geom.Outline{}, refusal("edges", n, "four kinds clockwise from the gutter")
	case rectangle:
		return geom.Rectangle(unit.Length(*in.Length), unit.Length(*in.Depth), [4]geom.Kind{
			geom.Kind(in.Edges[0]), geom.Kind(in.Edges[1]), geom.Kind(in.Edges[2]), geom.Kind(in.Edges[3]),
		})
	case len(in.Outline) != n:
		return geom.Outline{}, refusal("outline", len(in.Outline), "one entry for each of edges, or length_mm and depth_mm")
	}
	steps := make([]geom.Step, n)
	for i, w := range in.Outline {
		steps[i] = geom.Step{Length: unit.Length(w.Length), Turn: geom.Turn(w.Turn), Kind: geom.Kind(in.Edges[i])}
	}
	w, err := geom.Walk(steps)
	if err != nil {
		var domain *calc.DomainError
		if errors.As(err, &domain) { // a walk names its edges walk[i]
			domain.Field = strings.Replace(domain.Field, "walk", "outline", 1)
			return geom.Outline{}, domain
		}
		return geom.Outline{}, err
	}
	return w.Outline, nil
}

func refusal(field string, got any, wanted string) error {
	return &calc.DomainError{Op: "sheet.size", Field: field, Got: got, Wanted: wanted}
}

func or(p *float64, none float64) float64 {
	if p == nil {
		return none
	}
	return *p
}

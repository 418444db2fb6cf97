package sheet

import (
	"errors"
	"fmt"
	"strings"

	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// ReckonSheet is SizeOf, Lay, Offcuts, Corners and, where a sheet has come,
// Deliver or Measured as the topic sheet.
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
		Allowances: map[string]float64{}, Strips: []StripOut{}, Seams: []SeamOut{}, Offcuts: []PlaceMM{},
	}
	for i, a := range s.Allowances {
		out.Allowances[in.Edges[i]] = max(out.Allowances[in.Edges[i]], float64(a.Wanted))
		out.ByEdge = append(out.ByEdge, float64(a.Wanted))
	}
	for _, c := range Corners(input.Outline) {
		out.Corners = append(out.Corners, CornerOut{Before: c.Before + 1, After: c.After + 1, Detail: c.Detail})
	}
	if err := out.lay(in, input); err != nil {
		return SheetOut{}, err
	}
	if err := out.serve(in, input); err != nil {
		return SheetOut{}, err
	}
	return out, nil
}

// lay fills in strips, seams, offcuts and rolls.
func (out *SheetOut) lay(in SheetIn, input Input) error {
	laid, err := Lay(input)
	if err != nil {
		return err
	}
	offcuts, err := Offcuts(input)
	if err != nil {
		return err
	}
	out.Run, out.Recess = laid.Run, laid.Recess
	for _, s := range laid.Strips {
		out.Strips = append(out.Strips, StripOut{Place: placeOf(s.Place), Lies: s.Lies, Width: float64(s.Width), Length: float64(s.Length)})
	}
	for _, s := range laid.Seams {
		out.Seams = append(out.Seams, SeamOut{From: float64(s.From), To: float64(s.To), Length: float64(s.Length)})
	}
	for _, r := range offcuts {
		out.Offcuts = append(out.Offcuts, placeOf(r))
	}
	if input.Widths != nil {
		out.Mass, out.Hands, out.Area = float64(laid.Mass), laid.Hands, laid.Area.In(unit.SquareMetre)
	}
	if in.Roll == nil {
		return nil
	}
	rolls, err := FromRolls(laid, unit.Length(*in.Roll))
	for _, r := range rolls {
		out.Rolls = append(out.Rolls, RollsOut{Width: float64(r.Width), Count: r.List.Count, Proven: r.List.Proven})
	}
	return err
}

// serve fills in what the edges get of a sheet that came.
func (out *SheetOut) serve(in SheetIn, input Input) error {
	var d Delivery
	var err error
	switch {
	case in.Delivered != nil && in.Overlaps != nil:
		return refusal("overlaps_mm", len(in.Overlaps), "delivered_mm or overlaps_mm, not both")
	case in.Delivered != nil && len(in.Delivered) != 2:
		return refusal("delivered_mm", len(in.Delivered), "a length and a width")
	case in.Delivered != nil:
		d, err = Deliver(input, Delivered{Length: unit.Length(in.Delivered[0]), Width: unit.Length(in.Delivered[1])})
	case in.Overlaps != nil:
		read := make([]unit.Length, len(in.Overlaps))
		for i, v := range in.Overlaps {
			read[i] = unit.Length(v)
		}
		if d.Overlaps, err = Measured(input, read); err == nil {
			d.Remedies, err = Remedies(input, d.Overlaps)
		}
	}
	if err != nil {
		return err
	}
	out.Turned = d.Turned
	for _, o := range d.Overlaps {
		out.Served = append(out.Served, ServedOut{Have: float64(o.Have), Least: float64(o.Least), Short: float64(o.Short), Grade: o.Grade})
	}
	for _, r := range d.Remedies {
		out.Remedies = append(out.Remedies, RemedyOut{Edge: r.Edge + 1, Act: r.Act, By: float64(r.By)})
	}
	return nil
}

func placeOf(r geom.Rect) PlaceMM {
	return PlaceMM{X: float64(r.Min.X), Y: float64(r.Min.Y), Length: float64(r.Length()), Depth: float64(r.Depth())}
}

func (in SheetIn) input() (Input, error) {
	o, err := in.outline()
	if err != nil {
		return Input{}, err
	}
	for _, given := range []struct {
		field string
		v     *float64
	}{{"step_mm", in.Step}, {"thickness_mm", in.Thickness}, {"lap_mm", in.Lap}} {
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
		Lap: unit.Length(or(in.Lap, float64(usualLap))),
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
	for i, p := range in.Clear {
		for _, c := range []struct {
			key    string
			v, min float64
		}{{"x_mm", p.X, -30000}, {"y_mm", p.Y, -30000}, {"length_mm", p.Length, 0}, {"depth_mm", p.Depth, 0}} {
			if err := calc.Outside("sheet.lay", fmt.Sprintf("keep_clear[%d].%s", i, c.key), c.v, c.min, 30000, "mm"); err != nil {
				return Input{}, err
			}
		}
		at := geom.Point{X: unit.Length(p.X), Y: unit.Length(p.Y)}
		out.Clear = append(out.Clear, geom.Rect{Min: at, Max: at.Add(unit.Length(p.Length), unit.Length(p.Depth))})
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

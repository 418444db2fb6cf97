package geom

import (
	"errors"
	"fmt"

	"chargehand/calc"
	"chargehand/calc/unit"
)

const roofOp = "geom.roof"

// ReckonRoof answers the topic roof.
//
// Errors: DomainError whose Field is the JSON key, walk[i] and the like
// counting from 0.
func ReckonRoof(in RoofIn) (RoofOut, error) {
	out, o, err := in.measure()
	if err != nil {
		return RoofOut{}, err
	}
	out.describe(o)
	if in.RowMM != nil {
		if out.TaperRows, err = taperRows(o, *in.RowMM); err != nil {
			return RoofOut{}, err
		}
	}
	if out.Clearances, err = in.clearances(o); err != nil {
		return RoofOut{}, err
	}
	return out, nil
}

// measure finds which of the three forms was given and closes it.
func (in RoofIn) measure() (RoofOut, Outline, error) {
	plain := in.LengthMM != nil || in.DepthMM != nil
	braced := in.SidesMM != nil || in.DiagonalsMM != nil
	walked := in.Walk != nil
	switch {
	case plain && !braced && !walked:
		return in.rectangle()
	case braced && !plain && !walked:
		return in.fourSider()
	case walked && !plain && !braced:
		return in.walked()
	}
	return refuseRoof("length_mm", fmt.Sprintf("length and depth: %t, sides and diagonals: %t, walk: %t", plain, braced, walked),
		"exactly one of length_mm with depth_mm, sides_mm with diagonals_mm, walk")
}

func (in RoofIn) rectangle() (RoofOut, Outline, error) {
	if in.LengthMM == nil {
		return refuseRoof("length_mm", nil, "a length beside depth_mm")
	}
	if in.DepthMM == nil {
		return refuseRoof("depth_mm", nil, "a depth beside length_mm")
	}
	kinds, err := in.fourKinds()
	if err != nil {
		return RoofOut{}, Outline{}, err
	}
	o, err := Rectangle(unit.Length(*in.LengthMM), unit.Length(*in.DepthMM), kinds)
	return RoofOut{Closes: true}, o, err
}

func (in RoofIn) fourSider() (RoofOut, Outline, error) {
	if len(in.SidesMM) != 4 {
		return refuseRoof("sides_mm", len(in.SidesMM), "four sides")
	}
	if len(in.DiagonalsMM) != 2 {
		return refuseRoof("diagonals_mm", len(in.DiagonalsMM), "two diagonals")
	}
	kinds, err := in.fourKinds()
	if err != nil {
		return RoofOut{}, Outline{}, err
	}
	read := braces(append(append(make([]float64, 0, 6), in.SidesMM...), in.DiagonalsMM...))
	four, err := FourSider(read.taped(), kinds)
	if err != nil {
		return RoofOut{}, Outline{}, err
	}
	residuals := four.Residuals.braces()
	out := RoofOut{MisclosureMM: float64(four.Misclosure), Closes: four.Closes, ResidualsMM: residuals[:]}
	if !four.Closes {
		out.Remeasure = []string{"diagonals", "sides"}
	}
	return out, four.Outline, nil
}

func (in RoofIn) walked() (RoofOut, Outline, error) {
	if in.Edges != nil {
		return refuseRoof("edges", len(in.Edges), "nothing: a walk tells the kind of each edge itself")
	}
	steps := make([]Step, len(in.Walk))
	for i, s := range in.Walk {
		steps[i] = Step{Length: unit.Length(s.LengthMM), Turn: Turn(s.Turn), Kind: Kind(s.Kind)}
	}
	w, err := Walk(steps)
	if err != nil {
		var domain *calc.DomainError
		if errors.As(err, &domain) { // the topic speaks in JSON keys only
			return RoofOut{}, Outline{}, domain
		}
		return RoofOut{}, Outline{}, err
	}
	out := RoofOut{MisclosureMM: float64(w.Misclosure), Closes: true}
	for _, v := range w.Corrections {
		out.ResidualsMM = append(out.ResidualsMM, float64(v))
	}
	return out, w.Outline, nil
}

func (in RoofIn) fourKinds() ([4]Kind, error) {
	var kinds [4]Kind
	if len(in.Edges) != len(kinds) {
		return kinds, &calc.DomainError{Op: roofOp, Field: "edges", Got: len(in.Edges), Wanted: "four kinds clockwise from the gutter: gutter, verge, wall or parapet"}
	}
	for i, e := range in.Edges {
		kinds[i] = Kind(e)
	}
	return kinds, nil
}

// describe fills in what follows from the outline alone.
func (out *RoofOut) describe(o Outline) {
	out.AreaM2 = o.Area().In(unit.SquareMetre)
	out.Perimeter = RoofPerimeter{
		GutterMM:  float64(o.PerimeterOf(Gutter)),
		VergeMM:   float64(o.PerimeterOf(Verge)),
		WallMM:    float64(o.PerimeterOf(Wall)),
		ParapetMM: float64(o.PerimeterOf(Parapet)),
		TotalMM:   float64(o.Perimeter()),
	}
	out.CornersInternal, out.CornersExternal = o.CountCorners(Internal), o.CountCorners(External)
	for _, v := range o.Vertices {
		out.VerticesMM = append(out.VerticesMM, RoofVertex{XMM: float64(v.X), YMM: float64(v.Y)})
	}
	if d, ok := o.Diagonals(); ok {
		out.DiagonalsMM = []float64{float64(d[0]), float64(d[1])}
		out.Squareness = string(GradeDiagonals(d[0], d[1]))
	}
	out.SkewMM = float64(o.Skew())
	for _, t := range o.Tapers() {
		out.Taper = append(out.Taper, RoofTaper{Edge: t.Edge + 1, Kind: string(o.Edges[t.Edge].Kind),
			RunMM: float64(t.Run), CutFromMM: float64(t.CutFrom), CutToMM: float64(t.CutTo)})
	}
}

func taperRows(o Outline, width float64) ([]RoofTaperRow, error) {
	rows, err := o.TaperRows(unit.Length(width))
	if err != nil {
		return nil, err
	}
	told := make([]RoofTaperRow, len(rows))
	for i, r := range rows {
		told[i] = RoofTaperRow{Row: i + 1, LeftMM: float64(r.Left), LengthMM: float64(r.Length),
			LeftLowMM: float64(r.LeftLow), LeftHighMM: float64(r.LeftHigh),
			RightLowMM: float64(r.RightLow), RightHighMM: float64(r.RightHigh),
			HeightLeftMM: float64(r.HeightLeft), HeightRightMM: float64(r.HeightRight)}
	}
	return told, nil
}

func (in RoofIn) clearances(o Outline) ([]RoofClearance, error) {
	var openings []Opening
	var names, keys []string
	for i, p := range in.Pipes {
		openings = append(openings, Pipe(Point{unit.Length(p.XMM), unit.Length(p.YMM)}, unit.Length(p.DiaMM)))
		names, keys = append(names, fmt.Sprintf("pipe %d", i+1)), append(keys, fmt.Sprintf("pipes[%d]", i))
	}
	for i, l := range in.Rooflights {
		at := Point{unit.Length(l.XMM), unit.Length(l.YMM)}
		openings = append(openings, RooflightAt(Rect{Min: at, Max: at.Add(unit.Length(l.LengthMM), unit.Length(l.DepthMM))}))
		names, keys = append(names, fmt.Sprintf("rooflight %d", i+1)), append(keys, fmt.Sprintf("rooflights[%d]", i))
	}
	gaps, err := o.clearances(openings, keys)
	if err != nil {
		return nil, err
	}
	told := make([]RoofClearance, len(gaps))
	for i, g := range gaps {
		to := fmt.Sprintf("edge %d", g.Edge+1)
		if g.Other >= 0 {
			to = names[g.Other]
		}
		told[i] = RoofClearance{From: names[g.Opening], To: to, GapMM: float64(g.Gap), Room: string(RoomFor(g.Gap))}
	}
	return told, nil
}

func refuseRoof(field string, got any, wanted string) (RoofOut, Outline, error) {
	return RoofOut{}, Outline{}, &calc.DomainError{Op: roofOp, Field: field, Got: got, Wanted: wanted}
}

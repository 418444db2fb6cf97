package draw

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/load"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

// wind is the roof in the zones in which the wind lifts, for the direction that
// lifts most.
func wind(s Subject) (talk.Picture, bool) {
	p := s.Plan
	if p.Wind == nil || p.Outline == nil || len(p.Wind.Zones) < 3 {
		return talk.Picture{}, false
	}
	w := p.Wind
	o := *p.Outline
	shapes := []talk.Shape{}
	var told []any
	for _, z := range zonePlaces(w, o.Bounds()) {
		tone := map[string]talk.Tone{"F": talk.Shade, "G": talk.Tint}[z.zone.Name]
		pull := w.Uplift(z.zone)
		for i, r := range z.rects {
			pieces := clip(o.Vertices, r)
			if len(pieces) == 0 {
				continue
			}
			largest := pieces[0]
			for _, piece := range pieces {
				shapes = append(shapes, talk.Area{Tone: tone, Pen: talk.Narrow, Points: piece})
				if piece.Area() > largest.Area() {
					largest = piece
				}
			}
			text := talk.P("label.zone", "zone", z.zone.Name, "pull", pull)
			if i > 0 {
				text = talk.P("label.letter", "letter", z.zone.Name)
			}
			word := talk.Word{At: centre(largest.Bounds()), Text: text}
			if b := largest.Bounds(); b.Depth() > b.Length() {
				word.Turn = 90 * unit.Degree
			}
			shapes = append(shapes, word)
		}
		told = append(told, talk.P("picture.zone", "zone", z.zone.Name, "pull", pull, "area", z.zone.Area))
	}
	shapes = append(shapes, talk.Rim{Outline: o}, windArrow(w.Side, o.Bounds()))
	pic := talk.Picture{Sketch: talk.Sketch{Panels: []talk.Panel{{Shapes: shapes, Tall: 110}}}}
	args := []any{"total", w.Total, "pressure", w.Pressure}
	pic.Caption = talk.P("picture.wind", args...)
	pic.Alt = talk.P("picture.wind.alt", append(args, "zones", told)...)
	return pic, true
}

func windArrow(side string, b geom.Rect) talk.Arrow {
	if side == "side" {
		y := (b.Min.Y + b.Max.Y) / 2
		return talk.Arrow{Pen: talk.Heavy, From: at(b.Min.X-b.Length()*0.16, y), To: at(b.Min.X-b.Length()*0.05, y)}
	}
	x := (b.Min.X + b.Max.X) / 2
	return talk.Arrow{Pen: talk.Heavy, From: at(x, b.Min.Y-b.Depth()*0.24), To: at(x, b.Min.Y-b.Depth()*0.08)}
}

// zonePlace is where a zone lies.
type zonePlace struct {
	zone  load.Zone
	rects []geom.Rect
}

// zonePlaces puts the zones on the roof's bounds: strips from the windward side,
// each as deep as its area asks for, the first with its two ends as a zone of
// their own.
func zonePlaces(w *plan.Wind, b geom.Rect) []zonePlace {
	across, along := b.Length(), b.Depth()
	put := func(x0, y0, x1, y1 unit.Length) geom.Rect {
		return geom.Rect{Min: b.Min.Add(x0, y0), Max: b.Min.Add(x1, y1)}
	}
	if w.Side == "side" {
		across, along = along, across
		put = func(x0, y0, x1, y1 unit.Length) geom.Rect {
			return geom.Rect{Min: b.Min.Add(y0, x0), Max: b.Min.Add(y1, x1)}
		}
	}
	by := map[string]load.Zone{}
	for _, z := range w.Zones {
		by[z.Name] = z
	}
	deep := unit.Length(float64(by["F"].Area+by["G"].Area) / float64(across)) // of the first strip
	var out []zonePlace
	if deep > 0 {
		end := unit.Length(float64(by["F"].Area) / 2 / float64(deep))
		out = append(out,
			zonePlace{by["F"], []geom.Rect{put(0, 0, end, deep), put(across-end, 0, across, deep)}},
			zonePlace{by["G"], []geom.Rect{put(end, 0, across-end, deep)}})
	}
	y := deep
	for _, name := range []string{"H", "I"} {
		z, ok := by[name]
		if !ok || z.Area <= 0 {
			continue
		}
		to := min(y+unit.Length(math.Round(float64(z.Area)/float64(across)*1e6)/1e6), along)
		out = append(out, zonePlace{z, []geom.Rect{put(0, y, across, to)}})
		y = to
	}
	return out
}

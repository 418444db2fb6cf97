package draw

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/unit"
	"chargehand/flow/talk"
)

func at(x, y unit.Length) geom.Point { return geom.Point{X: x, Y: y} }

// oblong is the rectangle between two corners.
func oblong(x0, y0, x1, y1 unit.Length) geom.Polygon {
	return geom.Polygon{{X: x0, Y: y0}, {X: x0, Y: y1}, {X: x1, Y: y1}, {X: x1, Y: y0}}
}

func rectOf(r geom.Rect) geom.Polygon { return oblong(r.Min.X, r.Min.Y, r.Max.X, r.Max.Y) }

// whole rounds half up to whole millimetres, once, on show.
func whole(l unit.Length) unit.Length { return unit.Length(math.Floor(float64(l) + 0.5)) }

// figure is a dimension's number, in mm without a unit.
func figure(l unit.Length) talk.Phrase { return talk.P("label.figure", "n", whole(l)) }

// dim measures directly from one point to another.
func dim(from, to geom.Point, away unit.Length) talk.Dim {
	return talk.Dim{From: from, To: to, Away: away, Text: figure(from.To(to))}
}

// across and upward measure along one axis only.
func across(from, to geom.Point, away unit.Length) talk.Dim {
	return talk.Dim{From: from, To: to, Along: talk.Across, Away: away, Text: figure(unit.Length(math.Abs(float64(to.X - from.X))))}
}

func upward(from, to geom.Point, away unit.Length) talk.Dim {
	return talk.Dim{From: from, To: to, Along: talk.Upward, Away: away, Text: figure(unit.Length(math.Abs(float64(to.Y - from.Y))))}
}

func line(pen talk.Pen, points ...geom.Point) talk.Stroke {
	return talk.Stroke{Pen: pen, Points: points}
}

func note(x, y unit.Length, key string, pairs ...any) talk.Note {
	return talk.Note{At: at(x, y), Text: talk.P(key, pairs...)}
}

// between is the place part of the way from one point to another.
func between(a, b geom.Point, part float64) geom.Point {
	return a.Add(unit.Length(part)*(b.X-a.X), unit.Length(part)*(b.Y-a.Y))
}

// heading is the direction from one point to another.
func heading(from, to geom.Point) unit.Angle {
	return unit.Angle(math.Atan2(float64(to.Y-from.Y), float64(to.X-from.X)))
}

func kindName(k geom.Kind) talk.Phrase { return talk.P("pick." + string(k)) }

// list makes lengths an argument that is told as a list.
func list(ls []unit.Length) []any {
	out := make([]any, len(ls))
	for i, l := range ls {
		out[i] = whole(l)
	}
	return out
}

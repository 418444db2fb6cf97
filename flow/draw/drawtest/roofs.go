// Package drawtest has roofs to draw, for tests of the pictures: four that every
// picture is looked at on, and as many random ones as one likes. All of them are
// invented.
package drawtest

import (
	"math"
	"math/rand/v2"
	"time"

	"chargehand/calc/geom"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/draw"
	"chargehand/flow/talk"
)

func mm(x float64) *unit.Length { l := unit.Length(x); return &l }
func num(x float64) *float64    { return &x }
func load(x float64) *unit.AreaLoad {
	l := unit.AreaLoad(x) * unit.KilonewtonPerM2
	return &l
}

// garage is what the roofs have in common.
func garage() plan.Inputs {
	return plan.Inputs{
		Use: "unheated", Hands: 2, Length: mm(4200), Depth: mm(3000), Edges: []string{"gutter", "verge", "wall", "verge"}, ClearSpan: mm(2850), Drop: mm(75),
		WallAbove: mm(2600), UpperDepth: mm(8000), Altitude: num(80), SnowZone: "2", Plate: "ledger", PlateWidth: mm(47), PlateHeight: mm(145),
		BoardLength: mm(2400), BoardWidth: mm(1200), MaxCentres: mm(410), Grade: "C24", JoistB: mm(47), JoistH: mm(170), JoistFix: "hanger",
		BoardThick: mm(18), Noggins: true, Fascia: mm(18), Batten: mm(38), Trim: mm(10), GutterSize: mm(112), WallGap: mm(10), TrimStock: []unit.Length{2500, 3000},
		Upstand: mm(150), BedJoint: mm(188), BoardTop: mm(178), ParapetHeight: mm(250), ParapetTop: mm(215),
		CopingWidth: mm(315), CopingPiece: mm(600), CopingThroat: mm(20),
		WindBy: "given", PeakPressure: load(0.7), RoofHeight: mm(3000),
		LabelMin: num(15), LabelC: num(20), SurfaceC: num(24), AirC: num(19), NightC: num(9), Damp: "normal", Wind: "calm", Rain: "none", Exit: "gutter",
		ContactDry: num(15), ContactMax: num(45), WallC: num(16), RubberC: num(24),
	}
}

// Names of the four roofs.
const (
	Rectangle   = "rectangle"
	LShape      = "l-shape"
	OutOfSquare = "out-of-square"
	ThreeWalls  = "three-walls"
)

// Roofs are the four that every picture is looked at on, by name.
func Roofs() map[string]draw.Subject {
	l := garage()
	l.Shape, l.Edges = "walked", nil
	l.Walk = []geom.Step{{Length: 5000, Turn: geom.Right, Kind: geom.Gutter}, {Length: 4800, Turn: geom.Right, Kind: geom.Verge}, {Length: 2200, Turn: geom.Right, Kind: geom.Wall},
		{Length: 1800, Turn: geom.Left, Kind: geom.Verge}, {Length: 2800, Turn: geom.Right, Kind: geom.Verge}, {Length: 3000, Turn: geom.Right, Kind: geom.Verge}}
	l.Pipes = []plan.Pipe{{Dia: 110, X: 600, Y: 4200}}
	l.Drop = mm(120)
	skew := garage()
	skew.Shape, skew.Sides, skew.Diagonals = "four-sided", &[4]unit.Length{5500, 2900, 5500, 2900}, &[2]unit.Length{6249, 6187}
	skew.Edges = []string{"gutter", "verge", "verge", "verge"}
	skew.WallAbove, skew.Exit, skew.Hands, skew.Faces = mm(0), "verge", 1, "south-west"
	walls := garage()
	walls.Length, walls.Depth, walls.Edges = mm(3200), mm(5400), []string{"gutter", "wall", "parapet", "wall"}
	walls.Drop, walls.ClearSpan = mm(135), mm(3000)
	walls.Pipes = []plan.Pipe{{Dia: 110, X: 300, Y: 4900}, {Dia: 50, X: 2600, Y: 800}}
	return map[string]draw.Subject{Rectangle: subject(garage()), LShape: subject(l), OutOfSquare: subject(skew), ThreeWalls: subject(walls)}
}

// subject is a roof in the middle of its glue: two strips are down.
func subject(in plan.Inputs) draw.Subject {
	p := plan.Reckon(in, nil)
	if p.Batch != nil && len(p.Batch.Ahead) > 2 {
		in.Laid = p.Batch.Ahead[:2]
		p = plan.Reckon(in, p)
	}
	return draw.Subject{In: in, Plan: p, Chase: 25, Story: story(),
		Batches: []draw.Begun{{Deck: 21, Open: 6.5, Good: true}, {Deck: 23, Open: 8, Good: true}}}
}

// story is a job of two days.
func story() *draw.Story {
	at := func(day, hour, min int) time.Time { return time.Date(2026, 5, day, hour-1, min, 0, 0, time.UTC) }
	name := func(id string) talk.Phrase { return talk.P("name." + id) }
	batch := func(n int, open, window unit.Minutes, deck unit.Celsius) talk.Phrase {
		return talk.P("label.story.batch", "n", n, "open", open, "window", window, "deck", deck)
	}
	return &draw.Story{Zone: "Europe/London", Entries: []draw.Entry{
		{At: at(11, 8, 5), Mark: draw.Entered, Text: talk.P("phase.survey", "n", 1, "of", 9)},
		{At: at(11, 9, 40), Mark: draw.Passed, Text: name("before")},
		{At: at(11, 10, 2), Mark: draw.Entered, Text: talk.P("phase.plates", "n", 2, "of", 9)},
		{At: at(11, 15, 30), Mark: draw.Passed, Text: name("plates-hold")},
		{At: at(14, 9, 12), Mark: draw.Entered, Text: talk.P("phase.membrane", "n", 6, "of", 9)},
		{At: at(14, 9, 50), Mark: draw.Left, Text: name("dry-hold")},
		{At: at(14, 10, 30), Mark: draw.Glued, Text: batch(1, 6.5, 11.3, 21), Open: 6.5, Usable: 6.8, Window: 11.3},
		{At: at(14, 10, 55), Mark: draw.Glued, Text: batch(2, 8, 10.6, 23), Open: 8, Usable: 7.4, Window: 10.6},
		{At: at(14, 11, 40), Mark: draw.Did, Text: talk.P("label.story.runs", "n", 1)},
		{At: at(14, 12, 10), Mark: draw.Due, Text: talk.P("clock.hose")},
	}}
}

// Random makes a roof: any shape, any edges, pipes and sizes as they come.
func Random(r *rand.Rand) draw.Subject {
	in := garage()
	between := func(low, high float64) float64 { return math.Round(low + r.Float64()*(high-low)) }
	some := func(of ...string) string { return of[r.IntN(len(of))] }
	kind := func() geom.Kind { return geom.Kind(some("verge", "wall", "parapet", "gutter", "verge")) }
	length, depth := between(1800, 9000), between(1500, 6000)
	in.Length, in.Depth = mm(length), mm(depth)
	in.Edges = []string{"gutter", string(kind()), string(kind()), string(kind())}
	switch r.IntN(4) {
	case 0: // an L, its cut-out at the back on the right
		a, b := math.Round(length*(0.25+0.45*r.Float64())), math.Round(depth*(0.25+0.45*r.Float64()))
		in.Shape, in.Edges = "walked", nil
		in.Walk = []geom.Step{{Length: unit.Length(length), Turn: geom.Right, Kind: geom.Gutter}, {Length: unit.Length(depth), Turn: geom.Right, Kind: kind()}, {Length: unit.Length(length - a), Turn: geom.Right, Kind: kind()},
			{Length: unit.Length(b), Turn: geom.Left, Kind: kind()}, {Length: unit.Length(a), Turn: geom.Right, Kind: kind()}, {Length: unit.Length(depth - b), Turn: geom.Right, Kind: kind()}}
	case 1: // a U round something at the back
		a, b, c := math.Round(length*(0.2+0.2*r.Float64())), math.Round(length*(0.2+0.2*r.Float64())), math.Round(depth*(0.2+0.4*r.Float64()))
		in.Shape, in.Edges = "walked", nil
		in.Walk = []geom.Step{{Length: unit.Length(length), Turn: geom.Right, Kind: geom.Gutter}, {Length: unit.Length(depth), Turn: geom.Right, Kind: kind()}, {Length: unit.Length(a), Turn: geom.Right, Kind: kind()},
			{Length: unit.Length(c), Turn: geom.Left, Kind: kind()}, {Length: unit.Length(length - a - b), Turn: geom.Left, Kind: kind()}, {Length: unit.Length(c), Turn: geom.Right, Kind: kind()},
			{Length: unit.Length(b), Turn: geom.Right, Kind: kind()}, {Length: unit.Length(depth), Turn: geom.Right, Kind: kind()}}
	case 2: // out of square by up to 40 mm
		lean := between(-40, 40)
		d := func(x float64) unit.Length { return unit.Length(math.Round(math.Hypot(length+x, depth))) }
		side := unit.Length(math.Round(math.Hypot(depth, lean)))
		in.Shape, in.Sides, in.Diagonals = "four-sided", &[4]unit.Length{unit.Length(length), side, unit.Length(length), side}, &[2]unit.Length{d(lean), d(-lean)}
	}
	in.ClearSpan = mm(math.Max(600, math.Min(depth-150, between(1500, 5000))))
	in.Drop = mm(math.Round(depth / (30 + 20*r.Float64())))
	in.BoardLength, in.BoardWidth = mm(one(r, 2400, 2440, 2500)), mm(one(r, 600, 1200, 1220))
	in.MaxCentres = mm(one(r, 410, 601))
	in.JoistB, in.JoistH = mm(one(r, 47, 63, 75)), mm(one(r, 97, 145, 170, 220))
	in.Fascia, in.Batten, in.Trim, in.GutterSize = mm(between(9, 30)), mm(between(25, 50)), mm(between(3, 20)), mm(one(r, 75, 100, 112, 125, 150))
	in.BattenOnFascia, in.Tuck = r.IntN(2) == 0, r.IntN(3) == 0
	in.BedJoint, in.BoardTop = mm(between(165, 300)), nil
	in.ParapetHeight, in.ParapetTop, in.CopingWidth = mm(between(150, 450)), mm(one(r, 100, 215, 330)), mm(one(r, 250, 315, 450))
	if r.IntN(3) == 0 {
		in.SheetWidths = []unit.Length{unit.Length(one(r, 1500, 2500, 3050))}
	}
	in.Faces = some("", "north", "north-east", "east", "south", "west", "north-west")
	in.Hands, in.Exit = 1+r.IntN(3), some("gutter", "verge", "window")
	in.SurfaceC = num(between(12, 34))
	roof := plan.Reckon(plan.Inputs{Shape: in.Shape, Length: in.Length, Depth: in.Depth, Sides: in.Sides, Diagonals: in.Diagonals, Walk: in.Walk}, nil).Outline
	on := func(x, y unit.Length) bool {
		for _, s := range roof.Vertices.AlongGutter(y) {
			if x > s.From && x < s.To {
				return true
			}
		}
		return false
	}
	for range r.IntN(3) {
		p := plan.Pipe{Dia: unit.Length(one(r, 50, 82, 110)), X: unit.Length(between(200, length-200)), Y: unit.Length(between(200, depth-200))}
		if roof != nil && on(p.X, p.Y) {
			in.Pipes = append(in.Pipes, p)
		}
	}
	if r.IntN(4) == 0 {
		l := plan.Rooflight{Length: 800, Depth: 600, X: unit.Length(between(200, length-1000)), Y: unit.Length(between(200, depth-800))}
		if roof != nil && on(l.X, l.Y) && on(l.X+l.Length, l.Y+l.Depth) && on(l.X+l.Length, l.Y) && on(l.X, l.Y+l.Depth) {
			in.Rooflights = []plan.Rooflight{l}
		}
	}
	return subject(in)
}

func one(r *rand.Rand, of ...float64) float64 { return of[r.IntN(len(of))] }

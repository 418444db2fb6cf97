package picture_test

import (
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

// garage is what the roofs have in common. All of them are invented.
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

// roofs are the four that every picture is looked at on.
func roofs() map[string]plan.Inputs {
	l := garage()
	l.Shape, l.Edges = "walked", nil
	l.Walk = []geom.Step{{Length: 5000, Turn: geom.Right, Kind: geom.Gutter}, {Length: 4800, Turn: geom.Right, Kind: geom.Verge}, {Length: 2200, Turn: geom.Right, Kind: geom.Wall},
		{Length: 1800, Turn: geom.Left, Kind: geom.Verge}, {Length: 2800, Turn: geom.Right, Kind: geom.Verge}, {Length: 3000, Turn: geom.Right, Kind: geom.Verge}}
	l.Pipes = []plan.Pipe{{Dia: 110, X: 600, Y: 4200}}
	l.Drop = mm(120)
	skew := garage()
	skew.Shape, skew.Sides, skew.Diagonals = "four-sided", &[4]unit.Length{5500, 2900, 5500, 2900}, &[2]unit.Length{6249, 6187}
	skew.Edges = []string{"gutter", "verge", "verge", "verge"}
	skew.WallAbove, skew.Exit, skew.Hands = mm(0), "verge", 1
	walls := garage()
	walls.Length, walls.Depth, walls.Edges = mm(3200), mm(5400), []string{"gutter", "wall", "parapet", "wall"}
	walls.Drop, walls.ClearSpan = mm(135), mm(3000)
	walls.Pipes = []plan.Pipe{{Dia: 110, X: 300, Y: 4900}, {Dia: 50, X: 2600, Y: 800}}
	return map[string]plan.Inputs{"rectangle": garage(), "l-shape": l, "out-of-square": skew, "three-walls": walls}
}

// subject is a roof in the middle of its glue: two strips are down.
func subject(in plan.Inputs) draw.Subject {
	p := plan.Reckon(in, nil)
	if p.Batch != nil && len(p.Batch.Ahead) > 2 {
		in.Laid = p.Batch.Ahead[:2]
		p = plan.Reckon(in, p)
	}
	return draw.Subject{In: in, Plan: p, Batches: []draw.Begun{{Deck: 21, Open: 6.5, Good: true}, {Deck: 23, Open: 8, Good: true}}, Story: story()}
}

// story is a job of two days.
func story() *draw.Story {
	at := func(day, hour, min int) time.Time { return time.Date(2026, 5, day, hour-1, min, 0, 0, time.UTC) }
	name := func(id string) talk.Phrase { return talk.P("name." + id) }
	return &draw.Story{Zone: "Europe/London", Entries: []draw.Entry{
		{At: at(11, 8, 5), Mark: draw.Entered, Text: talk.P("phase.survey", "n", 1, "of", 9)},
		{At: at(11, 9, 40), Mark: draw.Passed, Text: name("before")},
		{At: at(11, 10, 2), Mark: draw.Entered, Text: talk.P("phase.plates", "n", 2, "of", 9)},
		{At: at(11, 15, 30), Mark: draw.Passed, Text: name("plates-hold")},
		{At: at(14, 9, 12), Mark: draw.Entered, Text: talk.P("phase.membrane", "n", 6, "of", 9)},
		{At: at(14, 9, 50), Mark: draw.Left, Text: name("dry-hold")},
		{At: at(14, 10, 30), Mark: draw.Glued, Text: talk.P("label.story.batch", "n", 1, "open", unit.Minutes(6.5), "window", unit.Minutes(11.3), "deck", unit.Celsius(21)), Open: 6.5, Usable: 6.8, Window: 11.3},
		{At: at(14, 10, 55), Mark: draw.Glued, Text: talk.P("label.story.batch", "n", 2, "open", unit.Minutes(8), "window", unit.Minutes(10.6), "deck", unit.Celsius(23)), Open: 8, Usable: 7.4, Window: 10.6},
		{At: at(14, 11, 40), Mark: draw.Did, Text: talk.P("label.story.run", "n", 1)},
		{At: at(14, 12, 10), Mark: draw.Due, Text: talk.P("clock.hose")},
	}}
}

package picture

import (
	"image/color"

	"chargehand/flow/talk"
)

// The three weights, in mm. Source: ISO 128, line group 0.5 of construction
// drawings, as 0.25 : 0.5 : 1.
const (
	narrow = 0.25
	wide   = 0.5
	heavy  = 1.0
)

var (
	black = color.Gray{0}
	white = color.Gray{255}
	light = color.Gray{236}
	mid   = color.Gray{206}
	// accent is a dark blue: it is told from black by every eye that sees colour,
	// and is black on a photocopy.
	accent = color.RGBA{0, 74, 142, 255}
)

// stroke is how a line is drawn.
type stroke struct {
	width float64
	dash  []float64
	ink   color.Color
}

// Dashes count in widths of the narrow line. Source: ISO 128: a dash 12, a long
// dash 24, a gap 3, a dot ½ of them; dots are drawn 1 wide here, or a phone
// loses them.
var strokes = map[talk.Pen]stroke{
	talk.Wide:     {wide, nil, black},
	talk.Narrow:   {narrow, nil, black},
	talk.Heavy:    {heavy, nil, black},
	talk.Hidden:   {narrow, dashes(8, 3), black},
	talk.Centre:   {narrow, dashes(24, 3, 1, 3), black},
	talk.Movable:  {wide, dashes(24, 4, 2, 4, 2, 4), black},
	talk.Measured: {wide, dashes(12, 4), accent},
}

func dashes(of ...float64) []float64 {
	out := make([]float64, len(of))
	for i, n := range of {
		out[i] = n * narrow
	}
	return out
}

// hatch is a family of parallel lines over a surface.
type hatch struct {
	angle  float64 // degrees
	apart  float64
	dash   []float64 // every second line begins half a pattern later
	stroke float64
}

// tone is how a surface is filled.
type tone struct {
	ground  color.Color // nil: what is under it shows
	hatches []hatch
}

var tones = map[talk.Tone]tone{
	talk.Blank:  {white, nil},
	talk.Tint:   {light, nil},
	talk.Shade:  {mid, nil},
	talk.Solid:  {black, nil},
	talk.Brick:  {white, []hatch{{45, 1.6, nil, narrow}}},
	talk.Grain:  {white, []hatch{{-45, 0.9, nil, narrow}}},
	talk.Board:  {white, []hatch{{30, 1.0, []float64{1.2, 1.0}, narrow}}},
	talk.Mortar: {white, []hatch{{0, 0.7, []float64{0.25, 0.9}, narrow}}},
	talk.Wet:    {white, []hatch{{0, 1.3, []float64{0.5, 2.1}, 0.5}}},
	talk.Waste:  {white, []hatch{{45, 2, nil, narrow}, {-45, 2, nil, narrow}}},
}

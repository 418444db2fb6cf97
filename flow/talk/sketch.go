package talk

import (
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// Picture is a drawing to be shown, with what it says in words: the caption
// stands below it, the text instead of it where it can't be seen.
type Picture struct {
	Kind    string // which of the pictures it is, for the name of a file
	Sketch  Sketch
	Caption Phrase
	Alt     Phrase
}

func (Picture) reply() {}

// Sketch is a drawing as it is meant: what is where, in mm, without a pixel, a
// font or a word of any language. Its panels stand one below the other.
type Sketch struct{ Panels []Panel }

// Panel is one view, true to one scale, drawn as large as the page lets it be.
// X runs to the right and Y up.
type Panel struct {
	Title  *Phrase
	Shapes []Shape // the later ones lie over the earlier ones
	// Frame is what the view shows at least, so that panels of one width come out
	// at one scale; the zero Rect leaves it to the shapes.
	Frame geom.Rect
	// Tall is the most its scale may make of it in height on paper; 0 leaves it
	// to the page.
	Tall unit.Length
	// Long says that it may run on below the foot of a screen.
	Long bool
}

// Shape is one thing in a panel.
type Shape interface{ shape() }

// Pen is a class of line, by what the line means.
type Pen string

const (
	NoPen    Pen = ""
	Wide     Pen = "wide"     // edges that are seen
	Narrow   Pen = "narrow"   // what helps to read: dimension lines, joints in the ground
	Heavy    Pen = "heavy"    // what the picture is about: the rubber in a section, the marks on a rod
	Hidden   Pen = "hidden"   // edges that lie under something
	Centre   Pen = "centre"   // axes
	Movable  Pen = "movable"  // where something is folded, or could lie
	Measured Pen = "measured" // what is measured, over what was worked out
)

// Tone is what a surface is filled with, by what it is.
type Tone string

const (
	Clear  Tone = ""
	Blank  Tone = "blank"  // paper: hides what is under it
	Tint   Tone = "tint"   // something that is there
	Shade  Tone = "shade"  // something to look at
	Solid  Tone = "solid"  // too thin to hatch
	Brick  Tone = "brick"  // a wall that is cut through
	Grain  Tone = "grain"  // timber that is cut across
	Board  Tone = "board"  // board that is cut through
	Mortar Tone = "mortar" // mortar and sealant
	Wet    Tone = "wet"    // glue that is not covered
	Waste  Tone = "waste"  // what is left over
)

// Stroke is a line through points.
type Stroke struct {
	Pen    Pen
	Points []geom.Point
}

// Area is a surface, with an outline where it has a pen.
type Area struct {
	Tone   Tone
	Pen    Pen
	Points geom.Polygon
}

// Arc is part of a circle, anticlockwise from an angle; 360° of it is the whole,
// and can be filled.
type Arc struct {
	Pen         Pen
	Tone        Tone
	At          geom.Point
	Radius      unit.Length
	From, Sweep unit.Angle
}

// Rim is the outline of a roof with what stands on each edge.
type Rim struct{ Outline geom.Outline }

// Arrow points from one place to another.
type Arrow struct {
	Pen      Pen
	From, To geom.Point
}

// Anchor says where a text stands to its place.
type Anchor string

const (
	Middle  Anchor = ""
	Above   Anchor = "above"
	Below   Anchor = "below"
	LeftOf  Anchor = "left"
	RightOf Anchor = "right"
)

// Sizes of letters: the height of a capital on paper. Source: ISO 3098.
const (
	Small unit.Length = 2.5
	Large unit.Length = 3.5
	Huge  unit.Length = 5
)

// Word is text at a place. It may be moved to where it covers nothing unless it
// is fixed; then a thin line leads back to its place.
type Word struct {
	At     geom.Point
	Text   Phrase
	Size   unit.Length // 0 = Small
	Anchor Anchor
	Turn   unit.Angle // it reads along this direction
	Fixed  bool
}

// Note names a thing in a view: a text in the margin, a line to the thing.
type Note struct {
	At   geom.Point
	Text Phrase
	Left bool // in the left margin
}

// Direction is along what a dimension is measured.
type Direction string

const (
	Direct Direction = ""       // from point to point
	Across Direction = "across" // along X only
	Upward Direction = "upward" // along Y only
)

// Dim is a dimension: the distance of two points, with its line beside them.
type Dim struct {
	From, To geom.Point
	Along    Direction
	// Away is how far on paper its line stands from the further of the two
	// points: to the left of the way between them if positive (above a way to the
	// right), else to the right.
	Away unit.Length
	Text Phrase
}

func (Stroke) shape() {}
func (Area) shape()   {}
func (Arc) shape()    {}
func (Rim) shape()    {}
func (Arrow) shape()  {}
func (Word) shape()   {}
func (Note) shape()   {}
func (Dim) shape()    {}

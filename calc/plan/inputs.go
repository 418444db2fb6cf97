package plan

import (
	"chargehand/calc/deck"
	"chargehand/calc/geom"
	"chargehand/calc/glue"
	"chargehand/calc/sun"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// Inputs is what is known of a roof. Nil, empty or zero means not known, unless
// a field says otherwise. Lengths of edges run clockwise from the gutter.
type Inputs struct {
	// Survey.
	Use           string // unheated, heated or cold-roof
	Hands         int
	Shape         string          // rectangle, four-sided or walked; empty means rectangle
	Length, Depth *unit.Length    // of a rectangle: the deck along the gutter and up the fall
	Sides         *[4]unit.Length // of a four-sided roof: gutter, left, back, right
	Diagonals     *[2]unit.Length // from the gutter's left end, from its right end
	Edges         []string        // of a rectangle or four-sided roof: gutter, verge, wall or parapet
	Walk          []geom.Step     // of a right-angled roof walked edge by edge
	ClearSpan     *unit.Length
	WallAbove     *unit.Length // height of a taller wall above this roof; 0 = none
	UpperDepth    *unit.Length // of the building behind that wall, square to it
	UpperSheds    *bool        // a pitched roof up there slopes towards this one; nil is taken as yes
	Drop          *unit.Length
	Pipes         []Pipe
	Rooflights    []Rooflight
	Region        string         // uk or elsewhere; empty means uk
	Altitude      *float64       // m above the sea
	SnowZone      string         // UK ground-snow zone 1 to 5, given or unknown
	GroundSnow    *unit.AreaLoad // where it is given, and elsewhere than in the UK
	WindBy        string         // given, map-speed or unknown
	PeakPressure  *unit.AreaLoad // given
	WindSpeed     *unit.Speed    // ten-minute mean, from the wind map
	Terrain       string         // sea, country or town
	RoofHeight    *unit.Length   // above the ground
	BigDoor       *bool          // a door that can let the wind in below; nil is taken as yes
	Hung          string         // nothing, or what hangs on the joists
	HungWeight    *unit.Mass     // the most on one joist
	Tuck          bool           // rubber goes behind the fascia
	Faces         string         // the way the gutter faces: north, north-east and so on; empty means not known
	ParapetHeight *unit.Length
	ParapetTop    *unit.Length

	// Wall plates.
	Plate        string // on-wall, ledger or hangers
	Wall         string // brick, hollow, block, stone or timber
	PlateWidth   *unit.Length
	PlateHeight  *unit.Length
	Anchor       string
	AnchorDia    *unit.Length
	AnchorLength *unit.Length
	AnchorHolds  *unit.Length // thickest fixture on the anchor's sheet
	AnchorShear  *unit.Force  // of one anchor, on its sheet; nil = not told
	AnchorPull   *unit.Force
	AnchorKind   string      // which figures the sheet gives: design, recommended or unknown
	StrapHolds   *unit.Force // one strap with its fixings, on its sheet; nil = not told

	// Joists.
	BoardLength, BoardWidth *unit.Length
	MaxCentres              *unit.Length
	Grade                   string
	JoistB, JoistH          *unit.Length
	JoistFix                string
	OldJoists               bool          // they stand already and stay
	JoistWay                string        // of an L, T or U: up, or short for each part its short way; empty means up
	Measured                []unit.Length // centres of the joists as they stand
	JoistCure               string        // what is done where board ends miss: stand, module, battens, cut or noggins
	Levels                  []unit.Length // tops of the joists below a line: one each under a string, or two each, gutter ends first

	// Deck.
	BoardThick     *unit.Length
	Noggins        bool
	Fascia, Batten *unit.Length
	Trim           *unit.Length
	GutterSize     *unit.Length
	BattenOnFascia bool
	WallGap        *unit.Length
	DeckDamp       *float64     // %
	Face           *unit.Length // of the fascia, from the outer face of the wall plate
	UpstandCut     bool         // upstand boards are cut from the deck's boards

	// Upstands.
	Upstand      *unit.Length
	BedJoint     *unit.Length // any one, above the finished roof at its high side
	BoardTop     *unit.Length // at the high end of a wall
	CopingWidth  *unit.Length
	CopingPiece  *unit.Length
	CopingThroat *unit.Length // from the coping's edge to its throat

	// Membrane.
	SheetStep               *unit.Length
	SheetWidths             []unit.Length // that can be had; none: any
	SheetLength, SheetWidth *unit.Length  // as delivered
	SheetRemedy             string        // shift, lower, strip or reorder
	Exit                    string
	FarWayOff               bool // a second way off at the edge across from the exit

	// The tin of deck adhesive, and how it has gone on this roof.
	LabelMin, LabelC *float64
	Label2           *glue.Point // a second line of the label
	LabelUpper       *float64    // min
	LabelLeast       *float64    // °C, least surface temperature printed
	Substrate        string      // board, sealed, thirsty or very; empty means board
	Squares          []glue.Square
	SquareToday      bool // the last of them is of the day of Read
	GoodBatches      int  // of that day
	Rates            *glue.Rates
	Laid             []Strip // bonded so far

	// The weather.
	Read                   *Reading // when the deck was read; all minutes below count from it
	Place                  *sun.Place
	SurfaceC, AirC, NightC *float64
	Damp, Wind, Rain       string        // taps; "unknown" is taken at its worse end
	RH                     *unit.Percent // measured: outranks the tap
	WindMean, WindGust     *unit.Speed   // likewise
	RainIn                 *unit.Minutes // likewise
	Hours                  weather.Course

	ContactDry, ContactMax *float64 // min
	WallC, RubberC         *float64
	Pressed                []glue.Run // contact runs done

	// Edges and flashing.
	TrimStock  []unit.Length
	GutterFall *unit.Fall
	Outlet     string // end, middle or both-ends; empty means end
	Cuts       *int
	Severe     bool
	LeadCode   *int
	LeadWidth  *unit.Length

	// Buying.
	Prices []Price
	Came   []Came
	Found  map[string]deck.Written // by the name of the problem: what long searches found
}

// Reading is the moment a thermometer was held to the deck, on the site's clock.
type Reading struct {
	Day   sun.Date
	Clock unit.Minutes // after local midnight
	Ahead unit.Minutes // how far that clock is ahead of UTC
}

// Strip is a batch in its place: which half of the folded sheet, and how wide.
type Strip struct {
	Half  glue.Half
	Width unit.Length
}

// Pipe is a pipe through the roof, from the gutter's left end.
type Pipe struct{ Dia, X, Y unit.Length }

// Rooflight is an upstand round a light: its size, and the distances of its near
// sides from the gutter's left end and from the gutter.
type Rooflight struct{ Length, Depth, X, Y unit.Length }

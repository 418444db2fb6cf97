package deck

import "chargehand/calc/unit"

// ID names this calculation and its version in a record.
const ID = "deck.rows/1"

// DefaultBudget is the work allowed when Problem.Budget is 0: about a second
// on a small machine.
const DefaultBudget = 200_000_000

// QuickBudget is work for some tens of milliseconds: enough to prove most decks
// of garage size between a question and its answer.
const QuickBudget = 10_000_000

// Region is one rectangle of the deck.
type Region struct {
	RowLength    unit.Length   // along x
	Depth        unit.Length   // along y, over all rows
	JoistSpacing unit.Length   // lines at 0, s, 2s … and at RowLength
	Lines        []unit.Length // or the joist centre lines as really set out; then JoistSpacing is not read
}

// Strip is one kind of upstand strip.
type Strip struct {
	Length unit.Length // along the board
	Height unit.Length
	Count  int
	Label  string // where it goes, in the caller's words; kept, never read
}

// Problem is a deck to be boarded.
type Problem struct {
	RowLength    unit.Length
	Depth        unit.Length
	JoistSpacing unit.Length
	Lines        []unit.Length
	Regions      []Region // further rectangles of an L- or T-shaped deck, with rows of their own

	BoardLength   unit.Length
	BoardWidth    unit.Length
	Kerf          unit.Length
	EndGap        unit.Length // between the ends of two pieces, centred on the line
	RowGap        unit.Length // between two rows
	MinBays       int         // bays each piece spans at least; 2 = bears on three lines
	Stagger       int         // lines between joints of neighbouring rows; 0 = no rule
	StaggerLength unit.Length // and the same as a length; 0 = no rule
	Strips        []Strip
	Budget        int64 // most work to spend; 0 = DefaultBudget
}

// Piece is one piece of a row as it lies.
type Piece struct {
	X      unit.Length // its left end
	Length unit.Length
	From   int    // index of the support line at its left end, 0 the deck edge
	To     int    // and at its right end
	Letter string // pieces alike share a letter
	Board  int    // index in Layout.Cuts
}

// Row is one row of pieces.
type Row struct {
	Region int // 0 the main rectangle, 1 the first of Problem.Regions
	Y      unit.Length
	Width  unit.Length
	Pieces []Piece
}

// Part is a finished piece as it leaves the saw: a piece of a row, or a strip.
type Part struct {
	Length unit.Length
	Letter string
	Row    int // index in Layout.Rows, -1 for a strip
	Piece  int // index in that row
	Strip  int // index in Problem.Strips, -1 for a piece of a row
}

// Lane is what one rip leaves: parts of one width end to end.
type Lane struct {
	Width unit.Length
	Parts []Part
}

// Section is what the first cross-cuts leave. A section that is not ripped has
// one lane of the whole board width with one part.
type Section struct {
	Length unit.Length
	Lanes  []Lane
}

// Cuts says how one board is sawn: across into sections, along into lanes,
// across into parts.
type Cuts struct {
	Sections []Section
	Offcut   unit.Length // left at the board's end, whole width
}

// Layout is a deck worked out.
type Layout struct {
	Rows   []Row
	Cuts   []Cuts // one a board
	Boards int
	Pieces int // of the rows, strips not counted
	Bound  int // no layout takes fewer boards
	Proven bool
	Gap    float64
	Work   int64
}

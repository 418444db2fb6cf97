package cut

import "chargehand/calc/unit"

// ID names this calculation and its version in a record.
const ID = "cut.lengths/1"

// Unlimited as Stock.Available means that as many bars as needed can be had.
const Unlimited = -1

// DefaultBudget is the work allowed when Problem.Budget is 0: about a second
// on a small machine.
const DefaultBudget = 1_000_000_000

// QuickBudget is work for some tens of milliseconds: enough to prove nearly every
// list of site size between a question and its answer.
const QuickBudget = 20_000_000

// Stock is one kind of bar that can be bought or lies on site.
type Stock struct {
	Length    unit.Length
	Cost      int64 // of one bar, in any whole unit (pence, mm, 1 for fewest bars); 0 for what is already on site
	Available int   // bars that can be had; Unlimited, or 0 and more
}

// Piece is one kind of piece wanted.
type Piece struct {
	Length unit.Length
	Count  int
	Label  string // where it goes, in the caller's words; kept, never read
}

// Problem is a cutting list to be worked out.
type Problem struct {
	Stocks []Stock
	Pieces []Piece
	Kerf   unit.Length // lost between neighbouring pieces
	Trim   unit.Length // cut away from each bar before use, both ends together
	Budget int64       // most work to spend (table cells touched); 0 = DefaultBudget
}

// Cut is one piece sawn from a bar.
type Cut struct {
	Piece  int // index in Problem.Pieces
	Length unit.Length
	Letter string // A for the longest length wanted, B the next: write it on the timber
}

// Bar is one bar with what is sawn from it, longest first.
type Bar struct {
	Stock  int // index in Problem.Stocks
	Length unit.Length
	Cuts   []Cut
	Offcut unit.Length // what is left after the last kerf, trim not counted; 0 or more
}

// List says how to saw everything a Problem asks for.
type List struct {
	Bars   []Bar // as one saws them: longest bars first, bars cut alike together
	Count  int   // bars used
	Cost   int64 // their cost
	Bound  int64 // no list costs less
	Proven bool  // Cost == Bound
	Gap    float64
	Work   int64 // table cells touched
}

package takeoff

import "chargehand/calc/unit"

// Input is the quantities of a roof as other calculations found them. A nil
// field is not known yet, and its lines go to Bill.Missing; an empty slice that
// is not nil, or a zero, means none needed.
type Input struct {
	// Walls and ironwork.
	PlateRuns   []unit.Length // every plate and ledger
	DPCRuns     []unit.Length // plates that lie on a damp-proof course
	AnchorRuns  []unit.Length // plates anchored at the usual spacing
	Anchors     *int          // from a design; replaces AnchorRuns
	ResinHole   *Hole         // nil is not known: with no anchor in resin say NoResin
	NoResin     bool
	StrapRuns   []unit.Length // plates strapped at the usual spacing
	Straps      *int          // from a design; replaces StrapRuns
	LateralRuns []unit.Length // walls the joists run along
	HangerEnds  *int          // joist ends on hangers
	PlateEnds   *int          // joist ends on plates: skew nails, and a clip or strap each
	HangerHoles *int          // nails one hanger takes, as its sheet says

	// Timber.
	Joists     []Piece
	JoistStep  unit.Length // stock lengths are multiples of it; 0 means 300 mm
	Noggins    []Piece
	Strutting  []Piece
	Firrings   []Piece
	Boards     *int // the exact cut list
	DeckScrews *int // from the layout; nil falls back on DeckArea and DeckEdge
	DeckArea   *unit.Area
	DeckEdge   DeckEdge
	Battens    []unit.Length
	Fascias    []unit.Length
	Corners    int       // at which battens, and fascias, are mitred
	Upstands   []Upstand // walls with an upstand board
	FromDeck   bool      // upstand boards are cut from the deck's boards: only their plugs are bought

	// Covering.
	Sheet        *Size
	FieldArea    *unit.Area // deck less the dry strip
	FieldRate    float64    // m² a litre, from the tin; 0 means 3
	ContactArea  *unit.Area // dry strip, upstands and edge drops
	ContactRate  float64    // m² a litre counting both faces, from the tin; 0 means 1.5
	Patches      []Patch
	Pipes        *int         // each takes four pieces and a strip more
	PatchEdge    *unit.Length // length of patch edges to seal
	BarRuns      []unit.Length
	CartridgeRun unit.Length // what one cartridge seals; 0 means 6 m
	Trims        []TrimEdge
	TrimNails    *int // through the pieces as cut; nil: counted from Trims
	TrimCorners  *int
	TrimEnds     *int

	// Rainwater and lead.
	GutterRuns []unit.Length
	Brackets   *int // from their positions; nil: at the usual spacing along GutterRuns
	Outlets    *int
	Downpipe   *unit.Length
	LeadRuns   []LeadRun
	ChaseRuns  []unit.Length

	// Around the work.
	Deck      *Size // outside of the deck, for the cover
	Batches   *int  // adhesive batches: a roller sleeve each
	TowerDays *float64
	Rubbish   *unit.Volume

	// Packs replaces the usual pack sizes of a line by the builder's own, with
	// his prices.
	Packs map[Key][]PackSize

	// Sawn replaces the rule of a line of timber or trim by an exact cut list.
	Sawn map[Key]Sawn
}

// Sawn is what an exact cut list takes: the pieces wanted, and the lengths they
// are sawn from.
type Sawn struct {
	Needed unit.Length // of all pieces, spares not counted
	Spare  unit.Length // of the spares among them
	Packs  []Pack      // in metres
}

// Piece is a number of pieces alike.
type Piece struct {
	Count  int
	Length unit.Length
}

// Hole is the hole one resin anchor is set in, from its packet.
type Hole struct{ Diameter, Depth unit.Length }

// DeckEdge is how boards meet along their long edges.
type DeckEdge string

const (
	TongueAndGroove DeckEdge = "t&g"
	SquareEdge      DeckEdge = "square"
)

// Upstand is a board along one wall.
type Upstand struct{ Run, Height unit.Length }

// Size is the outside of something laid flat.
type Size struct{ Length, Width unit.Length }

// Patch is a number of patches alike.
type Patch struct {
	Count         int
	Length, Width unit.Length
}

// TrimEdge is one edge that gets a trim.
type TrimEdge struct {
	Run    unit.Length
	Mitres int // cut from the trim itself; none where a corner piece is fitted
}

// LeadRun is one flashing.
type LeadRun struct {
	Run     unit.Length
	Width   unit.Length
	Density unit.SurfaceDensity // 20.4 kg/m² for code 4
	Lap     unit.Length         // 0 means 100 mm
	Exposed bool                // clips at 300 instead of 500
}

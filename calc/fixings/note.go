package fixings

// Note is the key of a remark; the words for it live with the other phrases.
type Note string

const (
	NoCapacity     Note = "capacity-not-given"      // the packet's resistance was not told: nothing is said about strength
	NoPull         Note = "pull-not-checked"        // the packet's pull resistance was not told
	NoWind         Note = "uplift-needs-wind"       // no wind calculation: no uplift figure
	AtCorners      Note = "closer-at-corners"       // straps closer at corners
	StrapJoist     Note = "strap-the-joist"         // not only the plate
	NotOverLintel  Note = "not-over-lintel"         // nor in perished brick: refer
	Counterbore    Note = "counterbore"             // sink the washer
	LongerAnchor   Note = "longer-anchor"           // the packet's length or fixture is too short
	ThinBehind     Note = "brick-behind-short"      // less than 30 mm behind the hole
	NearEdge       Note = "edge-too-near"           // nearer the edge of the wall than the sheet or 150 mm
	MiddleOfBrick  Note = "middle-of-brick"         // never a joint or frog
	ResinSleeve    Note = "resin-with-sleeve"       // hollow units
	NoExpansion    Note = "no-expansion-top-two"    // no expansion anchor in the top two courses
	ShallowTimber  Note = "timber-too-shallow"      // less than 4 d above and 3 d below the anchor
	EndMoved       Note = "end-distance-raised"     // to 7 d of the timber
	TooWeak        Note = "resistance-too-low"      // this packet cannot carry it
	WallTooLight   Note = "wall-too-light"          // more straps do not help
	WallUnchecked  Note = "wall-not-checked"        // reach or thickness not told
	StrapsHoldDown Note = "straps-hold-down"        // plate anchors do not count against uplift
	LocatingOnly   Note = "skew-nails-locate-only"  // they do not hold down
	AllHoles       Note = "every-hanger-hole"       // nail every hole with the nail its sheet names
	Estimate       Note = "estimate-before-layout"  // count again from the layout
	OnePiece       Note = "counted-as-one-piece"    // the pieces were not told
	BlockEnds      Note = "block-to-walls"          // strutting blocked at both ends of its run
	JoistsHold     Note = "joists-restrain"         // 90 mm of bearing: no straps asked for
	Screw50x10     Note = "two-fixings-each-timber" // 50 mm No. 10 screws or 4 x 75 mm nails
)

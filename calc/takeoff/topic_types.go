package takeoff

// ListIn is the topic list: the quantities of a roof. A key left out is not
// known yet; an empty list or 0 means none.
type ListIn struct {
	PlateRunsMM   []float64 `json:"plate_runs_mm,omitempty" doc:"every plate and ledger"`
	DPCRunsMM     []float64 `json:"dpc_runs_mm,omitempty" doc:"plates on a damp-proof course"`
	AnchorRunsMM  []float64 `json:"anchor_runs_mm,omitempty" doc:"plates anchored at the usual spacing"`
	Anchors       *int      `json:"anchors,omitempty" doc:"anchors from a design, instead of anchor_runs_mm" min:"0" max:"10000"`
	ResinHoleDMM  *float64  `json:"resin_hole_d_mm,omitempty" doc:"packet: hole of a resin anchor" min:"6" max:"40"`
	ResinDepthMM  *float64  `json:"resin_hole_depth_mm,omitempty" doc:"packet: its depth" min:"30" max:"500"`
	NoResin       *bool     `json:"no_resin,omitempty" doc:"no anchor is set in resin"`
	StrapRunsMM   []float64 `json:"strap_runs_mm,omitempty" doc:"plates strapped at the usual spacing"`
	Straps        *int      `json:"straps,omitempty" doc:"straps from a design, instead of strap_runs_mm" min:"0" max:"10000"`
	LateralRunsMM []float64 `json:"lateral_runs_mm,omitempty" doc:"walls the joists run along"`
	HangerEnds    *int      `json:"hanger_ends,omitempty" doc:"joist ends on hangers" min:"0" max:"1000"`
	PlateEnds     *int      `json:"plate_ends,omitempty" doc:"joist ends on plates" min:"0" max:"1000"`
	HangerHoles   *int      `json:"hanger_holes,omitempty" doc:"nails one hanger takes, as its sheet says" min:"0" max:"100"`

	Joists      []ListPiece   `json:"joists,omitempty" doc:"joists, lengths to cut"`
	JoistStepMM *float64      `json:"joist_step_mm,omitempty" doc:"step of stock lengths; 300 when silent" min:"1" max:"7200"`
	Noggins     []ListPiece   `json:"noggins,omitempty" doc:"noggins"`
	Strutting   []ListPiece   `json:"strutting,omitempty" doc:"strutting"`
	Firrings    []ListPiece   `json:"firrings,omitempty" doc:"firrings, made to order"`
	Boards      *int          `json:"boards,omitempty" doc:"boards by the exact cut list" min:"0" max:"10000"`
	DeckScrews  *int          `json:"deck_screws,omitempty" doc:"screws counted from the layout" min:"0" max:"10000"`
	DeckAreaM2  *float64      `json:"deck_area_m2,omitempty" doc:"for an estimate of screws before the layout" min:"0" max:"1000"`
	DeckEdge    *string       `json:"deck_edge,omitempty" doc:"how boards meet" enum:"t&g,square"`
	BattensMM   []float64     `json:"battens_mm,omitempty" doc:"runs of batten"`
	FasciasMM   []float64     `json:"fascias_mm,omitempty" doc:"runs of fascia"`
	Corners     *int          `json:"corners,omitempty" doc:"corners at which battens and fascias are mitred" min:"0" max:"10000"`
	Upstands    []ListUpstand `json:"upstands,omitempty" doc:"upstand boards"`

	SheetLengthMM  *float64    `json:"sheet_length_mm,omitempty" doc:"sheet as ordered" min:"100" max:"60000"`
	SheetWidthMM   *float64    `json:"sheet_width_mm,omitempty" doc:"sheet as ordered" min:"100" max:"60000"`
	FieldM2        *float64    `json:"field_m2,omitempty" doc:"deck less the dry strip" min:"0" max:"1000"`
	FieldRate      *float64    `json:"field_rate_m2_l,omitempty" doc:"tin: m² a litre; 3 when silent" min:"0.2" max:"20"`
	ContactM2      *float64    `json:"contact_m2,omitempty" doc:"dry strip, upstands, edge drops" min:"0" max:"1000"`
	ContactRate    *float64    `json:"contact_rate_m2_l,omitempty" doc:"tin: m² a litre, both faces; 1.5 when silent" min:"0.2" max:"20"`
	Patches        []ListPatch `json:"patches,omitempty" doc:"patches"`
	Pipes          *int        `json:"pipes,omitempty" doc:"pipes: four patches and a strip each" min:"0" max:"10000"`
	PatchEdgeMM    *float64    `json:"patch_edge_mm,omitempty" doc:"patch edges to seal" min:"0" max:"1000000"`
	BarRunsMM      []float64   `json:"bar_runs_mm,omitempty" doc:"runs of termination bar"`
	CartridgeRunMM *float64    `json:"cartridge_run_mm,omitempty" doc:"what one cartridge seals; 6000 when silent" min:"1000" max:"30000"`
	Trims          []ListTrim  `json:"trims,omitempty" doc:"edges with a trim"`
	TrimCorners    *int        `json:"trim_corners,omitempty" doc:"corner pieces" min:"0" max:"10000"`
	TrimEnds       *int        `json:"trim_ends,omitempty" doc:"end pieces" min:"0" max:"10000"`

	GutterRunsMM []float64  `json:"gutter_runs_mm,omitempty" doc:"runs of gutter"`
	Outlets      *int       `json:"outlets,omitempty" doc:"gutter outlets" min:"0" max:"10000"`
	DownpipeMM   *float64   `json:"downpipe_mm,omitempty" doc:"length of downpipe" min:"0" max:"50000"`
	Lead         []ListLead `json:"lead,omitempty" doc:"flashings"`
	ChaseRunsMM  []float64  `json:"chase_runs_mm,omitempty" doc:"chases to wedge and close"`

	DeckLengthMM *float64 `json:"deck_length_mm,omitempty" doc:"outside of the deck, for the cover" min:"500" max:"50000"`
	DeckWidthMM  *float64 `json:"deck_width_mm,omitempty" doc:"outside of the deck, for the cover" min:"500" max:"50000"`
	Batches      *int     `json:"batches,omitempty" doc:"adhesive batches" min:"0" max:"10000"`
	TowerDays    *float64 `json:"tower_days,omitempty" doc:"days of tower hire" min:"0" max:"365"`
	RubbishM3    *float64 `json:"rubbish_m3,omitempty" doc:"what goes to the tip" min:"0" max:"1000"`

	Packs     []ListPacks    `json:"packs,omitempty" doc:"your own pack sizes and prices, instead of the usual sizes"`
	Delivered []ListDelivery `json:"delivered,omitempty" doc:"what came"`
}

// ListPiece is a number of pieces alike.
type ListPiece struct {
	Count    int     `json:"count" doc:"pieces" min:"0" max:"10000"`
	LengthMM float64 `json:"length_mm" doc:"length of each" min:"1" max:"7200"`
}

// ListUpstand is an upstand board along one wall.
type ListUpstand struct {
	RunMM    float64 `json:"run_mm" doc:"along the wall" min:"101" max:"50000"`
	HeightMM float64 `json:"height_mm" doc:"of the board" min:"1" max:"1000"`
}

// ListPatch is a number of patches alike.
type ListPatch struct {
	Count    int     `json:"count" doc:"patches" min:"0" max:"10000"`
	LengthMM float64 `json:"length_mm" doc:"length"`
	WidthMM  float64 `json:"width_mm" doc:"width"`
}

// ListTrim is one edge with a trim.
type ListTrim struct {
	RunMM  float64 `json:"run_mm" doc:"the edge" min:"51" max:"50000"`
	Mitres int     `json:"mitres,omitempty" doc:"mitres cut from the trim itself" min:"0" max:"2"`
}

// ListLead is one flashing.
type ListLead struct {
	RunMM   float64  `json:"run_mm" doc:"along the wall" min:"200" max:"50000"`
	WidthMM float64  `json:"width_mm" doc:"width of the piece" min:"50" max:"1000"`
	KGM2    *float64 `json:"kg_m2,omitempty" doc:"20.4 (code 4) when silent" min:"5" max:"50"`
	LapMM   *float64 `json:"lap_mm,omitempty" doc:"100 when silent" min:"50" max:"300"`
	Exposed bool     `json:"exposed,omitempty" doc:"severe exposure: clips at 300"`
}

// ListPacks is what the builder can buy of one line.
type ListPacks struct {
	Line  string     `json:"line" doc:"key of the line"`
	Sizes []ListSize `json:"sizes" doc:"the packs"`
}

// ListSize is one pack size.
type ListSize struct {
	Size  float64  `json:"size" doc:"in the unit of the line" min:"0.001" max:"1000000"`
	Price *float64 `json:"price,omitempty" doc:"in your own currency" min:"0" max:"1000000"`
}

// ListDelivery is what came of one line.
type ListDelivery struct {
	Line   string   `json:"line" doc:"key of the line"`
	SizeMM *float64 `json:"size_mm,omitempty" doc:"lead of several widths: which"`
	Packs  []Pack   `json:"packs" doc:"what came"`
}

// ListOut is the answer of the topic.
type ListOut struct {
	Lines    []ListLine  `json:"lines" doc:"what to order"`
	Missing  []Key       `json:"missing" doc:"lines whose quantity is not known yet"`
	Groups   []ListGroup `json:"groups" doc:"the lines by where one buys"`
	Cost     *float64    `json:"cost,omitempty" doc:"of everything, when every line has a price"`
	Priced   float64     `json:"priced" doc:"of the lines that have a price"`
	Unpriced []Key       `json:"unpriced" doc:"lines without a price"`
}

// ListLine is one line of the order.
type ListLine struct {
	Line     Key       `json:"line" doc:"key of the line"`
	Unit     Unit      `json:"unit" doc:"what it is counted in"`
	Where    Where     `json:"where" doc:"where one buys it"`
	Needed   float64   `json:"needed" doc:"as calculated"`
	Waste    float64   `json:"waste" doc:"on top"`
	ToBuy    float64   `json:"to_buy" doc:"in whole packs"`
	LeftOver float64   `json:"left_over" doc:"to_buy - needed - waste"`
	Packs    []Pack    `json:"packs" doc:"what to buy"`
	Tight    bool      `json:"tight,omitempty" doc:"less than 5 % stays over"`
	Surplus  bool      `json:"surplus,omitempty" doc:"more than 60 % stays over"`
	Offer    []Pack    `json:"offer,omitempty" doc:"instead of a tight choice"`
	Cost     *float64  `json:"cost,omitempty" doc:"at your prices"`
	SizesMM  []float64 `json:"sizes_mm,omitempty" doc:"length and width, lengths to cut, or width of lead"`
	MassKG   *float64  `json:"mass_kg,omitempty" doc:"of lead"`
	Arrived  *Arrival  `json:"arrived,omitempty" doc:"whole, enough, into-waste or short"`
	ToGet    []Pack    `json:"to_get,omitempty" doc:"still to get"`
}

// ListGroup is the lines bought at one place.
type ListGroup struct {
	Where Where    `json:"where" doc:"the sort of merchant"`
	Lines []Key    `json:"lines" doc:"keys of the lines"`
	Cost  *float64 `json:"cost,omitempty" doc:"when every line of it has a price"`
}

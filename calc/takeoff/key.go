package takeoff

// Key is the permanent name of a line.
type Key string

const (
	PlateTimber   Key = "plates"
	DPC           Key = "dpc"
	Anchors       Key = "anchors"
	Resin         Key = "resin"
	Straps        Key = "straps"
	LateralStraps Key = "lateral-straps"
	Hangers       Key = "hangers"
	Clips         Key = "clips"
	HangerNails   Key = "hanger-nails"
	SkewNails     Key = "skew-nails"
	JoistTimber   Key = "joists"
	NogginTimber  Key = "noggins"
	Strutting     Key = "strutting"
	Firrings      Key = "firrings"
	Boards        Key = "boards"
	DeckScrews    Key = "deck-screws"
	Battens       Key = "battens"
	Fascias       Key = "fascias"
	UpstandBoard  Key = "upstand-board"
	UpstandPlugs  Key = "upstand-plugs"
	Sheet         Key = "sheet"
	DeckAdhesive  Key = "deck-adhesive"
	Contact       Key = "contact-adhesive"
	Primer        Key = "primer"
	Patches       Key = "patches"
	EdgeSealant   Key = "edge-sealant"
	WaterStop     Key = "water-stop"
	Bar           Key = "bar"
	BarScrews     Key = "bar-screws"
	Trim          Key = "trim"
	TrimCorners   Key = "trim-corners"
	TrimEnds      Key = "trim-ends"
	TrimNails     Key = "trim-nails"
	Gutter        Key = "gutter"
	Brackets      Key = "gutter-brackets"
	StopEnds      Key = "gutter-stop-ends"
	Outlets       Key = "gutter-outlets"
	Downpipe      Key = "downpipe"
	LeadSheet     Key = "lead"
	LeadClips     Key = "lead-clips"
	Wedges        Key = "lead-wedges"
	ChaseSealant  Key = "chase-sealant"
	Patination    Key = "patination-oil"
	Cloths        Key = "cloths"
	Rollers       Key = "roller-sleeves"
	Brushes       Key = "brushes"
	Gloves        Key = "gloves"
	Tape          Key = "tape"
	Cleaner       Key = "cleaner"
	Access        Key = "access"
	Cover         Key = "temporary-cover"
	Skip          Key = "skip"
)

// known says whether a key names a line.
func (k Key) known() bool {
	if _, ok := wares[k]; ok {
		return true
	}
	switch k {
	case JoistTimber, UpstandBoard, Sheet, Rollers, Brushes, Gloves, Cloths, Tape, Cleaner, Patination, Access, Cover:
		return true
	}
	return false
}

// Keys lists every line there is, in the order of the list.
func Keys() []Key {
	return []Key{
		PlateTimber, DPC, Anchors, Resin, Straps, LateralStraps, Hangers, Clips, HangerNails, SkewNails, JoistTimber, NogginTimber, Strutting, Firrings, Boards, DeckScrews, Battens, Fascias, UpstandBoard, UpstandPlugs, Sheet, DeckAdhesive, Contact, Primer, Patches, EdgeSealant, WaterStop, Bar, BarScrews, Trim, TrimCorners, TrimEnds, TrimNails, Gutter, Brackets, StopEnds, Outlets, Downpipe, LeadSheet, LeadClips, Wedges, ChaseSealant, Patination, Cloths, Rollers, Brushes, Gloves, Tape, Cleaner, Access, Cover, Skip,
	}
}

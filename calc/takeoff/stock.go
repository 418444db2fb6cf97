package takeoff

// ware is how a line is bought when the builder has not said otherwise.
type ware struct {
	unit   Unit
	where  Where
	waste  float64 // share of the need
	manner Manner
	sizes  []float64 // usual packs
}

// wares holds unit, merchant, waste and packs of every line bought in packs or
// stock lengths. A line bought one by one has the single size 1.
//
// Source: common practice, no source. Skip sizes (2, 4, 6 and 8 cubic yards) and
// downpipe lengths: from memory.
var wares = map[Key]ware{
	PlateTimber:   {Metre, Timber, 0.05, Fewest, []float64{3.0, 3.6, 4.2, 4.8, 5.4, 6.0}},
	DPC:           {Metre, Timber, 0.05, Tins, []float64{20, 30}},
	Anchors:       {Each, Ironwork, 0.10, Tins, []float64{10, 25}},
	Resin:         {Millilitre, Ironwork, 0.20, Tins, []float64{300, 380}},
	Straps:        {Each, Ironwork, 0, Tins, []float64{1}},
	LateralStraps: {Each, Ironwork, 0, Tins, []float64{1}},
	Hangers:       {Each, Ironwork, 0, Tins, []float64{10}},
	Clips:         {Each, Ironwork, 0, Tins, []float64{10}},
	HangerNails:   {Each, Ironwork, 0.10, Tins, []float64{200, 500}},
	SkewNails:     {Kilogram, Ironwork, 0.10, Tins, []float64{1, 2.5, 5}},
	NogginTimber:  {Metre, Timber, 0.10, Timbers, []float64{2.4, 3.0, 3.6, 4.2, 4.8}},
	Strutting:     {Metre, Timber, 0.10, Timbers, []float64{2.4, 3.0, 3.6, 4.2, 4.8}},
	Firrings:      {Each, Timber, 0, Tins, []float64{1}},
	Boards:        {Each, Timber, 0, Tins, []float64{1}},
	DeckScrews:    {Each, Ironwork, 0.10, Tins, []float64{200, 500}},
	Battens:       {Metre, Timber, 0.10, Timbers, []float64{2.4, 3.6, 4.8, 5.0}},
	Fascias:       {Metre, Timber, 0.10, Timbers, []float64{2.4, 3.6, 4.8, 5.0}},
	UpstandPlugs:  {Each, Ironwork, 0.10, Tins, []float64{100}},
	DeckAdhesive:  {Litre, Roofing, 0.10, Tins, []float64{2.5, 5, 10, 15}},
	Contact:       {Litre, Roofing, 0.15, Tins, []float64{1, 2.5, 5}},
	Primer:        {Litre, Roofing, 0, Tins, []float64{0.25, 0.5, 1}},
	Patches:       {Each, Roofing, 0.20, Tins, []float64{1}},
	EdgeSealant:   {Cartridge, Roofing, 0.10, Tins, []float64{1}},
	WaterStop:     {Cartridge, Roofing, 0.10, Tins, []float64{1}},
	Bar:           {Metre, Roofing, 0.05, Timbers, []float64{2.5, 3.0}},
	BarScrews:     {Each, Roofing, 0.10, Tins, []float64{100}},
	Trim:          {Metre, Roofing, 0, Fewest, []float64{2.5, 3.0, 5.0}},
	TrimCorners:   {Each, Roofing, 0, Tins, []float64{1}},
	TrimEnds:      {Each, Roofing, 0, Tins, []float64{1}},
	TrimNails:     {Each, Roofing, 0.10, Tins, []float64{200}},
	Gutter:        {Metre, Rainwater, 0, Fewest, []float64{2, 4}},
	Brackets:      {Each, Rainwater, 0, Tins, []float64{1}},
	StopEnds:      {Each, Rainwater, 0, Tins, []float64{1}},
	Outlets:       {Each, Rainwater, 0, Tins, []float64{1}},
	Downpipe:      {Metre, Rainwater, 0, Fewest, []float64{2.5, 4, 5.5}},
	LeadSheet:     {Metre, Lead, 0.05, Timbers, []float64{3, 6}},
	LeadClips:     {Each, Lead, 0.10, Tins, []float64{1}},
	Wedges:        {Each, Lead, 0.20, Tins, []float64{1}},
	ChaseSealant:  {Cartridge, Lead, 0, Tins, []float64{1}},
	Skip:          {CubicMetre, Hire, 0, Fewest, []float64{1.5, 3.1, 4.6, 6.1}},
}

// Usual returns the pack sizes or lengths a line comes in where the builder has
// not said otherwise, in the unit of the line; none where it is cut or counted
// as needed.
func Usual(key Key) []float64 {
	if key == JoistTimber {
		var out []float64
		for n := 8.0; n*joistStep <= longestStock; n++ { // shorter ones are not stocked: from memory
			out = append(out, n*joistStep/1000)
		}
		return out
	}
	return append([]float64(nil), wares[key].sizes...)
}

// UnitOf returns what a line is counted in.
func UnitOf(key Key) Unit {
	if w, ok := wares[key]; ok {
		return w.unit
	}
	switch key {
	case JoistTimber:
		return Metre
	case UpstandBoard, Sheet, Cover:
		return SquareMetre
	case Access:
		return Day
	}
	return Each
}

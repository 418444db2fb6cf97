package takeoff

// ware is how a line is bought when the builder has not said otherwise.
type ware struct {
	unit  Unit
	where Where
	waste float64   // share of the need
	sizes []float64 // usual packs
}

// wares holds waste and packs of the lines bought in packs or lengths.
//
// Source: common practice, no source. Skip sizes: from memory.
var wares = map[Key]ware{
	PlateTimber:   {Metre, Timber, 0.05, []float64{3.0, 3.6, 4.2, 4.8, 5.4, 6.0}},
	DPC:           {Metre, Timber, 0.05, []float64{20, 30}},
	Anchors:       {Each, Ironwork, 0.10, []float64{10, 25}},
	Resin:         {Millilitre, Ironwork, 0.20, []float64{300, 380}},
	Straps:        {Each, Ironwork, 0, []float64{1}},
	LateralStraps: {Each, Ironwork, 0, []float64{1}},
	Hangers:       {Each, Ironwork, 0, []float64{10}},
	Clips:         {Each, Ironwork, 0, []float64{10}},
	HangerNails:   {Each, Ironwork, 0.10, []float64{200, 500}},
	SkewNails:     {Kilogram, Ironwork, 0.10, []float64{1, 2.5, 5}},
	NogginTimber:  {Metre, Timber, 0.10, []float64{2.4, 3.0, 3.6, 4.2, 4.8}},
	Strutting:     {Metre, Timber, 0.10, []float64{2.4, 3.0, 3.6, 4.2, 4.8}},
	Firrings:      {Each, Timber, 0, []float64{1}},
	Boards:        {Each, Timber, 0, []float64{1}},
	DeckScrews:    {Each, Ironwork, 0.10, []float64{200, 500}},
	Battens:       {Metre, Timber, 0.10, []float64{2.4, 3.6, 4.8, 5.0}},
	Fascias:       {Metre, Timber, 0.10, []float64{2.4, 3.6, 4.8, 5.0}},
	UpstandPlugs:  {Each, Ironwork, 0.10, []float64{100}},
	DeckAdhesive:  {Litre, Roofing, 0.10, []float64{2.5, 5, 10, 15}},
	Contact:       {Litre, Roofing, 0.15, []float64{1, 2.5, 5}},
	Primer:        {Litre, Roofing, 0, []float64{0.25, 0.5, 1}},
	Patches:       {Each, Roofing, 0.20, []float64{1}},
	EdgeSealant:   {Each, Roofing, 0.10, []float64{1}},
	WaterStop:     {Each, Roofing, 0.10, []float64{1}},
	Bar:           {Metre, Roofing, 0.05, []float64{2.5, 3.0}},
	BarScrews:     {Each, Roofing, 0.10, []float64{100}},
	Trim:          {Metre, Roofing, 0, []float64{2.5, 3.0, 5.0}},
	TrimCorners:   {Each, Roofing, 0, []float64{1}},
	TrimEnds:      {Each, Roofing, 0, []float64{1}},
	TrimNails:     {Each, Roofing, 0.10, []float64{200}},
	Gutter:        {Metre, Rainwater, 0, []float64{2, 4}},
	Brackets:      {Each, Rainwater, 0, []float64{1}},
	StopEnds:      {Each, Rainwater, 0, []float64{1}},
	Outlets:       {Each, Rainwater, 0, []float64{1}},
	Downpipe:      {Metre, Rainwater, 0, []float64{2.5, 4, 5.5}},
	LeadSheet:     {Metre, Lead, 0.05, []float64{3, 6}},
	LeadClips:     {Each, Lead, 0.10, []float64{1}},
	Wedges:        {Each, Lead, 0.20, []float64{1}},
	ChaseSealant:  {Each, Lead, 0, []float64{1}},
	Skip:          {CubicMetre, Hire, 0, []float64{1.5, 3.1, 4.6, 6.1}},
}

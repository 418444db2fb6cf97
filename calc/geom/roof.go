package geom

// RoofIn is the topic roof: the plan of a roof in one of three forms, length
// and depth, four sides and two diagonals, or a walk round right angles.
type RoofIn struct {
	LengthMM    *float64    `json:"length_mm,omitempty" doc:"along the gutter; with depth_mm: a square-cornered roof" min:"1" max:"100000"`
	DepthMM     *float64    `json:"depth_mm,omitempty" doc:"up the roof" min:"1" max:"100000"`
	SidesMM     []float64   `json:"sides_mm,omitempty" doc:"four sides clockwise from above: gutter, left, back, right; with diagonals_mm: a roof out of square"`
	DiagonalsMM []float64   `json:"diagonals_mm,omitempty" doc:"from the gutter's left end, from its right end"`
	Walk        []RoofStep  `json:"walk,omitempty" doc:"right-angled outline, clockwise from the right end of the gutter"`
	Edges       []string    `json:"edges,omitempty" doc:"what stands on each of four edges, clockwise from the gutter; not with walk" enum:"gutter,verge,wall,parapet"`
	Pipes       []RoofPipe  `json:"pipes,omitempty" doc:"round openings"`
	Rooflights  []RoofLight `json:"rooflights,omitempty" doc:"square openings set along the gutter"`
	RowMM       *float64    `json:"row_mm,omitempty" doc:"width of a row of boards: adds what to cut off each row of a four-sided roof" min:"50" max:"100000"`
}

// RoofStep is one edge of a walk.
type RoofStep struct {
	LengthMM float64 `json:"length_mm" doc:"length of the edge" min:"1" max:"100000"`
	Turn     string  `json:"turn,omitempty" doc:"at the end of the edge: right is an external corner; may be left out in the last step" enum:"right,left,straight"`
	Kind     string  `json:"kind" doc:"what stands on the edge" enum:"gutter,verge,wall,parapet"`
}

// RoofPipe is a round opening.
type RoofPipe struct {
	XMM   float64 `json:"x_mm" doc:"centre, along the gutter from its left end"`
	YMM   float64 `json:"y_mm" doc:"centre, up the roof from the gutter line"`
	DiaMM float64 `json:"dia_mm" doc:"outside diameter" min:"1" max:"100000"`
}

// RoofLight is a rooflight by its outside.
type RoofLight struct {
	XMM      float64 `json:"x_mm" doc:"left side, along the gutter from its left end"`
	YMM      float64 `json:"y_mm" doc:"low side, up the roof from the gutter line"`
	LengthMM float64 `json:"length_mm" doc:"along the gutter" min:"1" max:"100000"`
	DepthMM  float64 `json:"depth_mm" doc:"up the roof" min:"1" max:"100000"`
}

// RoofOut is the answer to RoofIn. Edges and openings count from 1.
type RoofOut struct {
	AreaM2          float64         `json:"area_m2" doc:"plan area"`
	Perimeter       RoofPerimeter   `json:"perimeter" doc:"length of the edges by what stands on them"`
	CornersInternal int             `json:"corners_internal" doc:"corners of the plan over 180 degrees inside the roof"`
	CornersExternal int             `json:"corners_external" doc:"corners of the plan under 180 degrees"`
	VerticesMM      []RoofVertex    `json:"vertices_mm" doc:"corners clockwise from the right end of the gutter, whose left end is the origin"`
	DiagonalsMM     []float64       `json:"diagonals_mm,omitempty" doc:"of a four-sided roof, adjusted: from the gutter's left end, from its right end"`
	Squareness      string          `json:"squareness,omitempty" doc:"of a four-sided roof by the difference of its diagonals: up to 10 mm, up to 25 mm, more" enum:"square,note,taper"`
	MisclosureMM    float64         `json:"misclosure_mm" doc:"how far the tape misses closing"`
	Closes          bool            `json:"closes" doc:"misclosure within 20 mm; if not, nobody can say which reading is wrong"`
	Remeasure       []string        `json:"remeasure,omitempty" doc:"what to tape again, in this order, when it does not close"`
	ResidualsMM     []float64       `json:"residuals_mm,omitempty" doc:"added to each reading to make it close: four sides and two diagonals, or the edges of the walk"`
	SkewMM          float64         `json:"skew_mm" doc:"how far the middle of the back lies to the right of the middle of the gutter, four-sided roofs"`
	Taper           []RoofTaper     `json:"taper" doc:"every edge but the low one against its square line"`
	TaperRows       []RoofTaperRow  `json:"taper_rows,omitempty" doc:"rows of boards parallel to the gutter, if row_mm is given"`
	Clearances      []RoofClearance `json:"clearances" doc:"from each opening to each edge and to each later opening"`
}

// RoofPerimeter is the perimeter by kind of edge.
type RoofPerimeter struct {
	GutterMM  float64 `json:"gutter_mm" doc:"gutter edges"`
	VergeMM   float64 `json:"verge_mm" doc:"verges"`
	WallMM    float64 `json:"wall_mm" doc:"against walls"`
	ParapetMM float64 `json:"parapet_mm" doc:"against parapets"`
	TotalMM   float64 `json:"total_mm" doc:"all edges"`
}

// RoofVertex is a corner of the plan.
type RoofVertex struct {
	XMM float64 `json:"x_mm" doc:"along the gutter from its left end"`
	YMM float64 `json:"y_mm" doc:"up the roof"`
}

// RoofTaper is the run-out of one edge.
type RoofTaper struct {
	Edge      int     `json:"edge" doc:"counted from 1, clockwise from the gutter"`
	Kind      string  `json:"kind" doc:"what stands on it" enum:"gutter,verge,wall,parapet"`
	RunMM     float64 `json:"run_mm" doc:"length of the square line beside it"`
	CutFromMM float64 `json:"cut_from_mm" doc:"cut back from the square line at the edge's start, clockwise"`
	CutToMM   float64 `json:"cut_to_mm" doc:"cut back at its end"`
}

// RoofTaperRow is one row of boards on a roof out of square.
type RoofTaperRow struct {
	Row           int     `json:"row" doc:"counted from 1, up from the gutter"`
	LeftMM        float64 `json:"left_mm" doc:"x of the square left end"`
	LengthMM      float64 `json:"length_mm" doc:"square-ended length that covers the row"`
	LeftLowMM     float64 `json:"left_low_mm" doc:"cut off the left end along the low arris"`
	LeftHighMM    float64 `json:"left_high_mm" doc:"and along the high arris"`
	RightLowMM    float64 `json:"right_low_mm" doc:"cut off the right end along the low arris"`
	RightHighMM   float64 `json:"right_high_mm" doc:"and along the high arris"`
	HeightLeftMM  float64 `json:"height_left_mm" doc:"height left at the left end"`
	HeightRightMM float64 `json:"height_right_mm" doc:"height left at the right end"`
}

// RoofClearance is one clear gap.
type RoofClearance struct {
	From  string  `json:"from" doc:"pipe or rooflight and its number"`
	To    string  `json:"to" doc:"edge, pipe or rooflight and its number"`
	GapMM float64 `json:"gap_mm" doc:"clear, face to face"`
	Room  string  `json:"room" doc:"for a patch: from 150 mm, from 75 mm, from 25 mm, less" enum:"ample,patch,tight,unbondable"`
}

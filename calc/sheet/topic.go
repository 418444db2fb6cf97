package sheet

// WalkedEdge is one edge of an outline, walked clockwise from the right end of
// the gutter.
type WalkedEdge struct {
	Length float64 `json:"length_mm" doc:"length of the edge" min:"1" max:"100000"`
	Turn   string  `json:"turn,omitempty" doc:"at the end of the edge: right is an external corner; may be left out in the last" enum:"right,left,straight"`
}

// PlaceMM is a rectangle on the plan, from the left end of the gutter.
type PlaceMM struct {
	X      float64 `json:"x_mm" doc:"left side, along the gutter"`
	Y      float64 `json:"y_mm" doc:"lower side, up the fall"`
	Length float64 `json:"length_mm" doc:"along the gutter" min:"0"`
	Depth  float64 `json:"depth_mm" doc:"up the fall" min:"0"`
}

// SheetIn is the topic sheet.
type SheetIn struct {
	Length    *float64     `json:"length_mm,omitempty" doc:"deck along the gutter; with depth_mm, or else outline" min:"500" max:"20000"`
	Depth     *float64     `json:"depth_mm,omitempty" doc:"deck along the fall" min:"500" max:"20000"`
	Outline   []WalkedEdge `json:"outline,omitempty" doc:"a right-angled outline, clockwise from the gutter"`
	Edges     []string     `json:"edges" doc:"what stands on each edge, clockwise from the gutter" enum:"gutter,verge,wall,parapet"`
	Rubber    []float64    `json:"rubber_heights_mm,omitempty" doc:"for each edge: greatest height of rubber on a wall (0: 150), inside height of a parapet, 0 on a free edge"`
	Tops      []float64    `json:"parapet_tops_mm,omitempty" doc:"for each edge: across the top of a parapet that the sheet is taken over, else 0"`
	Tuck      *bool        `json:"tuck,omitempty" doc:"rubber goes down behind the fascia at the gutter"`
	Skew      *float64     `json:"skew_mm,omitempty" doc:"how far the head of the roof is shifted along the gutter" min:"-1000" max:"1000"`
	Step      *float64     `json:"step_mm,omitempty" doc:"supplier's cutting step; none: 100" min:"1" max:"1000"`
	Thickness *float64     `json:"thickness_mm,omitempty" doc:"none: 1.2" min:"1" max:"2.5"`
	Widths    []float64    `json:"widths_mm,omitempty" doc:"sheet widths to be had, each 900 to 20000; none: any"`
	Lap       *float64     `json:"lap_mm,omitempty" doc:"at a seam; none: 100" min:"75" max:"300"`
	Clear     []PlaceMM    `json:"keep_clear,omitempty" doc:"where no seam may lie: pipes with their room, valleys"`
	Roll      *float64     `json:"roll_mm,omitempty" doc:"length of a roll, to count rolls" min:"1000" max:"100000"`
	Delivered []float64    `json:"delivered_mm,omitempty" doc:"the sheet that came: length along the gutter, width up the fall"`
	Overlaps  []float64    `json:"overlaps_mm,omitempty" doc:"read off the dry-laid sheet, one for each edge; instead of delivered_mm"`
}

// SheetOut is the answer of the topic sheet.
type SheetOut struct {
	Length     float64            `json:"length_mm" doc:"along the gutter, up to the step"`
	Width      float64            `json:"width_mm" doc:"up the fall, up to the step"`
	Mass       float64            `json:"mass_kg" doc:"of the sheet; with widths_mm of all that is bought"`
	Hands      int                `json:"hands" doc:"people to carry the heaviest piece"`
	Area       float64            `json:"area_m2" doc:"of the sheet; with widths_mm of all that is bought"`
	Roof       float64            `json:"roof_area_m2"`
	Allowances map[string]float64 `json:"allowances" doc:"greatest past the deck for each kind of edge, mm: gutter, verge, wall, parapet"`
	ByEdge     []float64          `json:"edge_allowances_mm" doc:"past each edge, in the order of edges"`
	Run        Run                `json:"run" doc:"the way the strips lie" enum:"down,across"`
	Strips     []StripOut         `json:"strips" doc:"one for a sheet in one piece"`
	Seams      []SeamOut          `json:"seams"`
	Recess     bool               `json:"recess" doc:"a recess too narrow for the upstands on both its sides: a piece of its own there"`
	Offcuts    []PlaceMM          `json:"offcuts" doc:"rectangles left over, largest first, by their place beside the strips"`
	Corners    []CornerOut        `json:"corners"`
	Rolls      []RollsOut         `json:"rolls,omitempty"`
	Served     []ServedOut        `json:"served,omitempty" doc:"what each edge gets of the sheet that came"`
	Turned     bool               `json:"turned,omitempty" doc:"the sheet that came serves better turned a quarter"`
	Remedies   []RemedyOut        `json:"remedies,omitempty"`
}

// StripOut is one piece of sheet as it lies.
type StripOut struct {
	Place  PlaceMM `json:"place"`
	Lies   Run     `json:"lies" doc:"the way its length lies" enum:"down,across"`
	Width  float64 `json:"width_mm" doc:"of the sheet it is cut from"`
	Length float64 `json:"length_mm" doc:"to order, up to the step"`
}

// SeamOut is one lap.
type SeamOut struct {
	From   float64 `json:"from_mm" doc:"lap from, along the gutter for strips down, up the fall for strips across"`
	To     float64 `json:"to_mm"`
	Length float64 `json:"length_mm"`
}

// CornerOut is one corner; edges count from 1.
type CornerOut struct {
	Before int    `json:"before" doc:"edge that ends here, from 1"`
	After  int    `json:"after" doc:"edge that begins here"`
	Detail Detail `json:"detail" enum:"fold,cut patch,trim turn,trim end,in line,none"`
}

// RollsOut is rolls of one width.
type RollsOut struct {
	Width  float64 `json:"width_mm"`
	Count  int     `json:"count"`
	Proven bool    `json:"proven"`
}

// ServedOut is what one edge gets.
type ServedOut struct {
	Have  float64 `json:"have_mm"`
	Least float64 `json:"least_mm"`
	Short float64 `json:"short_mm"`
	Grade Grade   `json:"grade" enum:"enough,tight,short"`
}

// RemedyOut is what can be done about a short edge; edges count from 1.
type RemedyOut struct {
	Edge int     `json:"edge"`
	Act  Act     `json:"act" enum:"shift,lower,strip,reorder"`
	By   float64 `json:"by_mm"`
}

package deck

import (
	"fmt"

	"chargehand/calc/unit"
)

// DeckIn is the input of the topic "deck".
type DeckIn struct {
	RowLengthMM    float64    `json:"row_length_mm" doc:"length of a row, along the boards" min:"100" max:"30000"`
	DepthMM        float64    `json:"depth_mm" doc:"depth of the deck, over all rows" min:"10" max:"30000"`
	JoistSpacingMM *float64   `json:"joist_spacing_mm,omitempty" doc:"lines at 0, s, 2s and so on and at the row's end; or give lines_mm" min:"100" max:"10000"`
	LinesMM        []float64  `json:"lines_mm,omitempty" doc:"joist centre lines as set out, from the deck edge; those nearer than 100 mm to an edge belong to it"`
	Regions        []RegionIn `json:"regions,omitempty" doc:"further rectangles of an L- or T-shaped deck"`
	BoardLengthMM  float64    `json:"board_length_mm" doc:"length of a board" min:"100" max:"10000"`
	BoardWidthMM   float64    `json:"board_width_mm" doc:"cover width of a board" min:"50" max:"10000"`
	KerfMM         float64    `json:"kerf_mm" doc:"width of the saw cut" min:"0" max:"50"`
	EndGapMM       float64    `json:"end_gap_mm" doc:"gap between the ends of two pieces" min:"0" max:"50"`
	RowGapMM       float64    `json:"row_gap_mm" doc:"gap between two rows" min:"0" max:"50"`
	MinBays        int        `json:"min_bays" doc:"bays each piece spans at least; 2 bears on three lines" min:"1" max:"100"`
	Stagger        int        `json:"stagger" doc:"lines between joints of neighbouring rows at least" min:"0" max:"100"`
	StaggerMM      *float64   `json:"stagger_mm,omitempty" doc:"and the same as a length" min:"0" max:"10000"`
	Strips         []StripIn  `json:"strips,omitempty" doc:"upstand strips cut from the same boards"`
	Budget         *int       `json:"budget,omitempty" doc:"most work to spend" min:"0"`
}

// RegionIn is a further rectangle of the deck.
type RegionIn struct {
	RowLengthMM    float64   `json:"row_length_mm" doc:"length of a row" min:"100" max:"30000"`
	DepthMM        float64   `json:"depth_mm" doc:"depth over all rows" min:"10" max:"30000"`
	JoistSpacingMM *float64  `json:"joist_spacing_mm,omitempty" doc:"as for the deck" min:"100" max:"10000"`
	LinesMM        []float64 `json:"lines_mm,omitempty" doc:"as for the deck"`
}

// StripIn is one kind of upstand strip.
type StripIn struct {
	LengthMM float64 `json:"length_mm" doc:"length, along the board" min:"1" max:"10000"`
	HeightMM float64 `json:"height_mm" doc:"height of the strip" min:"1" max:"10000"`
	Count    int     `json:"count" doc:"how many" min:"1" max:"500"`
	Label    string  `json:"label,omitempty" doc:"where it goes"`
}

// DeckOut is the output of the topic "deck".
type DeckOut struct {
	Boards     int          `json:"boards" doc:"boards to buy"`
	Pieces     int          `json:"pieces" doc:"pieces laid, strips not counted"`
	Rows       [][]PieceOut `json:"rows" doc:"the pieces of each row, left to right"`
	Cuts       []CutsOut    `json:"cuts" doc:"how the boards are sawn, boards sawn alike as one line"`
	LowerBound int          `json:"lower_bound" doc:"no layout takes fewer boards"`
	Proven     bool         `json:"proven" doc:"boards equals lower_bound"`
	Gap        float64      `json:"gap" doc:"(boards - lower_bound) / boards"`
	Work       int          `json:"work" doc:"work spent"`
}

// PieceOut is one piece as it lies.
type PieceOut struct {
	XMM      float64 `json:"x_mm" doc:"its left end"`
	YMM      float64 `json:"y_mm" doc:"the row's near edge"`
	LengthMM float64 `json:"length_mm" doc:"along the row"`
	WidthMM  float64 `json:"width_mm" doc:"of the row"`
	FromLine int     `json:"from_line" doc:"support line at its left end, 0 the deck edge"`
	ToLine   int     `json:"to_line" doc:"support line at its right end"`
	Letter   string  `json:"letter" doc:"mark; pieces alike share it"`
	Board    int     `json:"board" doc:"the board it is sawn from, counted from 1"`
	Region   int     `json:"region" doc:"0 the deck, 1 the first of regions"`
}

// CutsOut is a number of boards sawn alike: across, along, across.
type CutsOut struct {
	Times    int          `json:"times" doc:"boards sawn alike"`
	Boards   []int        `json:"boards" doc:"their numbers, from 1"`
	Sections []SectionOut `json:"sections" doc:"first cross-cuts"`
	OffcutMM float64      `json:"offcut_mm" doc:"left at the board's end, whole width"`
}

// SectionOut is what a first cross-cut leaves.
type SectionOut struct {
	LengthMM float64   `json:"length_mm" doc:"along the board"`
	Lanes    []LaneOut `json:"lanes" doc:"one of the whole width when it is not ripped"`
}

// LaneOut is what a rip leaves, cross-cut into parts.
type LaneOut struct {
	WidthMM float64   `json:"width_mm" doc:"across the board"`
	PartsMM []float64 `json:"parts_mm" doc:"lengths end to end"`
	Letters []string  `json:"letters" doc:"mark of each part"`
}

// ReckonDeck answers the topic "deck". See Solve for what it promises.
func ReckonDeck(in DeckIn) (DeckOut, error) {
	p := Problem{
		RowLength: unit.Length(in.RowLengthMM), Depth: unit.Length(in.DepthMM),
		BoardLength: unit.Length(in.BoardLengthMM), BoardWidth: unit.Length(in.BoardWidthMM),
		Kerf: unit.Length(in.KerfMM), EndGap: unit.Length(in.EndGapMM), RowGap: unit.Length(in.RowGapMM),
		MinBays: in.MinBays, Stagger: in.Stagger,
	}
	var err error
	if p.JoistSpacing, p.Lines, err = support("", in.JoistSpacingMM, in.LinesMM); err != nil {
		return DeckOut{}, err
	}
	for i, r := range in.Regions {
		reg := Region{RowLength: unit.Length(r.RowLengthMM), Depth: unit.Length(r.DepthMM)}
		if reg.JoistSpacing, reg.Lines, err = support(fmt.Sprintf("regions[%d].", i), r.JoistSpacingMM, r.LinesMM); err != nil {
			return DeckOut{}, err
		}
		p.Regions = append(p.Regions, reg)
	}
	if in.StaggerMM != nil {
		p.StaggerLength = unit.Length(*in.StaggerMM)
	}
	if in.Budget != nil {
		p.Budget = int64(*in.Budget)
	}
	for _, st := range in.Strips {
		p.Strips = append(p.Strips, Strip{Length: unit.Length(st.LengthMM), Height: unit.Length(st.HeightMM), Count: st.Count, Label: st.Label})
	}
	l, err := Solve(p)
	if err != nil {
		return DeckOut{}, err
	}
	if err := Check(p, l); err != nil {
		return DeckOut{}, fmt.Errorf("deck: the layout found does not check: %w", err)
	}
	return l.out(), nil
}

// support reads the two ways to say where the joists are; exactly one is wanted.
func support(key string, spacing *float64, lines []float64) (unit.Length, []unit.Length, error) {
	if (spacing == nil) == (lines == nil) {
		got := "neither"
		if spacing != nil {
			got = "both"
		}
		return 0, nil, domain(key+"joist_spacing_mm", got, "either joist_spacing_mm or lines_mm")
	}
	if spacing != nil {
		return unit.Length(*spacing), nil, nil
	}
	out := make([]unit.Length, len(lines))
	for i, l := range lines {
		out[i] = unit.Length(l)
	}
	return 0, out, nil
}

func (l Layout) out() DeckOut {
	out := DeckOut{
		Boards: l.Boards, Pieces: l.Pieces, LowerBound: l.Bound, Proven: l.Proven, Gap: l.Gap, Work: int(l.Work),
	}
	for _, r := range l.Rows {
		var row []PieceOut
		for _, pc := range r.Pieces {
			row = append(row, PieceOut{
				XMM: mm(pc.X), YMM: mm(r.Y), LengthMM: mm(pc.Length), WidthMM: mm(r.Width),
				FromLine: pc.From, ToLine: pc.To, Letter: pc.Letter, Board: pc.Board + 1, Region: r.Region,
			})
		}
		out.Rows = append(out.Rows, row)
	}
	for _, g := range l.Groups() {
		c := CutsOut{Times: g.Times, OffcutMM: mm(g.Cuts.Offcut)}
		for _, b := range g.Boards {
			c.Boards = append(c.Boards, b+1)
		}
		for _, sec := range g.Cuts.Sections {
			so := SectionOut{LengthMM: mm(sec.Length)}
			for _, ln := range sec.Lanes {
				lo := LaneOut{WidthMM: mm(ln.Width)}
				for _, part := range ln.Parts {
					lo.PartsMM = append(lo.PartsMM, mm(part.Length))
					lo.Letters = append(lo.Letters, part.Letter)
				}
				so.Lanes = append(so.Lanes, lo)
			}
			c.Sections = append(c.Sections, so)
		}
		out.Cuts = append(out.Cuts, c)
	}
	return out
}

package lead

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// LeadIn is the topic lead.
type LeadIn struct {
	Run      float64  `json:"run_mm" doc:"length along the wall" min:"100" max:"50000"`
	Code     int      `json:"code" doc:"code of the sheet; flashings at least 4" min:"3" max:"8"`
	Width    float64  `json:"width_mm" doc:"strip as cut from the roll, turn-in included" min:"50" max:"1000"`
	Lap      float64  `json:"lap_mm" doc:"of one piece over the next: 100, severe exposure 150" min:"50" max:"300"`
	MaxPiece *float64 `json:"max_piece_mm,omitempty" doc:"longest piece; none: what the code allows" min:"300" max:"1500"`
	Exposed  *bool    `json:"exposed,omitempty" doc:"severe exposure: free-edge clips at 300 instead of 500"`
	RangeK   *float64 `json:"range_k,omitempty" doc:"swing of temperature for the movement; none: 45" min:"1" max:"120"`
}

// LeadOut is the answer of the topic lead.
type LeadOut struct {
	Pieces     int       `json:"pieces"`
	Piece      float64   `json:"piece_mm" doc:"each, all equal"`
	Mass       float64   `json:"mass_kg" doc:"of all pieces"`
	Movement   float64   `json:"movement_mm" doc:"of one piece"`
	Wedges     int       `json:"wedges" doc:"in the chase, at most 450 apart"`
	Clips      int       `json:"clips" doc:"at the free edge"`
	Starts     []float64 `json:"starts_mm" doc:"of each piece along the run"`
	Thin       bool      `json:"thin" doc:"the code is for soakers; a flashing is at least code 4"`
	LeastWidth float64   `json:"least_width_mm" doc:"turn-in 25, gap to the board 10, cover 75"`
}

// ReckonLead is Pieces as the topic lead.
func ReckonLead(in LeadIn) (LeadOut, error) {
	r := Run{
		Length: unit.Length(in.Run),
		Code:   in.Code,
		Width:  unit.Length(in.Width),
		Lap:    unit.Length(in.Lap),
	}
	// In Run a zero means the usual figure; here it was said.
	if in.MaxPiece != nil {
		if r.MaxPiece = unit.Length(*in.MaxPiece); r.MaxPiece == 0 {
			return LeadOut{}, &calc.DomainError{Op: "lead.pieces", Field: "max_piece_mm", Got: 0.0, Wanted: "300 to 1500 mm"}
		}
	}
	if in.Exposed != nil {
		r.Exposed = *in.Exposed
	}
	if in.RangeK != nil {
		if r.Range = unit.KelvinDiff(*in.RangeK); r.Range == 0 {
			return LeadOut{}, &calc.DomainError{Op: "lead.pieces", Field: "range_k", Got: 0.0, Wanted: "1 to 120 K"}
		}
	}
	c, err := Pieces(r)
	if err != nil {
		return LeadOut{}, err
	}
	starts := make([]float64, len(c.Starts))
	for i, s := range c.Starts {
		starts[i] = float64(s)
	}
	return LeadOut{
		Starts:     starts,
		Thin:       c.Thin,
		LeastWidth: float64(TurnIn + BoardGap + Cover),
		Pieces:     c.Pieces,
		Piece:      float64(c.Piece),
		Mass:       float64(c.Mass),
		Movement:   float64(c.Movement),
		Wedges:     c.Wedges,
		Clips:      c.Clips,
	}, nil
}

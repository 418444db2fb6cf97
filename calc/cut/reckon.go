package cut

import (
	"fmt"
	"math"

	"chargehand/calc/unit"
)

// CutIn is the input of the topic "cut".
type CutIn struct {
	Stock  []StockIn `json:"stock" doc:"the bars that can be had"`
	Pieces []PieceIn `json:"pieces" doc:"the pieces wanted"`
	KerfMM float64   `json:"kerf_mm" doc:"width of the saw cut" min:"0" max:"100"`
	TrimMM *float64  `json:"trim_mm,omitempty" doc:"cut away from each bar before use, both ends together; 0 if absent" min:"0" max:"5000"`
	Budget *int      `json:"budget,omitempty" doc:"most work to spend, in table cells touched" min:"0"`
}

// StockIn is one kind of bar.
type StockIn struct {
	LengthMM  float64  `json:"length_mm" doc:"length of the bar" min:"0.1" max:"100000"`
	Cost      *float64 `json:"cost,omitempty" doc:"price of one bar in any unit, at most two decimals; without any prices one stock counts bars and several stocks count mm; a limited bar without a price is free" min:"0" max:"1000000"`
	Available *int     `json:"available,omitempty" doc:"bars that can be had; absent or -1: as many as needed" min:"-1"`
}

// PieceIn is one kind of piece wanted.
type PieceIn struct {
	LengthMM float64 `json:"length_mm" doc:"length of the piece" min:"0.1" max:"100000"`
	Count    int     `json:"count" doc:"how many" min:"1" max:"2000"`
	Label    string  `json:"label,omitempty" doc:"where it goes"`
}

// CutOut is the output of the topic "cut".
type CutOut struct {
	Bars       []BarOut   `json:"bars" doc:"every bar, bars cut alike together"`
	Groups     []GroupOut `json:"groups" doc:"the same list as one saws it"`
	Count      int        `json:"count" doc:"bars used"`
	Cost       float64    `json:"cost" doc:"their cost"`
	LowerBound float64    `json:"lower_bound" doc:"no list costs less"`
	Proven     bool       `json:"proven" doc:"cost equals lower_bound"`
	Gap        float64    `json:"gap" doc:"(cost - lower_bound) / cost"`
	Work       int        `json:"work" doc:"table cells touched"`
}

// BarOut is one bar and what is sawn from it.
type BarOut struct {
	StockMM  float64   `json:"stock_mm" doc:"length of the bar"`
	PiecesMM []float64 `json:"pieces_mm" doc:"pieces, longest first"`
	Letters  []string  `json:"letters" doc:"mark of each piece"`
	Labels   []string  `json:"labels,omitempty" doc:"where each piece goes, if that was told"`
	OffcutMM float64   `json:"offcut_mm" doc:"left over after the last saw cut"`
}

// GroupOut is so many bars cut alike.
type GroupOut struct {
	Times    int       `json:"times" doc:"bars cut alike"`
	StockMM  float64   `json:"stock_mm" doc:"length of the bar"`
	PiecesMM []float64 `json:"pieces_mm" doc:"pieces, longest first"`
	Letters  []string  `json:"letters" doc:"mark of each piece"`
	OffcutMM float64   `json:"offcut_mm" doc:"left over after the last saw cut"`
}

// ReckonCut answers the topic "cut". See Solve for what it promises.
func ReckonCut(in CutIn) (CutOut, error) {
	p := Problem{Kerf: unit.Length(in.KerfMM)}
	if in.TrimMM != nil {
		p.Trim = unit.Length(*in.TrimMM)
	}
	if in.Budget != nil {
		p.Budget = int64(*in.Budget)
	}
	scale, err := p.price(in.Stock)
	if err != nil {
		return CutOut{}, err
	}
	for _, pc := range in.Pieces {
		p.Pieces = append(p.Pieces, Piece{Length: unit.Length(pc.LengthMM), Count: pc.Count, Label: pc.Label})
	}
	l, err := Solve(p)
	if err != nil {
		return CutOut{}, err
	}
	if err := Check(p, l); err != nil {
		return CutOut{}, fmt.Errorf("cut: the list found does not check: %w", err)
	}
	return l.out(p, scale), nil
}

// price fills p.Stocks and returns how many of its cost units make one of the
// caller's.
func (p *Problem) price(stock []StockIn) (float64, error) {
	priced := 0
	for _, s := range stock {
		if s.Cost != nil {
			priced++
		}
	}
	const pence = 100
	scale := 1.0
	if priced > 0 {
		scale = pence
	}
	for i, s := range stock {
		st := Stock{Length: unit.Length(s.LengthMM), Available: Unlimited}
		if s.Available != nil {
			st.Available = *s.Available
		}
		switch {
		case s.Cost != nil:
			field := fmt.Sprintf("stock[%d].cost", i)
			c := *s.Cost * pence
			if !(c >= 0 && c <= maxCost) {
				return 0, domain(field, *s.Cost, fmt.Sprintf("0 to %d", maxCost/pence))
			}
			if math.Abs(c-math.Round(c)) > 1e-6*math.Max(1, c) {
				return 0, domain(field, *s.Cost, "at most two decimals")
			}
			st.Cost = int64(math.Round(c))
		case priced > 0 && st.Available == Unlimited:
			return 0, domain(fmt.Sprintf("stock[%d].cost", i), nil, "a price for every stock that is not limited, or for none")
		case priced > 0: // a limited bar without a price lies on site
		case len(stock) == 1:
			st.Cost = 1
		default:
			t, err := tenths(fmt.Sprintf("stock[%d].length_mm", i), st.Length, 0.1, maxLength)
			if err != nil {
				return 0, err
			}
			st.Cost, scale = int64(t), tenth
		}
		p.Stocks = append(p.Stocks, st)
	}
	return scale, nil
}

func (l List) out(p Problem, scale float64) CutOut {
	out := CutOut{
		Count: l.Count, Cost: float64(l.Cost) / scale, LowerBound: float64(l.Bound) / scale,
		Proven: l.Proven, Gap: l.Gap, Work: int(l.Work),
	}
	labelled := false
	for _, pc := range p.Pieces {
		labelled = labelled || pc.Label != ""
	}
	for _, b := range l.Bars {
		o := BarOut{StockMM: b.Length.In(unit.Millimetre), OffcutMM: b.Offcut.In(unit.Millimetre)}
		o.PiecesMM, o.Letters = marks(b.Cuts)
		if labelled {
			for _, c := range b.Cuts {
				o.Labels = append(o.Labels, p.Pieces[c.Piece].Label)
			}
		}
		out.Bars = append(out.Bars, o)
	}
	for _, g := range l.Groups() {
		o := GroupOut{Times: g.Times, StockMM: g.Length.In(unit.Millimetre), OffcutMM: g.Offcut.In(unit.Millimetre)}
		o.PiecesMM, o.Letters = marks(g.Cuts)
		out.Groups = append(out.Groups, o)
	}
	return out
}

func marks(cuts []Cut) (mm []float64, letters []string) {
	for _, c := range cuts {
		mm = append(mm, c.Length.In(unit.Millimetre))
		letters = append(letters, c.Letter)
	}
	return mm, letters
}

package plan

import (
	"math"

	"chargehand/calc/unit"
)

// Figure is one number of the plan that people are told and build by.
type Figure struct {
	Part string // the part it belongs to: what rests on a part is asked again
	Key  string
	Unit string // as in the record: mm, m2, count, ...
	Nums []float64
	Text string
}

func (f Figure) same(g Figure) bool {
	if f.Text != g.Text || len(f.Nums) != len(g.Nums) {
		return false
	}
	for i := range f.Nums {
		if f.Nums[i] != g.Nums[i] {
			return false
		}
	}
	return true
}

// Change is a figure that moved. Old or New is nil where it came or went.
type Change struct {
	Part, Key string
	Old, New  *Figure
}

// Figures lists the plan's numbers in the order of the work, rounded as they
// are shown, so that a change nobody would see is no change.
func (p *Plan) Figures() []Figure {
	var out []Figure
	put := func(part, key, unit string, nums ...float64) {
		out = append(out, Figure{Part: part, Key: key, Unit: unit, Nums: nums})
	}
	mm := func(l unit.Length) float64 { return math.Round(float64(l)) }
	if p.Area != nil {
		put("roof", "area", "m2", math.Round(p.Area.In(unit.SquareMetre)*10)/10)
	}
	if p.Skew != nil {
		put("roof", "skew", "mm", mm(*p.Skew))
	}
	if p.Fall != nil {
		put("fall", "fall", "ratio", float64(p.Fall.Slope))
	}
	if s := p.Snow; s != nil {
		put("snow", "snow", "kn_m2", hundredth(s.Flat.In(unit.KilonewtonPerM2)))
		for _, exceptional := range []bool{false, true} {
			if b := s.Worst(exceptional); b != nil {
				key := "drift"
				if exceptional {
					key = "drift-exceptional"
				}
				put("snow", key, "kn_m2", hundredth(b.Peak.In(unit.KilonewtonPerM2)))
			}
		}
	}
	if w := p.Wind; w != nil {
		put("wind", "wind-pressure", "kn_m2", hundredth(w.Pressure.In(unit.KilonewtonPerM2)))
		put("wind", "wind-lift", "kn", tenth(w.Total.In(unit.Kilonewton)))
	}
	if j := p.Joists; j != nil {
		put("joists", "joist-centres", "mm", math.Round(float64(j.Centres)*10)/10)
		put("joists", "joist-count", "count", float64(j.Count))
		var marks []float64
		for _, m := range j.Marks {
			marks = append(marks, math.Floor(float64(m)+0.5))
		}
		put("joists", "joist-marks", "mm", marks...)
		if j.Stock > 0 {
			put("joists", "joist-stock", "mm", mm(j.Stock))
		}
	}
	if s := p.Span; s != nil {
		put("span", "span-max", "mm", math.Floor(float64(s.Max)))
		put("span", "span-share", "pct", math.Ceil(s.Utilisation*100))
		if s.FallLeft != nil {
			put("span", "fall-left", "ratio", oneIn(*s.FallLeft))
		}
	}
	if x := p.Plates; x != nil {
		put("plates", "anchors", "count", float64(x.Anchors))
		if x.Ledger != nil {
			put("plates", "ledger-share", "pct", math.Ceil(x.Ledger.Utilisation*100))
		}
		put("straps", "straps", "count", float64(x.Straps))
		if x.HoldDown != nil {
			put("straps", "strap-pull", "kn", tenth(x.HoldDown.Each.In(unit.Kilonewton)))
		}
	}
	if x := p.Restraint; x != nil && x.Straps > 0 {
		put("restraint", "lateral-straps", "count", float64(x.Straps))
	}
	if s := p.Strutting; s != nil {
		put("strutting", "strutting", "count", float64(s.Rows))
		put("strutting", "noggins", "count", float64(s.Noggins))
	}
	if d := p.Deck; d != nil {
		put("deck", "boards", "count", float64(d.Boards))
		put("deck", "deck-pieces", "count", float64(d.Pieces))
		put("screws", "screws", "count", float64(d.Screws))
	}
	if d := p.Drip; d != nil {
		put("drip", "drip", "mm", mm(d.Drip))
	}
	if f := p.Front; f != nil {
		put("front", "cut-line", "mm", mm(f.Cut))
	}
	if len(p.Chases) > 0 {
		var joints, steps []float64
		for _, c := range p.Chases {
			joints = append(joints, mm(c.Joint))
			for _, at := range c.Steps {
				steps = append(steps, mm(at))
			}
		}
		put("chase", "chase", "mm", joints...)
		if len(steps) > 0 {
			put("chase", "chase-steps", "mm", steps...)
		}
	}
	if u := p.Upstands; u != nil {
		if u.BoardTop > 0 {
			put("upstands", "board-top", "mm", mm(u.BoardTop))
		}
		put("upstands", "rubber", "mm", mm(u.Rubber))
	}
	if s := p.Sheet; s != nil {
		put("sheet", "sheet-length", "mm", mm(s.Length))
		put("sheet", "sheet-width", "mm", mm(s.Width))
		if n := s.Pieces(); n > 1 {
			put("sheet", "sheet-strips", "count", float64(n))
		}
		if s.Short > 0 {
			put("sheet-came", "sheet-short", "mm", math.Ceil(float64(s.Short)))
		}
	}
	if c := p.Coping; c != nil {
		put("coping", "copings", "count", float64(c.Pieces))
	}
	if g := p.Go; g != nil {
		out = append(out, Figure{Part: "go", Key: "go", Unit: "key", Text: "verdict." + g.Verdict})
	}
	if w := p.Window; w != nil {
		put("window", "window", "min", w.Minutes())
	}
	if b := p.Batch; b != nil {
		put("batch", "batch", "m2", math.Round(b.Area.In(unit.SquareMetre)*10)/10)
	}
	if c := p.Contact; c != nil {
		put("contact", "contact-run", "mm", mm(c.Run))
	}
	if t := p.Trims; t != nil {
		n := 0
		for _, e := range t.Edges {
			n += len(e.Pieces)
		}
		put("trims", "trims", "count", float64(n))
	}
	if g := p.Gutter; g != nil {
		put("gutter", "gutter", "mm", mm(g.Size))
		put("gutter", "brackets", "count", float64(g.Brackets))
	}
	if b := p.Bar; b != nil {
		n := 0
		for _, s := range b.Screws {
			n += s
		}
		put("bar", "bar-screws", "count", float64(n))
	}
	if l := p.Lead; l != nil {
		n := 0
		for _, r := range l.Runs {
			n += r.Pieces
		}
		put("lead", "lead-pieces", "count", float64(n))
	}
	return out
}

func tenth(x float64) float64 { return math.Round(x*10) / 10 }

// oneIn rounds a fall to a whole one-in number, as it is shown.
func oneIn(f unit.Fall) float64 {
	if f <= 0 {
		return 0
	}
	return 1 / math.Round(f.OneIn())
}

func hundredth(x float64) float64 { return math.Round(x*100) / 100 }

// Diff lists what moved from one plan to another, in the order of the work.
func Diff(a, b *Plan) []Change {
	var out []Change
	before, after := a.Figures(), b.Figures()
	find := func(fs []Figure, key string) *Figure {
		for i := range fs {
			if fs[i].Key == key {
				return &fs[i]
			}
		}
		return nil
	}
	for i := range before {
		now := find(after, before[i].Key)
		if now == nil || !now.same(before[i]) {
			out = append(out, Change{Part: before[i].Part, Key: before[i].Key, Old: &before[i], New: now})
		}
	}
	for i := range after {
		if find(before, after[i].Key) == nil {
			out = append(out, Change{Part: after[i].Part, Key: after[i].Key, New: &after[i]})
		}
	}
	return out
}

package hear

import (
	"math"
	"slices"
)

// grade says where a number lies in a Range.
type grade uint8

const (
	good    grade = iota // inside soft
	odd                  // inside hard only
	outside              // outside hard
)

// most is the largest number anything here is; more is a slip of the thumb.
const most = 1e9

func (r Range) grade(v float64) grade {
	if math.IsNaN(v) || math.Abs(v) > most {
		return outside
	}
	if (r.HardMin != 0 || r.HardMax != 0) && (v < r.HardMin || v > r.HardMax) {
		return outside
	}
	if (r.SoftMin != 0 || r.SoftMax != 0) && (v < r.SoftMin || v > r.SoftMax) {
		return odd
	}
	return good
}

// grade says where v lies in the field. Picks, words, moments and "don't know"
// have no range.
func (w Want) grade(v Value) grade {
	if v.Kind == Text || v.Kind == Time || v.Key != "" {
		return good
	}
	return w.limits().grade(v.Num)
}

// candidate is one reading of one item.
type candidate struct {
	v Value
	g grade
}

// sensed is what an item came to: one candidate to take, several to ask about
// (why is then set, and a single one is asked about too), or a refusal.
type sensed struct {
	cands   []candidate
	why     string // Ask... key
	refused string // Refused... key
	got     *Value
}

func refuse(why string) sensed { return sensed{refused: why} }

// one takes v if the range lets it.
func (w Want) one(v Value) sensed {
	g := w.grade(v)
	if g == outside {
		return sensed{refused: RefusedRange, got: &v, cands: []candidate{{v, g}}}
	}
	return sensed{cands: []candidate{{v, g}}}
}

// limits is the range, with what the kind itself rules out.
func (w Want) limits() Range {
	r := w.Range
	if r.HardMin == 0 && r.HardMax == 0 {
		r.HardMax = math.Inf(1)
		if w.Kind == Ratio {
			r.HardMax = 1 // no roof is steeper than it is long
		}
		if w.Kind == Temperature || w.Kind == Number {
			r.HardMin = math.Inf(-1)
		}
		if w.Kind == Temperature {
			r.HardMin = -273.15
		}
		if w.Kind == Percent {
			r.HardMax = 100
		}
	}
	return r
}

// ask offers vs, those inside the range first; with none inside it refuses.
func (w Want) ask(why string, vs ...Value) sensed {
	var s sensed
	for _, v := range vs {
		c := candidate{v, w.grade(v)}
		if !slices.ContainsFunc(s.cands, func(o candidate) bool { return same(o.v, c.v) }) {
			s.cands = append(s.cands, c)
		}
	}
	slices.SortStableFunc(s.cands, func(a, b candidate) int { return int(a.g) - int(b.g) })
	if first := slices.IndexFunc(s.cands, func(c candidate) bool { return c.g == outside }); first >= 0 {
		s.cands = s.cands[:first+1] // one that would be refused is enough to show what was heard
	}
	if len(s.cands) > 3 {
		s.cands = s.cands[:3]
	}
	if s.cands[0].g == outside {
		return sensed{refused: RefusedRange, got: &vs[0], cands: s.cands[:1]}
	}
	s.why = why
	return s
}

// prefer takes first when it is usual for the field. Where another reading is
// likelier, or as likely as an odd first, it asks.
func (w Want) prefer(first Value, others ...Value) sensed {
	g := w.grade(first)
	if g == good {
		return w.one(first)
	}
	best, rivals := g, []Value(nil)
	for _, o := range others {
		switch og := w.grade(o); {
		case og < best:
			best, rivals = og, []Value{o}
		case og == best && og < outside:
			rivals = append(rivals, o)
		}
	}
	switch {
	case rivals == nil:
		return w.one(first)
	case best < g && g != outside:
		rivals = append(rivals, first)
	case best == g:
		rivals = append([]Value{first}, rivals...)
	}
	return w.ask(AskUnit, rivals...)
}

func same(a, b Value) bool {
	if a.Kind != b.Kind || a.Key != b.Key || a.Text != b.Text || a.When != b.When {
		return false
	}
	return a.Num == b.Num || math.Abs(a.Num-b.Num) <= 1e-9*max(math.Abs(a.Num), math.Abs(b.Num))
}

// sense turns an item into a value of the field.
func (w Want) sense(it item, words string) sensed {
	v := func(id string, given bool) Value {
		return Value{Kind: w.Kind, Num: base(it.fig.num, id), Unit: id, Given: given, Words: words}
	}
	bare := func(num float64, id string) Value {
		x := v(id, false)
		x.Num = base(num, id)
		return x
	}
	if it.fig.slash && it.fig.over > 64 && w.Kind != Ratio || it.fig.colon && w.Kind != Ratio && w.Kind != Minutes {
		return refuse(RefusedNumber)
	}
	dim := w.Kind.dimension()
	if it.fig.long && dim == length {
		return refuse(RefusedMany) // 2440.1220 is two measures, not a millionth of a metre
	}
	var fit []string
	for _, id := range it.units {
		if measures[id].dim == dim || w.Kind == Ratio && id == "%" {
			fit = append(fit, id)
		}
	}
	if it.units != nil && fit == nil {
		return refuse(RefusedUnit)
	}
	n := it.fig.num
	switch w.Kind {
	case PlanLength, SectionLength, BoardLength, BoardWidth, SiteLength:
		if fit != nil {
			x := v(fit[0], true)
			if it.compound {
				x.Unit = compoundName(fit[0])
			}
			if it.other > 0 {
				y := x
				x.Unit = "m dm"
				y.Num = base(it.other, fit[0])
				return w.ask(AskUnit, x, y)
			}
			return w.one(x)
		}
		return w.bareLength(it.fig, bare)
	case Temperature:
		if fit != nil && fit[0] != "°" {
			return w.one(v(fit[0], true))
		}
		if n > 45 {
			return w.ask(AskUnit, bare(n, "°F"), bare(n, "°C"))
		}
		return w.one(bare(n, "°C"))
	case Count:
		if n != math.Trunc(n) {
			return refuse(RefusedWhole)
		}
		return w.one(bare(n, ""))
	case Number:
		x := bare(n, "")
		x.Unit = w.Bare
		return w.one(x)
	case Percent:
		if fit != nil {
			return w.one(v("%", true))
		}
		if n > 0 && n < 1 {
			return w.prefer(bare(n, "%"), bare(n, "of 1"))
		}
		return w.one(bare(n, "%"))
	case Minutes:
		return w.span(it, fit, v, bare)
	case Mass:
		return w.amount(it, fit, "kg", v, bare)
	case Litres:
		return w.amount(it, fit, "l", v, bare)
	case Area:
		return w.amount(it, fit, "m2", v, bare)
	case Speed:
		if fit == nil && w.Bare == "" {
			return w.ask(AskUnit, bare(n, "m/s"), bare(n, "mph"), bare(n, "km/h"))
		}
		return w.amount(it, fit, w.Bare, v, bare)
	case Ratio:
		return w.ratio(it, fit, bare)
	}
	return refuse(RefusedNumber)
}

func compoundName(big string) string {
	switch big {
	case "ft":
		return "ft in"
	case "m":
		return "m cm"
	}
	return big
}

// amount takes the unit given, or the one a bare number has in this field. A
// gallon and a pint are two sizes each, so they ask.
func (w Want) amount(it item, fit []string, usual string, v func(string, bool) Value, bare func(float64, string) Value) sensed {
	switch {
	case fit == nil:
		return w.one(bare(it.fig.num, usual))
	case fit[0] == "gal", fit[0] == "pt":
		return w.ask(AskUnit, v(fit[0], true), v("US "+fit[0], true))
	}
	return w.one(v(fit[0], true))
}

// span reads a length of time. 1:30 may be an hour and a half or a minute and a half.
func (w Want) span(it item, fit []string, v func(string, bool) Value, bare func(float64, string) Value) sensed {
	if it.fig.colon {
		h := math.Round(it.fig.num * it.fig.over)
		return w.ask(AskUnit, bare(h*60+it.fig.over, "min"), bare(h*60+it.fig.over, "s"))
	}
	switch {
	case fit != nil:
		return w.one(v(fit[0], true))
	case it.fig.part:
		return refuse(RefusedUnit) // half of what?
	}
	return w.one(bare(it.fig.num, "min"))
}

// ratio reads a fall: n/d, a percentage, degrees, or the bare d of 1/d.
func (w Want) ratio(it item, fit []string, bare func(float64, string) Value) sensed {
	n := it.fig.num
	plain := func(r float64, id string, given bool) Value {
		x := bare(0, "")
		x.Num, x.Unit, x.Given = tidy(r), id, given
		return x
	}
	switch {
	case it.fig.slash:
		return w.one(plain(n, "1/n", true))
	case fit != nil && fit[0] == "%":
		return w.one(plain(n/100, "%", true))
	case fit != nil:
		if math.Abs(n) >= 90 {
			return refuse(RefusedNumber)
		}
		return w.one(plain(math.Tan(n*measures["deg"].factor), "deg", true))
	case n <= 0:
		return w.one(plain(n, "", false))
	}
	// 40 is 1/40, 0.025 is itself; what is left to be a percentage asks
	over, share, itself := plain(1/n, "1/n", false), plain(n/100, "%", false), plain(n, "", false)
	var likely []Value
	for _, x := range []Value{over, share, itself} {
		if w.grade(x) != outside && n <= 1e4 && !slices.ContainsFunc(likely, func(y Value) bool { return same(x, y) }) {
			likely = append(likely, x)
		}
	}
	switch {
	case len(likely) == 0:
		return sensed{refused: RefusedRange, got: &over}
	case len(likely) == 1 && (same(likely[0], over) && n >= 8 || same(likely[0], itself) && n < 0.2):
		return w.one(likely[0])
	}
	return w.ask(AskUnit, likely...)
}

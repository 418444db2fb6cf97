package flow

import (
	"math"
	"sort"
	"strings"

	"chargehand/calc/plan"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// The functions of this file put the plan's numbers into Told events: number
// first, the formulas named, so that replay shows what was said then.

const m2 = unit.SquareMetre

func told(what string, formulas []string, lines ...event.Line) *event.Told {
	return &event.Told{What: what, Lines: lines, Formulas: formulas}
}

func line(key string, pairs ...any) event.Line {
	l := event.Line{Key: key}
	if len(pairs) > 0 {
		l.Args = args(pairs...)
	}
	return l
}

func length(l unit.Length) event.Value { return event.Of("mm", round(l)) }

func lengths(ls []unit.Length) event.Value {
	v := event.Value{Unit: "mm"}
	for _, l := range ls {
		v.Nums = append(v.Nums, math.Floor(float64(l)+0.5)) // half up, once, on show
	}
	return v
}

func area(a unit.Area) event.Value { return event.Of("m2", math.Round(a.In(m2)*100)/100) }

func whole(n int) event.Value { return event.Of("count", float64(n)) }

func key(k string) event.Value { return event.Word("key", k) }

func load(p unit.AreaLoad) event.Value {
	return event.Of("kn_m2", math.Round(p.In(unit.KilonewtonPerM2)*100)/100)
}

func tellRoof(v View) *event.Told {
	p := v.Plan()
	if p.Area == nil || p.Fall == nil {
		return nil
	}
	t := told("roof", p.Formulas("roof", "fall"), line("told.roof", "area", area(*p.Area), "drop", length(p.Fall.Drop), "fall", event.Of("ratio", float64(p.Fall.Slope))))
	if p.Skew != nil && math.Abs(float64(*p.Skew)) >= 1 {
		t.Lines = append(t.Lines, line("told.skew", "skew", length(unit.Length(math.Abs(float64(*p.Skew))))))
	}
	if p.Misclosure != nil && *p.Misclosure >= 1 {
		t.Lines = append(t.Lines, line("told.closed", "gap", length(*p.Misclosure)))
	}
	for _, tp := range p.Tapers {
		t.Lines = append(t.Lines, line("told.taper", "edge", whole(tp.Edge+1), "off", length(tp.Off())))
	}
	if p.Snow != nil {
		t.Formulas = append(t.Formulas, p.Formulas("snow")...)
		t.Lines = append(t.Lines, snowLine(p.Snow))
	}
	if p.Gutter != nil {
		t.Formulas = append(t.Formulas, p.Formulas("gutter")...)
		t.Lines = append(t.Lines, line("told.gutter-size", "size", length(p.Gutter.Size), "outlet", length(p.Gutter.Outlet)))
	}
	return t
}

func snowLine(s *plan.Snow) event.Line {
	if s.DriftLength > 0 {
		return line("told.drift", "ground", load(s.Ground), "flat", load(s.Flat), "drift", load(s.Drift), "length", length(s.DriftLength), "set", key("load."+s.Set))
	}
	return line("told.snow", "ground", load(s.Ground), "flat", load(s.Flat), "set", key("load."+s.Set))
}

func tellPlates(v View) *event.Told {
	p := v.Plan().Plates
	if p == nil {
		return nil
	}
	t := told("plates", v.Plan().Formulas("plates"))
	if p.Anchors > 0 {
		t.Lines = append(t.Lines, line("told.anchors", "n", whole(p.Anchors), "spacing", length(p.AnchorSpacing), "first", length(p.AnchorFirst), "runs", whole(len(p.Runs))))
	}
	if p.Sink > 0 {
		t.Lines = append(t.Lines, line("told.sink", "sink", length(p.Sink)))
	}
	t.Lines = append(t.Lines, line("told.plates", "runs", lengths(p.Runs)))
	return t
}

func tellStraps(v View) *event.Told {
	p := v.Plan().Plates
	if p == nil {
		return nil
	}
	return told("straps", v.Plan().Formulas("straps"), line("told.straps", "n", whole(p.Straps), "spacing", length(p.StrapSpacing)))
}

func tellChoice(v View) *event.Told {
	c := v.Plan().Choice
	if c == nil {
		return nil
	}
	return told("choice", v.Plan().Formulas("span"), line("told.choice", "b", length(c.B), "h", length(c.H), "grade", event.Word("text", c.Grade), "centres", event.Of("mm", math.Round(float64(c.Centres)*10)/10), "max", length(floor(c.Max)), "span", length(c.Clear)))
}

// floor rounds a limit down to whole millimetres: a limit never grows in print.
func floor(l unit.Length) unit.Length { return unit.Length(math.Floor(float64(l))) }

func offerJoist(v View) (event.Value, bool) {
	c := v.Plan().Choice
	if c == nil {
		return event.Value{}, false
	}
	return event.Of("mm", float64(c.B), float64(c.H)), true
}

// tellSpan shows number, limit and share; over the limit it holds the job.
func tellSpan(v View) *event.Told {
	s := v.Plan().Span
	if s == nil {
		return nil
	}
	t := told("span", v.Plan().Formulas("span"), line("told.span."+string(s.Status),
		"clear", length(s.Clear), "max", length(floor(s.Max)), "share", event.Of("pct", math.Ceil(s.Utilisation*100)),
		"by", key("cond."+s.GovernedBy), "method", key("method."+s.Method)),
		line("told.span-load", "dead", load(s.Dead), "imposed", load(s.Imposed), "snow", load(s.Snow)))
	if s.Drift > 0 {
		t.Lines = append(t.Lines, line("told.span-drift", "drift", load(s.Drift)))
	}
	if s.Over() {
		t.Level = string(talk.Stop)
	}
	return t
}

func tellJoistOrder(v View) *event.Told {
	j := v.Plan().Joists
	if j == nil {
		return nil
	}
	return told("joist-order", v.Plan().Formulas("joists"), line("told.joist-order", "n", whole(j.Order), "b", length(j.B), "h", length(j.H), "length", length(j.Stock), "count", whole(j.Count)))
}

func tellMarks(v View) *event.Told {
	j := v.Plan().Joists
	if j == nil {
		return nil
	}
	t := told("marks", v.Plan().Formulas("joists"),
		line("told.marks", "centres", event.Of("mm", math.Round(float64(j.Centres)*10)/10), "n", whole(j.Count), "marks", lengths(j.Marks)),
		line("told.joint", "bearing", event.Of("mm", math.Floor(float64(j.JointBearing)*10)/10), "tolerance", event.Of("mm", math.Floor(float64(j.Tolerance)*10)/10)))
	if j.Bays%2 == 1 {
		t.Lines = append(t.Lines, line("told.odd-bays", "bays", whole(j.Bays), "stagger", whole(j.StaggerBays)))
	}
	return t
}

func tellStrutting(v View) *event.Told {
	p := v.Plan()
	if p.Strutting == nil {
		return nil
	}
	return told("strutting", p.Formulas("strutting"), line("told.strutting", "rows", whole(p.Strutting.Rows), "noggins", whole(p.Strutting.Noggins)))
}

func tellDeck(v View) *event.Told {
	d := v.Plan().Deck
	if d == nil {
		return nil
	}
	t := told("deck", v.Plan().Formulas("deck"))
	proof := "told.deck.proven"
	if !d.Proven {
		proof = "told.deck.open"
	}
	t.Lines = append(t.Lines, line(proof, "n", whole(d.Boards), "bound", whole(d.Bound), "pieces", whole(d.Pieces)))
	for i, row := range d.Rows {
		if d.Parts > 1 && (i == 0 || d.Rows[i-1].Part != row.Part) {
			t.Lines = append(t.Lines, line("told.deck.part", "n", whole(row.Part+1)))
		}
		t.Lines = append(t.Lines, line("told.deck.row", "n", whole(i+1), "width", length(row.Width), "lengths", lengths(row.Lengths)))
	}
	return t
}

func tellScrews(v View) *event.Told {
	d := v.Plan().Deck
	if d == nil {
		return nil
	}
	return told("screws", v.Plan().Formulas("screws"), line("told.screws", "n", whole(d.Screws), "length", length(d.ScrewLength)))
}

func tellDrip(v View) *event.Told {
	d := v.Plan().Drip
	if d == nil {
		return nil
	}
	return told("drip", v.Plan().Formulas("drip"), line("told.drip", "drip", length(d.Drip), "most", length(d.Most)))
}

func tellUpstands(v View) *event.Told {
	u := v.Plan().Upstands
	if u == nil {
		return nil
	}
	t := told("upstands", v.Plan().Formulas("upstands"))
	if u.BoardTop > 0 {
		t.Lines = append(t.Lines, line("told.upstands", "top", length(u.BoardTop), "joint", length(u.BedJoint), "rubber", length(u.Rubber)))
	}
	t.Lines = append(t.Lines, line("told.plugs", "n", whole(u.Plugs)))
	return t
}

func tellSheet(v View) *event.Told {
	s := v.Plan().Sheet
	if s == nil {
		return nil
	}
	t := told("sheet", v.Plan().Formulas("sheet"), line("told.sheet", "length", length(s.Length), "width", length(s.Width), "mass", event.Of("kg", math.Ceil(float64(s.Mass))), "hands", whole(s.Hands)))
	t.Lines = append(t.Lines, line("told.allow", "allow", lengths(s.Allow)))
	return t
}

func offerSheet(v View) (event.Value, bool) {
	s := v.Plan().Sheet
	if s == nil {
		return event.Value{}, false
	}
	return event.Of("mm", round(s.Length), round(s.Width)), true
}

func dashed(s string) string { return strings.ReplaceAll(s, "_", "-") }

func tellTrims(v View) *event.Told {
	tr := v.Plan().Trims
	if tr == nil {
		return nil
	}
	t := told("trims", v.Plan().Formulas("trims"))
	for _, e := range tr.Edges {
		t.Lines = append(t.Lines, line("told.trim", "edge", key("pick."+e.Kind), "run", length(e.Run), "pieces", lengths(e.Pieces), "nails", whole(e.Nails)))
	}
	return t
}

func tellCorners(v View) *event.Told {
	tr := v.Plan().Trims
	if tr == nil {
		return nil
	}
	return told("corners", v.Plan().Formulas("trims"), line("told.corners", "corners", whole(tr.Corners), "ends", whole(tr.Ends)))
}

func tellGutter(v View) *event.Told {
	g := v.Plan().Gutter
	if g == nil {
		return nil
	}
	return told("gutter", v.Plan().Formulas("gutter"), line("told.gutter", "size", length(g.Size), "brackets", whole(g.Brackets), "spacing", length(g.BracketSpacing), "drop", length(g.Drop)),
		line("told.gutter-flow", "share", event.Of("pct", math.Ceil(g.Share*100))))
}

func tellBar(v View) *event.Told {
	b := v.Plan().Bar
	if b == nil {
		return nil
	}
	return told("bar", v.Plan().Formulas("bar"), line("told.bar", "runs", lengths(b.Runs), "screws", event.Value{Unit: "count", Nums: floats(b.Screws)}))
}

func floats(ns []int) []float64 {
	out := make([]float64, len(ns))
	for i, n := range ns {
		out[i] = float64(n)
	}
	return out
}

func tellLead(v View) *event.Told {
	l := v.Plan().Lead
	if l == nil {
		return nil
	}
	t := told("lead", v.Plan().Formulas("lead"))
	for _, r := range l.Runs {
		t.Lines = append(t.Lines, line("told.lead", "n", whole(r.Pieces), "piece", length(r.Piece), "lap", length(l.Lap), "mass", event.Of("kg", math.Ceil(float64(r.Mass))), "wedges", whole(r.Wedges), "clips", whole(r.Clips)))
	}
	return t
}

func tellScore(v View) *event.Told {
	done, off, skipped := 0, 0, 0
	for _, spec := range script() {
		switch v.S.Settled[spec.ID].Status {
		case StepAnswered:
			done++
		case StepPutOff:
			off++
		case StepSkipped:
			skipped++
		}
	}
	return told("score", nil, line("told.score", "done", whole(done), "off", whole(off), "skipped", whole(skipped)))
}

// list tells the materials: needed, to buy, left over, by where one buys.
func (t *turn) list(said string) {
	out := listOf(t.view())
	if out == nil {
		t.heard(said, "list.none", nil)
		return
	}
	t.emit(*out)
}

// listOf is the materials list as it is told; nil while nothing is known.
func listOf(v View) *event.Told {
	b := v.Plan().Bill
	if b == nil || len(b.Lines) == 0 {
		return nil
	}
	out := &event.Told{What: "list", Formulas: v.Plan().Formulas("list")}
	var lines []takeoff.Line
	for _, g := range b.Groups() {
		lines = append(lines, g.Lines...)
	}
	for _, l := range lines {
		ln := line("item."+dashKey(string(l.Key)),
			"needed", event.Of("number", tidy(l.Needed+l.Waste)), "buy", event.Of("number", tidy(l.ToBuy)), "left", event.Of("number", tidy(l.LeftOver)),
			"unit", key("unit."+string(l.Unit)), "where", key("where."+string(l.Where)))
		if len(l.Packs) > 0 {
			packs := event.Value{Unit: "number"}
			for _, p := range l.Packs {
				packs.Nums = append(packs.Nums, float64(p.Count), p.Size)
			}
			ln.Args["packs"] = packs
		}
		if len(l.Size) > 0 {
			ln.Args["size"] = lengths(l.Size)
		}
		if l.Tight {
			ln.Args["flag"] = key("flag.tight")
		} else if l.Surplus {
			ln.Args["flag"] = key("flag.surplus")
		}
		out.Lines = append(out.Lines, ln)
	}
	if len(b.Missing) > 0 {
		var missing []string
		for _, m := range b.Missing {
			missing = append(missing, "item."+dashKey(string(m)))
		}
		sort.Strings(missing)
		out.Lines = append(out.Lines, line("list.missing", "items", event.Word("keys", strings.Join(missing, " "))))
	}
	return out
}

func dashKey(s string) string { return strings.ReplaceAll(s, " ", "-") }

// tidy keeps two decimals: a list is read by people at a counter.
func tidy(x float64) float64 { return math.Round(x*100) / 100 }

// listTable sets a told list as a table.
func listTable(ev event.Told, zone string) talk.Show {
	show := talk.Show{Title: talk.P("list.title"), Head: []talk.Phrase{talk.P("list.item"), talk.P("list.needed"), talk.P("list.buy"), talk.P("list.left")}}
	where := ""
	for _, l := range ev.Lines {
		if l.Key == "list.missing" {
			show.Foot = append(show.Foot, phrase(l.Key, l.Args, zone))
			continue
		}
		if w := l.Args["where"].Text; w != where {
			where = w
			show.Rows = append(show.Rows, []talk.Phrase{talk.P(w)})
		}
		unit := Quantity(l.Args["unit"], zone)
		amount := func(name string) talk.Phrase {
			return talk.P("list.amount", "n", Quantity(l.Args[name], zone), "unit", unit)
		}
		buy := amount("buy")
		if packs := l.Args["packs"]; len(packs.Nums) >= 2 {
			var each []any
			for i := 0; i+1 < len(packs.Nums); i += 2 {
				each = append(each, talk.P("list.pack", "n", int(packs.Nums[i]), "size", packs.Nums[i+1]))
			}
			buy = talk.P("list.packs", "packs", each, "unit", unit)
		}
		item := talk.P(l.Key)
		if size, ok := l.Args["size"]; ok {
			item = talk.P("list.sized", "item", item, "size", Quantity(size, zone))
		}
		left := amount("left")
		if f, ok := l.Args["flag"]; ok {
			left = talk.P("list.flagged", "left", left, "flag", Quantity(f, zone))
		}
		show.Rows = append(show.Rows, []talk.Phrase{item, amount("needed"), buy, left})
	}
	return show
}

package flow

import (
	"math"
	"strings"
	"time"

	"chargehand/calc/glue"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// tellWindow gives the window by tin and weather, before a square shows the real
// one.
func tellWindow(v View) *event.Told {
	w := v.Plan().Window
	if w == nil || w.Stop != "" {
		return nil
	}
	if _, sq := square(v.S); sq.Done("begun") {
		return nil
	}
	if w.JobFactor != 1 {
		if own, _ := ownSquares(v.S, v.S.LastAt); !took(v.S) || len(own) > 0 {
			return nil
		}
		return told("window", v.Plan().Formulas("window"), line("told.window.film", "window", event.Of("min", w.Minutes())))
	}
	return told("window", v.Plan().Formulas("window"), line("told.window", "window", event.Of("min", w.Minutes())))
}

// tellGo gives the verdict with every reason, worst first, and what the day still
// holds.
func tellGo(v View) *event.Told {
	g := v.Plan().Go
	if g == nil {
		return nil
	}
	t := told("go", v.Plan().Formulas("go"), line("told.go."+g.Verdict))
	if g.Verdict == "stop" {
		t.Level = string(talk.Stop)
	}
	t.Lines = append(t.Lines, reasonLines(g.Reasons)...)
	if len(g.Unknown) > 0 {
		t.Lines = append(t.Lines, line("told.go-unknown", "what", event.Word("keys", "name."+strings.Join(g.Unknown, " name."))))
	}
	if s := g.Sunset; s != nil && *s > 0 {
		t.Lines = append(t.Lines, line("told.sunset", "at", v.fromReading(*s), "left", event.Of("min", math.Floor(float64(*s)))))
	}
	if d := g.Dew; d != nil && *d > 0 {
		t.Lines = append(t.Lines, line("told.dew", "at", v.fromReading(*d)))
	}
	t.Lines = append(t.Lines, waitLines(v, g)...)
	return t
}

// waitLines say when to look again.
func waitLines(v View, g *plan.Go) []event.Line {
	switch {
	case g.Wait != nil:
		from := v.fromReading(g.Wait.From)
		if !sameDay(from.At, v.S.Settled[stepDeck].At, v.S.Zone) {
			return []event.Line{line("told.wait-tomorrow", "at", from)}
		}
		return []event.Line{line("told.wait", "at", from)}
	case g.Gone:
		return []event.Line{line("told.wait-none")}
	}
	return nil
}

// fromReading is a moment so many minutes after the deck was read, to five minutes:
// a forecast is no finer.
func (v View) fromReading(m unit.Minutes) event.Value {
	at := v.S.Settled[stepDeck].At.Add(time.Duration(float64(m) * float64(time.Minute)))
	return moment(at.Truncate(5 * time.Minute))
}

func reasonLines(reasons []plan.Reason) []event.Line {
	var out []event.Line
	for _, r := range reasons {
		k := "reason." + dashed(r.Key)
		if r.Label {
			k += ".label"
		}
		out = append(out, line(k, "value", reasonValue(r), "verdict", key("verdict."+r.Verdict)))
	}
	return out
}

func reasonValue(r plan.Reason) event.Value {
	return event.Of(r.Unit, math.Round(r.Value*10)/10)
}

func doubtGo(v View, val event.Value) *Doubt {
	g := v.Plan().Go
	if !val.Yes() || g == nil || g.Verdict != "stop" {
		return nil
	}
	if g.Wait != nil {
		return &Doubt{Key: "refuse.go-wait", Args: args("at", v.fromReading(g.Wait.From)), Refuse: true}
	}
	return &Doubt{Key: "refuse.go-stop", Refuse: true}
}

// tellBatch gives the next strip: how wide, where, how, and the way off.
func tellBatch(v View) *event.Told {
	p := v.Plan()
	if p.Window == nil || p.Batch == nil {
		return nil
	}
	n, w := batch(v.S)
	if w.Done("begun") || (n > 1 && fieldDone(v)) {
		return nil
	}
	b := p.Batch
	formulas := p.Formulas("window", "batch")
	if b.NoGo != "" || p.Window.Stop != "" {
		t := told("batch", formulas, line("told.batch.no-go", "window", event.Of("min", p.Window.Minutes())))
		if p.Go != nil {
			t.Lines = append(t.Lines, waitLines(v, p.Go)...)
		}
		return t
	}
	first := line("told.batch", "window", event.Of("min", p.Window.Minutes()), "strip", length(b.Strip), "area", area(b.Area),
		"pocket", event.Of("min", tenth(p.Window.ByPocket)), "evaporation", event.Of("min", tenth(p.Window.ByEvaporation)), "share", event.Of("number", b.Share), "batch", whole(n))
	if b.Half != "" {
		first.Key = "told.glue-strip"
		first.Args["n"], first.Args["of"] = whole(b.Done+1), whole(b.Count)
		first.Args["half"] = key("half." + string(b.Half))
	}
	return told("batch", formulas, first, line("told.batch."+dashed(b.Direction)), wayLine(v, b))
}

// wayLine names the way off for whoever is at the fold while the film is wet.
func wayLine(v View, b *plan.Batch) event.Line {
	exit := key("exit." + orGutter(v.Pick(stepWayOff)))
	switch b.FoldWay {
	case glue.ByStrip:
		return line("told.way.strip", "exit", exit, "behind", event.Of("min", math.Ceil(float64(b.Behind))))
	case glue.ByFar:
		return line("told.way.far")
	}
	return line("told.way.ladder", "exit", exit)
}

func orGutter(s string) string {
	if s == "" {
		return "gutter"
	}
	return s
}

func tenth(x float64) float64 { return math.Floor(x*10) / 10 }

// tellContact gives when each face is dry, which to coat first, and the weather's
// verdict where it is not a plain go.
func tellContact(v View) *event.Told {
	c := v.Plan().Contact
	if _, w := run(v.S); c == nil || coated(w) {
		return nil
	}
	n, _ := run(v.S)
	t := told("contact", v.Plan().Formulas("contact"), line("told.contact", "wall", event.Of("min", tenth(c.Wall.ReadyMin)), "rubber", event.Of("min", tenth(c.Rubber.ReadyMin)),
		"run", length(c.Run), "runs", whole(n-1+len(c.Runs))))
	switch {
	case c.Never || c.Run <= 0:
		t.Lines = []event.Line{line("told.contact.never")}
	case c.Empty:
		t.Lines = append(t.Lines, line("told.contact.empty", "first", key("face."+c.First), "wait", event.Of("min", tenth(c.WaitMin)), "least", event.Of("min", math.Ceil(c.LeastWaitMin))))
	case c.WaitMin > 1:
		t.Lines = append(t.Lines, line("told.contact.first", "first", key("face."+c.First), "wait", event.Of("min", tenth(c.WaitMin))))
	}
	if c.Verdict == "stop" {
		t.Level = string(talk.Stop)
	}
	t.Lines = append(t.Lines, reasonLines(c.Reasons)...)
	return t
}

// litresDue says when the tin's level is asked for: after the first batch, where
// all is asked, and when the field is down.
func litresDue(v View) bool {
	if laid(v.S) <= 0 {
		return false
	}
	return v.S.Way != "short" || v.S.Settled[stepBatches].Answer()
}

// cover is how far a litre goes by the tin.
func cover(v View) glue.Coverage {
	if n := v.num(stepCover); n > 0 {
		return glue.Coverage(n)
	}
	return glue.WetCoverage
}

func offerLitres(v View) (event.Value, bool) {
	l := math.Round(laid(v.S)/float64(cover(v))*10) / 10
	return event.Of("litre", l), l > 0
}

// doubtLitres holds the film against the label: a fifth less is thin, a fifth more
// thick.
func doubtLitres(v View, val event.Value) *Doubt {
	c, err := glue.Consumption(unit.Volume(val.Num()*float64(unit.Litre)), unit.Area(laid(v.S)*float64(m2)), cover(v))
	if err != nil || c.Film == glue.NormalFilm {
		return nil
	}
	return &Doubt{Key: "doubt.film-" + string(c.Film), Args: args("cover", event.Of("number", math.Round(float64(c.Coverage)*10)/10), "label", event.Of("number", float64(cover(v))))}
}

package flow

import (
	"strconv"
	"strings"
	"time"

	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
	"chargehand/flow/talk"
)

// Say is what a reader is told about one event: a function of the record and
// of who listens, and of nothing else. before is the state the event met.
func Say(before State, e event.Entry, to talk.Person) []talk.Reply {
	after := Apply(before, e)
	out := saidOf(before, after, e, to)
	if h := heading(before, after); h != nil {
		out = append(out, *h)
	}
	return out
}

// heading announces a new phase.
func heading(before, after State) *talk.Tell {
	_, was, okWas := open(before)
	_, now, okNow := open(after)
	if !okNow || (okWas && was.Phase == now.Phase) || after.Status == JobPaused {
		return nil
	}
	t := talk.Say(talk.P("phase."+now.Phase, "n", place(now.Phase), "of", len(phases)))
	return &t
}

func place(phase string) int {
	for i, p := range phases {
		if p == phase {
			return i + 1
		}
	}
	return 0
}

func saidOf(before, after State, e event.Entry, to talk.Person) []talk.Reply {
	if heldFrom(before, e, to) {
		return nil
	}
	tell := func(key string, pairs ...any) []talk.Reply { return []talk.Reply{talk.Say(talk.P(key, pairs...))} }
	level := func(l talk.Level, p ...talk.Phrase) []talk.Reply { return []talk.Reply{talk.Tell{Level: l, Lines: p}} }
	named := func(id string) talk.Phrase { return called(id) }
	switch ev := e.Event.(type) {
	case event.Opened:
		return tell("hello", "name", ev.Name)
	case event.Answered:
		return answered(before, after, ev, e, to)
	case event.Proposed:
		if ev.Doubt != "" {
			return level(talk.Change, phrase(ev.Doubt, ev.Args, before.Zone))
		}
		return proposed(before, ev)
	case event.Dropped:
		return tell("dropped")
	case event.Heard:
		if !same(e.By, to) && !alarming(ev.Key) {
			return nil // an answer to somebody else
		}
		return heardReplies(before, ev)
	case event.Skipped:
		return tell("skipped", "step", named(ev.Step), "reason", ev.Reason)
	case event.PutOff:
		return tell("put-off", "step", named(ev.Step), "until", day(before, ev.Until), "risk", talk.P("risk."+ev.Risk))
	case event.TakenUp:
		return tell("taken-up", "step", named(ev.Step))
	case event.Moved:
		if ev.Back {
			return tell("back", "step", named(ev.Step))
		}
		return nil // the heading and the question say it
	case event.Reopened:
		return reopened(ev)
	case event.Undone:
		for _, u := range before.undo {
			switch {
			case u.seq == ev.Seq && u.work != "":
				return tell("undone.tap")
			case u.seq == ev.Seq:
				return tell("undone", "step", named(u.step))
			}
		}
		return nil
	case event.Paused:
		if before.Status == JobPaused {
			return tell("paused.left", "how", ev.Protected)
		}
		return tell("paused")
	case event.Continued:
		lines := []talk.Phrase{talk.P("continued", "away", away(before, e))}
		if before.Protected != "" {
			lines = append(lines, talk.P("paused.left", "how", before.Protected))
		}
		return []talk.Reply{talk.Tell{Lines: lines}}
	case event.Tapped:
		return tapReplies(before, after, ev)
	case event.Rang:
		return rangReplies(before, ev, e, to)
	case event.Told:
		if ev.What == "list" && !same(e.By, to) {
			return nil // an answer to somebody else
		}
		return toldReplies(before, ev)
	case event.Noted:
		return noted(before, ev, e, to)
	case event.Released:
		return releasedReplies(before, ev, to)
	case event.Snagged:
		return tell("snagged", "id", ev.Snag, "what", snagWhat(ev.What))
	case event.SnagClosed:
		return tell("snag-closed", "id", ev.Snag)
	case event.Priced:
		return pricedReplies(ev)
	case event.Recalled:
		return recalledReplies(ev)
	case event.Came:
		return cameReplies(after, ev)
	case event.Solved:
		return solvedReplies(before, ev)
	case event.Ended:
		return tell("ended")
	case event.Renamed:
		return tell("renamed", "name", ev.Name)
	case event.Archived:
		if ev.Away {
			return tell("archived")
		}
		return tell("unarchived")
	case event.SetBack:
		return level(talk.Caution, talk.P("set-back", "behind", minutesOf(ev.Behind)))
	}
	return nil
}

// same says whether a listener is who spoke. One without a name reads the record:
// what was answered is for such a reader too.
func same(by event.Actor, to talk.Person) bool { return to.ID == "" || by.ID == to.ID }

// noted answers who has noted something, and passes it on to everybody else.
func noted(before State, ev event.Noted, e event.Entry, to talk.Person) []talk.Reply {
	key := "noted"
	if ev.Photo != "" {
		key = "noted.photo"
	}
	switch {
	case !same(e.By, to):
		return []talk.Reply{talk.Say(talk.P(key+".by", "who", nameOf(e.By), "text", ev.Text))}
	case e.By.Role == "follower" && busy(before):
		return []talk.Reply{talk.Say(talk.P("noted.held"))}
	}
	return []talk.Reply{talk.Say(talk.P(key))}
}

// answered echoes what was understood: every length in mm and m, a change as
// old -> new, who said it where that was somebody else.
func answered(before, after State, ev event.Answered, e event.Entry, to talk.Person) []talk.Reply {
	spec, ok := Lookup(ev.Step)
	if !ok {
		return nil
	}
	name := called(ev.Step)
	now := Quantity(ev.Value, before.Zone)
	if ev.Step == stepHandOver {
		return []talk.Reply{talk.Say(talk.P("handed-over"))}
	}
	if spec.nothing(ev.Value) {
		now = spec.noneWord()
	}
	old, had := before.Settled[ev.Step]
	var lines []talk.Phrase
	switch {
	case ev.Step == stepHours:
		lines = append(lines, talk.P("got", "step", name, "value", now))
	case spec.Kind == Timed && !ev.Offered:
		return nil // the tap has said it
	case isWeatherStep(ev.Step) && ev.Said != "" && ev.Said == before.Settled[stepHours].Said && before.Settled[stepHours].At.Equal(e.At):
		lines = append(lines, talk.P("from-hours", "step", name, "value", now))
	case (spec.Kind == Do || spec.Kind == Hold) && ev.Value.Yes():
		lines = append(lines, talk.P("done", "step", name))
	case had && old.Version > 0 && old.Value.Unit != "" && old.Status != StepPending && !old.Value.Equal(ev.Value):
		lines = append(lines, talk.P("changed", "step", name, "old", Quantity(old.Value, before.Zone), "new", now))
		if shown := before.Pending; shown == nil || shown.Step != ev.Step || shown.Doubt != "" {
			moved, _ := consequences(View{before}, spec, ev.Value)
			lines = append(lines, changeLines(moved)...)
		}
	case ev.Offered && e.By.Role != "" && before.Way == "short" && spec.Short && ev.Said == ".":
		lines = append(lines, talk.P("assumed", "step", name, "value", now))
	case e.By.ID != to.ID && e.By.Name != "":
		lines = append(lines, talk.P("got.by", "who", e.By.Name, "step", name, "value", now))
	default:
		lines = append(lines, talk.P("got", "step", name, "value", now))
	}
	return []talk.Reply{talk.Tell{Lines: lines}}
}

// proposed shows what a change would move, old -> new, before it is made.
func proposed(before State, ev event.Proposed) []talk.Reply {
	spec, ok := Lookup(ev.Step)
	if !ok {
		return nil
	}
	moved, steps := consequences(View{before}, spec, ev.Value)
	lines := []talk.Phrase{talk.P("change.if", "step", called(ev.Step),
		"old", Quantity(before.Settled[ev.Step].Value, before.Zone), "new", Quantity(ev.Value, before.Zone))}
	lines = append(lines, changeLines(moved)...)
	if len(steps) > 0 {
		lines = append(lines, talk.P("change.reopens", "steps", names(steps)))
	}
	return []talk.Reply{talk.Tell{Level: talk.Change, Lines: lines}}
}

// changeLines are the figures that a change moves, the first few of them: a list
// that fills the screen is not read.
func changeLines(moved []plan.Change) []talk.Phrase {
	const most = 6
	var lines []talk.Phrase
	for i, m := range moved {
		if i == most {
			return append(lines, talk.P("change.more", "n", len(moved)-most))
		}
		lines = append(lines, changeLine(m))
	}
	return lines
}

func changeLine(m plan.Change) talk.Phrase {
	q := func(f *plan.Figure) any {
		if f == nil {
			return talk.P("word.none")
		}
		return Quantity(event.Value{Unit: f.Unit, Nums: f.Nums, Text: f.Text}, "")
	}
	return talk.P("change.line", "what", talk.P("fig."+m.Key), "old", q(m.Old), "new", q(m.New))
}

func names(ids []string) []any {
	out := make([]any, len(ids))
	for i, id := range ids {
		out[i] = called(id)
	}
	return out
}

func reopened(ev event.Reopened) []talk.Reply {
	if ev.Because == stepBatches {
		return nil // asked again as a matter of course
	}
	key := "reopened"
	switch ev.Because {
	case questionResume:
		key = "reopened.break"
	case becauseCame:
		key = "reopened.came"
	}
	return []talk.Reply{talk.Tell{Level: talk.Change, Lines: []talk.Phrase{talk.P(key, "steps", names(ev.Steps))}}}
}

func heardReplies(s State, ev event.Heard) []talk.Reply {
	switch {
	case ev.Key == "where":
		return Whereabouts(s)
	case ev.Key == "timers":
		return timers(s)
	case strings.HasPrefix(ev.Key, "hear.ask."):
		return []talk.Reply{talk.Say(talk.P(ev.Key, "heard", ev.Args["heard"].Text))}
	case strings.HasPrefix(ev.Key, "hear.refused."):
		a := phrase(ev.Key, ev.Args, s.Zone)
		a.Args["example"] = example(ev)
		return []talk.Reply{talk.Say(a)}
	case alarming(ev.Key):
		return []talk.Reply{talk.Tell{Level: talk.Alarm, Lines: []talk.Phrase{{Key: ev.Key}}}}
	}
	p := phrase(ev.Key, ev.Args, s.Zone)
	if spec, ok := Lookup(ev.Step); ok && p.Args == nil {
		p.Args = talk.Args{"step": called(spec.ID)}
	}
	out := []talk.Phrase{p}
	if spec, ok := Lookup(ev.Step); ok && ev.Key == "why."+spec.voice() {
		for _, c := range spec.Cautions { // cautions stay available
			out = append(out, talk.P("caution."+c))
		}
	}
	return []talk.Reply{talk.Tell{Lines: out}}
}

// alarming says whether an answer concerns everybody on the roof.
func alarming(key string) bool { return key == "stop.now" || strings.HasPrefix(key, "rain.") }

// example is an answer that the step would take: its own where it has one, or
// one of the kind.
func example(ev event.Heard) talk.Phrase {
	spec, ok := Lookup(ev.Step)
	if ok && spec.Example {
		return talk.P("eg." + spec.voice())
	}
	key := ev.Args["example"].Text
	if key == hear.Choice.Example() && ok {
		if w := wantOf(spec, View{}); len(w.Choices) > 0 {
			return talk.P(key, "first", talk.P("pick."+w.Choices[0].Key))
		}
	}
	return talk.P(key)
}

func wantOf(spec Spec, v View) hear.Want {
	if spec.Want == nil {
		return yesNo(v)
	}
	return spec.Want(v)
}

func snagWhat(what string) any {
	if stem, _, ok := strings.Cut(what, "/"); ok {
		what = stem
	}
	switch what {
	case "hose", "look":
		return talk.P("snag." + what)
	}
	return what
}

// whereabouts is the answer to "where": the phase, what is done, what was put
// off, what is wrong.
// Whereabouts is where a job stands: for "where", and for a reader who joins late.
func Whereabouts(s State) []talk.Reply {
	v := View{s}
	done, all := 0, 0
	var off, skipped []any
	for _, spec := range script() {
		if !v.relevant(spec) || (spec.Kind == Gate && s.Settled[spec.ID].Status == "") {
			continue
		}
		all++
		switch s.Settled[spec.ID].Status {
		case StepAnswered:
			done++
		case StepPutOff:
			off = append(off, talk.P("put-off.item", "step", called(spec.ID), "until", day(s, s.Settled[spec.ID].Until)))
		case StepSkipped:
			skipped = append(skipped, called(spec.ID))
		}
	}
	lines := []talk.Phrase{}
	if _, spec, ok := open(s); ok {
		lines = append(lines, talk.P("where.at", "phase", talk.P("phase."+spec.Phase, "n", place(spec.Phase), "of", len(phases)), "done", done, "all", all))
	} else {
		lines = append(lines, talk.P("where.rest", "done", done, "all", all))
	}
	if len(off) > 0 {
		lines = append(lines, talk.P("where.off", "items", off))
	}
	if len(skipped) > 0 {
		lines = append(lines, talk.P("where.skipped", "items", skipped))
	}
	for _, id := range sorted(s.Snags) {
		if sn := s.Snags[id]; sn.Closed == "" {
			lines = append(lines, talk.P("where.snag", "id", id, "what", snagWhat(sn.What)))
		}
	}
	return []talk.Reply{talk.Tell{Lines: lines}}
}

func timers(s State) []talk.Reply {
	var lines []talk.Phrase
	for _, c := range Clocks(s) {
		if c.Name == "hands/free" {
			continue
		}
		lines = append(lines, talk.P("timers.line", "clock", clockName(c.Name), "due", talk.Moment{At: c.Due, Zone: s.Zone, Date: strings.HasPrefix(c.Name, "put-off/") || strings.HasPrefix(c.Name, "look/")}))
	}
	p := View{s}.Plan()
	switch {
	case len(lines) > 0:
	case p.Window != nil && p.Window.Stop == "":
		lines = append(lines, talk.P("timers.window", "window", p.Window.Usable))
	case s.Phase == "membrane":
		lines = append(lines, talk.P("timers.unknown"))
	default:
		lines = append(lines, talk.P("timers.none"))
	}
	return []talk.Reply{talk.Tell{Lines: lines}}
}

// clockName says what a clock is about, without its number or date.
func clockName(name string) talk.Phrase {
	parts := strings.Split(name, "/")
	switch parts[0] {
	case "batch", "contact":
		n, _ := strconv.Atoi(parts[1])
		return talk.P("clock."+parts[0]+"-"+parts[2], "n", n)
	case "check-in":
		return talk.P("clock.check-in-" + parts[1])
	case "put-off":
		return talk.P("clock.put-off", "step", called(parts[1]))
	}
	return talk.P("clock." + parts[0])
}

func rangReplies(s State, ev event.Rang, e event.Entry, to talk.Person) []talk.Reply {
	parts := strings.Split(ev.Clock, "/")
	late := e.At.Sub(ev.Due)
	key := "rang." + parts[0]
	l := talk.Alarm
	pairs := []any{"due", talk.Moment{At: ev.Due, Zone: s.Zone}}
	switch parts[0] {
	case "batch":
		n, _ := strconv.Atoi(parts[1])
		w := s.Works[batchName(n)]
		_, cover, dead := alarms(w)
		if parts[2] == "soon" && !e.At.Before(cover) || parts[2] != "dead" && !e.At.Before(dead) {
			return nil // it rang so late that a graver one rings with it
		}
		key += "-" + parts[2]
		pairs = append(pairs, "n", n, "age", minutesOf(e.At.Sub(w.Marks["begun"])), "cover", talk.Moment{At: cover, Zone: s.Zone})
	case "contact":
		n, _ := strconv.Atoi(parts[1])
		key += "-" + parts[2]
		pairs = append(pairs, "n", n)
	case "square":
		w := s.Works[parts[0]+"/"+parts[1]]
		pairs = append(pairs, "age", minutesOf(e.At.Sub(w.Marks["begun"])))
	case "check-in":
		key += "-" + parts[1]
		if to.Role == "follower" {
			key += ".follower"
		}
		pairs = append(pairs, "since", talk.Moment{At: lastWord(s), Zone: s.Zone}, "who", s.Settled[stepRing].Value.Text, "address", s.Settled[stepAddress].Value.Text)
		if to.Role == "follower" && parts[1] == "ask" {
			return nil
		}
	case "hands":
		return nil
	case "put-off":
		l = talk.Plain
		off := s.Settled[parts[1]]
		pairs = append(pairs, "step", called(parts[1]), "risk", talk.P("risk."+orLooks(off.Risk)))
	case "look", "wait":
		l = talk.Plain
	}
	lines := []talk.Phrase{talk.P(key, pairs...)}
	if late > lateLimit {
		lines = append(lines, talk.P("rang.late", "late", minutesOf(late)))
	}
	return []talk.Reply{talk.Tell{Level: l, Lines: lines}}
}

func orLooks(risk string) string {
	if risk == "" {
		return "looks"
	}
	return risk
}

// toldReplies speaks the numbers of a Told event, never the plan's: what was
// said then stands.
func toldReplies(s State, ev event.Told) []talk.Reply {
	if c, ok := strings.CutPrefix(ev.What, "caution."); ok {
		return []talk.Reply{talk.Tell{Level: talk.Caution, Lines: []talk.Phrase{talk.P("caution." + c)}}}
	}
	lines := make([]talk.Phrase, len(ev.Lines))
	for i, l := range ev.Lines {
		lines[i] = phrase(l.Key, l.Args, s.Zone)
	}
	if ev.What == toldChoice {
		return choiceTable(ev, s.Zone)
	}
	if ev.What == "list" {
		return []talk.Reply{listTable(ev, s.Zone)}
	}
	tell := talk.Tell{Level: talk.Level(ev.Level), Lines: lines}
	pictures := pictureReplies(s, ev)
	if strings.HasPrefix(ev.What, drawn) && len(pictures) > 0 {
		return pictures
	}
	return append([]talk.Reply{tell}, pictures...)
}

// lateLimit is from when on an alarm says how late it is.
const lateLimit = 30 * time.Second

func minutesOf(d time.Duration) unit.Minutes { return unit.Minutes(d.Minutes()) }

func span(v event.Value) time.Duration {
	return time.Duration(v.Num() * float64(time.Minute)).Round(time.Millisecond)
}

func day(s State, at time.Time) talk.Moment { return talk.Moment{At: at, Zone: s.Zone, Date: true} }

// away is how long a job has rested.
func away(s State, e event.Entry) unit.Minutes { return minutesOf(e.At.Sub(s.Paused)) }

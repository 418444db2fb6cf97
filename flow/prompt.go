package flow

import (
	"strings"

	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
	"chargehand/flow/talk"
)

// Prompt is the open question as a reader sees it now: a function of the state.
func Prompt(s State, to talk.Person) []talk.Reply {
	q, spec, isStep := open(s)
	if to.Role == "follower" {
		return nil // a follower is told, not asked
	}
	switch {
	case s.Seq == 0:
		return nil
	case strings.HasPrefix(q, questionConfirm):
		return []talk.Reply{confirmation(s, q)}
	case q == questionResume:
		if s.Protected == "" {
			return []talk.Reply{talk.Ask{Question: q, Phrase: talk.P("ask.protected")}}
		}
		yes := talk.P("offered", "value", talk.P("word.yes"))
		return []talk.Reply{talk.Ask{Question: q, Phrase: talk.P("ask.resume"), Offered: &yes,
			Options: []talk.Option{{Action: "yes", Label: talk.P("word.yes")}}}}
	case !isStep:
		return []talk.Reply{talk.Say(rest(s))}
	case s.Unclear != nil && s.Unclear.Step == spec.ID:
		return []talk.Reply{unclear(s, q)}
	}
	return []talk.Reply{question(s, q, spec)}
}

// Opening is what a reader is told when a job begins, worked out before anything
// is on record.
func Opening(in talk.Input) []talk.Reply {
	var s State
	var out []talk.Reply
	for _, e := range Step(s, in).Events {
		out = append(out, Say(s, e, in.By)...)
		s = Apply(s, e)
	}
	return append(out, Prompt(s, in.By)...)
}

// Question is the name of the open question, for the mark of a reader.
func Question(s State) string {
	q, _, _ := open(s)
	return q
}

func question(s State, q string, spec Spec) talk.Ask {
	v := View{s}
	w := wantOf(spec, v)
	ask := talk.Ask{Question: q, Phrase: talk.P("ask."+spec.voice(), askArgs(v, spec)...)}
	if spec.Offer != nil {
		if val, ok := spec.Offer(v); ok {
			p := talk.P("offered", "value", offeredPhrase(spec, val, s.Zone))
			ask.Offered = &p
		}
	}
	switch {
	case w.Kind == hear.Choice && w.Many.Max <= 1:
		for _, c := range w.Choices {
			ask.Options = append(ask.Options, talk.Option{Action: c.Key, Label: talk.P("pick." + c.Key)})
		}
	case w.Kind == hear.Choice:
		for _, c := range w.Choices {
			ask.Options = append(ask.Options, talk.Option{Label: talk.P("pick." + c.Key)}) // no single tap answers it
		}
	case spec.ID == stepJoist || spec.ID == stepSpanGate:
		ask.Options = rowOptions(s)
	case w.Kind == hear.YesNo && len(w.Parts) == 0:
		ask.Options = []talk.Option{{Action: "yes", Label: talk.P("word.yes")}, {Action: "no", Label: talk.P("word.no")}}
	}
	return ask
}

func offeredPhrase(spec Spec, val event.Value, zone string) any {
	if spec.nothing(val) {
		return spec.noneWord()
	}
	return Quantity(val, zone)
}

// askArgs are the numbers a question speaks of.
func askArgs(v View, spec Spec) []any {
	if spec.Asks != "" {
		return []any{"n", spec.Number}
	}
	switch spec.ID {
	case stepBatches:
		n, w := batch(v.S)
		if w.Done("begun") {
			_, cover, _ := alarms(w)
			return []any{"n", n, "state", talk.P("batch.live", "cover", talk.Moment{At: cover, Zone: v.S.Zone})}
		}
		if fieldDone(v) {
			return []any{"n", n, "state", talk.P("batch.all")}
		}
		return []any{"n", n, "state", talk.P("batch.next", "n", n)}
	case stepContact:
		return []any{"state", contactState(v)}
	case stepSquare:
		if _, w := square(v.S); w.Done("begun") {
			return []any{"state", talk.P("square.running")}
		}
		return []any{"state", talk.P("square.first")}
	case stepLearn:
		return []any{"state", lessonState(v)}
	case stepUpstand, "overlaps":
		return []any{"n", len(v.edges())}
	case stepHose, stepRelax:
		if v.S.Works[spec.ID].Done("begun") {
			return []any{"state", talk.P(spec.ID + ".running")}
		}
		return []any{"state", talk.P(spec.ID + ".first")}
	}
	return nil
}

// contactState names the run in hand: which, of how many, and where it lies.
func contactState(v View) talk.Phrase {
	n, w := run(v.S)
	r := nextRun(v)
	c := v.Plan().Contact
	if c != nil && len(c.Runs) == 0 && n > 1 && !coated(w) {
		return talk.P("contact.all")
	}
	if r == nil {
		return talk.P("contact.bare", "n", n)
	}
	return talk.P("contact.run", "n", n, "of", n-1+len(c.Runs), "edge", r.Edge+1, "kind", talk.P("pick."+string(v.edgeKind(r.Edge+1))),
		"from", unit.Length(round(r.From)), "to", unit.Length(round(r.To)))
}

// lessonState says what the film of a batch was seen to do.
func lessonState(v View) talk.Phrase {
	n := lesson(v)
	if n == 0 {
		return talk.P("lesson.none")
	}
	sq, _ := seen(v.S.Works[batchName(n)])
	switch {
	case sq.LastWet > 0 && sq.FirstGone > 0:
		return talk.P("lesson.bracket", "n", n, "wet", sq.LastWet, "gone", sq.FirstGone)
	case sq.FirstGone > 0:
		return talk.P("lesson.gone", "n", n, "gone", sq.FirstGone)
	}
	return talk.P("lesson.wet", "n", n, "wet", sq.LastWet)
}

func confirmation(s State, q string) talk.Ask {
	key := "ask.confirm-change"
	if s.Pending.Doubt != "" {
		key = "ask.confirm-doubt"
	}
	return talk.Ask{Question: q, Phrase: talk.P(key, "step", called(s.Pending.Step), "value", Quantity(s.Pending.Value, s.Zone)),
		Options: []talk.Option{{Action: "yes", Label: talk.P("word.yes")}, {Action: "no", Label: talk.P("word.no")}}}
}

// unclear offers the readings of an answer that could mean several things.
func unclear(s State, q string) talk.Ask {
	ask := talk.Ask{Question: q, Phrase: talk.P("ask.unclear")}
	for i, o := range s.Unclear.Options {
		ask.Options = append(ask.Options, talk.Option{Action: numeral(i + 1), Label: talk.P("value", "value", Quantity(o, s.Zone))})
	}
	return ask
}

// rest is what is said when no question is open.
func rest(s State) talk.Phrase {
	if s.Status == JobEnded {
		return talk.P("rest.ended")
	}
	if s.Handed.IsZero() {
		return talk.P("rest.waiting")
	}
	if _, due, ok := nextInspection(View{s}); ok {
		return talk.P("rest.aftercare", "due", talk.Moment{At: due, Zone: s.Zone, Date: true})
	}
	return talk.P("rest.waiting")
}

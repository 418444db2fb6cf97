package flow

import (
	"strings"

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
			return []any{"n", n, "state", talk.P("batch.live", "cover", talk.Moment{At: w.Marks["begun"].Add(after(w, "usable")), Zone: v.S.Zone})}
		}
		if fieldDone(v) {
			return []any{"n", n, "state", talk.P("batch.all")}
		}
		return []any{"n", n, "state", talk.P("batch.next", "n", n)}
	case stepContact:
		n := 1
		for v.S.Works[contactName(n)].Done("mated") {
			n++
		}
		return []any{"n", n}
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

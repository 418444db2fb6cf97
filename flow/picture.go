package flow

import (
	"math"
	"sort"
	"strings"

	"chargehand/calc/unit"
	"chargehand/flow/draw"
	"chargehand/flow/event"
	"chargehand/flow/hear"
	"chargehand/flow/talk"
)

// arrives says which picture comes with which numbers: the rod with the marks,
// the boards with the cuts, the section with the drip.
var arrives = map[string][]string{
	"roof":     {draw.Roof},
	"marks":    {draw.Rod},
	"deck":     {draw.Deck},
	"drip":     {draw.Gutter},
	"upstands": {draw.Abutment, draw.Parapet},
	"batch":    {draw.Strips},
	"contact":  {draw.Runs},
	"battens":  {draw.Verge},
	"lead":     {draw.Lead},
	"coping":   {draw.Parapet},
	"score":    {draw.Timeline},
}

// tellingOf is what is told of what a picture shows, so that it can be drawn
// again as it was.
func tellingOf(kind string, v View) *event.Told {
	switch kind {
	case draw.Roof:
		return tellRoof(v)
	case draw.Rod:
		return tellMarks(v)
	case draw.Deck:
		return tellDeck(v)
	case draw.Gutter:
		return tellFront(v)
	case draw.Abutment:
		return tellUpstands(v)
	case draw.Sheet:
		return tellSheet(v)
	case draw.Strips:
		return tellBatch(v)
	}
	return nil
}

// drawn begins the name of a telling that is a picture and nothing else.
const drawn = "draw."

// Picture is a picture of a job as it stands; ok is false where it can't be drawn
// yet, or not of this roof.
func Picture(s State, kind string) (pic talk.Picture, ok bool) {
	return draw.Of(kind, View{s}.subject())
}

// Pictures lists the pictures that can be drawn of a job now.
func Pictures(s State) []string { return draw.Possible(View{s}.subject()) }

// subject is what a picture is drawn from.
func (v View) subject() draw.Subject {
	s := draw.Subject{In: Inputs(v.S), Plan: v.Plan(), Chase: v.MM("chase"), Story: v.story()}
	for _, w := range batches(v.S) {
		if end, over := ended(w); over && w.Has["deck"].Unit != "" {
			s.Batches = append(s.Batches, draw.Begun{Deck: unit.Celsius(w.Has["deck"].Num()), Open: minutesOf(w.age("begun", end)), Good: good(w)})
		}
	}
	return s
}

// tellPicture tells a picture by itself, where none comes with numbers.
func tellPicture(kind string) func(View) *event.Told {
	return func(v View) *event.Told {
		pic, ok := draw.Of(kind, v.subject())
		if !ok {
			return nil
		}
		t := told(drawn+kind, nil, recorded(pic.Caption))
		if n := tellingOf(kind, v); n != nil {
			t.Lines, t.Formulas = append(t.Lines, n.Lines...), n.Formulas
		}
		return t
	}
}

// pictureReplies are the pictures that come with a telling. They are drawn from
// the facts as they were and the numbers that were told, never from what today's
// formulas make of them.
func pictureReplies(s State, ev event.Told) []talk.Reply {
	kinds := arrives[ev.What]
	if kind, ok := strings.CutPrefix(ev.What, drawn); ok {
		kinds = []string{kind}
	}
	if len(kinds) == 0 {
		return nil
	}
	subject := View{s}.subject()
	subject.Plan = asTold(subject.Plan, ev)
	for _, kind := range kinds {
		if pic, ok := draw.Of(kind, subject); ok {
			return []talk.Reply{pic}
		}
	}
	return nil
}

// recorded keeps a phrase with its numbers.
func recorded(p talk.Phrase) event.Line {
	l := event.Line{Key: p.Key}
	for name, arg := range p.Args {
		if l.Args == nil {
			l.Args = map[string]event.Value{}
		}
		l.Args[name] = valueOf(arg)
	}
	return l
}

// valueOf is the other way from Quantity.
func valueOf(arg any) event.Value {
	switch x := arg.(type) {
	case unit.Length:
		return event.Of("mm", float64(x))
	case unit.Area:
		return event.Of("m2", math.Round(x.In(m2)*100)/100)
	case unit.AreaLoad:
		return load(x)
	case unit.Force:
		return event.Of("kn", math.Round(x.In(unit.Kilonewton)*100)/100)
	case unit.Mass:
		return event.Of("kg", math.Round(float64(x)*10)/10)
	case unit.Celsius:
		return event.Of("celsius", float64(x))
	case unit.Minutes:
		return event.Of("min", float64(x))
	case unit.Fall:
		return event.Of("ratio", float64(x))
	case int:
		return whole(x)
	case float64:
		return event.Of("number", x)
	case talk.Phrase:
		return key(x.Key)
	}
	return event.Value{Unit: "text"}
}

// kindsWant is the choice of a picture.
func kindsWant() hear.Want { return choices(draw.Kinds()) }

// draw hears "draw KIND". Without a kind it draws what the work in hand needs.
func (t *turn) draw(rest, text string) {
	v := t.view()
	subject := v.subject()
	kind := ""
	if strings.TrimSpace(rest) == "" {
		kind = v.atHand(subject)
	} else {
		want := kindsWant()
		want.Lang = t.in.By.Lang
		if h := hear.Answer(rest, want); len(h.Values) == 1 {
			kind = h.Values[0].Key
		}
	}
	could := event.Word("keys", "pick."+strings.Join(draw.Possible(subject), " pick."))
	switch _, ok := draw.Of(kind, subject); {
	case could.Text == "pick." || kind == "" && strings.TrimSpace(rest) == "":
		t.heard(text, "refuse.picture-none", nil)
	case kind == "":
		t.heard(text, "refuse.picture-which", map[string]event.Value{"could": could})
	case !ok:
		t.heard(text, "refuse.picture-yet", map[string]event.Value{"what": key("pick." + kind), "could": could})
	default:
		t.emit(*tellPicture(kind)(v))
	}
}

// atHand is the picture of the work in hand: the last of its phase that can be
// drawn, or of the phases before it.
func (v View) atHand(subject draw.Subject) string {
	byPhase := map[string][]string{
		"survey": {draw.Roof}, "plates": {draw.Roof}, "joists": {draw.Rod}, "deck": {draw.Gutter, draw.Deck}, "upstands": {draw.Parapet, draw.Abutment},
		"membrane": {draw.Sheet, draw.Strips, draw.Runs}, "edges": {draw.Verge, draw.Gutter}, "flashing": {draw.Pipe, draw.Lead}, "aftercare": {draw.Timeline},
	}
	for i := place(PhaseNow(v.S)) - 1; i >= 0; i-- {
		kinds := byPhase[phases[i]]
		for k := len(kinds) - 1; k >= 0; k-- {
			if _, ok := draw.Of(kinds[k], subject); ok {
				return kinds[k]
			}
		}
	}
	return ""
}

// story is the job in order of time, for the timeline: phases, hold points, glue,
// and the clocks that will ring.
func (v View) story() *draw.Story {
	st := &draw.Story{Zone: v.S.Zone}
	add := func(e draw.Entry) {
		if !e.At.IsZero() {
			st.Entries = append(st.Entries, e)
		}
	}
	begun := map[string]bool{}
	var steps []string
	for _, spec := range script() {
		if set := v.S.Settled[spec.ID]; !set.At.IsZero() && set.Status != StepPending {
			steps = append(steps, spec.ID)
		}
	}
	sort.SliceStable(steps, func(i, j int) bool { return v.S.Settled[steps[i]].Seq < v.S.Settled[steps[j]].Seq })
	for _, id := range steps {
		spec, _ := Lookup(id)
		set := v.S.Settled[id]
		if !begun[spec.Phase] {
			begun[spec.Phase] = true
			add(draw.Entry{At: set.At, Mark: draw.Entered, Text: talk.P("phase."+spec.Phase, "n", place(spec.Phase), "of", len(phases))})
		}
		if spec.Kind != Hold && spec.Kind != Gate {
			continue
		}
		mark := draw.Left
		if set.Answer() {
			mark = draw.Passed
		}
		name := called(id)
		if id == stepGo && v.Has(stepDeck) && v.Has(stepWind) {
			name = talk.P("label.story.go", "step", name, "deck", unit.Celsius(v.num(stepDeck)), "wind", talk.P("pick."+v.Pick(stepWind)))
		}
		add(draw.Entry{At: set.At, Mark: mark, Text: name})
	}
	for i, w := range batches(v.S) {
		end, over := ended(w)
		if !over {
			continue
		}
		open, window := minutesOf(w.age("begun", end)), unit.Minutes(w.Has["window"].Num())
		add(draw.Entry{At: w.Marks["begun"], Mark: draw.Glued, Open: open, Usable: unit.Minutes(w.Has["usable"].Num()), Window: window,
			Text: talk.P("label.story.batch", "n", i+1, "open", open, "window", window, "deck", unit.Celsius(w.Has["deck"].Num()))})
	}
	if n, _ := run(v.S); n > 1 {
		add(draw.Entry{At: v.S.Works[contactName(n-1)].Marks["mated"], Mark: draw.Did, Text: talk.P("label.story.runs", "n", n-1)})
	}
	for _, c := range Clocks(v.S) {
		add(draw.Entry{At: c.Due, Mark: draw.Due, Text: clockName(c.Name)})
	}
	sort.SliceStable(st.Entries, func(i, j int) bool { return st.Entries[i].At.Before(st.Entries[j].At) })
	return st
}

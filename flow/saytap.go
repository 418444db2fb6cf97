package flow

import (
	"strings"
	"time"

	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// tapReplies answers a tap with the moment it was taken and what comes next.
func tapReplies(before, after State, ev event.Tapped) []talk.Reply {
	stem, n := numberOf(ev.Work)
	pairs := []any{"at", talk.Moment{At: ev.At, Zone: before.Zone}, "n", n}
	switch stem {
	case "batch":
		return batchReplies(after, ev, pairs)
	case "square":
		return squareReplies(after, ev, pairs)
	case "contact":
		return contactReplies(after, ev, pairs)
	case workRoof:
		if ev.Mark == "up" && watchedOver(View{after}) {
			return []talk.Reply{talk.Say(talk.P("tap.roof-up-watched", append(pairs, "who", after.Settled[stepRing].Value.Text)...))}
		}
		if ev.Mark == "off" && busy(before) {
			return []talk.Reply{talk.Tell{Level: talk.Alarm, Lines: []talk.Phrase{talk.P("tap.roof-off-wet", pairs...)}}}
		}
	case stepRelax:
		pairs = append(pairs, "until", talk.Moment{At: ev.At.Add(span(ev.Has["for"])), Zone: before.Zone})
	}
	return []talk.Reply{talk.Say(talk.P("tap."+stem+"-"+ev.Mark, pairs...))}
}

func batchReplies(after State, ev event.Tapped, pairs []any) []talk.Reply {
	w := after.Works[ev.Work]
	at := func(t time.Time) talk.Moment { return talk.Moment{At: t, Zone: after.Zone} }
	age := ev.At.Sub(w.Marks["begun"])
	pairs = append(pairs, "age", minutesOf(age))
	one := func(level talk.Level, key string) []talk.Reply {
		return []talk.Reply{talk.Tell{Level: level, Lines: []talk.Phrase{talk.P(key, pairs...)}}}
	}
	switch ev.Mark {
	case "begun":
		_, cover, dead := alarms(w)
		pairs = append(pairs, "cover", at(cover), "dead", at(dead), "area", Quantity(ev.Has["area"], ""), "strip", Quantity(ev.Has["strip"], ""))
	case "down":
		pairs = append(pairs, "laid", unit.Area(laid(after)*float64(m2)))
		if !good(w) && !w.Done("still-wet") {
			pairs = append(pairs, "window", Quantity(w.Has["window"], ""))
			return one(talk.Caution, "tap.batch-down-late")
		}
		lines := []talk.Phrase{talk.P("tap.batch-down", pairs...)}
		if r, ok := pace(w); ok {
			lines = append(lines, talk.P("pace", "roll", float64(r.Roll), "lay", float64(r.Lay)))
		}
		return []talk.Reply{talk.Say(lines...)}
	case "still-wet":
		_, _, dead := alarms(w)
		pairs = append(pairs, "again", at(dead))
	case "rain":
		return one(talk.Alarm, "rain.wet-glue")
	case "wrong-tin":
		return one(talk.Stop, "tap.batch-wrong-tin")
	case "use", "pass":
		return one(talk.Plain, "tap.learn-"+ev.Mark)
	}
	return one(talk.Plain, "tap.batch-"+ev.Mark)
}

func squareReplies(after State, ev event.Tapped, pairs []any) []talk.Reply {
	w := after.Works[ev.Work]
	if !w.Done("begun") {
		return []talk.Reply{talk.Say(talk.P("tap.square-none"))}
	}
	pairs = append(pairs, "age", minutesOf(ev.At.Sub(w.Marks["begun"])))
	if ev.Mark == "begun" {
		pairs = append(pairs, "look", talk.Moment{At: nextLook(w, time.Time{}), Zone: after.Zone})
	}
	if sq, ok := seen(w); ok && ev.Mark == "gone" {
		pairs = append(pairs, "gone", sq.FirstGone, "wet", sq.LastWet)
		if sq.LastWet > 0 {
			return []talk.Reply{talk.Say(talk.P("tap.square-bracket", pairs...))}
		}
	}
	return []talk.Reply{talk.Say(talk.P("tap.square-"+ev.Mark, pairs...))}
}

func contactReplies(s State, ev event.Tapped, pairs []any) []talk.Reply {
	w := s.Works[ev.Work]
	face, isCoat := strings.CutPrefix(ev.Mark, "coated-")
	if !isCoat {
		for _, f := range faces {
			if ev.Mark == "mated" && ev.At.After(deadAt(w, f)) {
				return []talk.Reply{talk.Tell{Level: talk.Caution, Lines: []talk.Phrase{talk.P("tap.contact-mated-late", pairs...)}}}
			}
		}
		return []talk.Reply{talk.Say(talk.P("tap.contact-"+ev.Mark, pairs...))}
	}
	pairs = append(pairs, "test", talk.Moment{At: nextKnuckle(w, face, time.Time{}), Zone: s.Zone}, "dead", talk.Moment{At: deadAt(w, face), Zone: s.Zone})
	lines := []talk.Phrase{talk.P("tap.contact-"+ev.Mark, pairs...)}
	other := otherFace(face)
	switch first := w.Has["first"].Text; {
	case first == "" || w.Done("coated-"+other):
	case first == face:
		lines = append(lines, talk.P("coat-later", "face", talk.P("face."+other), "at", talk.Moment{At: ev.At.Add(after(w, "wait")), Zone: s.Zone}))
	default:
		lines = append(lines, talk.P("coat-wrong-way", "face", talk.P("face."+face)))
	}
	return []talk.Reply{talk.Say(lines...)}
}

package flow

import (
	"math"
	"slices"

	"chargehand/calc/glue"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// What a film did on one job is offered to the next that has a tin with the same
// label and a deck of the same kind, together with the conditions it was seen in.
// It is never mixed in silently, and a bracket of this roof's own outranks it.

const stepEarlier = "earlier"

// earlierRests are the answers that say which earlier film there is to offer.
var earlierRests = []string{stepLabel, "label-temp", stepLabel2, "label-second-temp", "substrate"}

// spread names a film by the moment it was spread: a book's films come in that
// order.
func spread(f event.Film) string { return f.Begun.UTC().Format("2006-01-02T15:04:05.000000000Z") }

// conditions adds to the numbers a film begins with what another job has to know
// about it.
func conditions(v View, has map[string]event.Value) map[string]event.Value {
	has["air"] = event.Of("celsius", v.num(stepAir))
	has["on"] = event.Word("pick", surface(v.S))
	has["tin"] = event.Of("number", tin(v.S)...)
	return has
}

func surface(s State) string {
	if set := s.Settled["substrate"]; set.counts() {
		return set.Value.Text
	}
	return string(glue.Board)
}

// tin is what the label prints: minutes and temperature, and those of a second line.
func tin(s State) []float64 {
	var out []float64
	for _, id := range earlierRests[:4] {
		if set := s.Settled[id]; set.counts() && len(set.Value.Nums) > 0 {
			out = append(out, set.Value.Num())
		}
	}
	return out
}

// films are the brackets of this job that later ones may be offered.
func films(s State) map[string]event.Film {
	out := map[string]event.Film{}
	for _, w := range looks(s) {
		sq, ok := seen(w)
		if !ok || !bracketed(sq) || len(w.Has["tin"].Nums) == 0 {
			continue
		}
		if _, err := glue.Calibrate(sq); err != nil {
			continue
		}
		f := event.Film{
			Begun: w.Marks["begun"].UTC(), Label: w.Has["tin"].Nums, Substrate: w.Has["on"].Text,
			Deck: w.Has["deck"].Num(), Air: w.Has["air"].Num(),
			Model: float64(sq.Model), LastWet: tenth(float64(sq.LastWet)), FirstGone: math.Ceil(float64(sq.FirstGone)*10) / 10,
		}
		out[spread(f)] = f
	}
	return out
}

// earlierFilm is the film of an earlier job that fits this tin and this deck: the latest
// there is.
func earlierFilm(s State) (f event.Film, ok bool) {
	for _, known := range s.Films {
		if known.Substrate == surface(s) && slices.Equal(known.Label, tin(s)) && (!ok || known.Begun.After(f.Begun)) {
			f, ok = known, true
		}
	}
	return f, ok
}

func squareOf(f event.Film) glue.Square {
	return glue.Square{Model: unit.Minutes(f.Model), LastWet: unit.Minutes(f.LastWet), FirstGone: unit.Minutes(f.FirstGone)}
}

// took says whether the film was taken, and tin and deck have been the same since.
func took(s State) bool {
	set := s.Settled[stepEarlier]
	return set.counts() && set.Value.Text == "use" &&
		!slices.ContainsFunc(earlierRests, func(id string) bool { return s.Settled[id].Seq > set.Seq })
}

// planned puts the film of an earlier job before the looks of this roof, if it was
// taken and no bracket of this roof outranks it.
func planned(s State, own []glue.Square) []glue.Square {
	if slices.ContainsFunc(own, bracketed) || !took(s) {
		return own
	}
	if f, ok := earlierFilm(s); ok {
		return append([]glue.Square{squareOf(f)}, own...)
	}
	return own
}

func earlierKnown(v View) bool {
	_, ok := earlierFilm(v.S)
	return ok
}

// offerEarlier takes the film that was the shorter-lived one, and leaves out one
// that would lengthen the window.
func offerEarlier(v View) (event.Value, bool) {
	f, ok := earlierFilm(v.S)
	if !ok {
		return event.Value{}, false
	}
	if c, err := glue.Calibrate(squareOf(f)); err == nil && c.Factor < 1 {
		return event.Word("pick", "use"), true
	}
	return event.Word("pick", "pass"), true
}

func tellEarlier(v View) *event.Told {
	f, ok := earlierFilm(v.S)
	if !ok || v.Has(stepEarlier) {
		return nil
	}
	return told("earlier", []string{glue.CalibrateID},
		line("told.earlier", "day", event.Value{Unit: "date", At: f.Begun}, "deck", event.Of("celsius", f.Deck), "air", event.Of("celsius", f.Air), "on", event.Word("pick", f.Substrate)),
		line("told.earlier-film", "wet", event.Of("min", math.Floor(f.LastWet*10)/10), "gone", event.Of("min", f.FirstGone), "model", event.Of("min", f.Model)))
}

// recalledReplies say what is known from before.
func recalledReplies(ev event.Recalled) []talk.Reply {
	var lines []talk.Phrase
	if n := len(ev.Prices); n > 0 {
		lines = append(lines, talk.P("recalled", "n", n))
	}
	if n := len(ev.Films); n > 0 {
		lines = append(lines, talk.P("recalled.films", "n", n))
	}
	if len(lines) == 0 {
		return nil
	}
	return []talk.Reply{talk.Say(lines...)}
}

package flow

import (
	"time"

	"chargehand/flow/event"
)

// Somebody alone on a roof gives a sign of life every half hour; anything said or
// tapped is one. Without it the clock says whom to ring, to whoever follows the
// job. Common practice, no source.

// Steps of the check-in.
const (
	stepRing    = "ring-who"
	stepAddress = "address"
)

const workRoof = "roof"

func alone(v View) bool { return v.num(stepHands) == 1 }

// aloneSteps are asked at the end of the survey of one who works alone.
func aloneSteps() []Spec {
	const p = "survey"
	return []Spec{
		{ID: stepRing, Phase: p, Kind: Fact, When: alone, Want: textWant, Needs: []string{stepHands, stepBefore}, Risk: "safety", Cautions: []string{"alone"}},
		{ID: stepAddress, Phase: p, Kind: Fact, When: func(v View) bool { return alone(v) && v.Has(stepRing) }, Want: textWant, Needs: []string{stepRing}, Risk: "safety"},
	}
}

// Check-in times: asked for after 25 minutes without a word, told on after 30.
const (
	askAfter    = 25 * time.Minute
	silentAfter = 30 * time.Minute
)

// watchedOver says whether the check-in can run at all: one hand, somebody to ring,
// and an address to send help to.
func watchedOver(v View) bool { return alone(v) && v.Has(stepRing) && v.Has(stepAddress) }

// onRoof says whether somebody is known to be on the roof.
func onRoof(s State) bool {
	w := s.Works[workRoof]
	return w.Done("up") && w.Marks["up"].After(w.Marks["off"]) && s.Status == JobActive
}

// lastWord is the latest sign of life.
func lastWord(s State) time.Time { return later(s.Word, s.Works[workRoof].Marks["up"]) }

// goUp notes that the roof has somebody on it, where that matters and is not known
// yet: whoever spreads glue is up there.
func (t *turn) goUp(at time.Time) {
	if v := t.view(); watchedOver(v) && !onRoof(t.s) {
		t.emit(event.Tapped{Work: workRoof, Mark: "up", At: at.UTC()})
	}
}

// climb is what a person says when going up: a check-in without somebody to ring
// would promise what nobody keeps.
func (t *turn) climb(text string) {
	v := t.view()
	switch {
	case alone(v) && !watchedOver(v):
		t.heard(text, "refuse.check-in", nil)
	default:
		t.emit(event.Tapped{Work: workRoof, Mark: "up", At: t.in.When().UTC()})
	}
}

// comeOff is what a person says when off the roof, whatever the reason.
func (t *turn) comeOff() {
	t.emit(event.Tapped{Work: workRoof, Mark: "off", At: t.in.When().UTC()})
}

// checkIn are the clocks of somebody alone on the roof.
func checkIn(s State, add func(string, time.Time)) {
	if v := (View{s}); watchedOver(v) && onRoof(s) {
		add("check-in/ask", lastWord(s).Add(askAfter))
		add("check-in/silent", lastWord(s).Add(silentAfter))
	}
}

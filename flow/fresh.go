package flow

import (
	"errors"
	"slices"
	"strings"
	"time"

	"chargehand/calc"
	"chargehand/calc/plan"
	"chargehand/flow/event"
)

// How long weather answers hold: for a start at most an hour, the air three. Those
// of the last minutes are not asked again after a refusal. Common practice, no
// source.
const (
	freshWeather = 10 * time.Minute
	oldWeather   = time.Hour
	oldAir       = 3 * time.Hour
)

// hindersStart refuses a batch without a window, with one too short to work in, or
// on weather answers that are too old.
func (t *turn) hindersStart() *Doubt {
	v := t.view()
	p := v.Plan()
	w := p.Window
	switch since := t.in.When().Sub(v.S.Settled[stepDeck].At); {
	case w == nil || p.Batch == nil:
		if id := faulty(v); id != "" {
			return &Doubt{Key: "refuse.window-fault", Args: args("step", event.Word("step", id))}
		}
		return &Doubt{Key: "refuse.no-window"}
	case since > oldWeather:
		return &Doubt{Key: "refuse.weather-old", Args: args("age", minutes(since))}
	case p.Go != nil && p.Go.Verdict == "stop" && p.Batch.NoGo == "" && w.Stop == "" && v.S.Settled[stepGo].Status != StepSkipped:
		return &Doubt{Key: "refuse.go-stop"}
	case w.Stop != "" || p.Batch.NoGo != "" || p.Batch.Area.In(m2) <= 0:
		return &Doubt{Key: "refuse.window-short", Args: args("window", event.Of("min", w.Minutes()))}
	}
	return nil
}

// lookAgain asks the weather again after a refusal that only new answers can lift.
func (t *turn) lookAgain(tp tap) {
	var again []string
	switch {
	case tp.action == "start":
		again = t.oldWeather(freshWeather)
		if id := faulty(t.view()); id != "" {
			again = []string{id}
		}
	case strings.HasPrefix(tp.action, "coat-"):
		again = t.olderThan(freshWeather, stepAir, stepDamp, stepWind, stepRain, stepFaces)
	}
	if len(again) > 0 {
		t.emit(event.Reopened{Steps: again, Because: stepBatches})
	}
}

// lookAgainBeforeGo asks again what a go rests on: the tin, where a film went off far
// too soon, weather answers that are not fresh where they forbid it, and old ones
// in any case. It says whether there was anything to look at.
func (t *turn) lookAgainBeforeGo(said string, refused *Doubt) bool {
	limit := oldWeather
	if refused != nil {
		limit = freshWeather
	}
	again := t.oldWeather(limit)
	why := &Doubt{Key: "refuse.weather-old", Args: args("age", minutes(t.in.When().Sub(t.s.Settled[stepDeck].At)))}
	if w := t.view().Plan().Window; refused != nil && w != nil && w.Stop == plan.SquareLow {
		again, why = []string{"tin", stepLabel, stepDeck}, refused
	}
	if len(again) == 0 {
		return false
	}
	t.emit(event.Heard{Step: stepGo, Said: cut(said), Key: why.Key, Args: why.Args})
	t.emit(event.Reopened{Steps: again, Because: stepBatches})
	return true
}

// faulty is the answer that keeps a window from being worked out; "" when it is
// none.
func faulty(v View) string {
	err, bad := v.Plan().Faults["window"]
	var d *calc.DomainError
	if !bad || !errors.As(err, &d) {
		return ""
	}
	return map[string]string{"label_min": stepLabel, "label_c": "label-temp", "label2_min": stepLabel2, "label2_c": stepLabel2, "max_min": "label-upper",
		"surface_c": stepDeck, "air_c": stepAir, "rh_pct": stepDamp, "wind_m_s": stepWind}[d.Field]
}

// olderThan lists those of the answers that were given so long ago.
func (t *turn) olderThan(limit time.Duration, steps ...string) []string {
	return slices.DeleteFunc(steps, func(id string) bool {
		set := t.s.Settled[id]
		return !set.Answer() || t.in.When().Sub(set.At) < limit
	})
}

// oldWeather lists the weather answers that are older than so long: the deck, the
// wind and the rain soon, the air later, the night with the day.
func (t *turn) oldWeather(limit time.Duration) []string {
	read := t.s.Settled[stepDeck]
	now := t.in.When()
	since := now.Sub(read.At)
	if !read.Answer() || since < limit {
		return nil
	}
	again := []string{stepDeck, stepWind, stepRain}
	if since > oldAir {
		again = append(again, stepAir, stepDamp)
	}
	if civil(now, t.s.Zone).Day != civil(read.At, t.s.Zone).Day || since > 24*time.Hour {
		again = append(again, stepNight)
		if t.s.Settled[stepSquare].Answer() {
			again = append(again, stepSquare)
		}
	}
	return slices.DeleteFunc(again, func(id string) bool { return !t.s.Settled[id].Answer() })
}

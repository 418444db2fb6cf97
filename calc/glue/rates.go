package glue

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// RatesID names the learning of rates.
const RatesID = "glue.rates/1"

// Watched is one batch as it happened, from the three taps of a batch: started,
// last spread, down.
type Watched struct {
	Area   unit.Area
	Spread unit.Minutes // from started to last spread
	Laid   unit.Minutes // from last spread to down
	Turn   unit.Minutes // the part of Laid before the first sheet went down, as planned
}

// Rates are what a job has learned; BatchInput takes them as Roll and Lay.
type Rates struct{ Roll, Lay Rate }

// Learn returns the rates of a batch as it happened.
//
//	r_s = A/t_spread;  r_l = A/(t_laid - min(t_d, t_laid/2))
//
// A batch that was laid quickly was also turned quickly: the turn is taken as
// half of the time at most.
//
// Source: our own batch model turned round.
// Units: in and out by type.
// Shape: half the time, twice the rate of rolling; a batch laid at the planned
// rates gives them back.
// Domain: 0.2..1000 m², spread and laid 0.2..240 min, turn 0..30 min, rates
// within 0.1..6 m²/min.
// Errors: DomainError only.
func Learn(w Watched) (Rates, error) {
	const op = "glue.rates"
	a := w.Area.In(unit.SquareMetre)
	if err := calc.Outside(op, "area_m2", a, 0.2, 1000, "m²"); err != nil {
		return Rates{}, err
	}
	if err := calc.Outside(op, "spread_min", float64(w.Spread), 0.2, 240, "min"); err != nil {
		return Rates{}, err
	}
	if err := calc.Outside(op, "laid_min", float64(w.Laid), 0.2, 240, "min"); err != nil {
		return Rates{}, err
	}
	if err := calc.Outside(op, "turn_min", float64(w.Turn), 0, 30, "min"); err != nil {
		return Rates{}, err
	}
	laid := float64(w.Laid) - math.Min(float64(w.Turn), float64(w.Laid)/2)
	r := Rates{Roll: Rate(a / float64(w.Spread)), Lay: Rate(a / laid)}
	if err := calc.Outside(op, "roll_m2_min", float64(r.Roll), 0.1, 6, "m²/min"); err != nil {
		return Rates{}, err
	}
	return r, calc.Outside(op, "lay_m2_min", float64(r.Lay), 0.1, 6, "m²/min")
}

// Slower returns the slower of two findings, rate by rate: what is planned with
// after several batches.
func (r Rates) Slower(s Rates) Rates {
	return Rates{
		Roll: Rate(math.Min(float64(r.Roll), float64(s.Roll))),
		Lay:  Rate(math.Min(float64(r.Lay), float64(s.Lay))),
	}
}

// Alarms are ages of the oldest uncovered film of a batch.
type Alarms struct {
	HeadsUp unit.Minutes // three fifths of the usable time
	Down    unit.Minutes // everything spread must be covered
	Dead    unit.Minutes // the window: dead until touched
}

// headsUp is the share of the usable time at which the first alarm rings.
const headsUp = 0.6

// AlarmsOf returns when a batch must be reminded. The window is the computed
// one, never the label's number.
//
// Source: common practice, no source.
// Domain: window 0..480 min, share 0.1..1.
// Errors: DomainError only.
func AlarmsOf(window unit.Minutes, share float64) (Alarms, error) {
	const op = "glue.alarms"
	if err := calc.Outside(op, "window_min", float64(window), 0, 480, "min"); err != nil {
		return Alarms{}, err
	}
	if err := calc.Outside(op, "factor", share, 0.1, 1, ""); err != nil {
		return Alarms{}, err
	}
	u := float64(window) * share
	return Alarms{HeadsUp: unit.Minutes(headsUp * u), Down: unit.Minutes(u), Dead: window}, nil
}

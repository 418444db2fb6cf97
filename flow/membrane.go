package flow

import (
	"math"

	"chargehand/calc/glue"
	"chargehand/calc/plan"
	"chargehand/calc/sun"
	"chargehand/calc/unit"
	"chargehand/flow/draw"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// Steps of the membrane that other files name.
const (
	stepLabel   = "label"
	stepLabel2  = "label-second"
	stepCover   = "label-cover"
	stepPlace   = "place"
	stepHours   = "hours"
	stepDeck    = "deck-temp"
	stepAir     = "air-temp"
	stepNight   = "night"
	stepDamp    = "damp"
	stepWind    = "wind"
	stepRain    = "rain-in"
	stepSquare  = "square"
	stepGo      = "go"
	stepLearn   = "learn"
	stepLitres  = "litres"
	stepFaces   = "face-temps"
	stepWayOff  = "way-off"
	stepDryHold = "dry-hold"
)

// weatherSteps are the questions that pasted weather answers.
var weatherSteps = []string{stepDeck, stepAir, stepNight, stepDamp, stepWind, stepRain}

func membraneSteps() []Spec {
	const p = "membrane"
	steps := append(sheetSteps(), []Spec{
		{ID: stepRelax, Phase: p, Kind: Timed, Want: tapsWant(stepRelax), Needs: []string{"sheet-order", stepDelivered, stepShort}, Tell: tellPicture(draw.Sheet), Cautions: []string{"sail"}},
		{ID: "overlaps", Phase: p, Kind: Fact, Example: true, Want: overlapsWant, Needs: []string{stepRelax}, Doubt: doubtOverlaps, Rests: []string{"sheet"}},
		{ID: stepWayOff, Phase: p, Kind: Fact, Want: exitWant, Needs: []string{stepRelax}, Cautions: []string{"no-trap"},
			Into: func(in *plan.Inputs, val event.Value) { in.Exit = val.Text }},
		{ID: "far-off", Phase: p, Kind: Fact, Needs: []string{stepWayOff}, Offer: offerWordAs("yes", "no"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.FarWayOff = val.Yes() }},
		{ID: stepDryHold, Phase: p, Kind: Hold, Needs: []string{"overlaps", stepWayOff}, Risk: "weather", Rests: []string{"sheet", "overlaps"}, Weathers: true, Covered: stepBatches},
		{ID: "tin", Phase: p, Kind: Fact, Want: pick("wet", "two-face"), Offer: offerWord("wet"), Needs: []string{stepDryHold}, Cautions: []string{"solvent"}, Must: true,
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Text == "two-face" {
					return &Doubt{Key: "refuse.wrong-tin", Refuse: true}
				}
				return nil
			}},
	}...)
	steps = append(steps, labelSteps(p)...)
	steps = append(steps, airSteps(p)...)
	return append(steps, []Spec{
		{ID: stepEarlier, Phase: p, Kind: Fact, Want: pick("use", "pass"), When: earlierKnown, Needs: []string{stepRain, stepNight, stepWind, stepDamp}, Offer: offerEarlier, Short: true, Tell: tellEarlier, Rests: earlierRests},
		{ID: stepSquare, Phase: p, Kind: Timed, Want: tapsWant(stepSquare), When: windowOpen, Needs: []string{stepRain, stepNight, stepWind, stepDamp, stepEarlier}, Offer: offerWord("no-square"), Short: true, Tell: tellWindow},
		{ID: stepGo, Phase: p, Kind: Hold, Needs: []string{stepDryHold, stepDeck, stepAir, stepNight, stepDamp, stepWind, stepRain, stepSquare}, Tell: tellGo, Doubt: doubtGo, Rests: []string{"go"}, Weathers: true, Covered: stepBatches},
		{ID: stepLearn, Phase: p, Kind: Timed, Want: tapsWant(stepLearn), When: teaches},
		{ID: stepLitres, Phase: p, Kind: Fact, Want: fixed(ranged(hear.Litres, 0.3, 60, 0.05, 200)), When: litresDue, Offer: offerLitres, Doubt: doubtLitres, Risk: "looks"},
		{ID: stepBatches, Phase: p, Kind: Timed, Want: tapsWant(stepBatches), Needs: []string{stepGo, "deck-damp", "deck-hold"}, Tell: tellBatch, Cautions: []string{"kneel", "heat"}},
		{ID: "bond-hold", Phase: p, Kind: Hold, Needs: []string{stepBatches, stepLitres}, Risk: "weather"},
		{ID: "contact-label", Phase: p, Kind: Fact, Example: true, Want: fixed(many(ranged(hear.Minutes, 3, 120, 1, 300), 2, 2)), Needs: []string{stepBatches}, Offer: offerNums("min", 15, 45),
			Doubt: func(_ View, val event.Value) *Doubt {
				if len(val.Nums) == 2 && val.Nums[0] >= val.Nums[1] {
					return &Doubt{Key: "refuse.label-order", Refuse: true}
				}
				return nil
			},
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					d, m := val.Nums[0], val.Nums[1]
					in.ContactDry, in.ContactMax = &d, &m
				}
			}},
		{ID: stepFaces, Phase: p, Kind: Fact, Example: true, Offer: lastAnswer(stepFaces), Want: fixed(many(ranged(hear.Temperature, 5, 60, -10, 80), 2, 2)), Needs: []string{"contact-label"},
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					a, b := val.Nums[0], val.Nums[1]
					in.WallC, in.RubberC = &a, &b
				}
			}},
		{ID: stepContact, Phase: p, Kind: Timed, Want: tapsWant(stepContact), Needs: []string{stepFaces, stepBatches}, Tell: tellContact, Cautions: []string{"solvent"}},
		{ID: "trim-hold", Phase: p, Kind: Hold, Needs: []string{stepContact}, Risk: "weather"},
	}...)
}

// labelSteps are what the tin of deck adhesive says.
func labelSteps(p string) []Spec {
	return []Spec{
		{ID: stepLabel, Phase: p, Kind: Fact, Example: true, Want: fixed(parts(1, ranged(hear.Minutes, 3, 60, 1, 240), ranged(hear.Temperature, 5, 30, 0, 45))),
			More: []string{"label-temp"}, Needs: []string{"tin"}, Offer: offerNums("min", 15), Must: true,
			Into: func(in *plan.Inputs, val event.Value) { in.LabelMin = number(val) }},
		{ID: "label-temp", Phase: p, Kind: Fact, Want: fixed(ranged(hear.Temperature, 5, 30, 0, 45)), Needs: []string{stepLabel}, Offer: offerNums("celsius", 20), Short: true, Must: true,
			Into: func(in *plan.Inputs, val event.Value) { in.LabelC = number(val) }},
		{ID: stepLabel2, Phase: p, Kind: Fact, None: true, Example: true, Want: fixed(parts(1, ranged(hear.Minutes, 3, 60, 1, 240), ranged(hear.Temperature, 5, 40, 0, 45))),
			More: []string{"label-second-temp"}, Needs: []string{"label-temp"}, Offer: offerNums("min"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) {
				if m := number(val); m != nil {
					in.Label2 = &glue.Point{Time: unit.Minutes(*m)}
				}
			}},
		{ID: "label-second-temp", Phase: p, Kind: Fact, None: true, Want: fixed(ranged(hear.Temperature, 5, 40, 0, 45)), Needs: []string{stepLabel2}, Offer: offerNums("celsius"),
			When:  func(v View) bool { val, ok := v.Value(stepLabel2); return ok && len(val.Nums) > 0 },
			Doubt: doubtLabel2,
			Into: func(in *plan.Inputs, val event.Value) {
				if c := number(val); c != nil && in.Label2 != nil {
					in.Label2.Temperature = unit.Celsius(*c)
					return
				}
				in.Label2 = nil
			}},
		{ID: "label-upper", Phase: p, Kind: Fact, None: true, Want: fixed(ranged(hear.Minutes, 5, 90, 1, 480)), Needs: []string{stepLabel}, Offer: offerNums("min"), Short: true,
			Doubt: func(v View, val event.Value) *Doubt {
				if low, ok := v.Value(stepLabel); ok && len(val.Nums) > 0 && val.Num() <= low.Num() {
					return &Doubt{Key: "refuse.label-upper", Args: args("low", low), Refuse: true}
				}
				return nil
			},
			Into: func(in *plan.Inputs, val event.Value) { in.LabelUpper = number(val) }},
		{ID: "label-least", Phase: p, Kind: Fact, Want: fixed(ranged(hear.Temperature, 0, 15, -20, 40)), Needs: []string{stepLabel}, Offer: offerNums("celsius", 5), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.LabelLeast = number(val) }},
		{ID: stepCover, Phase: p, Kind: Fact, Want: fixed(hear.Want{Kind: hear.Number, Bare: "m2/l", Range: hear.Range{SoftMin: 1.5, SoftMax: 5, HardMin: 0.5, HardMax: 20}}),
			Needs: []string{stepLabel}, Offer: offerNums("number", 3), Short: true},
		{ID: "substrate", Phase: p, Kind: Fact, Want: pick("board", "sealed", "thirsty", "very"), Needs: []string{stepLabel}, Offer: offerWord("board"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.Substrate = val.Text }},
		{ID: stepPlace, Phase: p, Kind: Fact, None: true, Example: true, Want: textWant, Read: readPlace, Needs: []string{stepLabel}, Offer: offerNums("degree"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) {
				if len(val.Nums) == 2 {
					in.Place = &sun.Place{Lat: unit.Angle(val.Nums[0]) * unit.Degree, Lon: unit.Angle(val.Nums[1]) * unit.Degree}
				}
			}},
	}
}

// airSteps are the weather: a few taps, or pasted hours of a forecast.
func airSteps(p string) []Spec {
	needs := []string{"label-temp"}
	return []Spec{
		{ID: stepHours, Phase: p, Kind: Fact, When: func(View) bool { return false }}, // never asked: it comes by pasting
		{ID: stepDeck, Phase: p, Kind: Fact, Want: fixed(ranged(hear.Temperature, 5, 60, -20, 85)), Needs: needs, Must: true, Offer: lastAnswer(stepDeck),
			Into: func(in *plan.Inputs, val event.Value) { in.SurfaceC = number(val) }},
		{ID: stepAir, Phase: p, Kind: Fact, Want: fixed(ranged(hear.Temperature, 3, 38, -20, 50)), Needs: needs, Must: true, Offer: offerWeather(stepAir, event.Value{}),
			Into: func(in *plan.Inputs, val event.Value) { in.AirC = number(val) }},
		{ID: stepNight, Phase: p, Kind: Fact, Want: fixed(ranged(hear.Temperature, -5, 25, -30, 45)), Needs: needs, Must: true, Offer: offerWeather(stepNight, event.Value{}),
			Into: func(in *plan.Inputs, val event.Value) { in.NightC = number(val) }},
		{ID: stepDamp, Phase: p, Kind: Fact, Want: pick("dry", "normal", "damp", "unknown"), Else: []hear.Want{ranged(hear.Percent, 20, 98, 1, 100)}, Needs: needs, Must: true,
			Offer: offerWeather(stepDamp, event.Word("pick", "normal")),
			Into: func(in *plan.Inputs, val event.Value) {
				if val.Unit == "pct" {
					rh := unit.Percent(val.Num())
					in.RH = &rh
					return
				}
				in.Damp = val.Text
			}},
		{ID: stepWind, Phase: p, Kind: Fact, Want: pick("calm", "breeze", "windy", "unknown"), Else: []hear.Want{ranged(hear.Speed, 0, 15, 0, 40)}, Needs: needs, Must: true,
			Offer: offerWeather(stepWind, event.Word("pick", "breeze")),
			Into: func(in *plan.Inputs, val event.Value) {
				if val.Unit != "m_s" {
					in.Wind = val.Text
					return
				}
				mean := unit.Speed(val.Num())
				in.WindMean = &mean
				if len(val.Nums) > 1 {
					gust := unit.Speed(val.Nums[1])
					in.WindGust = &gust
				}
			}},
		{ID: stepRain, Phase: p, Kind: Fact, Want: pick("none", "within-3h", "now", "thunder"), Else: []hear.Want{{Kind: hear.Time}}, Needs: needs, Must: true, Offer: offerWeather(stepRain, event.Word("pick", "none")),
			Into: func(in *plan.Inputs, val event.Value) { in.Rain = val.Text }},
	}
}

// doubtLabel2 wants two lines of a label that a curve can be drawn through: less
// time at the warmer one, and not over 6 times less for each 10 K (glue.Label).
func doubtLabel2(v View, val event.Value) *Doubt {
	low, c := v.num(stepLabel), v.num("label-temp")
	second := v.num(stepLabel2)
	if low <= 0 || second <= 0 || len(val.Nums) == 0 {
		return nil
	}
	if k := val.Num() - c; math.Abs(k) >= 1 {
		if q := math.Pow(low/second, 10/k); q >= 1 && q <= 6 {
			return nil
		}
	}
	return &Doubt{Key: "refuse.label-second", Refuse: true}
}

// windowOpen says whether a film would last at all in this weather.
func windowOpen(v View) bool {
	w := v.Plan().Window
	return w != nil && w.Stop == ""
}

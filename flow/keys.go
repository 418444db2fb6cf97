package flow

import (
	"chargehand/calc/drain"
	"chargehand/calc/setout"
	"chargehand/calc/sheet"
	"chargehand/calc/takeoff"
	"chargehand/calc/timber"
	"chargehand/calc/weather"
	"chargehand/flow/hear/metar"
)

// clockKinds are the alarms there are, and tapKinds the taps that are answered, by
// the ends of their phrases' keys.
var (
	clockKinds = []string{"relax", "hose", "look", "put-off", "square", "wait", "batch-soon", "batch-cover", "batch-dead",
		"contact-knuckle-wall", "contact-knuckle-rubber", "contact-dead-wall", "contact-dead-rubber", "contact-coat-wall", "contact-coat-rubber",
		"check-in-ask", "check-in-silent"}
	tapKinds = []string{"relax-begun", "relax-down", "square-begun", "square-still-wet", "square-gone", "square-bracket", "square-left", "square-none",
		"batch-begun", "batch-last", "batch-down", "batch-down-late", "batch-still-wet", "batch-tacky", "batch-gone", "batch-rained", "batch-wrong-tin",
		"learn-use", "learn-pass", "field-down", "contact-coated-wall", "contact-coated-rubber", "contact-dry-wall", "contact-dry-rubber",
		"contact-mated", "contact-mated-late", "contact-down", "hose-begun", "hose-dry", "hose-drips", "look-sound", "look-found",
		"roof-up", "roof-up-watched", "roof-off", "roof-off-wet"}
)

// Keys lists the keys of phrases that follow from the steps and from the words
// of the formulas, for the test that each has words in every language. The keys
// written out in this package's sources are found there.
func Keys() []string {
	seen := map[string]bool{}
	var out []string
	add := func(keys ...string) {
		for _, k := range keys {
			if !seen[k] {
				seen[k] = true
				out = append(out, k)
			}
		}
	}
	for _, s := range script() {
		add("ask."+s.voice(), "why."+s.voice(), "name."+s.voice())
		if s.Example {
			add("eg." + s.voice())
		}
		for _, c := range s.Cautions {
			add("caution." + c)
		}
		if s.Risk != "" {
			add("risk." + s.Risk)
		}
	}
	for _, set := range ChoiceSets() {
		for _, k := range set {
			add("pick." + k)
		}
	}
	for _, p := range phases {
		add("phase." + p)
	}
	for _, k := range []weather.Key{weather.SurfaceLow, weather.SurfaceHigh, weather.NightCold, weather.DewMargin, weather.HumidityHigh, weather.MoistureHigh,
		weather.RainSoon, weather.WindMean, weather.WindGust, weather.Thunder, weather.Frost, weather.DaylightShort, weather.SurfaceFreezes} {
		add("reason." + dashed(string(k)))
	}
	for _, k := range []string{"condensing", "square-low", "window-short", "surface-low.label", "surface-high.label", "humidity-high.label"} {
		add("reason." + k)
	}
	for _, k := range metar.Keys() {
		add("paste." + dashed(string(k)))
	}
	for _, k := range clockKinds {
		add("clock."+k, "rang."+k)
	}
	for _, k := range tapKinds {
		add("tap." + k)
	}
	for _, end := range []string{"gutter", "verge", "window", "ladder-hatch"} {
		add("exit." + end)
	}
	for _, c := range []string{timber.Bending, timber.Stability, timber.Shear, timber.Bearing, timber.Instant, timber.Final, timber.TailEnd} {
		add("cond." + c)
	}
	for _, k := range takeoff.Keys() {
		add(item(k), "unit."+string(takeoff.UnitOf(k)))
	}
	for _, a := range []sheet.Act{sheet.Shift, sheet.Lower, sheet.AddTo} {
		add("told.cure." + string(a))
	}
	for _, a := range []sheet.Act{sheet.Shift, sheet.AddTo, sheet.Reorder} {
		add("refuse.overlap-" + string(a))
	}
	for _, w := range []sheet.Run{sheet.Down, sheet.Across} {
		add("told.seam."+string(w), "run."+string(w))
	}
	for _, p := range []drain.Placement{drain.AtEnd, drain.AtMiddle, drain.AtBothEnds} {
		add("outlet." + dashKey(string(p)))
	}
	for _, s := range []setout.Support{setout.Bearer, setout.Doubled, setout.EdgeJoists} {
		add("told.junction." + dashKey(string(s)))
	}
	add("told.flank.left", "told.flank.right")
	return out
}

package flow

import (
	"chargehand/calc/drain"
	"chargehand/calc/setout"
	"chargehand/calc/sheet"
	"chargehand/calc/takeoff"
	"chargehand/calc/timber"
	"chargehand/calc/weather"
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

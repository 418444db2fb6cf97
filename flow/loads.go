package flow

import (
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// The questions of this file tell what the joists must carry: snow, wind, what
// hangs below. Not knowing is an answer to most of them, and never the lighter
// case.

func elsewhere(v View) bool { return v.Pick("region") == "elsewhere" }

// windTold says whether there is a wind to reckon with: without one no figure of
// uplift is given anywhere.
func windTold(v View) bool { w := v.Pick("wind-load"); return w == "given" || w == "map-speed" }

func mapSpeed(v View) bool { return v.Pick("wind-load") == "map-speed" }

func taller(v View) bool { return v.MM("wall-above") > 0 }

func hangs(v View) bool { h := v.Pick("hung"); return h != "" && h != "nothing" }

// onJoist is what a joist is judged with: all of it must be settled before one
// is chosen.
var onJoist = []string{"use", "hung", "hung-weight", "wall-above", "upper-depth", "sheds", "parapet-size", "region", "site", "snow-zone", "ground-snow",
	"wind-load", "peak-pressure", "wind-speed", "terrain", "roof-height", "big-door"}

// measured hears one plain number in the unit the question names.
func measured(softMin, softMax, hardMin, hardMax float64) func(View) hear.Want {
	return fixed(ranged(hear.Number, softMin, softMax, hardMin, hardMax))
}

func areaLoad(v event.Value) *unit.AreaLoad {
	if len(v.Nums) == 0 {
		return nil
	}
	p := unit.AreaLoad(v.Nums[0]) * unit.KilonewtonPerM2
	return &p
}

func forceAt(v event.Value, i int) *unit.Force {
	if i >= len(v.Nums) {
		return nil
	}
	f := unit.Force(v.Nums[i]) * unit.Kilonewton
	return &f
}

func hungSteps(p string) []Spec {
	return []Spec{
		{ID: "hung", Phase: p, Kind: Fact, Want: pick("nothing", "door-track", "hoist"), Offer: offerWord("nothing"), Short: true,
			Doubt: func(_ View, val event.Value) *Doubt {
				if val.Text == "hoist" {
					return &Doubt{Key: "doubt.hoist"}
				}
				return nil
			},
			Into: func(in *plan.Inputs, val event.Value) { in.Hung = val.Text }},
		{ID: "hung-weight", Phase: p, Kind: Fact, When: hangs, Needs: []string{"hung"}, Want: fixed(ranged(hear.Mass, 1, 150, 0.5, 1000)),
			Into: func(in *plan.Inputs, val event.Value) {
				if n := number(val); n != nil {
					m := unit.Mass(*n)
					in.HungWeight = &m
				}
			}},
	}
}

// tallerSteps ask for the wall above, always: snow drifts against it.
func tallerSteps(p string) []Spec {
	return []Spec{
		{ID: "wall-above", Phase: p, Kind: Fact, When: shaped, Want: sectionLength(0, 9000, 0, 30000), Needs: []string{stepEdges},
			Doubt: func(v View, val event.Value) *Doubt {
				// An upstand and its chase take 300 mm: a wall edge stands higher.
				if walls(v) && val.Num() < 300 {
					return &Doubt{Key: "doubt.wall-low", Args: args("height", val)}
				}
				return nil
			},
			Into: func(in *plan.Inputs, val event.Value) { in.WallAbove = mm(val) }},
		{ID: "upper-depth", Phase: p, Kind: Fact, When: taller, Want: planLength(3000, 15000, 500, 60000),
			Needs: []string{"wall-above"}, Offer: offerNums("mm", 10000), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.UpperDepth = mm(val) }},
		{ID: "sheds", Phase: p, Kind: Fact, When: taller, Needs: []string{"wall-above"}, Offer: offerWordAs("yes", "yes"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { y := val.Yes(); in.UpperSheds = &y }},
	}
}

func snowSteps(p string) []Spec {
	return []Spec{
		{ID: "region", Phase: p, Kind: Fact, Want: pick("uk", "elsewhere"), Offer: offerWord("uk"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.Region = val.Text }},
		{ID: "site", Phase: p, Kind: Fact, Want: altitudeWant, Offer: offerNums("m", 80),
			Into: func(in *plan.Inputs, val event.Value) { in.Altitude = number(val) }},
		{ID: "snow-zone", Phase: p, Kind: Fact, When: func(v View) bool { return !elsewhere(v) }, Needs: []string{"region"},
			Want: pick("1", "2", "3", "4", "5", "given", "unknown"), Offer: offerWord("unknown"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.SnowZone = val.Text }},
		{ID: "ground-snow", Phase: p, Kind: Fact, Unit: "kn_m2", Example: true, When: func(v View) bool { return elsewhere(v) || v.Pick("snow-zone") == "given" },
			Needs: []string{"region", "snow-zone"}, Want: measured(0.2, 3, 0.05, 15),
			Into: func(in *plan.Inputs, val event.Value) { in.GroundSnow = areaLoad(val) }},
	}
}

func windSteps(p string) []Spec {
	return []Spec{
		{ID: "wind-load", Phase: p, Kind: Fact, Names: []string{"wind load"}, Want: pick("given", "map-speed", "unknown"), Offer: offerWord("unknown"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { in.WindBy = val.Text }},
		{ID: "peak-pressure", Phase: p, Kind: Fact, Unit: "kn_m2", Example: true, When: func(v View) bool { return v.Pick("wind-load") == "given" }, Needs: []string{"wind-load"},
			Want: measured(0.3, 1.8, 0.1, 5),
			Into: func(in *plan.Inputs, val event.Value) { in.PeakPressure = areaLoad(val) }},
		{ID: "wind-speed", Phase: p, Kind: Fact, When: mapSpeed, Needs: []string{"wind-load"},
			Want: func(View) hear.Want { w := ranged(hear.Speed, 20, 30, 15, 40); w.Bare = "m/s"; return w },
			Into: func(in *plan.Inputs, val event.Value) {
				if n := number(val); n != nil {
					s := unit.Speed(*n)
					in.WindSpeed = &s
				}
			}},
		{ID: "terrain", Phase: p, Kind: Fact, When: mapSpeed, Needs: []string{"wind-load"}, Want: pick("sea", "country", "town"), Offer: offerWord("country"),
			Into: func(in *plan.Inputs, val event.Value) { in.Terrain = val.Text }},
		{ID: "roof-height", Phase: p, Kind: Fact, When: windTold, Needs: []string{"wind-load"}, Want: fixed(ranged(hear.SiteLength, 2000, 5000, 1000, 20000)), Offer: offerNums("m", 3), Short: true,
			Into: func(in *plan.Inputs, val event.Value) {
				if n := number(val); n != nil {
					l := unit.Length(*n) * unit.Metre
					in.RoofHeight = &l
				}
			}},
		{ID: "big-door", Phase: p, Kind: Fact, When: windTold, Needs: []string{"wind-load"}, Offer: offerWordAs("yes", "yes"), Short: true,
			Into: func(in *plan.Inputs, val event.Value) { y := val.Yes(); in.BigDoor = &y }},
	}
}

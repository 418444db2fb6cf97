package plan

import (
	"math"

	"chargehand/calc/fixings"
	"chargehand/calc/load"
	"chargehand/calc/unit"
)

// Wind is the wind on the roof. It is there only where a pressure or a wind
// speed was told: without one there is no figure of uplift anywhere in the plan.
//
// The roof is reckoned as one that stands alone, with sharp edges and as large
// as its outline's bounds; a taller wall beside it is not allowed for.
type Wind struct {
	Pressure unit.AreaLoad // peak velocity pressure at the roof's height
	Rules    string        // whose rules made it from a speed; given where it was told
	Inside   float64       // c_pi: wind let in below
	Side     string        // the zones are for wind square on to: gutter or side
	Zones    []load.Zone
	Total    unit.Force    // characteristic, upwards, whole roof
	Net      unit.Force    // design, the weight taken off; below 0 the weight is enough
	Joist    unit.AreaLoad // characteristic, on a joist as if it lay in a corner all along

	End, EndCorner *unit.Force // net design pull at one joist end, away from the corners and in them

	roofs [2][]load.Zone // for wind on to the gutter's side, and on to the other
}

// Where the pressure came from, beside the names of annexes.
const windGiven = "given"

// pressure is q_p at the roof's height; nothing where the wind is not known.
func (r *reckoner) pressure() (qp unit.AreaLoad, rules string, ok bool) {
	in := r.in
	switch in.WindBy {
	case "given":
		if in.PeakPressure == nil {
			return 0, "", false
		}
		return *in.PeakPressure, windGiven, true
	case "map-speed":
		if in.WindSpeed == nil || in.Terrain == "" || in.RoofHeight == nil {
			return 0, "", false
		}
		site := load.Site{BasicSpeed: *in.WindSpeed, Height: *in.RoofHeight, Annex: "UK", Terrain: in.Terrain}
		if r.elsewhere() {
			site.Annex, site.Terrain = "CEN", map[string]string{"sea": "0", "country": "II", "town": "III"}[in.Terrain]
		} else if in.Altitude == nil {
			return 0, "", false
		} else {
			site.Altitude = unit.Length(*in.Altitude) * unit.Metre
		}
		peak, err := load.PeakPressure(site)
		return peak.Qp, site.Annex, !r.failed("wind", err)
	}
	return 0, "", false
}

func (r *reckoner) wind() {
	in := r.in
	qp, rules, ok := r.pressure()
	if !ok || in.RoofHeight == nil || r.p.Outline == nil {
		return
	}
	opening := load.DoorOpen // a door that was not ruled out may stand open
	if in.BigDoor != nil && !*in.BigDoor {
		opening = load.Shut
	}
	inside, err := load.Internal(opening)
	if r.failed("wind", err) {
		return
	}
	w := Wind{Pressure: qp, Rules: rules, Inside: inside}
	length, depth := *r.p.Length, *r.p.Depth
	for i, roof := range []load.Roof{{Across: length, Along: depth}, {Across: depth, Along: length}} {
		roof.Height = *in.RoofHeight
		if w.roofs[i], err = load.FlatRoofZones(roof); r.failed("wind", err) {
			return
		}
		if total := w.lift(w.roofs[i], length.By(depth)); total > w.Total {
			w.Total, w.Side, w.Zones = total, [...]string{"gutter", "side"}[i], w.roofs[i]
		}
	}
	w.Joist = w.suction(w.Zones[0], unit.SquareMetre) // a joist carries little more, and not less at wider centres
	r.p.Wind = &w
	r.used("wind", load.WindID)
}

// suction is q_p (c_pi - c_pe) at a loaded area.
func (w *Wind) suction(z load.Zone, loaded unit.Area) unit.AreaLoad {
	return w.Pressure * unit.AreaLoad(w.Inside-z.At(loaded))
}

// on is the force of an even load on an area.
func on(load unit.AreaLoad, a unit.Area) unit.Force { return unit.Force(float64(load) * float64(a)) }

// lift adds the zones up, each at the coefficient of the whole.
func (w *Wind) lift(zones []load.Zone, whole unit.Area) unit.Force {
	var sum unit.Force
	for _, z := range zones {
		sum += on(w.suction(z, whole), z.Area)
	}
	return sum
}

// onPlate is the characteristic pull on a length of plate: wind square on to
// the plate's own side, in which the strong edge strip lies close to it, or half
// of what the roof lifts in wind along the plate, whichever is more.
//
//	R = Σ w (x2 - x1)(1 - (x1 + x2)/2d)
//
// Source: statics of a joist from plate to plate, over the roof's full depth.
func (w *Wind) onPlate(run, length, depth unit.Length) unit.Force {
	half := run.By(depth / 2)
	zones := w.roofs[0]
	d := float64(depth)
	pull, x := 0.0, 0.0 // N/mm of plate, mm
	for _, strip := range [][]load.Zone{zones[:2], zones[2:3], zones[3:]} {
		area, force := 0.0, 0.0
		for _, z := range strip {
			area += float64(z.Area)
			force += float64(on(w.suction(z, half), z.Area))
		}
		if area <= 0 {
			continue
		}
		to := x + area/float64(length)
		pull += force / area * (to - x) * (1 - (x+to)/(2*d))
		x = to
	}
	along := float64(w.lift(w.roofs[1], half)) / 2 / float64(length)
	return unit.Force(math.Max(pull, along) * float64(run))
}

// uplift sets the wind against the weight that is sure to be there.
func (r *reckoner) uplift() {
	w := r.p.Wind
	if w == nil {
		return
	}
	sure, ok := r.sureWeight()
	if !ok {
		return
	}
	length, depth := *r.p.Length, *r.p.Depth
	net, err := fixings.NetUplift(w.Total, on(sure, length.By(depth)))
	if r.failed("wind", err) {
		return
	}
	w.Net = net
	j := r.p.Joists
	if j == nil {
		return
	}
	end := j.Centres.By(depth / 2)
	for _, at := range []struct {
		zone load.Zone
		pull **unit.Force
	}{{w.Zones[0], &w.EndCorner}, {w.Zones[1], &w.End}} {
		net, err := fixings.NetUplift(on(w.suction(at.zone, end), end), on(sure, end))
		if r.failed("wind", err) {
			return
		}
		*at.pull = &net
	}
}

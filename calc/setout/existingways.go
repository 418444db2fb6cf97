package setout

import (
	"math"

	"chargehand/calc/unit"
)

// asTheyStand lays whole boards with no joint off a joist.
func (in Existing) asTheyStand() (Option, bool, error) {
	return in.cheapest(in.bears, func(rows [2][]unit.Length) Option { return Option{Way: AsTheyStand, Rows: rows} })
}

// batten reports on which side of its joist a batten serves a joint.
func (in Existing) batten(joint unit.Length) (joist int, beyond, ok bool) {
	joist, offset := in.misses(joint)
	if beyond = offset > 0; !beyond {
		offset = -offset
	}
	// With the batten on, the timber is as if a joist of both thicknesses stood
	// half a batten further that way.
	return joist, beyond, Bearing(offset-in.Batten/2, in.Joist+in.Batten, in.JointGap).OK()
}

func (in Existing) sister() (Option, bool, error) {
	served := func(j unit.Length) bool {
		_, _, ok := in.batten(j)
		return ok || in.bears(j)
	}
	width, _ := in.rowWidths()
	o, ok, err := in.cheapest(served, func(rows [2][]unit.Length) Option {
		o := Option{Way: Sister, Rows: rows}
		for k, joints := range rows {
			for _, j := range joints {
				if in.bears(j) {
					continue
				}
				joist, beyond, _ := in.batten(j)
				o.Battens = append(o.Battens, BattenAt{Joist: joist, Beyond: beyond, Length: width[k]})
				o.Timber += width[k]
			}
		}
		return o
	})
	return o, ok && len(o.Battens) > 0, err // with none that is AsTheyStand
}

// nogginEvery is how far apart the noggins of a bearer stand at most: common
// practice, no source.
const nogginEvery = 600 * unit.Millimetre

// rungs is how many noggins hold one bearer.
func (in Existing) rungs() int {
	return int(math.Ceil(float64(in.BoardWidth)/float64(nogginEvery))) + 1
}

func (in Existing) ladder() (Option, bool, error) {
	served := func(j unit.Length) bool {
		return in.bears(j) || in.Centres[0] < j && j < in.Centres[len(in.Centres)-1]
	}
	width, count := in.rowWidths()
	o, ok, err := in.cheapest(served, func(rows [2][]unit.Length) Option {
		o := Option{Way: Ladder, Rows: rows}
		for k, joints := range rows {
			for _, j := range joints {
				if in.bears(j) {
					continue
				}
				i := 0
				for in.Centres[i+1] < j {
					i++
				}
				bay := in.Centres[i+1] - in.Centres[i] - in.Joist
				noggins := in.rungs() * count[k]
				o.Bearers = append(o.Bearers, BearerAt{Joint: j, Rows: count[k]})
				o.Noggins += noggins
				o.Timber += width[k] + unit.Length(noggins)*bay
			}
		}
		return o
	})
	return o, ok && len(o.Bearers) > 0, err // with none that is AsTheyStand
}

func (in Existing) rearrange() (Option, bool, error) {
	if in.Fixed {
		return Option{}, false, nil
	}
	plan, err := Joists(Input{Length: in.Length, BoardLength: in.BoardLength, JointGap: in.JointGap, Joist: in.Joist, MaxCentres: in.MaxCentres})
	if err != nil {
		return Option{}, false, nil // the module has a narrower domain; the other ways remain
	}
	o := Option{Way: Rearrange, Marks: plan.Marks, Joists: max(0, len(plan.Marks)-len(in.Centres))}
	for _, m := range plan.Marks {
		if c := in.Centres[nearest(in.Centres, m)]; max(c-m, m-c) > max(0, plan.Tolerance) {
			o.Moves++
		}
	}
	o.Moves -= o.Joists
	o.Timber = unit.Length(o.Joists) * in.Depth
	if o.Moves+o.Joists <= 0 {
		return Option{}, false, nil // they stand on the module already
	}
	moved := in
	moved.Centres = plan.Marks
	return moved.cheapest(moved.bears, func(rows [2][]unit.Length) Option {
		set := o
		set.Rows = rows
		return set
	})
}

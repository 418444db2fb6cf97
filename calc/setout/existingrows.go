package setout

import (
	"fmt"
	"math"

	"chargehand/calc/cut"
	"chargehand/calc/unit"
)

// knife is the saw cut between two pieces of one board.
const knife = 3 * unit.Millimetre // common practice, no source

// starts returns where the first joint of a row of whole boards may lie: a whole
// board from the datum, or a first board cut to end on a joist.
func (in Existing) starts() []unit.Length {
	whole := in.BoardLength + in.JointGap/2
	var out []unit.Length
	for _, c := range in.Centres {
		if c < whole {
			out = append(out, c)
		}
	}
	return append(out, whole)
}

// wholeBoards returns the joints of a row whose first joint is at x; ok is
// false when a piece of it is too short.
func (in Existing) wholeBoards(x unit.Length) (joints []unit.Length, ok bool) {
	for ; x < in.Length; x += in.BoardLength + in.JointGap {
		joints = append(joints, x)
	}
	return joints, in.longEnough(joints)
}

// longEnough reports whether every piece between joints covers LeastPieceBays
// bays.
func (in Existing) longEnough(joints []unit.Length) bool {
	from := unit.Length(0)
	for k := 0; k <= len(joints); k++ {
		to := in.Length
		if k < len(joints) {
			to = joints[k]
		}
		under := 0
		for _, c := range in.Centres {
			if c > from-in.Joist && c < to+in.Joist {
				under++
			}
		}
		if under <= LeastPieceBays {
			return false
		}
		from = to
	}
	return true
}

// staggered reports whether no joint of one row lies near one of the other.
func staggered(a, b []unit.Length) bool {
	for _, x := range a {
		for _, y := range b {
			if d := x - y; max(d, -d) < LeastStagger {
				return false
			}
		}
	}
	return true
}

// cheapest makes an option of every pair of starts, odd rows and even rows, whose
// joints can all be served, and returns the one that costs least. draw fills in
// what the joints of a pair need.
func (in Existing) cheapest(served func(joint unit.Length) bool, draw func(rows [2][]unit.Length) Option) (best Option, ok bool, err error) {
	var patterns [][]unit.Length
	for _, x := range in.starts() {
		joints, long := in.wholeBoards(x)
		for _, j := range joints {
			long = long && served(j)
		}
		if long {
			patterns = append(patterns, joints)
		}
	}
	_, count := in.rowWidths()
	for _, a := range patterns {
		beside := patterns
		if count[1] == 0 {
			beside = [][]unit.Length{nil}
		}
		for _, b := range beside {
			if !staggered(a, b) {
				continue
			}
			o, err := in.finished(draw([2][]unit.Length{a, b}))
			if err != nil {
				return Option{}, false, err
			}
			if !ok || o.Cost < best.Cost {
				best, ok = o, true
			}
		}
	}
	return best, ok, nil
}

// boardBudget bounds one count of boards; a roof has a few dozen pieces, and up
// to two hundred counts are made for one answer.
const boardBudget = 200_000

// boards returns how many boards the pieces of all rows take.
func (in Existing) boards(rows [2][]unit.Length) (n int, proven bool, err error) {
	_, count := in.rowWidths()
	var pieces []cut.Piece
	for k, joints := range rows {
		if count[k] == 0 {
			continue
		}
		from := unit.Length(0)
		for i := 0; i <= len(joints); i++ {
			to := in.Length
			if i < len(joints) {
				to = joints[i] - in.JointGap/2
			}
			// Tenths up: the cut list counts in whole tenths.
			length := unit.Length(math.Ceil(float64(to-from)*10-1e-6) / 10)
			pieces = append(pieces, cut.Piece{Length: min(length, in.BoardLength), Count: count[k]})
			if i < len(joints) {
				from = joints[i] + in.JointGap/2
			}
		}
	}
	list, err := cut.Solve(cut.Problem{
		Stocks: []cut.Stock{{Length: in.BoardLength, Cost: 1, Available: cut.Unlimited}},
		Pieces: pieces, Kerf: knife, Budget: boardBudget,
	})
	return list.Count, list.Proven, err
}

// misses returns the nearest joist to a joint and how far past its centre the
// joint lies.
func (in Existing) misses(joint unit.Length) (joist int, offset unit.Length) {
	joist = nearest(in.Centres, joint)
	return joist, joint - in.Centres[joist]
}

func (in Existing) bears(joint unit.Length) bool {
	_, offset := in.misses(joint)
	return Bearing(offset, in.Joist, in.JointGap).OK()
}

// asTheyStand lays whole boards with no joint off a joist.
func (in Existing) asTheyStand() (Option, bool, error) {
	return in.cheapest(in.bears, func(rows [2][]unit.Length) Option { return Option{Way: AsTheyStand, Rows: rows} })
}

// finished counts the boards of an option and prices it.
func (in Existing) finished(o Option) (Option, error) {
	n, proven, err := in.boards(o.Rows)
	if err != nil {
		return Option{}, fmt.Errorf("setout.existing: %w", err)
	}
	o.Boards, o.Unproven = n, !proven
	return in.priced(o), nil
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

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
	// The cut list counts in whole tenths: pieces up, the board down.
	board := unit.Length(math.Floor(float64(in.BoardLength)*10+1e-6) / 10)
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
			length := unit.Length(math.Ceil(float64(to-from)*10-1e-6) / 10)
			pieces = append(pieces, cut.Piece{Length: min(length, board), Count: count[k]})
			if i < len(joints) {
				from = joints[i] + in.JointGap/2
			}
		}
	}
	list, err := cut.Solve(cut.Problem{
		Stocks: []cut.Stock{{Length: board, Cost: 1, Available: cut.Unlimited}},
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

// finished counts the boards of an option and prices it.
func (in Existing) finished(o Option) (Option, error) {
	n, proven, err := in.boards(o.Rows)
	if err != nil {
		return Option{}, fmt.Errorf("setout.existing: %w", err)
	}
	o.Boards, o.Unproven = n, !proven
	return in.priced(o), nil
}

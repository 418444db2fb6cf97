package setout

import "chargehand/calc/unit"

// cutBoards cuts every board to end on the centre of a joist: fewest pieces for
// the odd rows, then fewest for the even rows that keep the stagger.
func (in Existing) cutBoards() (Option, bool, error) {
	_, count := in.rowWidths()
	odd, ok := in.fewestPieces(nil)
	o := Option{Way: CutBoards, Rows: [2][]unit.Length{odd, nil}}
	if ok && count[1] > 0 {
		o.Rows[1], ok = in.fewestPieces(odd)
	}
	if !ok {
		return Option{}, false, nil
	}
	o, err := in.finished(o)
	return o, true, err
}

// fewestPieces returns the joints, each on a joist, of a row of as few pieces as
// can be, none near a joint of the row beside it. Of rows with as few pieces
// the one whose pieces are longest from the datum is taken.
//
// Dynamic programming from the far end: pieces from each joist on.
func (in Existing) fewestPieces(beside []unit.Length) ([]unit.Length, bool) {
	const never = 1 << 30
	n := len(in.Centres)
	// Stop n is the far end of the deck, stop -1 its datum.
	pieces, next := make([]int, n), make([]int, n)
	reach := func(from, to int) bool {
		start, end := unit.Length(0), in.Length
		first, last := 0, n-1 // joists the piece bears on
		if from >= 0 {
			start, first = in.Centres[from]+in.JointGap/2, from
		}
		if to < n {
			end, last = in.Centres[to]-in.JointGap/2, to
		}
		return end-start <= in.BoardLength && last-first >= LeastPieceBays
	}
	best := func(from int) (count, to int) {
		count, to = never, -1
		if reach(from, n) {
			return 1, n
		}
		for k := n - 1; k > from; k-- {
			if pieces[k] < never && pieces[k]+1 < count && reach(from, k) && staggered(in.Centres[k:k+1], beside) {
				count, to = pieces[k]+1, k
			}
		}
		return count, to
	}
	if Tolerance(in.Joist, in.JointGap) < 0 {
		return nil, false
	}
	for k := n - 1; k >= 0; k-- {
		pieces[k], next[k] = best(k)
	}
	count, k := best(-1)
	if count == never {
		return nil, false
	}
	var joints []unit.Length
	for k < n {
		joints = append(joints, in.Centres[k])
		k = next[k]
	}
	return joints, true
}

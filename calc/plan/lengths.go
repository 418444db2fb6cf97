package plan

import (
	"math"
	"slices"

	"chargehand/calc/cut"
	"chargehand/calc/geom"
	"chargehand/calc/sheet"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// Lengths is timber or trim bought by the length: what is wanted of it, and how
// it is sawn from the lengths that can be had and those that came.
type Lengths struct {
	Key    takeoff.Key
	Pieces []cut.Piece
	List   cut.List       // as it is sawn, what came used first
	Order  []takeoff.Pack // to order, as if nothing had come
	Buy    []takeoff.Pack // still to buy
}

// Whole says whether every length is used whole, so that there is nothing to saw.
func (l Lengths) Whole() bool {
	for _, b := range l.List.Bars {
		if len(b.Cuts) != 1 || b.Cuts[0].Length != b.Length {
			return false
		}
	}
	return true
}

// A mitre at a corner costs so much of a batten or fascia, a half-lap so much of
// a plate; no piece in a run is shorter than the least: common practice, no source.
const (
	mitre      = 100 * unit.Millimetre
	plateLap   = 100 * unit.Millimetre
	leastPiece = 600 * unit.Millimetre
)

// lengths works out the cut lists. Pieces of a run are chosen first, for the
// fewest joints: no saving of timber is worth a joint. Then all pieces of a line
// are sawn from the cheapest lengths, so that what one run leaves serves another.
func (r *reckoner) lengths() {
	r.p.Lengths = map[takeoff.Key]Lengths{}
	if r.p.Outline == nil {
		return
	}
	if x := r.p.Plates; x != nil {
		var pieces []cut.Piece
		for _, run := range append(append([]unit.Length{}, x.Runs...), x.Ledgers...) {
			pieces = append(pieces, r.inRun(takeoff.PlateTimber, run, plateLap)...)
		}
		r.saw(takeoff.PlateTimber, pieces)
	}
	r.joistLengths()
	if !r.known() {
		return
	}
	var battens, fascias, trims []cut.Piece
	for i, e := range r.p.Outline.Edges {
		if e.Kind != geom.Gutter && e.Kind != geom.Verge {
			continue
		}
		run := e.Length
		if i < len(r.p.Corners) && r.p.Corners[i].Detail == sheet.TrimTurn {
			run += mitre // counted once a corner, at the edge that begins there
		}
		battens = append(battens, r.inRun(takeoff.Battens, run, 0)...)
		if e.Kind == geom.Gutter {
			fascias = append(fascias, r.inRun(takeoff.Fascias, run, 0)...)
		}
		trims = append(trims, r.inRun(takeoff.Trim, e.Length, 0)...)
	}
	r.saw(takeoff.Battens, battens)
	r.saw(takeoff.Fascias, fascias)
	r.saw(takeoff.Trim, trims)
}

// joistLengths saws joists with their spares, and the noggins and struts from
// the same timber.
func (r *reckoner) joistLengths() {
	j := r.p.Joists
	if j == nil || len(j.Pieces) == 0 {
		return
	}
	var pieces []cut.Piece
	for _, p := range j.Pieces {
		pieces = append(pieces, cut.Piece{Length: whole(p.Length), Count: p.Count})
	}
	if spare := j.Order - j.Count; spare > 0 {
		pieces = append(pieces, cut.Piece{Length: whole(j.Each), Count: spare, Label: spareLabel})
	}
	for _, p := range r.between() {
		pieces = append(pieces, cut.Piece{Length: whole(p.Length), Count: p.Count}, cut.Piece{Length: whole(p.Length), Count: (p.Count + 9) / 10, Label: spareLabel})
	}
	r.saw(takeoff.JoistTimber, pieces)
}

// between are the pieces between the joists: strutting, and noggins under board
// edges and straps.
func (r *reckoner) between() []takeoff.Piece {
	var out []takeoff.Piece
	if s := r.p.Strutting; s != nil {
		out = append(append(out, s.Pieces...), s.Under...)
	}
	if x := r.p.Restraint; x != nil && x.Noggins > 0 {
		out = append(out, takeoff.Piece{Count: x.Noggins, Length: r.p.Joists.Centres - r.p.Joists.B})
	}
	return out
}

const spareLabel = "spare"

// whole rounds up to a millimetre: a saw is set to whole ones.
func whole(l unit.Length) unit.Length { return unit.Length(math.Ceil(float64(l) - 1e-6)) }

// inRun chooses the pieces of one run from the lengths of a line: the fewest,
// then the least length bought. The last is cut to the run; where it would be
// too short to fix, the one before gives up its share.
func (r *reckoner) inRun(key takeoff.Key, run, lap unit.Length) []cut.Piece {
	var stock []unit.Length
	for _, s := range r.sizes(key) {
		stock = append(stock, unit.Length(math.Round(s.Size*1000)))
	}
	var out []cut.Piece
	for _, l := range trimPieces(run, lap, stock) {
		out = append(out, cut.Piece{Length: whole(l), Count: 1})
	}
	return out
}

// trimPieces covers a run with stock lengths: fewest pieces, then least waste.
// It walks all counts of each stock; a run of 20 m in 1 m lengths is the worst.
func trimPieces(run, lap unit.Length, stock []unit.Length) []unit.Length {
	if len(stock) == 0 {
		return nil
	}
	longest := slices.Max(stock)
	if longest <= lap {
		return nil
	}
	n := max(1, int(math.Ceil(float64(run-lap)/float64(longest-lap)-1e-9)))
	run += unit.Length(n-1) * lap
	var best []unit.Length
	bestOver := unit.Length(math.Inf(1))
	var walk func(from int, left int, sum unit.Length, chosen []unit.Length)
	walk = func(from, left int, sum unit.Length, chosen []unit.Length) {
		if left == 0 {
			if over := sum - run; over >= 0 && over < bestOver {
				bestOver, best = over, append([]unit.Length(nil), chosen...)
			}
			return
		}
		for i := from; i < len(stock); i++ {
			walk(i, left-1, sum+stock[i], append(chosen, stock[i]))
		}
	}
	walk(0, n, 0, nil)
	slices.SortFunc(best, func(a, b unit.Length) int { return int(b - a) })
	rest := run
	for i := range best {
		best[i] = min(best[i], rest)
		rest -= best[i]
	}
	if n := len(best); n > 1 && best[n-1] < leastPiece {
		short := leastPiece - best[n-1]
		best[n-1], best[n-2] = leastPiece, best[n-2]-short
	}
	return best
}

package setout

import (
	"slices"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ExistingID names the rule for joists that stand already and its version.
const ExistingID = "setout.existing/1"

// Way is a way to make board ends bear on joists that stand already.
type Way string

const (
	AsTheyStand Way = "as they stand" // whole boards, the first of each row cut to a joist
	Rearrange   Way = "module"        // move joists on to the marks of the module
	Sister      Way = "battens"       // a batten on the side of the joist under each end that misses
	CutBoards   Way = "cut boards"    // cut every board to end on a joist
	Ladder      Way = "noggins"       // a bearer under each end that misses, held by noggins
)

// Existing is joists that stand already and the boards to go on them.
type Existing struct {
	Centres     []unit.Length // as taped from the datum, the edge of the deck where the rows begin
	Joist       unit.Length
	JointGap    unit.Length
	MaxCentres  unit.Length
	Length      unit.Length // deck along the rows
	Depth       unit.Length // deck across the rows
	BoardLength unit.Length
	BoardWidth  unit.Length
	Fixed       bool        // the joists cannot be moved any more
	Batten      unit.Length // thickness of a batten; 0: 47
	Work        Work        // zero: usual times
	Prices      Prices
}

// Work is how long things take, minutes. Common practice, no source: the job's
// own times replace it.
type Work struct {
	Move   unit.Minutes // one joist on to another mark
	Joist  unit.Minutes // one new joist
	Batten unit.Minutes // a metre of batten fixed
	Noggin unit.Minutes // one noggin, or bearer, cut and fixed
	Board  unit.Minutes // one more board to carry up and cut
}

// usualBatten is the thickness of a batten on the side of a joist: common
// practice, no source.
const usualBatten = 47 * unit.Millimetre

// usualWork: common practice, no source.
var usualWork = Work{Move: 12, Joist: 30, Batten: 6, Noggin: 7, Board: 15}

// Prices are the builder's own, in any currency; zero prices leave work alone
// to decide.
type Prices struct {
	Board, TimberMetre, Hour float64
}

// Option is one way, worked out.
type Option struct {
	Way      Way
	Rows     [2][]unit.Length // joints of the odd and of the even rows, from the datum
	Moves    int              // joists to another mark
	Joists   int              // new joists
	Marks    []unit.Length    // of Rearrange
	Battens  []BattenAt
	Bearers  []BearerAt
	Noggins  int         // that hold the bearers
	Timber   unit.Length // battens, bearers, noggins and new joists
	Boards   int         // whole boards bought, the last row counted as a whole one; at most
	Work     unit.Minutes
	Cost     float64 // by Prices; without prices the same as Work
	Unproven bool    // Boards may be fewer
}

// BattenAt is a batten to fix on the side of a joist.
type BattenAt struct {
	Joist  int
	Beyond bool        // on the side away from the datum
	Length unit.Length // over all rows that need it
}

// BearerAt is a piece of joist under a joint that no joist serves.
type BearerAt struct {
	Joint unit.Length
	Rows  int // one in each
}

// Choose returns the ways that make every board end bear, cheapest first.
//
// Rows of whole boards start with a whole board, or with one cut to end on a
// joist; the start that costs least is taken, separately for odd and even rows,
// end joints of neighbouring rows at least LeastStagger apart and every piece
// over LeastPieceBays bays. Boards are counted by the exact cut list of the
// pieces, each row a whole board wide.
//
// Bays wider than MaxCentres are not cured by any of these: CheckCentres names
// them.
//
// Source: geometry on LeastBearing; times and the choice by cost common practice, no source.
// Shape: no option has a board end under LeastBearing; joists that stand on the module need nothing done.
// Domain: as CheckCentres; 3 to 60 joists within the deck; board 600 to 6000 by 300 to 1300; depth 300 to 20000; batten 25 to 100 mm.
// Errors: DomainError only. No option at all is an empty list.
func Choose(in Existing) ([]Option, error) {
	in, err := in.ready()
	if err != nil {
		return nil, err
	}
	var out []Option
	for _, find := range []func() (Option, bool, error){in.asTheyStand, in.rearrange, in.sister, in.cutBoards, in.ladder} {
		o, ok, err := find()
		if err != nil {
			return nil, err
		}
		if ok {
			out = append(out, o)
		}
	}
	slices.SortStableFunc(out, func(a, b Option) int {
		switch {
		case a.Cost < b.Cost:
			return -1
		case a.Cost > b.Cost:
			return 1
		}
		return 0
	})
	return out, nil
}

func (in Existing) ready() (Existing, error) {
	const op = "setout.existing"
	if in.Batten == 0 {
		in.Batten = usualBatten
	}
	if in.Work == (Work{}) {
		in.Work = usualWork
	}
	s := Standing{Centres: in.Centres, Joist: in.Joist, JointGap: in.JointGap, MaxCentres: in.MaxCentres}
	if err := s.check(); err != nil {
		return in, err
	}
	last := in.Centres[len(in.Centres)-1]
	for _, c := range []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"measured_mm", float64(len(in.Centres)), 3, 60, "joists"},
		{"length_mm", float64(in.Length), max(500, float64(last)), 20000, "mm, the last joist within it"},
		{"depth_mm", float64(in.Depth), 300, 20000, "mm"},
		{"board_length_mm", float64(in.BoardLength), 600, 6000, "mm"},
		{"board_width_mm", float64(in.BoardWidth), 300, 1300, "mm"},
		{"batten_mm", float64(in.Batten), 25, 100, "mm"},
		{"price_board", in.Prices.Board, 0, 1e6, ""},
		{"price_timber_m", in.Prices.TimberMetre, 0, 1e6, ""},
		{"price_hour", in.Prices.Hour, 0, 1e6, ""},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.unit); err != nil {
			return in, err
		}
	}
	for _, m := range []unit.Minutes{in.Work.Move, in.Work.Joist, in.Work.Batten, in.Work.Noggin, in.Work.Board} {
		if err := calc.Outside(op, "work_min", float64(m), 0, 10000, "min"); err != nil {
			return in, err
		}
	}
	return in, nil
}

// rowWidths returns how wide the odd and the even rows are together.
func (in Existing) rowWidths() (width [2]unit.Length, rows [2]int) {
	left := in.Depth
	for k := 0; left > 0; k++ {
		width[k%2] += min(left, in.BoardWidth)
		rows[k%2]++
		left -= in.BoardWidth
	}
	return width, rows
}

// priced fills in work and cost.
func (in Existing) priced(o Option) Option {
	battens, small := unit.Length(0), o.Noggins
	for _, b := range o.Battens {
		battens += b.Length
	}
	for _, b := range o.Bearers {
		small += b.Rows
	}
	o.Work = unit.Minutes(float64(o.Moves)*float64(in.Work.Move) + float64(o.Joists)*float64(in.Work.Joist) +
		battens.In(unit.Metre)*float64(in.Work.Batten) + float64(small)*float64(in.Work.Noggin) +
		float64(o.Boards)*float64(in.Work.Board))
	o.Cost = float64(o.Work)
	if in.Prices != (Prices{}) {
		o.Cost = in.Prices.Board*float64(o.Boards) + in.Prices.TimberMetre*o.Timber.In(unit.Metre) + in.Prices.Hour*o.Work.In(unit.Hour)
	}
	return o
}

package setout

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ID names the setting-out rule and its version.
const ID = "setout.joists/1"

// Input is what joists are set out from. All lengths are as measured on the
// timber and boards in hand.
type Input struct {
	Length      unit.Length // the deck across the joists, outer face to outer face
	BoardLength unit.Length
	JointGap    unit.Length // between two board ends
	Joist       unit.Length // thickness of the joist, seen from above
	MaxCentres  unit.Length // the true limit: 410 for what the trade calls 400
}

// Plan is the joists as they are to be marked.
type Plan struct {
	Centres      unit.Length   // the module, exact
	BaysPerBoard int           // bays a full board spans
	Marks        []unit.Length // centre line of each joist from the datum, exact, rising
	JointLines   []unit.Length // centre of each joint between full boards laid from the datum; a joist stands under each
	StaggerLines []unit.Length // the same for the rows that start with the staggered piece
	JointBearing unit.Length   // least bearing of a board end at these joints
	Tolerance    unit.Length   // a joist under a joint may stand this far off, either side; negative: joist too thin
	LastBay      unit.Length   // between the last two centre lines
	Doubled      bool          // the last two joists stand side by side: the module ran into the end joist
	Stagger      Stagger
}

// Joists returns the joists of a deck so that full boards laid from the datum
// always end on a joist.
//
//	M = L_b + g    n = ⌈M/s_max⌉    s = M/n
//	joists at t/2, k·s − g/2 (k = 1, 2, …), L − t/2    joints at j·M − g/2
//
// The first and the last joist stand inside the ends of the deck. Where the
// last mark of the module would run into the end joist it is left out if the
// bay stays within s_max, otherwise that joist is set hard against the end
// joist.
//
// Source: common practice, no source; support under every board end and boards
// of two spacings at least: LABC Warranty, timber decks.
// Units: mm throughout.
// Shape: marks rise, no bay exceeds s_max; s ≤ s_max < s·n/(n−1).
// Domain: L 500 to 20000; L_b 600 to 6000; g 0 to 20; t 25 to 150; s_max from 2t to 1200.
// Ignores: whether the joist carries the load at these centres.
// Errors: DomainError only.
func Joists(in Input) (Plan, error) {
	if err := in.check(); err != nil {
		return Plan{}, err
	}
	module := float64(in.BoardLength + in.JointGap)
	n := int(math.Ceil(module / float64(in.MaxCentres)))
	p := Plan{
		Centres:      unit.Length(module / float64(n)),
		BaysPerBoard: n,
		JointBearing: Bearing(0, in.Joist, in.JointGap).Least(),
		Tolerance:    Tolerance(in.Joist, in.JointGap),
		Stagger:      StaggerFor(n, unit.Length(module/float64(n))),
	}
	end := in.Length - in.Joist/2
	p.Marks = append(p.Marks, in.Joist/2)
	for k := 1; ; k++ {
		// One product and one division a mark: no step is added to another.
		mark := unit.Length(float64(k)*module/float64(n)) - in.JointGap/2
		if mark >= end {
			break
		}
		if end-mark < in.Joist {
			if end-p.Marks[len(p.Marks)-1] <= in.MaxCentres {
				break
			}
			mark, p.Doubled = end-in.Joist, true
		}
		p.Marks = append(p.Marks, mark)
		switch k % n {
		case 0:
			p.JointLines = append(p.JointLines, unit.Length(float64(k/n)*module)-in.JointGap/2)
		case p.Stagger.Bays: // never 0 without a stagger: that is the case above
			p.StaggerLines = append(p.StaggerLines, unit.Length(float64(k)*module/float64(n))-in.JointGap/2)
		}
		if p.Doubled {
			break
		}
	}
	p.LastBay = end - p.Marks[len(p.Marks)-1]
	p.Marks = append(p.Marks, end)
	return p, nil
}

func (in Input) check() error {
	const op = "setout.joists"
	for _, c := range []struct {
		field    string
		v        unit.Length
		min, max unit.Length
	}{
		{"length_mm", in.Length, 500, 20000},
		{"board_length_mm", in.BoardLength, 600, 6000},
		{"joint_gap_mm", in.JointGap, 0, 20},
		{"joist_mm", in.Joist, 25, 150},
		{"max_centres_mm", in.MaxCentres, 2 * in.Joist, 1200},
	} {
		if err := calc.Outside(op, c.field, float64(c.v), float64(c.min), float64(c.max), "mm"); err != nil {
			return err
		}
	}
	return nil
}

// Whole returns a mark as it is written on the timber: whole millimetres, a
// half rounded up. It is the one rounding a mark gets.
func Whole(mark unit.Length) int { return int(math.Floor(float64(mark) + 0.5)) }

package timber

import (
	"cmp"
	"math"
	"slices"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ChooseID names the choice of joists and its version in the record.
const ChooseID = "timber.choose/1"

const chooseOp = "timber.choose"

// Wish is what the joists must do and what can be bought.
type Wish struct {
	Joist    Joist // loads, method and everything but Section, Grade and Centres
	Clear    unit.Length
	Sections []Section     // as stocked
	Grades   []string      // as stocked, cheapest first
	Board    unit.Length   // board length as measured; 0: no boards to suit
	Gap      unit.Length   // between board ends
	Limits   []unit.Length // largest centres of each class, e.g. 410 and 601
}

// Option is one section, grade and spacing with its verdict.
type Option struct {
	Section     Section
	Grade       string
	Centres     unit.Length
	Bays        int     // joist spaces in one board, 0 without boards
	Timber      float64 // mm³ of joist on a mm² of roof, which is mm
	MaxClear    unit.Length
	Utilisation float64
	GovernedBy  string
	Status      calc.Status
}

// Choice is the table of options, lightest first.
type Choice struct {
	Options []Option
	Best    int      // index of the lightest one that is within; else of the lightest close one; -1: none passes
	Changes []Change // what one change would do to the best
}

// Change is one thing altered from the best option.
type Change struct {
	What   string // depth, centres, grade or width
	Option int    // index into Options
}

// Choose judges every stocked section and grade at every spacing that suits
// the boards and picks the one that takes least timber.
//
//	module M = board + gap;  n = ceil(M/limit);  centres s = M/n
//
// so that every board end lands on a joist. Sections deeper than half the span are
// passed over. Equal timber: the earlier grade,
// then the shallower joist.
//
// Source: module rule common practice, no source; verdicts from Check.
// Shape: adding a section never makes the best heavier.
// Domain: as Check; board 0 or 300 to 6000 mm, gap 0 to 20 mm, at least one
// section, grade and limit, at most 5000 options.
// Errors: DomainError only.
func Choose(w Wish) (Choice, error) {
	if err := w.domain(); err != nil {
		return Choice{}, err
	}
	var c Choice
	for _, limit := range w.Limits {
		centres, bays := w.centres(limit)
		for _, s := range w.Sections {
			for _, g := range w.Grades {
				j := w.Joist
				j.Section, j.Grade, j.Centres = s, g, centres
				if float64(w.Clear) < j.shortest() {
					continue // too deep for this span to bend as a beam
				}
				r, err := Check(j, w.Clear)
				if err != nil {
					return Choice{}, err
				}
				o := Option{Section: s, Grade: g, Centres: centres, Bays: bays,
					Timber: s.area() / float64(centres), MaxClear: r.MaxClear,
					Utilisation: r.Utilisation, GovernedBy: r.GovernedBy, Status: r.Status}
				c.Options = append(c.Options, o)
			}
		}
	}
	slices.SortStableFunc(c.Options, func(a, b Option) int {
		return cmp.Or(cmp.Compare(a.Timber, b.Timber),
			cmp.Compare(slices.Index(w.Grades, a.Grade), slices.Index(w.Grades, b.Grade)),
			cmp.Compare(a.Section.H, b.Section.H))
	})
	if len(c.Options) == 0 {
		return Choice{}, &calc.DomainError{Op: chooseOp, Field: "clear_span_mm", Got: float64(w.Clear), Wanted: "a span of at least twice the depth of one of the sections"}
	}
	c.Best = lightest(c.Options)
	c.Changes = changes(c.Options, c.Best)
	return c, nil
}

// centres returns the spacing that brings board ends on to joists.
func (w Wish) centres(limit unit.Length) (unit.Length, int) {
	if w.Board == 0 {
		return limit, 0
	}
	module := float64(w.Board + w.Gap)
	n := math.Ceil(module / float64(limit))
	return unit.Length(module / n), int(n)
}

func lightest(list []Option) int {
	for _, want := range []calc.Status{calc.Within, calc.Close} {
		for i, o := range list {
			if o.Status == want {
				return i
			}
		}
	}
	return -1
}

// changes lists the options that differ from the best in one thing only, the
// nearest on either side first for a dimension.
func changes(list []Option, best int) []Change {
	if best < 0 {
		return nil
	}
	b := list[best]
	var out []Change
	one := func(what string, size func(Option) float64, same func(Option) bool) {
		below, above := -1, -1
		for i, o := range list {
			if !same(o) {
				continue
			}
			switch v := size(o); {
			case v < size(b) && (below < 0 || v > size(list[below])):
				below = i
			case v > size(b) && (above < 0 || v < size(list[above])):
				above = i
			}
		}
		for _, i := range []int{below, above} {
			if i >= 0 {
				out = append(out, Change{what, i})
			}
		}
	}
	one("depth", func(o Option) float64 { return float64(o.Section.H) }, func(o Option) bool {
		return o.Section.B == b.Section.B && o.Grade == b.Grade && o.Centres == b.Centres
	})
	one("centres", func(o Option) float64 { return float64(o.Centres) }, func(o Option) bool {
		return o.Section == b.Section && o.Grade == b.Grade
	})
	one("width", func(o Option) float64 { return float64(o.Section.B) }, func(o Option) bool {
		return o.Section.H == b.Section.H && o.Grade == b.Grade && o.Centres == b.Centres
	})
	for i, o := range list {
		if o.Section == b.Section && o.Centres == b.Centres && o.Grade != b.Grade {
			out = append(out, Change{"grade", i})
		}
	}
	return out
}

func (w Wish) domain() error {
	if w.Board != 0 {
		if err := calc.Outside(chooseOp, "board_length_mm", float64(w.Board), 300, 6000, "mm"); err != nil {
			return err
		}
	}
	if err := calc.Outside(chooseOp, "joint_gap_mm", float64(w.Gap), 0, 20, "mm"); err != nil {
		return err
	}
	for _, l := range w.Limits {
		if err := calc.Outside(chooseOp, "max_centres_mm", float64(l), 100, 1200, "mm"); err != nil {
			return err
		}
	}
	n := len(w.Sections) * len(w.Grades) * len(w.Limits)
	return calc.Outside(chooseOp, "options", float64(n), 1, 5000, "sections × grades × centres")
}

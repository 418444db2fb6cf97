package plan

import (
	"fmt"
	"math"
	"sync"
	"sync/atomic"

	"chargehand/calc"
	"chargehand/calc/timber"
	"chargehand/calc/unit"
)

// Choice is the joist recommended and what a change would do: rows that can be
// taken as they stand.
type Choice struct {
	Clear unit.Length
	Fits  bool // Rows[0] carries the span at the grade and centres told, with 5 % in hand
	Rows  []Option
}

// Option is one joist that could be bought.
type Option struct {
	What        string // what it is: the lightest as told, or what it changes: deeper, centres, grade, both or shallower
	B, H        unit.Length
	Grade       string
	Class       int // of the centres: 400 or 600
	Centres     unit.Length
	Max         unit.Length
	Utilisation float64
	Status      calc.Status
}

// stocked are the joist sections of a timber yard.
//
// Source: EN 336 target sizes, 47 mm thick; 63 and 75 mm for long spans.
var stocked = []timber.Section{
	{B: 47, H: 97}, {B: 47, H: 120}, {B: 47, H: 145}, {B: 47, H: 170}, {B: 47, H: 195}, {B: 47, H: 220}, {B: 63, H: 170}, {B: 63, H: 195}, {B: 63, H: 220}, {B: 75, H: 195}, {B: 75, H: 220},
}

// grades are the two in a timber yard, the cheaper first.
var grades = []string{"C16", "C24"}

// Centres of the two classes: what the trade calls 400 and 600 allows the board
// module a little over.
const (
	centres400 = 410 * unit.Millimetre
	centres600 = 601 * unit.Millimetre
)

// ClassLimit returns the largest centres of a class, 400 or 600.
func ClassLimit(class int) unit.Length {
	if class == 600 {
		return centres600
	}
	return centres400
}

func classOf(limit unit.Length) int {
	if limit > centres400 {
		return 600
	}
	return 400
}

func otherClass(limit unit.Length) int { return 1000 - classOf(limit) }

// wish is a table of joists that may be asked for: it takes longer to work out
// than the rest of the plan together, and is looked at in a few places only.
type wish struct {
	wish    timber.Wish
	grade   string
	centres unit.Length // as set out

	before *listed // of an earlier plan
	once   sync.Once
	done   atomic.Pointer[listed]
	choice *Choice
}

// listed is a wish with every joist's verdict.
type listed struct {
	key     string
	options []timber.Option
}

// wish notes what joists are wanted. The earlier plan's verdicts are kept, the
// earlier plan itself is not.
func (r *reckoner) wish(j timber.Joist) {
	j.Grade = "" // a wish brings its own
	w := &wish{grade: r.grade(), centres: r.p.Joists.Centres, wish: timber.Wish{Joist: j, Clear: *r.in.ClearSpan, Sections: stocked, Grades: grades,
		Board: *r.in.BoardLength, Gap: jointGap, Limits: []unit.Length{*r.in.MaxCentres, ClassLimit(otherClass(*r.in.MaxCentres))}}}
	if r.before != nil && r.before.wish != nil {
		if w.before = r.before.wish.done.Load(); w.before == nil {
			w.before = r.before.wish.before
		}
	}
	r.p.wish = w
	r.used("choice", timber.ChooseID, timber.ID)
}

// Choice works the table out, once; nil while the loads or the span are not
// known, or where no joist of a yard is within the formulas.
func (p *Plan) Choice() *Choice {
	if p.wish == nil {
		return nil
	}
	p.wish.once.Do(func() {
		if list, err := p.wish.list(); err == nil {
			p.wish.choice = p.wish.choose(list)
		}
	})
	return p.wish.choice
}

// list judges every stocked joist, unless an earlier plan has.
func (w *wish) list() ([]timber.Option, error) {
	key := fmt.Sprintf("%+v", w.wish)
	done := w.before
	if done == nil || done.key != key {
		c, err := timber.Choose(w.wish)
		if err != nil {
			return nil, err
		}
		done = &listed{key, c.Options}
	}
	w.done.Store(done)
	return done.options, nil
}

// choose finds the lightest stocked joist of the grade and centres told that
// carries the span with 5 % in hand, and what one change from it would do.
func (w *wish) choose(list []timber.Option) *Choice {
	other := "C24"
	if w.grade == "C24" {
		other = "C16"
	}
	c := Choice{Clear: w.wish.Clear}
	take := func(what string, o timber.Option, ok bool) {
		if ok {
			c.Rows = append(c.Rows, w.option(what, o))
		}
	}
	base, ok := w.lightest(list, w.grade, true)
	c.Fits = ok
	take("lightest", base, ok)
	if ok {
		o, found := next(list, base, +1)
		take("deeper", o, found)
	}
	o, found := w.lightest(list, w.grade, false)
	take("centres", o, found)
	o, found = w.lightest(list, other, true)
	take("grade", o, found)
	if !ok {
		o, found = w.lightest(list, other, false)
		take("both", o, found)
	} else if o, found = next(list, base, -1); found {
		take("shallower", o, true)
	}
	return &c
}

func (w *wish) option(what string, o timber.Option) Option {
	class := classOf(w.wish.Limits[0])
	if !w.toldCentres(o) {
		class = otherClass(w.wish.Limits[0])
	}
	return Option{What: what, B: o.Section.B, H: o.Section.H, Grade: o.Grade, Class: class, Centres: o.Centres,
		Max: o.MaxClear, Utilisation: o.Utilisation, Status: o.Status}
}

// toldCentres says whether an option has the centres that the class told comes
// to on these boards. On some boards both classes come to the same.
func (w *wish) toldCentres(o timber.Option) bool {
	return math.Abs(float64(o.Centres-w.centres)) < 1e-6
}

// lightest returns the first option of a grade, at the centres told or at the
// others, that is within; the options come lightest first.
func (w *wish) lightest(list []timber.Option, grade string, told bool) (timber.Option, bool) {
	for _, o := range list {
		if o.Grade == grade && w.toldCentres(o) == told && o.Status == calc.Within {
			return o, true
		}
	}
	return timber.Option{}, false
}

// next returns the option that differs from o only in being one depth deeper or
// shallower.
func next(list []timber.Option, o timber.Option, way float64) (timber.Option, bool) {
	var best timber.Option
	found := false
	for _, x := range list {
		step := way * float64(x.Section.H-o.Section.H)
		if x.Grade != o.Grade || x.Centres != o.Centres || x.Section.B != o.Section.B || step <= 0 {
			continue
		}
		if !found || step < way*float64(best.Section.H-o.Section.H) {
			best, found = x, true
		}
	}
	return best, found
}

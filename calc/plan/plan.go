package plan

import (
	"errors"
	"math"
	"slices"

	"chargehand/calc"
	"chargehand/calc/fixings"
	"chargehand/calc/geom"
	"chargehand/calc/glue"
	"chargehand/calc/sheet"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// Plan is everything worked out. A nil part is not known yet, or was refused
// by its formula; Faults tells which.
type Plan struct {
	Outline    *geom.Outline
	Length     *unit.Length // along the gutter, over all
	Depth      *unit.Length // up the fall, over all
	Area       *unit.Area
	Walk       *WalkError   // why a walk does not come round
	Misclosure *unit.Length // how far six readings, or a walk, miss
	Corners    []sheet.CornerAt
	Openings   []geom.Opening // pipes, then rooflights
	Tapers     []geom.EdgeTaper
	Diagonal   *unit.Length // of the roof if it is square
	Skew       *unit.Length // over the depth, from the two diagonals
	Fall       *Fall
	Snow       *Snow
	Wind       *Wind // only where a wind pressure or speed was told
	Span       *Span
	Lacks      []Need // what keeps the joists from being judged
	Plates     *Plates
	Joists     *Joists
	Standing   *Standing
	Levels     *Levels
	Ends       *fixings.EndsOut

	Strutting *Strutting
	Restraint *Restraint
	Deck      *Deck
	Drip      *Drip
	Front     *Front
	Chases    []Chase // of each wall
	Upstands  *Upstands
	Coping    *Coping
	Sheet     *Sheet

	Field       *unit.Area // to be bonded with deck adhesive
	ContactArea *unit.Area // to be bonded with contact adhesive
	Window      *Window
	Batch       *Batch
	Go          *Go
	Left        *unit.Area // of the field, still to be bonded
	Contact     *Contact

	Trims   *Trims
	Gutter  *Gutter
	Bar     *Bar
	Lead    *Lead
	Patches int

	Lengths map[takeoff.Key]Lengths // timber and trim, as cut lists
	Bill    *takeoff.Bill
	Orders  []Order // the bill with what came, in the order one buys

	Faults   map[string]error
	formulas map[string][]string

	// What took long, so that the next plan need not repeat it.
	solved *solvedDeck
	chosen chosenWay
	cuts   map[string]solvedCut
	judged map[string]judged
	wish   *wish
}

// Formulas lists the formula ids, with versions, behind some parts.
func (p *Plan) Formulas(parts ...string) []string {
	var out []string
	for _, part := range parts {
		out = append(out, p.formulas[part]...)
	}
	return out
}

// Reckon works the plan out. It never fails: what can't be worked out is nil.
// before is the plan as it was, or nil: a part whose own inputs have not changed
// is taken from it. The result is the same with and without.
func Reckon(in Inputs, before *Plan) *Plan {
	p := blank()
	r := reckoner{in: in, p: p, before: before}
	r.roof()
	r.snow()
	r.joists()
	r.standing()
	r.levels()
	r.wind()
	r.span()
	r.uplift()
	r.plates()
	r.ends()
	r.strutting()
	r.chases()
	r.restraint()
	r.deck()
	r.drip()
	r.upstands()
	r.coping()
	r.sheet()
	r.glue()
	r.edges()
	r.lead()
	r.lengths()
	r.bill()
	return p
}

func blank() *Plan {
	return &Plan{Faults: map[string]error{}, formulas: map[string][]string{}, judged: map[string]judged{}, cuts: map[string]solvedCut{}}
}

// reckoner is a plan being worked out.
type reckoner struct {
	in     Inputs
	p      *Plan
	before *Plan
	own    unit.AreaLoad // weight of the joists; 0 until they are known

	wetIn glue.WetInput // the film the window was worked out for
	rest  unit.Minutes  // how long the field will still take
}

// used notes which formulas made a part.
func (r *reckoner) used(part string, ids ...string) { r.p.formulas[part] = ids }

// failed keeps a formula's refusal and says whether there was one.
func (r *reckoner) failed(part string, err error) bool {
	if err == nil {
		return false
	}
	var d *calc.DomainError
	if !errors.As(err, &d) {
		d = &calc.DomainError{Op: part, Field: part, Got: err.Error(), Wanted: "inputs that fit together"}
	}
	r.p.Faults[part] = d
	return true
}

// runs are the lengths of the edges of the given kinds, clockwise from the
// gutter.
func (r *reckoner) runs(kinds ...geom.Kind) []unit.Length {
	if r.p.Outline == nil {
		return nil
	}
	out := []unit.Length{}
	for _, e := range r.p.Outline.Edges {
		if slices.Contains(kinds, e.Kind) {
			out = append(out, e.Length)
		}
	}
	return out
}

func (r *reckoner) has(kind geom.Kind) bool { return len(r.runs(kind)) > 0 }

// level says whether an edge runs along the gutter rather than up the fall.
func (r *reckoner) level(i int) bool {
	from, to := r.p.Outline.Side(i)
	return math.Abs(float64(to.X-from.X)) >= math.Abs(float64(to.Y-from.Y))
}

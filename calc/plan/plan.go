package plan

import (
	"errors"

	"chargehand/calc"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// Plan is everything worked out. A nil part is not known yet, or was refused
// by its formula; Faults tells which.
type Plan struct {
	Area     *unit.Area
	Diagonal *unit.Length // of the roof if it is square
	Skew     *unit.Length // over the depth, from the two diagonals
	Fall     *Fall
	Snow     *Snow
	Span     *Span
	Choice   *Choice
	Plates   *Plates
	Joists   *Joists

	Strutting *Strutting
	Deck      *Deck
	Drip      *Drip
	Upstands  *Upstands
	Sheet     *Sheet

	Field       *unit.Area // to be bonded with deck adhesive
	ContactArea *unit.Area // to be bonded with contact adhesive
	Window      *Window
	Batch       *Batch
	Go          *Go
	Contact     *Contact
	ContactRuns int

	Trims   *Trims
	Gutter  *Gutter
	Bar     *Bar
	Lead    *Lead
	Patches int

	Bill *takeoff.Bill

	Faults   map[string]error
	formulas map[string][]string

	solved *solvedDeck // the deck search, so that the next plan need not repeat it
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
	p := &Plan{Faults: map[string]error{}, formulas: map[string][]string{}}
	r := reckoner{in: in, p: p, before: before}
	r.roof()
	r.snow()
	r.joists()
	r.span()
	r.plates()
	r.strutting()
	r.deck()
	r.drip()
	r.upstands()
	r.sheet()
	r.glue()
	r.edges()
	r.lead()
	r.bill()
	return p
}

// reckoner is a plan being worked out.
type reckoner struct {
	in     Inputs
	p      *Plan
	before *Plan
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
// gutter: edges 0 and 2 run along the length, 1 and 3 up the depth.
func (r *reckoner) runs(kinds ...string) []unit.Length {
	if r.in.Length == nil || r.in.Depth == nil {
		return nil
	}
	out := []unit.Length{}
	for i, k := range r.in.Edges {
		for _, want := range kinds {
			if k == want {
				out = append(out, r.side(i))
			}
		}
	}
	return out
}

func (r *reckoner) side(i int) unit.Length {
	if i%2 == 0 {
		return *r.in.Length
	}
	return *r.in.Depth
}

func (r *reckoner) has(kind string) bool {
	for _, k := range r.in.Edges {
		if k == kind {
			return true
		}
	}
	return false
}

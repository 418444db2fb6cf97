package timber

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ID names this family of formulas and its version in the record.
const ID = "timber.span/1"

const spanOp = "timber.span"

// Method is the set of rules a joist is judged by.
type Method string

const (
	EC5    Method = "ec5"
	BS5268 Method = "bs5268"
	NDS    Method = "nds"
)

// Ceiling says what hangs below; it sets the deflection a joist may show.
type Ceiling string

const (
	CeilingUnknown Ceiling = ""        // judged as plastered
	CeilingPlaster Ceiling = "plaster" // plaster or plasterboard
	CeilingNone    Ceiling = "none"    // nothing that cracks
)

// Drift is snow banked against a taller wall at the joist's first end, where
// x = 0: Peak at the wall, falling in a straight line to Far at Length, Far
// beyond it.
type Drift struct {
	Peak, Far  unit.AreaLoad
	Length     unit.Length
	Accidental bool // exceptional drift (EN 1991-1-3 Annex B): no partial factor
}

// Extra is a lasting load on one joist, spread evenly From one place To
// another along it, or at a point where the two are equal. Places are measured
// from the centre of the first bearing.
type Extra struct {
	From, To unit.Length
	Force    unit.Force // all of it
}

// Joist is one of a row of joists and what lies on it. Loads are
// characteristic values on the plan. The zero value of a field is its
// documented default.
type Joist struct {
	Method  Method // EC5 when empty
	Section Section
	Grade   string  // C16 when empty, for EC5 and BS5268; required for NDS ("DF-L #2")
	Edition Edition // EN 338 edition for EC5, 2016 when empty
	Centres unit.Length

	Dead      unit.AreaLoad // build-up without the joist itself (NDS: with it)
	Imposed   unit.AreaLoad // zero: EC5 0.6 kN/m², BS5268 0.75 kN/m² (access for maintenance only); required for NDS
	Point     unit.Force    // man load instead of Imposed; zero: 0.9 kN for EC5 and BS5268, none for NDS
	NoImposed bool          // there is no imposed load, rather than the default
	NoPoint   bool          // there is no man load, rather than the default
	Snow      unit.AreaLoad // not together with Imposed or Point
	Drifts    []Drift       // each on its own, not together with Snow
	Extras    []Extra       // what else hangs or stands on this joist for good
	WindUp    unit.AreaLoad // EC5: characteristic suction and pressure from below, upwards; bends the joist the other way

	Bearing         unit.Length // length of bearing at each end; zero: 50 mm
	Tail            unit.Length // overhang beyond the centre of the second bearing
	Unbraced        unit.Length // spacing of side restraint of the top edge; zero: held by the deck
	Ceiling         Ceiling
	DeflectionLimit float64 // n of L/n for the imposed load alone; zero: see each method
	Alone           bool    // no load sharing with neighbours

	ServiceClass   int      // EC5: 1, 2 or 3; zero: 2 (a cold or ventilated roof)
	Psi2           float64  // EC5: lasting share of Imposed and Point; 0 for a roof
	Duration       Duration // EC5: load duration of Imposed and Point; empty: short-term (UK annex)
	DurationFactor float64  // NDS: C_D; zero: 1.0
	Wet            bool     // NDS: wet service
	Incised        bool     // NDS: incised for treatment
}

// Condition is one thing a joist must satisfy, at its worst case.
type Condition struct {
	Name          string // one of the constants below
	Case          string // the load case that makes it worst
	Demand, Limit float64
	Unit          string // of Demand and Limit
}

// Names of the conditions.
const (
	Bending   = "bending"
	Stability = "stability" // bending with sideways buckling
	Shear     = "shear"
	Bearing   = "bearing"
	Instant   = "deflection_instant" // variable load alone, at once
	Final     = "deflection_final"   // all loads, with creep where the method has it
	TailEnd   = "deflection_tail"    // the tail's end, final
)

// Utilisation returns demand over limit.
func (c Condition) Utilisation() float64 { return c.Demand / c.Limit }

// Result is a joist judged at one clear span.
type Result struct {
	Conditions  []Condition // those the method has, in a fixed order
	GovernedBy  string      // the name of the condition with the largest utilisation
	Utilisation float64
	Status      calc.Status
	MaxClear    unit.Length   // longest clear span, see MaxClearSpan
	Span        unit.Length   // design span, as the method measures it
	OwnWeight   unit.LineLoad // the joist's own weight as added (0 for NDS)
	Hold        unit.Force    // EC5: largest design pull upwards at a bearing, 0 if none lifts
	LastingSag  unit.Length   // EC5: sag that stays: permanent load with creep
	LastingFall unit.Fall     // EC5: the slope that sag takes from a joist's fall at its low end
}

// rules is a method bound to one joist.
type rules interface {
	designSpan(clear float64) float64 // mm
	ownWeight() float64               // N/mm
	conditions(clear float64) []Condition
	hold(clear float64) float64                         // N
	lasting(clear float64) (sag float64, slope float64) // mm, 1
}

// longestSpan bounds the search; no solid joist of a small roof comes near it.
const longestSpan = 20000 // mm

// bind returns the rules of the joist's method.
func (j Joist) bind() (rules, error) {
	j, err := j.normal()
	if err != nil {
		return nil, err
	}
	switch j.Method {
	case BS5268:
		return newBS5268(j)
	case NDS:
		return newNDS(j)
	}
	return newEC5(j)
}

// shortest returns the least clear span the formulas hold for.
//
// Below twice the depth a joist no longer bends as a beam (and EN 1995-1-1
// 6.1.5 changes its bearing factor); below four tails the tail, not the span,
// rules the roof and wants a design of its own; an extra load must lie on it.
func (j Joist) shortest() float64 {
	least := math.Max(2*float64(j.Section.H), 4*float64(j.Tail))
	for _, e := range j.Extras {
		least = math.Max(least, float64(e.To))
	}
	return least
}

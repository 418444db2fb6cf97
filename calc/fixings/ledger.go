package fixings

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// LedgerSpacing returns the distance between fasteners of known strength along
// a ledger that carries the ends of joists.
//
//	s = F / (w · L/2)
//
// Source: statics: half the span is carried at each end. It reproduces the lag
// rows of two published tables with one strength a fastener: Wisconsin
// Administrative Code deck appendix Table 6 at 50 lb/ft², and municipal
// Construction Tip Sheet 05 at 70 lb/ft² (load levels inferred).
// Units: in and out by type; internal N and mm.
// Shape: s halves when the load or the span doubles.
// Domain: 0 < F ≤ 100 kN, 0.05 ≤ w ≤ 20 kN/m², 300 ≤ L ≤ 12 000 mm. F and w
// must be of one kind: design with design, recommended with characteristic.
// Ignores: pull, uneven sharing along a continuous ledger (up to 1.25 on one
// fastener by the theory of elasticity), the fastener's own distances.
// Errors: DomainError only.
func LedgerSpacing(fastener unit.Force, load unit.AreaLoad, span unit.Length) (unit.Length, error) {
	const op = "fixings.ledger"
	f, w, l := float64(fastener), load.In(unit.KilonewtonPerM2), float64(span) // N, kN/m², mm
	if err := calc.Outside(op, "fastener_kn", f/1000, 1e-3, 100, "kN"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "load_kn_m2", w, 0.05, 20, "kN/m²"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "joist_span_mm", l, 300, 12000, "mm"); err != nil {
		return 0, err
	}
	return unit.Length(f / (w * 1e-3 * l / 2)), nil
}

// Kind says what sort of strength a packet prints, and so which loads it is
// compared with.
type Kind string

const (
	Design      Kind = "design"      // compared with loads times their factors
	Recommended Kind = "recommended" // already divided by the maker: compared with loads as they are
)

// Partial factors of loads.
//
// Source: EN 1990 Table A1.2(B), UK values 1.35 and 1.5 (quoted); 0.9 for
// weight that helps, Table A1.2(A), from memory, also quoted as Dutch practice.
const (
	gammaG = 1.35
	gammaQ = 1.5
	helps  = 0.9
)

// LedgerIn is a ledger anchored to a wall.
type LedgerIn struct {
	Run       unit.Length
	Span      unit.Length   // of the joists it carries
	Dead      unit.AreaLoad // joists included
	Imposed   unit.AreaLoad // imposed or snow, the greater
	Point     unit.Force    // a man's weight at one anchor, instead of Imposed; 0 for none
	Uplift    unit.Force    // wind on the ledger's half of the roof, characteristic, upwards; 0 without a calculation
	Thickness unit.Length   // of the ledger
	Below     unit.Length   // from the anchors down to the ledger's lower edge
	Shear     unit.Force    // resistance of one anchor, from the packet
	Pull      unit.Force    // resistance of one anchor, from the packet; 0 = not printed
	Kind      Kind
	Rule      Rule        // end distance and the greatest spacing whatever the strength
	Least     unit.Length // closest spacing the packet allows
}

// LedgerOut is the anchors of a ledger and what the hardest worked carries.
type LedgerOut struct {
	Row         Row
	Shear       unit.Force // on one anchor
	Pull        unit.Force // on one anchor, from the load standing off the wall
	Utilisation float64    // of shear and pull together; of shear alone when Pull is not printed
	PullChecked bool
	Governs     string // "uniform", "point" or "uplift"
}

// LedgerAnchors returns the anchors of a ledger from the strength printed on
// the packet.
//
//	V = (γG·g + γQ·q)·(L/2)·s   or   γG·g·(L/2)·s + γQ·Q   or   |0.9·g·(L/2)·s - 1.5·W·s/run|
//	N = V·t/z,  z = 2a/3        V/VR + N/NR ≤ 1
//
// The load enters at the front of the ledger (t from the wall) and turns it
// about the wall; the wall answers below the anchor with a triangle of pressure
// over the depth a. With recommended strengths every γ is 1.
//
// Source: statics for loads and pull; the straight-line rule for shear and
// pull together is the cautious one (TMS 402 before 2016; later editions and
// EN 1992-4 allow a fuller curve). Factors: EN 1990.
// Units: in and out by type; internal N and mm.
// Shape: never fewer anchors for more load, more span or less resistance.
// Domain: as LedgerSpacing; run as [Rule.Row]; 0 < shear ≤ 100 kN.
// Ignores: uneven sharing along the ledger; hangers; the wall itself.
// Errors: DomainError only. A packet too weak is not an error: the anchors then
// stand at Least and the utilisation is above 1. It is above 1 too where the
// spacing wanted is less than twice the end distance, because the end anchor
// still answers for the whole overhang.
func LedgerAnchors(in LedgerIn) (LedgerOut, error) {
	if err := in.check(); err != nil {
		return LedgerOut{}, err
	}
	s := in.longest()
	rule := in.Rule
	rule.Most = unit.Length(math.Max(math.Min(s, float64(rule.Most)), float64(in.Least)))
	row, err := rule.Row(in.Run)
	if err != nil {
		return LedgerOut{}, err
	}
	// An anchor answers for half the way to each neighbour, an end anchor for
	// the overhang as well.
	reach := math.Max(float64(row.Spacing), float64(row.First)+float64(row.Spacing)/2) // mm
	out := LedgerOut{Row: row, PullChecked: in.Pull > 0}
	for _, c := range in.cases() {
		v := math.Abs(c.line)*reach + c.point // N
		if u := v * in.each(); out.Governs == "" || u > out.Utilisation {
			out.Utilisation, out.Shear, out.Governs = u, unit.Force(v), c.name
			out.Pull = unit.Force(v * in.lever())
		}
	}
	return out, nil
}

// ledgerCase is one combination: a line load and a force at one anchor.
type ledgerCase struct {
	name        string
	line, point float64 // N/mm, N
}

func (in LedgerIn) cases() []ledgerCase {
	g, q, w := gammaG, gammaQ, gammaQ
	less := helps
	if in.Kind == Recommended {
		g, q, w, less = 1, 1, 1, 1
	}
	half := float64(in.Span) / 2               // mm
	dead := float64(in.Dead) * half            // N/mm
	imposed := float64(in.Imposed) * half      // N/mm
	up := float64(in.Uplift) / float64(in.Run) // N/mm
	list := []ledgerCase{{"uniform", g*dead + q*imposed, 0}}
	if in.Point > 0 {
		list = append(list, ledgerCase{"point", g * dead, q * float64(in.Point)})
	}
	if in.Uplift > 0 {
		list = append(list, ledgerCase{"uplift", math.Min(less*dead-w*up, 0), 0})
	}
	return list
}

// lever is the pull on an anchor for each newton of shear.
func (in LedgerIn) lever() float64 { return float64(in.Thickness) / (2.0 / 3 * float64(in.Below)) }

// each is the utilisation of an anchor for each newton of shear.
func (in LedgerIn) each() float64 {
	u := 1 / float64(in.Shear)
	if in.Pull > 0 {
		u += in.lever() / float64(in.Pull)
	}
	return u
}

// longest is the greatest spacing the strength allows, in mm; 0 when the point
// load alone is too much.
func (in LedgerIn) longest() float64 {
	s := math.Inf(1)
	for _, c := range in.cases() {
		room := 1 - c.point*in.each()
		if line := math.Abs(c.line) * in.each(); line > 0 {
			s = math.Min(s, math.Max(room, 0)/line)
		}
	}
	return s
}

func (in LedgerIn) check() error {
	const op = "fixings.ledger"
	for _, c := range []struct {
		field       string
		v, min, max float64
		u           string
	}{
		{"joist_span_mm", float64(in.Span), 300, 12000, "mm"},
		{"dead_kn_m2", in.Dead.In(unit.KilonewtonPerM2), 0.05, 10, "kN/m²"},
		{"imposed_kn_m2", in.Imposed.In(unit.KilonewtonPerM2), 0, 20, "kN/m²"},
		{"point_kn", in.Point.In(unit.Kilonewton), 0, 20, "kN"},
		{"wind_uplift_kn", in.Uplift.In(unit.Kilonewton), 0, 1000, "kN"},
		{"timber_b_mm", float64(in.Thickness), 19, 300, "mm"},
		{"anchor_above_edge_mm", float64(in.Below), 20, 400, "mm"},
		{"shear_resistance_kn", in.Shear.In(unit.Kilonewton), 0.01, 100, "kN"},
		{"pull_resistance_kn", in.Pull.In(unit.Kilonewton), 0, 100, "kN"},
		{"least_spacing_mm", float64(in.Least), 10, 1000, "mm"},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.u); err != nil {
			return err
		}
	}
	if in.Kind != Design && in.Kind != Recommended {
		return &calc.DomainError{Op: op, Field: "resistance_kind", Got: string(in.Kind), Wanted: "design or recommended, as the packet says"}
	}
	return nil
}

package setout

import (
	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// RegionsID names the rule for outlines of several rectangles and its version.
const RegionsID = "setout.regions/1"

// RegionsInput is a right-angled outline and the timber for it.
type RegionsInput struct {
	Outline     geom.Outline
	BoardLength unit.Length
	JointGap    unit.Length
	Joist       unit.Length
	MaxCentres  unit.Length
	Joists      geom.Axis // the way all joists run; "": each rectangle's short way
}

// Region is one rectangle with joists one way.
type Region struct {
	Rect   geom.Rect
	Joists geom.Axis   // the way they run; the rows of boards run across
	Span   unit.Length // of the deck along the joists
	Plan   Plan        // marks from the region's left side for joists up the roof, from its low side for joists along the gutter
}

// Support is what a line between two regions needs under it.
type Support string

const (
	Bearer     Support = "bearer"      // joists of both end there: a wall or a beam
	Doubled    Support = "doubled"     // the joists of one end on the edge joist of the other: that one doubled, hangers, and designed
	EdgeJoists Support = "edge joists" // both run along it: each has its own edge joist, fixed together
)

// Junction is where two regions meet.
type Junction struct {
	A, B     int // regions; for Doubled the joists of A end on B
	From, To geom.Point
	Support  Support
}

// Layout is an outline set out.
type Layout struct {
	Regions   []Region
	Junctions []Junction
	Joists    int
	Longest   unit.Length // greatest span
}

// Regions cuts an L, T or U into rectangles, gives each the way its joists run
// and its marks, and says what the lines between need. Both ways of cutting
// are tried; the one with the least longest span is kept, then with the fewest
// regions, then with the fewest joists.
//
// Source: common practice, no source.
// Shape: the regions' areas sum to the outline's; a rectangle gives one region and no junction.
// Domain: a right-angled outline, no arm narrower than 500 mm; else as Joists.
// Ignores: what the doubled joist or the bearer carries.
// Errors: DomainError only.
func Regions(in RegionsInput) (Layout, error) {
	const op = "setout.regions"
	if in.Joists != "" && in.Joists != geom.UpRoofAxis && in.Joists != geom.AlongGutterAxis {
		return Layout{}, &calc.DomainError{Op: op, Field: "joists", Got: string(in.Joists), Wanted: "up or along"}
	}
	var best Layout
	for _, rows := range []geom.Axis{geom.AlongGutterAxis, geom.UpRoofAxis} {
		rects, err := in.Outline.Rectangles(rows)
		if err != nil {
			return Layout{}, err
		}
		l, err := in.layout(rects)
		if err != nil {
			return Layout{}, err
		}
		if best.Regions == nil || l.better(best) {
			best = l
		}
	}
	best.Junctions = junctions(best.Regions)
	return best, nil
}

func (in RegionsInput) layout(rects []geom.Rect) (Layout, error) {
	var l Layout
	for _, r := range rects {
		if err := calc.Outside("setout.regions", "outline", float64(min(r.Length(), r.Depth())), 500, 20000, "mm across an arm"); err != nil {
			return Layout{}, err
		}
		reg := Region{Rect: r, Joists: in.Joists, Span: r.Depth()}
		if reg.Joists == "" {
			reg.Joists = geom.UpRoofAxis
			if r.Length() < r.Depth() {
				reg.Joists = geom.AlongGutterAxis
			}
		}
		across := r.Length()
		if reg.Joists == geom.AlongGutterAxis {
			across, reg.Span = r.Depth(), r.Length()
		}
		plan, err := Joists(Input{Length: across, BoardLength: in.BoardLength, JointGap: in.JointGap, Joist: in.Joist, MaxCentres: in.MaxCentres})
		if err != nil {
			return Layout{}, err
		}
		reg.Plan = plan
		l.Regions = append(l.Regions, reg)
		l.Joists += len(plan.Marks)
		l.Longest = max(l.Longest, reg.Span)
	}
	return l, nil
}

func (l Layout) better(m Layout) bool {
	if l.Longest != m.Longest {
		return l.Longest < m.Longest
	}
	if len(l.Regions) != len(m.Regions) {
		return len(l.Regions) < len(m.Regions)
	}
	return l.Joists < m.Joists
}

// junctions finds the lines that two regions share.
func junctions(regions []Region) []Junction {
	var out []Junction
	for i, a := range regions {
		for j := i + 1; j < len(regions); j++ {
			b := regions[j]
			from := geom.Point{X: max(a.Rect.Min.X, b.Rect.Min.X), Y: max(a.Rect.Min.Y, b.Rect.Min.Y)}
			to := geom.Point{X: min(a.Rect.Max.X, b.Rect.Max.X), Y: min(a.Rect.Max.Y, b.Rect.Max.Y)}
			level, upright := from.Y == to.Y && from.X < to.X, from.X == to.X && from.Y < to.Y
			if !level && !upright {
				continue
			}
			across := geom.UpRoofAxis // joists this way end on the line
			if upright {
				across = geom.AlongGutterAxis
			}
			n := Junction{A: i, B: j, From: from, To: to, Support: EdgeJoists}
			switch ends, other := a.Joists == across, b.Joists == across; {
			case ends && other:
				n.Support = Bearer
			case ends:
				n.Support = Doubled
			case other:
				n.A, n.B, n.Support = j, i, Doubled
			}
			out = append(out, n)
		}
	}
	return out
}

package sheet

import (
	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// LayID names the rule for strips and seams and its version.
const LayID = "sheet.lay/1"

// Run is the way the strips lie.
type Run string

const (
	Down   Run = "down"   // along the fall: seams run with the water
	Across Run = "across" // along the gutter: the upper strip over the lower
)

// Strip is one length off a roll, placed on the plan.
type Strip struct {
	Place  geom.Rect   // what it covers, laps included
	Lies   Run         // the way its length lies
	Width  unit.Length // of the roll it comes from
	Length unit.Length // to order, up to the supplier's step
}

// Seam is the lap between two neighbouring strips.
type Seam struct {
	From, To unit.Length // the lap's two edges: along the gutter for strips that run down, up the fall for strips across
	Length   unit.Length
}

// Laid is a roof covered: one strip and no seam, or strips.
type Laid struct {
	Run    Run
	Strips []Strip
	Seams  []Seam
	Area   unit.Area // bought
	Mass   unit.Mass // bought
	Hands  int       // to carry the heaviest piece
	Recess bool      // a recess too narrow for the upstands on both its sides
}

// SeamLength returns the length of all seams.
func (l Laid) SeamLength() unit.Length {
	var sum unit.Length
	for _, s := range l.Seams {
		sum += s.Length
	}
	return sum
}

// gutterClear keeps a seam that runs along the gutter out of the water that
// stands there. Our own figure, no source; the rule that no lap lies at the
// gutter edge is common practice, no source.
const gutterClear = 300 * unit.Millimetre

// Lay covers the roof with the sheets that can be had: one piece if one is wide
// enough either way round, else strips with as few seams as can be, then the
// least length of seam, then the least area bought. Strips down the fall are
// preferred to strips across when both come out alike.
//
// Strip edges lie at corners of the sheet's outline, at the edges of Clear, or
// whole multiples of (width − lap) from one of these. Moving a seam between two
// such places changes neither the number nor the length of seams, so that no
// better places exist for them; the area bought is the least over these places.
//
// Source: lap 75 to 100 mm, with the fall, upper over lower, none at the gutter edge, at a pipe or in a valley: common practice, no source.
// Shape: no seams where a sheet is wide enough; wider sheets never give more seams.
// Domain: as SizeOf, of at most 40 edges; widths 900 to 20000 mm; lap 75 to 300; at most 20 places to keep clear.
// Errors: DomainError; naming widths_mm when no strips keep every seam clear.
func Lay(in Input) (Laid, error) {
	in, allowances, err := in.ready()
	if err != nil {
		return Laid{}, err
	}
	// More would cost the search minutes; no small roof comes near.
	if err := calc.Outside("sheet.lay", "edges", float64(len(in.Edges)), 3, 40, "edges"); err != nil {
		return Laid{}, err
	}
	if err := calc.Outside("sheet.lay", "clear_mm", float64(len(in.Clear)), 0, 20, "places"); err != nil {
		return Laid{}, err
	}
	p, recess, err := in.shape(allowances)
	if err != nil {
		return Laid{}, err
	}
	down := strips{shape: p, widths: in.Widths, lap: in.Lap, step: in.Step, clear: in.Clear}
	across := down
	across.shape = turned(p)
	across.clear = nil
	for _, r := range in.Clear {
		across.clear = append(across.clear, turnedRect(r))
	}
	for i, e := range in.Outline.Edges {
		if from, to := in.Outline.Side(i); e.Kind == geom.Gutter && !flank(in.Outline, i) {
			low, high := min(from.X, to.X), max(from.X, to.X)
			across.clear = append(across.clear, turnedRect(geom.Rect{
				Min: geom.Point{X: low, Y: min(from.Y, to.Y) - allowances[i].Wanted},
				Max: geom.Point{X: high, Y: max(from.Y, to.Y) + gutterClear},
			}))
		}
	}
	best, ok := down.lay()
	laid := Laid{Run: Down, Recess: recess}
	if other, found := across.lay(); found && (!ok || other.total.less(best.total)) {
		for i := range other.strips {
			other.strips[i] = other.strips[i].turned()
		}
		best, ok, laid.Run = other, true, Across
	}
	if !ok {
		return Laid{}, &calc.DomainError{Op: "sheet.lay", Field: "widths_mm", Got: in.Widths, Wanted: "a width whose seams keep clear of pipes, valleys and the gutter edge"}
	}
	laid.Strips, laid.Seams, laid.Area = best.strips, best.seams, best.total.area
	density := PerSquareMetre(in.Thickness)
	laid.Mass = density.Over(laid.Area)
	for _, st := range laid.Strips {
		laid.Hands = max(laid.Hands, hands(density.Over(st.Width.By(st.Length))))
	}
	return laid, nil
}

// turned is the strip on the plan with its two directions swapped.
func (s Strip) turned() Strip {
	s.Place = turnedRect(s.Place)
	if s.Lies == Down {
		s.Lies = Across
	} else {
		s.Lies = Down
	}
	return s
}

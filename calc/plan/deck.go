package plan

import (
	"math"
	"reflect"

	"chargehand/calc"
	"chargehand/calc/deck"
	"chargehand/calc/fixings"
	"chargehand/calc/geom"
	"chargehand/calc/setout"
	"chargehand/calc/unit"
)

// Deck is the boards as cut and laid.
type Deck struct {
	Boards, Pieces, Bound int
	Proven                bool
	Rows                  []DeckRow
	Parts                 int // rectangles the deck is laid in
	Screws                int
	ScrewLength           unit.Length
}

// DeckRow is one row of boards across the joists.
type DeckRow struct {
	Part    int // which rectangle of the deck, from 0
	Width   unit.Length
	Lengths []unit.Length
	Letters []string
}

// Drip is how far the trim's edge stands past the fascia.
type Drip struct {
	Drip, Least, Most unit.Length
	Status            calc.Status
}

// kerf is what a circular saw takes. Common practice, no source.
const kerf = 3 * unit.Millimetre

// deckBudget bounds the search for the fewest boards by counted work, so that
// the same roof gives the same layout; what it leaves open is said.
const deckBudget = 2_000_000

func (r *reckoner) deck() {
	in, j := r.in, r.p.Joists
	if j == nil || in.BoardWidth == nil || in.BoardLength == nil {
		return
	}
	regions, err := r.regions()
	if r.failed("deck", err) {
		return
	}
	problem := deck.Problem{RowLength: regions[0].RowLength, Depth: regions[0].Depth, Lines: regions[0].Lines, Regions: regions[1:],
		BoardLength: *in.BoardLength, BoardWidth: *in.BoardWidth,
		Kerf: kerf, EndGap: jointGap, RowGap: jointGap, MinBays: setout.LeastPieceBays, Stagger: 1, StaggerLength: setout.LeastStagger, Budget: deckBudget}
	layout, err := r.solve(problem)
	if r.failed("deck", err) {
		return
	}
	d := Deck{Boards: layout.Boards, Pieces: layout.Pieces, Bound: layout.Bound, Proven: layout.Proven}
	for n, region := range regions {
		screws := fixings.DeckLayout{Lines: supports(region.RowLength, region.Lines), SeamNoggins: in.Noggins}
		for _, row := range layout.Rows {
			if row.Region != n {
				continue
			}
			out := DeckRow{Part: n, Width: row.Width}
			sr := fixings.DeckRow{Width: row.Width}
			for i, p := range row.Pieces {
				out.Lengths = append(out.Lengths, p.Length)
				out.Letters = append(out.Letters, p.Letter)
				if i < len(row.Pieces)-1 {
					sr.Joints = append(sr.Joints, p.To)
				}
			}
			d.Rows = append(d.Rows, out)
			screws.Rows = append(screws.Rows, sr)
		}
		count, err := fixings.DeckScrews(screws)
		if !r.failed("screws", err) {
			d.Screws += count
		}
	}
	d.Parts = len(regions)
	thick := 18 * unit.Millimetre
	if in.BoardThick != nil {
		thick = *in.BoardThick
	}
	// The greater of 50 mm and 2.5 times the board: EN 12872, from memory.
	d.ScrewLength = unit.Length(math.Max(50, 2.5*float64(thick)))
	r.p.Deck = &d
	r.used("deck", deck.ID)
	r.used("screws", fixings.ID)
}

// regions cuts the deck into rectangles of rows, each with the joists under it.
// A roof out of square is decked to the square line through its outermost
// points; what is cut back is told as the taper.
func (r *reckoner) regions() ([]deck.Region, error) {
	o := *r.p.Outline
	rects := []geom.Rect{o.Bounds()}
	if o.IsRightAngled() {
		var err error
		if rects, err = o.Rectangles(geom.AlongGutterAxis); err != nil {
			return nil, err
		}
	}
	left := o.Bounds().Min.X // marks are taped from the roof's left end
	var out []deck.Region
	for _, rect := range rects {
		// Boards are cut to whole millimetres; a roof adjusted from six tapes is
		// decked to the next one out.
		reg := deck.Region{RowLength: up(rect.Length()), Depth: up(rect.Depth())}
		for _, m := range r.p.Joists.Marks {
			if x := m + left - rect.Min.X; x > 0 && x < rect.Length() {
				reg.Lines = append(reg.Lines, unit.Length(math.Round(float64(x)*2)/2))
			}
		}
		out = append(out, reg)
	}
	return out, nil
}

// up rounds up to a whole millimetre.
func up(l unit.Length) unit.Length { return unit.Length(math.Ceil(float64(l) - 1e-6)) }

// solvedDeck is a deck problem with its answer.
type solvedDeck struct {
	problem deck.Problem
	layout  deck.Layout
	err     error
}

// solve searches, unless the plan before has searched the same problem.
func (r *reckoner) solve(p deck.Problem) (deck.Layout, error) {
	if r.before != nil && r.before.solved != nil && reflect.DeepEqual(r.before.solved.problem, p) {
		r.p.solved = r.before.solved
	} else {
		layout, err := deck.Solve(p)
		r.p.solved = &solvedDeck{p, layout, err}
	}
	return r.p.solved.layout, r.p.solved.err
}

// supports are the lines boards rest on as the deck search numbers them: the
// two edges, and the joists between.
func supports(length unit.Length, marks []unit.Length) []unit.Length {
	const near = 100 // a joist this near the edge is the edge's own
	out := []unit.Length{0}
	for _, m := range marks {
		if m > near && m < length-near {
			out = append(out, m)
		}
	}
	return append(out, length)
}

func (r *reckoner) drip() {
	in := r.in
	if in.Fascia == nil || in.Batten == nil || in.Trim == nil || in.GutterSize == nil {
		return
	}
	d, err := setout.DripPast(setout.DripInput{Fascia: *in.Fascia, Batten: *in.Batten, Trim: *in.Trim, Gutter: *in.GutterSize, BattenOnFascia: in.BattenOnFascia})
	if r.failed("drip", err) {
		return
	}
	r.p.Drip = &Drip{Drip: d.Past, Least: d.Least, Most: d.Most}
	r.used("drip", setout.DripID)
}

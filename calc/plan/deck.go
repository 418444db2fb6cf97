package plan

import (
	"math"
	"reflect"
	"strconv"

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
	Searched              bool // a long search has been at it: Bound is the best known
	Rows                  []DeckRow
	Groups                []deck.Group // the boards as one saws them
	Strips                []deck.Strip // upstand boards from the same boards, with their edges
	Parts                 int          // rectangles the deck is laid in
	Screws                int
	ScrewLength           unit.Length

	problem deck.Problem
}

// Problem is the deck as a long search may take it up: its name, and the search.
// The search counts its work, so that it ends alike on every machine.
func (d *Deck) Problem() (name string, search func() deck.Written) {
	p := d.problem
	return p.Name(), func() deck.Written {
		p.Budget = searchBudget
		l, err := deck.Solve(p)
		if err != nil {
			return deck.Written{} // the short search has refused it before
		}
		return l.Write()
	}
}

// DeckRow is one row of boards across the joists.
type DeckRow struct {
	Part    int // which rectangle of the deck, from 0
	Width   unit.Length
	Lengths []unit.Length
	Letters []string
	boards  []int // each piece's board
}

// Laid is how many rows, from the first, can be laid with so many boards.
func (d *Deck) Laid(boards int) int {
	used := map[int]bool{}
	for n, row := range d.Rows {
		for _, b := range row.boards {
			used[b] = true
		}
		if len(used) > boards {
			return n
		}
	}
	return len(d.Rows)
}

// kerf is what a circular saw takes. Common practice, no source.
const kerf = 3 * unit.Millimetre

// deckBudget bounds the search for the fewest boards by counted work, so that
// the same roof gives the same layout; what it leaves open is said.
const deckBudget = 2_000_000

// searchBudget bounds the long search, which nobody waits for: some seconds.
const searchBudget = 100_000_000

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
	problem.Strips = r.strips()
	layout, err := r.solve(problem)
	if r.failed("deck", err) {
		return
	}
	layout, searched := r.found(problem, layout)
	d := Deck{Boards: layout.Boards, Pieces: layout.Pieces, Bound: layout.Bound, Proven: layout.Proven, Searched: searched, Groups: layout.Groups(), Strips: problem.Strips, problem: problem}
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
				out.boards = append(out.boards, p.Board)
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
	if parts := r.p.Joists.Parts; parts != nil {
		var out []deck.Region
		for _, p := range parts {
			reg := deck.Region{RowLength: up(p.Rect.Length()), Depth: up(p.Rect.Depth())}
			if p.Joists == geom.AlongGutterAxis { // rows run across the joists
				reg.RowLength, reg.Depth = reg.Depth, reg.RowLength
			}
			reg.Lines = within(p.Plan.Marks, 0, reg.RowLength)
			out = append(out, reg)
		}
		return out, nil
	}
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
		reg.Lines = within(r.p.Joists.lines, rect.Min.X-left, reg.RowLength)
		out = append(out, reg)
	}
	return out, nil
}

// within are the lines over a rectangle that begins at from, to half a millimetre.
func within(lines []unit.Length, from, length unit.Length) []unit.Length {
	out := []unit.Length{}
	for _, m := range lines {
		x := unit.Length(math.Round(float64(m-from)*2) / 2)
		if n := len(out); x > 0 && x < length && (n == 0 || x > out[n-1]) {
			out = append(out, x)
		}
	}
	return out
}

// up rounds up to a whole millimetre.
func up(l unit.Length) unit.Length { return unit.Length(math.Ceil(float64(l) - 1e-6)) }

// solvedDeck is a deck problem with its answer.
type solvedDeck struct {
	problem deck.Problem
	layout  deck.Layout
	err     error
}

// strips are the upstand boards, where they are cut from the deck's own boards.
// A label is the number of the edge, counted from 1.
func (r *reckoner) strips() []deck.Strip {
	if !r.in.UpstandCut {
		return nil
	}
	var out []deck.Strip
	for i, e := range r.p.Outline.Edges {
		if e.Kind == geom.Wall || e.Kind == geom.Parapet {
			out = append(out, deck.Strips(e.Length, up(r.boardHeight(i)), *r.in.BoardLength, strconv.Itoa(i+1)))
		}
	}
	return out
}

// found takes in what a long search has found for this very problem: fewer
// boards or pieces, or only that fewer can't be. It never makes the layout
// worse, and a layout that can't be bettered stays as it was first shown.
func (r *reckoner) found(p deck.Problem, quick deck.Layout) (deck.Layout, bool) {
	w, ok := r.in.Found[p.Name()]
	if !ok {
		return quick, false
	}
	long, err := deck.Read(p, w)
	if err != nil {
		return quick, true // what does not pass the checker is not used
	}
	if long.Boards < quick.Boards || long.Boards == quick.Boards && long.Pieces < quick.Pieces {
		return long, true
	}
	quick.Bound = max(quick.Bound, min(long.Bound, quick.Boards))
	quick.Proven = quick.Bound == quick.Boards
	return quick, true
}

// solve searches, unless the plan before has searched the same problem.
func (r *reckoner) solve(p deck.Problem) (deck.Layout, error) {
	if r.before != nil && r.before.solved != nil && reflect.DeepEqual(r.before.solved.problem, p) {
		r.p.solved = r.before.solved
	} else {
		layout, err := deck.Solve(p)
		if err == nil {
			err = deck.Check(p, layout)
		}
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

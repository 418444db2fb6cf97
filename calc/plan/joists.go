package plan

import (
	"math"

	"chargehand/calc/geom"
	"chargehand/calc/setout"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// Joists are the joists as marked and ordered.
type Joists struct {
	B, H         unit.Length
	Centres      unit.Length // the widest, where they stand already
	Count, Order int
	Bays         int
	StaggerBays  int
	Marks        []unit.Length // of the largest part where there are several
	JointLines   []unit.Length
	JointBearing unit.Length
	Tolerance    unit.Length
	Each, Stock  unit.Length // greatest length needed, and as ordered
	Pieces       []takeoff.Piece

	Skewed    *setout.Skewed  // of a roof out of square
	Parts     []setout.Region // of an L, T or U whose joists do not run through
	Junctions []setout.Junction

	lines []unit.Length // where joists support the boards, from the deck's left end; of a deck in one part
	old   bool
}

func (r *reckoner) joists() {
	in := r.in
	if r.p.Outline == nil || in.BoardLength == nil || in.MaxCentres == nil {
		return
	}
	j := Joists{B: or(in.JoistB, usualJoist), H: or(in.JoistH, 0), old: in.OldJoists}
	si := setout.Input{Length: *r.p.Length, BoardLength: *in.BoardLength, JointGap: jointGap, Joist: j.B, MaxCentres: r.centresLimit()}
	set, err := setout.Joists(si)
	if r.failed("joists", err) {
		return
	}
	j.take(set)
	ids := []string{setout.ID}
	switch {
	case in.OldJoists:
		if len(in.Measured) < 3 {
			return // they stand where a tape finds them
		}
		j.stand(in.Measured)
	case in.Shape == "walked" && !r.through():
		if l, ok := r.parts(si); ok {
			j.inParts(l)
			ids = append(ids, setout.RegionsID)
		}
	case !r.p.Outline.IsRightAngled():
		skewed, err := setout.SetSkewed(setout.SkewedInput{Outline: *r.p.Outline, BoardLength: si.BoardLength, JointGap: si.JointGap, Joist: si.Joist, MaxCentres: si.MaxCentres})
		if !r.failed("skewed", err) {
			j.skew(skewed, *r.p.Outline)
			ids = append(ids, setout.SkewedID)
		}
	}
	j.Order = j.Count + (j.Count+9)/10 // a spare in ten
	if in.ClearSpan != nil && !in.OldJoists {
		r.pieces(&j)
	}
	r.p.Joists = &j
	r.used("joists", ids...)
}

// usualJoist is the thickness until one is told.
const usualJoist = 47 * unit.Millimetre

// centresLimit is the greatest centres allowed. Joists that stand already are
// held against what the boards carry: 18 mm to the 600 class.
func (r *reckoner) centresLimit() unit.Length {
	if r.in.OldJoists {
		return max(*r.in.MaxCentres, centres600)
	}
	return *r.in.MaxCentres
}

// take copies the setting out of joists over the whole length.
func (j *Joists) take(set setout.Plan) {
	stagger := setout.StaggerFor(set.BaysPerBoard, set.Centres)
	j.Centres, j.Count, j.Bays, j.StaggerBays = set.Centres, len(set.Marks), set.BaysPerBoard, stagger.Bays
	j.Marks, j.JointLines, j.JointBearing, j.Tolerance = set.Marks, set.JointLines, set.JointBearing, set.Tolerance
	j.lines = set.Marks
}

// stand takes the joists as the tape found them.
func (j *Joists) stand(measured []unit.Length) {
	j.Marks, j.Count, j.Centres, j.lines = measured, len(measured), 0, measured
	for i := 1; i < len(measured); i++ {
		j.Centres = max(j.Centres, measured[i]-measured[i-1])
	}
}

// through says whether the joists of an outline that is no rectangle run through
// from edge to edge: the clear span told reaches the longest of them. Otherwise
// something carries them on the way.
func (r *reckoner) through() bool {
	if r.in.JoistWay == "short" {
		return false
	}
	if r.in.ClearSpan == nil {
		return true
	}
	longest := unit.Length(0)
	for _, e := range r.p.Outline.Vertices {
		for _, x := range []unit.Length{e.X - 1, e.X + 1} {
			for _, s := range r.p.Outline.Vertices.UpRoof(x) {
				longest = max(longest, s.Length())
			}
		}
	}
	return *r.in.ClearSpan+2*joistBearing >= longest-mostOverhang
}

// mostOverhang is what a deck stands out past its plates, both ends together, at
// most: common practice, no source.
const mostOverhang = 450 * unit.Millimetre

// parts sets an outline out in rectangles, each with its own datum.
func (r *reckoner) parts(si setout.Input) (setout.Layout, bool) {
	way := geom.UpRoofAxis
	if r.in.JoistWay == "short" {
		way = ""
	}
	l, err := setout.Regions(setout.RegionsInput{Outline: *r.p.Outline, BoardLength: si.BoardLength, JointGap: si.JointGap, Joist: si.Joist, MaxCentres: si.MaxCentres, Joists: way})
	return l, err == nil && len(l.Regions) > 1 // an arm too narrow to set out by itself runs through
}

// inParts takes the joists of several rectangles.
func (j *Joists) inParts(l setout.Layout) {
	j.Parts, j.Junctions, j.Count = l.Regions, l.Junctions, l.Joists
	largest := l.Regions[0]
	for _, p := range l.Regions {
		if p.Rect.Area() > largest.Rect.Area() {
			largest = p
		}
	}
	j.Marks, j.JointLines, j.lines = largest.Plan.Marks, largest.Plan.JointLines, nil
}

// skew takes the joists of a roof out of square: those square to the gutter, and
// one along each flank. Marks are along the gutter line, where a joist has its
// foot there.
func (j *Joists) skew(s setout.Skewed, o geom.Outline) {
	left := o.Vertices[1].X - o.Bounds().Min.X // of the gutter, from the deck's left end
	length := o.Edges[0].Length
	j.Skewed, j.Centres, j.Count, j.lines = &s, s.Centres, len(s.Joists)+2, nil
	j.Marks = []unit.Length{j.B / 2}
	for _, q := range s.Joists {
		j.lines = append(j.lines, q.Low+left)
		if q.Low > j.B && q.Low < length-j.B {
			j.Marks = append(j.Marks, q.Low)
		}
	}
	j.Marks = append(j.Marks, length-j.B/2)
}

// pieces works out how long the joists are. A rectangle's are all alike, from
// the clear span; those of another outline reach from edge to edge of the deck
// where they lie.
func (r *reckoner) pieces(j *Joists) {
	add := func(n int, l unit.Length) {
		j.Each = max(j.Each, l)
		if k := len(j.Pieces); k > 0 && j.Pieces[k-1].Length == l {
			j.Pieces[k-1].Count += n
			return
		}
		j.Pieces = append(j.Pieces, takeoff.Piece{Count: n, Length: l})
	}
	each := *r.in.ClearSpan + 2*joistBearing + r.tail()
	switch {
	case j.Parts != nil:
		for _, p := range j.Parts {
			l := p.Span
			if p.Joists == geom.UpRoofAxis && p.Rect.Min.Y == r.p.Outline.Bounds().Min.Y {
				l += r.tail()
			}
			add(len(p.Plan.Marks), l)
		}
	case j.Skewed != nil:
		for _, q := range j.Skewed.Joists {
			if q.Jack {
				add(1, min(q.Length+r.tail(), each))
			} else {
				add(1, each)
			}
		}
		for _, f := range j.Skewed.Flanks { // the slant takes a little more
			add(1, unit.Length(float64(each)*float64(f.Length)/math.Sqrt(float64(f.Length*f.Length-f.Lean*f.Lean))))
		}
	case r.in.Shape == "walked":
		j.Count = 0
		for _, x := range j.Marks {
			for _, s := range r.p.Outline.Vertices.UpRoof(x) {
				j.Count++
				add(1, s.Length()+r.tail())
			}
		}
	default:
		add(j.Count, each)
	}
	j.Order = j.Count + (j.Count+9)/10 // a spare in ten
	j.Stock = unit.Length(math.Ceil(float64(j.Each)/300) * 300)
}

// Lengths the setting out rests on.
const (
	jointGap     = 3 * unit.Millimetre  // between board ends; LABC Warranty
	joistBearing = 75 * unit.Millimetre // on a plate; NHBC Standards 6.4.10
	tailLength   = 150 * unit.Millimetre
)

// tail is the uncut length left at the gutter, to be cut to the string line.
func (r *reckoner) tail() unit.Length {
	if r.has(geom.Gutter) {
		return tailLength
	}
	return 0
}

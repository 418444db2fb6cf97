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
	Centres      unit.Length
	Count, Order int
	Bays         int
	StaggerBays  int
	Marks        []unit.Length
	JointLines   []unit.Length
	JointBearing unit.Length
	Tolerance    unit.Length
	Each, Stock  unit.Length // greatest length needed, and as ordered
	Pieces       []takeoff.Piece
}

func (r *reckoner) joists() {
	in := r.in
	if r.p.Outline == nil || in.BoardLength == nil || in.MaxCentres == nil {
		return
	}
	b := 47 * unit.Millimetre // the usual thickness until one is told
	if in.JoistB != nil {
		b = *in.JoistB
	}
	set, err := setout.Joists(setout.Input{Length: *r.p.Length, BoardLength: *in.BoardLength, JointGap: jointGap, Joist: b, MaxCentres: *in.MaxCentres})
	if r.failed("joists", err) {
		return
	}
	stagger := setout.StaggerFor(set.BaysPerBoard, set.Centres)
	j := Joists{B: b, Centres: set.Centres, Count: len(set.Marks), Bays: set.BaysPerBoard, StaggerBays: stagger.Bays,
		Marks: set.Marks, JointLines: set.JointLines, JointBearing: set.JointBearing, Tolerance: set.Tolerance}
	if in.JoistH != nil {
		j.H = *in.JoistH
	}
	j.Order = j.Count + (j.Count+9)/10 // a spare in ten
	if in.ClearSpan != nil {
		r.pieces(&j)
	}
	r.p.Joists = &j
	r.used("joists", setout.ID)
}

// pieces works out how long the joists are. A rectangle's are all alike, from
// the clear span; those of another outline reach from edge to edge of the deck
// where they lie.
func (r *reckoner) pieces(j *Joists) {
	if r.in.Shape != "walked" {
		j.Each = *r.in.ClearSpan + 2*joistBearing + r.tail()
		j.Pieces = []takeoff.Piece{{Count: j.Count, Length: j.Each}}
	} else {
		j.Count = 0
		for _, x := range j.Marks {
			for _, s := range r.p.Outline.Vertices.UpRoof(x) {
				l := s.Length() + r.tail()
				j.Count++
				j.Each = max(j.Each, l)
				if n := len(j.Pieces); n > 0 && j.Pieces[n-1].Length == l {
					j.Pieces[n-1].Count++
					continue
				}
				j.Pieces = append(j.Pieces, takeoff.Piece{Count: 1, Length: l})
			}
		}
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

package plan

import (
	"math"

	"chargehand/calc/fixings"
	"chargehand/calc/geom"
	"chargehand/calc/setout"
	"chargehand/calc/sheet"
	"chargehand/calc/unit"
)

// Upstands are the boards along walls.
type Upstands struct {
	Runs               []unit.Length
	BoardTop, BedJoint unit.Length // at the high end of a wall
	Rubber             unit.Length // height of the rubber above the finished roof
	Plugs              int
}

// Chase is where the flashing of one wall goes in.
type Chase struct {
	Edge  int // of the outline, from 0
	Run   unit.Length
	Drop  unit.Length // of the roof along the wall
	Joint unit.Length // underside of the chase above the roof at the wall's high end
	Top   unit.Length // of the upstand board there
	Most  unit.Length // greatest height of the upstand board, at a low end
	Steps []unit.Length
}

// Coping is how the copings sit on the parapets.
type Coping struct {
	Wall, Outside, Least unit.Length
	Clear                unit.Length // of the throat from the face it is nearer to
	OK                   bool
	Pieces               int
	Joints               unit.Length
}

// rubberHeight is how high the rubber stands at a wall: the upstand asked for,
// never under 150 mm.
func (r *reckoner) rubberHeight() unit.Length {
	if r.in.Upstand != nil {
		return max(*r.in.Upstand, sheet.LeastUpstand)
	}
	return sheet.LeastUpstand
}

// chases finds the bed joint of each wall from the one that was taped. The roof
// falls away along a side wall: the chase steps down a course wherever it has
// fallen by one.
func (r *reckoner) chases() {
	if r.in.BedJoint == nil || r.p.Outline == nil {
		return
	}
	slope := unit.Fall(0)
	if f := r.p.Fall; f != nil {
		slope = f.Slope
	}
	high := r.p.Outline.Bounds().Max.Y
	for i, e := range r.p.Outline.Edges {
		if e.Kind != geom.Wall {
			continue
		}
		from, to := r.p.Outline.Side(i)
		top := max(from.Y, to.Y)
		drop := unit.Length(float64(top-min(from.Y, to.Y)) * float64(slope))
		joint := *r.in.BedJoint + unit.Length(float64(high-top)*float64(slope))
		c, err := setout.ChaseFor(setout.ChaseInput{Upstand: r.rubberHeight(), Joint: joint, Length: e.Length, Drop: drop})
		if r.failed("chase", err) {
			return
		}
		out := Chase{Edge: i, Run: e.Length, Drop: drop, Joint: c.Joint, Top: c.BoardTop, Most: c.Stepped}
		for _, s := range c.Steps[1:] {
			out.Steps = append(out.Steps, s.From)
		}
		r.p.Chases = append(r.p.Chases, out)
		r.used("chase", setout.ChaseID)
	}
}

// chase is the chase of an edge.
func (r *reckoner) chase(edge int) (Chase, bool) {
	for _, c := range r.p.Chases {
		if c.Edge == edge {
			return c, true
		}
	}
	return Chase{}, false
}

// boardHeight is the greatest height of the upstand board at an edge: to 10 mm
// under the chase on a wall, the whole inside face of a parapet.
func (r *reckoner) boardHeight(edge int) unit.Length {
	if r.p.Outline.Edges[edge].Kind == geom.Parapet {
		return max(or(r.in.ParapetHeight, 0), r.rubberHeight())
	}
	height := max(or(r.in.BoardTop, 0), r.rubberHeight())
	if c, ok := r.chase(edge); ok {
		grows := c.Most - c.Top
		if r.in.BoardTop == nil {
			height = max(c.Top, height)
		}
		height += grows
	}
	return height
}

func (r *reckoner) upstands() {
	in := r.in
	runs := r.runs(geom.Wall, geom.Parapet)
	if len(runs) == 0 {
		return
	}
	u := Upstands{Runs: runs, Rubber: r.rubberHeight()}
	if in.BedJoint != nil {
		u.BedJoint = *in.BedJoint
	}
	if len(r.p.Chases) > 0 {
		high := r.p.Chases[0]
		for _, c := range r.p.Chases {
			if c.Drop < high.Drop {
				high = c
			}
		}
		u.BedJoint, u.BoardTop = high.Joint, high.Top
	}
	if in.BoardTop != nil {
		u.BoardTop = *in.BoardTop
	}
	for i, e := range r.p.Outline.Edges {
		if e.Kind != geom.Wall && e.Kind != geom.Parapet {
			continue
		}
		row, rows, err := fixings.UpstandPlugs(e.Length, r.boardHeight(i))
		if r.failed("upstands", err) {
			return
		}
		u.Plugs += row.Count * rows
	}
	r.p.Upstands = &u
	r.used("upstands", fixings.ID)
}

// coping sets the copings in the middle of the parapets.
func (r *reckoner) coping() {
	in := r.in
	runs := r.runs(geom.Parapet)
	if len(runs) == 0 || in.ParapetTop == nil || in.CopingWidth == nil || in.CopingPiece == nil || in.CopingThroat == nil {
		return
	}
	out := Coping{Wall: *in.ParapetTop, Outside: unit.Length(math.Floor(float64(*in.CopingWidth-*in.ParapetTop) / 2))}
	for _, run := range runs {
		c, err := setout.CopingFor(setout.CopingInput{Wall: *in.ParapetTop, Coping: *in.CopingWidth, Outside: out.Outside, Throat: *in.CopingThroat, Run: run, Piece: *in.CopingPiece})
		if r.failed("coping", err) {
			return
		}
		out.Clear, out.OK, out.Least = min(c.ClearOutside, c.ClearInside), c.OK, c.LeastCoping
		out.Pieces += c.Pieces
	}
	out.Joints = setout.CopingJoint
	r.p.Coping = &out
	r.used("coping", setout.CopingID)
}

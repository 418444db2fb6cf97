package plan

import (
	"math"

	"chargehand/calc/glue"
	"chargehand/calc/unit"
	"chargehand/calc/weather"
)

// Batch is how much of the sheet to glue next, and how. Half is empty where the
// field has no place for a strip: its shape is not known, or it is covered.
type Batch struct {
	Area      unit.Area
	Strip     unit.Length
	UsableMin float64
	Share     float64 // of the window
	Turn      unit.Minutes
	Direction string
	NoGo      string

	Half      glue.Half
	Done      int // strips bonded before it
	Count     int // strips of the whole field
	RollerWay glue.Way
	FoldWay   glue.Way
	Behind    unit.Minutes // how long the hand at the fold is behind wet film
	Ahead     []Strip      // this strip and those that would follow it today
}

// betweenBatches is the time to fold, open a tin and broom: common practice, no
// source.
const betweenBatches unit.Minutes = 10

// halves are the two halves of the field about the fold: how much of each, square
// to the fold, is still to be bonded.
func (r *reckoner) halves() (fold, deep unit.Length, left map[glue.Half]unit.Length, ok bool) {
	fold, deep = r.fold()-2*DryStrip, r.deep()-2*DryStrip
	if r.p.Field == nil || fold <= 0 || deep <= 0 {
		return 0, 0, nil, false
	}
	left = map[glue.Half]unit.Length{glue.FarHalf: deep / 2, glue.NearHalf: deep / 2}
	for _, s := range r.in.Laid {
		left[s.Half] -= s.Width
	}
	for half, l := range left {
		if l <= leastLeft {
			left[half] = 0
		}
	}
	return fold, deep, left, true
}

// part is how much of the rectangle round it the field is: a strip of a roof that
// is no rectangle is taken as so much smaller.
func (r *reckoner) part() unit.Area {
	round := (r.fold() - 2*DryStrip).By(r.deep() - 2*DryStrip)
	return unit.Area(math.Min(1, float64(*r.p.Field)/float64(round)))
}

// batches finds the next strip and then judges the weather for the rest of the
// field, because the tin once opened has to be finished. In weather that asks for
// care less of the window is planned with, which takes longer: the second look
// settles it.
func (r *reckoner) batches(a sky) {
	if r.p.Window == nil {
		r.weather(a, 0)
		return
	}
	r.weather(a, 0)
	for range 2 {
		care := r.p.Go != nil && r.p.Go.Verdict != string(weather.Go)
		r.batch(glue.Share(care, r.wetIn.SquareToday, r.in.GoodBatches))
		r.weather(a, r.rest)
	}
	r.look(a)
}

// hands on the roof, as many as the rules know of.
func (r *reckoner) hands() int { return min(max(r.in.Hands, 1), 3) }

func (r *reckoner) batchInput(share float64) glue.BatchInput {
	b := glue.BatchInput{Window: r.p.Window.Usable, Factor: share, Hands: r.hands(), WayOff: r.wayOffOutside()}
	if fold := r.fold() - 2*DryStrip; fold >= shallowest {
		b.Fold = fold
	}
	if r.in.Rates != nil {
		b.Roll, b.Lay = r.in.Rates.Roll, r.in.Rates.Lay
	}
	return b
}

// covered says whether the whole field is bonded.
func (r *reckoner) covered() bool { return r.p.Left != nil && *r.p.Left == 0 }

// batch is the next strip: a place in the order of the field where there is one.
func (r *reckoner) batch(share float64) {
	b := r.batchInput(share)
	if r.strip(b) {
		return
	}
	if r.p.Field != nil {
		b.Field = *r.p.Field
	}
	plan, err := glue.Batch(b)
	if r.failed("batch", err) {
		return
	}
	r.p.Batch = &Batch{Area: plan.Area, Strip: plan.Strip, UsableMin: down(plan.Usable), Share: share, Count: plan.Batches, Direction: string(plan.Direction), NoGo: string(plan.NoGo)}
	r.rest = unit.Minutes(float64(plan.Batches)) * (plan.Usable + betweenBatches)
	if r.covered() {
		r.rest = 0
	}
	r.used("batch", glue.BatchID)
}

// leastLeft is less than anybody measures on a roof: what is left of a half under
// it is covered.
const leastLeft = 20 * unit.Millimetre

// shallowest is the least field that glue.Lay divides.
const shallowest = 500 * unit.Millimetre

// strip is the next strip of the field as glue.Lay orders it, with what is bonded
// already taken off: the rest of a half is laid as a half of its own.
func (r *reckoner) strip(b glue.BatchInput) bool {
	fold, _, left, ok := r.halves()
	if !ok || left[glue.FarHalf]+left[glue.NearHalf] == 0 {
		return false
	}
	usable := down(unit.Minutes(b.Factor * float64(b.Window)))
	var strips []glue.Strip
	for _, half := range []glue.Half{glue.FarHalf, glue.NearHalf} {
		if left[half] == 0 {
			continue
		}
		l, err := glue.Lay(glue.FieldInput{Batch: b, Fold: fold, Depth: max(2*left[half], shallowest), FarWayOff: r.in.FarWayOff || half == glue.NearHalf})
		if r.failed("batch", err) {
			return false
		}
		if l.NoGo != "" {
			r.p.Batch = &Batch{UsableMin: usable, Share: b.Factor, NoGo: string(l.NoGo), Done: len(r.in.Laid)}
			r.rest = 0
			r.used("batch", glue.BatchID, glue.LayID)
			return true
		}
		for _, s := range l.Strips {
			if s.Half == half {
				strips = append(strips, r.off(s))
			}
		}
	}
	next := strips[0]
	width := min(unit.Length(math.Abs(float64(next.End-next.Start))), left[next.Half])
	r.p.Batch = &Batch{
		Area: fold.By(width) * r.part(), Strip: width, UsableMin: usable, Share: b.Factor,
		Turn: next.Turn, Direction: string(next.Direction), Half: next.Half, Done: len(r.in.Laid), Count: len(r.in.Laid) + len(strips),
		RollerWay: next.RollerWay, FoldWay: next.FoldWay, Behind: next.Behind,
	}
	r.rest = 0
	for _, s := range strips {
		w := min(unit.Length(math.Abs(float64(s.End-s.Start))), left[s.Half])
		r.p.Batch.Ahead = append(r.p.Batch.Ahead, Strip{Half: s.Half, Width: w})
		r.rest += s.Spread + s.Turn + s.Laying + betweenBatches
	}
	r.used("batch", glue.BatchID, glue.LayID)
	return true
}

// off takes the way off at the far edge back out of a strip of the near half,
// where Lay was told of one so that the far half, laid by then, has no say.
func (r *reckoner) off(s glue.Strip) glue.Strip {
	if s.Half == glue.FarHalf || r.in.FarWayOff {
		return s
	}
	s.FoldWay, s.Behind = glue.ByStrip, s.Spread+s.Turn+s.Laying
	if s.Direction == glue.OuterInward {
		s.RollerWay = s.FoldWay
	}
	return s
}

// wayOffOutside says whether one can get off at the outer edge of the first
// batch: only if that is the edge one leaves by. A hatch or window is at a wall.
func (r *reckoner) wayOffOutside() bool { return r.in.Exit == "gutter" || r.in.Exit == "verge" }

// fold is the length of the fold line, parallel to the edge one leaves by.
func (r *reckoner) fold() unit.Length {
	if r.p.Length == nil || r.p.Depth == nil {
		return 0
	}
	if r.in.Exit == "verge" {
		return *r.p.Depth
	}
	return *r.p.Length
}

// deep is the roof square to the fold.
func (r *reckoner) deep() unit.Length {
	if r.p.Length == nil || r.p.Depth == nil {
		return 0
	}
	if r.in.Exit == "verge" {
		return *r.p.Length
	}
	return *r.p.Depth
}

package setout

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// ChaseID names the rule for chases and its version.
const ChaseID = "setout.chase/1"

const (
	// Course is a course of bricks with its bed joint: 65 + 10.
	// Source: BS EN 771-1 UK brick format, from memory.
	Course = 75 * unit.Millimetre
	// ChaseGap is from the top of the upstand board to the underside of the
	// chase, at least: common practice, no source.
	ChaseGap = 10 * unit.Millimetre
)

// ChaseInput is one wall above the roof, seen along its length from its high
// end.
type ChaseInput struct {
	Upstand unit.Length   // rubber wanted above the finished roof, everywhere
	Joint   unit.Length   // any one bed joint, above the finished roof at the high end of the wall; negative: below it
	Course  unit.Length   // 0: Course
	Avoid   []unit.Length // bed joints that must not be raked, as heights like Joint: DPC, weep holes, lintel bearings
	Length  unit.Length   // of the wall along the roof
	Drop    unit.Length   // of the roof along it: 0 at the back wall, the whole fall at a side wall
}

// ChaseStep is a stretch of chase in one bed joint.
type ChaseStep struct {
	From, To unit.Length // along the wall from its high end
	Joint    unit.Length // underside of the chase above the roof at the high end of the wall
	Least    unit.Length // the same above the roof right below it, where it is least: at From
	Most     unit.Length // and where it is most: at To
}

// Chase is where the flashing goes into the wall.
type Chase struct {
	Joint    unit.Length // underside, above the roof at the high end of the wall
	BoardTop unit.Length // of the upstand board there
	Rubber   unit.Length // greatest height of rubber on the wall when the chase runs level: what the sheet must allow for
	Steps    []ChaseStep // stepping down a course wherever the roof has fallen away by one; one step: it runs level
	Stepped  unit.Length // greatest height of rubber when it steps
}

// ChaseFor returns the bed joint for the flashing of one wall: the lowest that
// leaves the upstand and the gap over the board.
//
//	joint ≥ upstand + 10    board top = joint − 10
//	steps where the roof lies a course lower: x = (upstand + 10 − joint + k·course)·length/drop
//
// Source: gap and steps common practice, no source; course UK brick format, from memory.
// Shape: joints differ by whole courses; a higher upstand never gives a lower joint; with no drop one step.
// Domain: upstand 75 to 600; joint −3000 to 3000; course 60 to 300; length 300 to 20000; drop 0 to a sixth of the length; at most 40 joints to avoid.
// Ignores: where the perpends are: a step is cut at the next one past x.
// Errors: DomainError only.
func ChaseFor(in ChaseInput) (Chase, error) {
	const op = "setout.chase"
	if in.Course == 0 {
		in.Course = Course
	}
	for _, c := range []struct {
		field       string
		v, min, max float64
	}{
		{"upstand_mm", float64(in.Upstand), 75, 600},
		{"joint_mm", float64(in.Joint), -3000, 3000},
		{"course_mm", float64(in.Course), 60, 300},
		{"length_mm", float64(in.Length), 300, 20000},
		{"drop_mm", float64(in.Drop), 0, float64(in.Length) / 6},
		{"avoid_mm", float64(len(in.Avoid)), 0, 40},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, "mm"); err != nil {
			return Chase{}, err
		}
	}
	for _, a := range in.Avoid {
		if err := calc.Outside(op, "avoid_mm", float64(a), -3000, 3000, "mm"); err != nil {
			return Chase{}, err
		}
	}
	c := Chase{Joint: in.lowest(in.Upstand + ChaseGap)}
	c.BoardTop = c.Joint - ChaseGap
	c.Rubber = c.BoardTop + in.Drop
	c.Steps = in.steps(c.Joint)
	for _, s := range c.Steps {
		c.Stepped = max(c.Stepped, s.Most-ChaseGap)
	}
	return c, nil
}

// lowest returns the lowest bed joint at or above a height that may be raked.
func (in ChaseInput) lowest(from unit.Length) unit.Length {
	k := math.Ceil(float64(from-in.Joint)/float64(in.Course) - 1e-9)
	for {
		joint := in.Joint + unit.Length(k*float64(in.Course))
		if !in.avoided(joint) {
			return joint
		}
		k++
	}
}

// avoided reports whether a bed joint is one of those to leave alone: the
// nearest joint to a height within half a course.
func (in ChaseInput) avoided(joint unit.Length) bool {
	for _, a := range in.Avoid {
		if d := joint - a; max(d, -d) < in.Course/2 {
			return true
		}
	}
	return false
}

// steps follows the falling roof down the wall.
func (in ChaseInput) steps(joint unit.Length) []ChaseStep {
	slope := float64(in.Drop) / float64(in.Length)
	above := func(joint, x unit.Length) unit.Length { return joint + unit.Length(slope*float64(x)) }
	steps := []ChaseStep{{To: in.Length, Joint: joint}}
	for k := 1.0; slope > 0; k++ {
		lower := joint - unit.Length(k*float64(in.Course))
		x := unit.Length(float64(in.Upstand+ChaseGap-lower) / slope)
		if x >= in.Length {
			break
		}
		if in.avoided(lower) {
			continue
		}
		steps[len(steps)-1].To = x
		steps = append(steps, ChaseStep{From: x, To: in.Length, Joint: lower})
	}
	for i := range steps {
		steps[i].Least, steps[i].Most = above(steps[i].Joint, steps[i].From), above(steps[i].Joint, steps[i].To)
	}
	return steps
}

// DepthInput is a chase to be cut or raked.
type DepthInput struct {
	Leaf     unit.Length // thickness of the leaf: 102.5 for half a brick
	Depth    unit.Length
	Raked    bool        // a bed joint is raked out and pointed again the same day, no brick is cut
	Vertical bool        // the chase runs up the wall
	Shell    unit.Length // what is left of a hollow unit behind the chase; 0: solid
}

// Depth is what a leaf allows.
type Depth struct {
	Most unit.Length
	OK   bool
}

// ChaseDepth returns how deep a chase may be.
//
//	horizontal ≤ leaf/6    vertical ≤ leaf/3    raked bed joint ≤ 25    hollow: at least 15 left
//
// Source: leaf/6 and leaf/3 Approved Document A; 25 mm and 15 mm common practice, no source.
// Domain: leaf 75 to 450; depth 0 to 100; shell 0 to 100 mm.
// Errors: DomainError only.
func ChaseDepth(in DepthInput) (Depth, error) {
	const op = "setout.chase_depth"
	for _, c := range []struct {
		field    string
		v        unit.Length
		min, max float64
	}{{"leaf_mm", in.Leaf, 75, 450}, {"depth_mm", in.Depth, 0, 100}, {"shell_mm", in.Shell, 0, 100}} {
		if err := calc.Outside(op, c.field, float64(c.v), c.min, c.max, "mm"); err != nil {
			return Depth{}, err
		}
	}
	const raked, shell = 25 * unit.Millimetre, 15 * unit.Millimetre
	d := Depth{Most: in.Leaf / 6}
	switch {
	case in.Vertical:
		d.Most = in.Leaf / 3
	case in.Raked:
		d.Most = raked
	}
	d.OK = in.Depth <= d.Most && (in.Shell == 0 || in.Shell >= shell)
	return d, nil
}

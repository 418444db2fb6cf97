package plan

import (
	"fmt"
	"slices"

	"chargehand/calc/setout"
	"chargehand/calc/unit"
)

// Standing is what the tape says of joists that stand: joints that miss, bays too
// wide, and the ways to make every board end bear, the cheapest first.
type Standing struct {
	Missed  []setout.JointCheck
	Wide    []setout.BayCheck
	Options []setout.Option
}

// Cure names a way as an answer does.
func Cure(w setout.Way) string {
	return map[setout.Way]string{setout.AsTheyStand: "stand", setout.Rearrange: "module", setout.Sister: "battens", setout.CutBoards: "cut", setout.Ladder: "noggins"}[w]
}

// standing holds measured centres against the joints of whole boards. Only a deck
// in one part is taped this way.
func (r *reckoner) standing() {
	in, j := r.in, r.p.Joists
	if j == nil || len(in.Measured) < 3 || in.BoardWidth == nil || j.Parts != nil || j.Skewed != nil {
		return
	}
	limit := r.centresLimit()
	check, err := setout.CheckCentres(setout.Standing{Centres: in.Measured, Joints: j.JointLines, Joist: j.B, JointGap: jointGap, MaxCentres: limit})
	if r.failed("standing", err) {
		return
	}
	j.lines = r.snapped(j)
	s := Standing{}
	for _, c := range check.Joints {
		if !c.Bearing.OK() {
			s.Missed = append(s.Missed, c)
		}
	}
	for _, b := range check.Bays {
		if b.Over > 0 {
			s.Wide = append(s.Wide, b)
		}
	}
	if len(s.Missed) > 0 {
		s.Options = r.ways(setout.Existing{Centres: in.Measured, Joist: j.B, JointGap: jointGap, MaxCentres: limit, Length: *r.p.Length, Depth: *r.p.Depth, BoardLength: *in.BoardLength, BoardWidth: *in.BoardWidth})
		r.cure(j, s.Options)
	}
	r.p.Standing = &s
	r.used("standing", setout.ExistingID)
}

// snapped are the joists as they stand, each on its mark where it is near enough
// for both board ends: within the tolerance a whole board still bears.
func (r *reckoner) snapped(j *Joists) []unit.Length {
	marks := j.lines
	var out []unit.Length
	for _, c := range r.in.Measured {
		near := c
		if !j.old {
			for _, m := range marks {
				if d := max(c-m, m-c); d <= max(j.Tolerance, 0) {
					near = m
				}
			}
		}
		out = append(out, near)
	}
	return out
}

// cure changes the lines that carry boards to those of the way that was chosen. A
// batten carries an end beside its joist, a bearer one between two: boards may
// end there as well.
func (r *reckoner) cure(j *Joists, options []setout.Option) {
	i := slices.IndexFunc(options, func(o setout.Option) bool { return Cure(o.Way) == r.in.JoistCure })
	if i < 0 {
		return
	}
	o := options[i]
	switch o.Way {
	case setout.Rearrange:
		j.lines, j.Marks = o.Marks, o.Marks
	case setout.Sister, setout.Ladder:
		for _, row := range o.Rows {
			for _, joint := range row {
				j.lines = carried(j.lines, joint)
			}
		}
	}
}

// carried makes a joint one of the lines: in place of a joist it lies beside, or
// besides those there are.
func carried(lines []unit.Length, joint unit.Length) []unit.Length {
	const beside = 100 * unit.Millimetre
	out := slices.Clone(lines)
	for i, l := range out {
		if d := max(l-joint, joint-l); d < beside {
			out[i] = joint
			return out
		}
	}
	out = append(out, joint)
	slices.Sort(out)
	return out
}

// chosenWay is what was worked out for joists that stand so.
type chosenWay struct {
	of      string
	options []setout.Option
}

// ways works the options out, unless the plan before has for the same joists.
func (r *reckoner) ways(e setout.Existing) []setout.Option {
	r.p.chosen.of = fmt.Sprintf("%+v", e)
	if r.before != nil && r.before.chosen.of == r.p.chosen.of {
		r.p.chosen = r.before.chosen
		return r.p.chosen.options
	}
	options, err := setout.Choose(e)
	if r.failed("standing", err) {
		return nil
	}
	for _, o := range options {
		if !slices.ContainsFunc(r.p.chosen.options, func(p setout.Option) bool { return sameCuts(o, p) }) {
			r.p.chosen.options = append(r.p.chosen.options, o)
		}
	}
	return r.p.chosen.options
}

// sameCuts says whether two ways come to the same boards in the same places:
// then the second is only another name for it.
func sameCuts(a, b setout.Option) bool {
	plain := func(o setout.Option) bool { return o.Moves+o.Joists+o.Noggins+len(o.Battens)+len(o.Bearers) == 0 }
	return plain(a) && plain(b) && a.Boards == b.Boards && slices.Equal(a.Rows[0], b.Rows[0]) && slices.Equal(a.Rows[1], b.Rows[1])
}

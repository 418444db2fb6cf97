package plan

import (
	"chargehand/calc/setout"
	"chargehand/calc/unit"
)

// Levels is what the level says of the tops of the joists, one by one.
type Levels struct {
	Low   []Packer // the worst first
	High  []int    // joists over the line, from 0
	Flat  []int
	Ponds []setout.Pond
	OK    bool
}

// Packer is what brings a joist up to the line.
type Packer struct {
	Joist int // from 0
	By    unit.Length
}

// levels reads the tops of the joists: one number each is how far a top lies
// under a string across them, two each are read down from a level line, at the
// gutter ends first.
func (r *reckoner) levels() {
	in, j := r.in, r.p.Joists
	if j == nil || j.Parts != nil || r.p.Fall == nil || len(in.Levels) == 0 {
		return
	}
	centres := j.Marks
	if len(in.Measured) > 0 {
		centres = in.Measured
	}
	n := len(centres)
	l := setout.Levels{Centres: centres, Stations: []unit.Length{0, *r.p.Depth}}
	for i := range centres {
		switch len(in.Levels) {
		case n:
			l.Tops = append(l.Tops, []unit.Length{-in.Levels[i], r.p.Fall.Drop - in.Levels[i]})
		case 2 * n:
			l.Tops = append(l.Tops, []unit.Length{-in.Levels[i], -in.Levels[n+i]})
		default:
			return // the conversation asks for one or two a joist
		}
	}
	check, err := setout.CheckLevels(l)
	if r.failed("levels", err) {
		return
	}
	out := Levels{High: check.High, Flat: check.Flat, Ponds: check.Ponds, OK: check.OK}
	for _, i := range check.Low {
		p := Packer{Joist: i}
		for _, by := range check.Joists[i].Packer {
			p.By = max(p.By, by)
		}
		out.Low = append(out.Low, p)
		for k := len(out.Low) - 1; k > 0 && out.Low[k].By > out.Low[k-1].By; k-- {
			out.Low[k], out.Low[k-1] = out.Low[k-1], out.Low[k]
		}
	}
	r.p.Levels = &out
	r.used("levels", setout.LevelsID)
}

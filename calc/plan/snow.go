package plan

import (
	"chargehand/calc"
	"chargehand/calc/geom"
	"chargehand/calc/load"
	"chargehand/calc/timber"
	"chargehand/calc/unit"
)

// Snow is the snow on the roof.
type Snow struct {
	Ground, Flat unit.AreaLoad
	Set          string // where the ground snow comes from: uk, unknown (a high zone taken) or given
	Banks        []Bank // against a taller wall and behind parapets
}

// Bank is snow driven against something: Peak at its foot, Edge where the roof
// or the bank ends, whichever is nearer.
type Bank struct {
	Against     string // wall or parapet
	Beside      bool   // runs along the joists, so that the nearest carry the peak over their whole length
	Peak, Edge  unit.AreaLoad
	Length      unit.Length
	Exceptional bool // an accidental load
	Clause      string

	far unit.AreaLoad // beyond the bank
}

// Worst returns the bank with the highest peak; nil where there is none. The
// exceptional ones are judged as another kind of load, so they are asked for
// apart.
func (s *Snow) Worst(exceptional bool) *Bank {
	var worst *Bank
	for i := range s.Banks {
		if b := &s.Banks[i]; b.Exceptional == exceptional && (worst == nil || b.Peak > worst.Peak) {
			worst = b
		}
	}
	return worst
}

// snowUnknown is the UK zone taken where none was told: the highest of the
// lowland map, so that not knowing is never the lighter case.
const snowUnknown = 5.0

// snowHeight is how high a site may lie: above it snow stays so long that it
// counts in creep (EN 1990 Table A1.1), which the joist check leaves out.
const snowHeight = 1000 // m

// shedding is the pitch taken for a roof above that sheds on to this one: at
// 30° it holds all its snow and lets all of it slide.
const shedding = 30 * unit.Degree

// elsewhere says whether the site is outside the UK.
func (r *reckoner) elsewhere() bool { return r.in.Region == "elsewhere" }

// loadSet is the national values: the UK's, or elsewhere the standard's own.
func (r *reckoner) loadSet() load.Set {
	name := "UK"
	if r.elsewhere() {
		name = "CEN"
	}
	s, err := load.SetOf(name)
	r.failed("snow", err)
	return s
}

// ground is the snow on the ground, from the UK map or as given.
func (r *reckoner) ground() (sk unit.AreaLoad, set string, ok bool) {
	in := r.in
	if in.Altitude != nil {
		if r.failed("snow", calc.Outside("plan.snow", "altitude_m", *in.Altitude, 0, snowHeight, "m")) {
			return 0, "", false
		}
	}
	if r.elsewhere() || in.SnowZone == "given" {
		if in.GroundSnow == nil {
			r.lacks(NeedGroundSnow)
			return 0, "", false
		}
		return *in.GroundSnow, "given", true
	}
	if in.Altitude == nil {
		r.lacks(NeedAltitude)
		return 0, "", false
	}
	zone, set := snowUnknown, "unknown"
	if len(in.SnowZone) == 1 {
		zone, set = float64(in.SnowZone[0]-'0'), "uk"
	}
	sk, err := load.GroundSnowUK(zone, unit.Length(*in.Altitude)*unit.Metre)
	return sk, set, !r.failed("snow", err)
}

func (r *reckoner) snow() {
	in := r.in
	ground, set, known := r.ground()
	if in.WallAbove == nil {
		r.lacks(NeedWallAbove) // no wall is a thing to be told, not to be taken
		known = false
	}
	if !known || r.p.Outline == nil {
		return
	}
	mu, err := load.ShapeCoefficient(0)
	if r.failed("snow", err) {
		return
	}
	s := Snow{Ground: ground, Flat: unit.AreaLoad(mu) * ground, Set: set}
	if !r.wallBanks(&s) || !r.parapetBanks(&s) {
		return
	}
	r.p.Snow = &s
	r.used("snow", load.SnowID)
}

// sides says where edges of a kind stand: at an end of the joists, beside them.
func (r *reckoner) sides(kind geom.Kind) (end, beside bool) {
	for i, e := range r.p.Outline.Edges {
		if e.Kind == kind {
			end, beside = end || r.level(i), beside || !r.level(i)
		}
	}
	return end, beside
}

// wallBanks adds the snow against a taller wall or roof. Where no edge is a
// wall, the taller part can stand on either side.
func (r *reckoner) wallBanks(s *Snow) bool {
	in := r.in
	if *in.WallAbove <= 0 {
		return true
	}
	if in.UpperDepth == nil {
		r.lacks(NeedUpperDepth) // the bank grows with the roof the snow blows from
		return false
	}
	end, beside := r.sides(geom.Wall)
	if !end && !beside {
		end, beside = true, true
	}
	set := r.loadSet()
	step := load.Step{Set: set, Ground: s.Ground, Height: *in.WallAbove, Upper: *in.UpperDepth}
	if in.UpperSheds == nil || *in.UpperSheds {
		step.UpperPitch, step.UpperSlope = shedding, *in.UpperDepth/2 // one slope of two
	}
	for _, side := range []struct {
		there, beside bool
		lower         unit.Length
	}{{end, false, *r.p.Depth}, {beside, true, *r.p.Length}} {
		if !side.there {
			continue
		}
		step.Lower = side.lower
		bank, err := load.StepBank(step)
		if r.failed("snow", err) {
			return false
		}
		s.add("wall", side.beside, bank)
		if !set.ExceptionalSnow {
			continue
		}
		bank, err = load.ExceptionalStepBank(step)
		if r.failed("snow", err) {
			return false
		}
		s.add("wall", side.beside, bank)
	}
	return true
}

// parapetBanks adds the snow behind parapets.
func (r *reckoner) parapetBanks(s *Snow) bool {
	end, beside := r.sides(geom.Parapet)
	if !end && !beside {
		return true
	}
	if r.in.ParapetHeight == nil {
		r.lacks(NeedParapet)
		return false
	}
	set := r.loadSet()
	for _, side := range []struct {
		there, beside bool
		away, other   unit.Length
	}{{end, false, *r.p.Depth, *r.p.Length}, {beside, true, *r.p.Length, *r.p.Depth}} {
		if !side.there {
			continue
		}
		up := load.Upstanding{Ground: s.Ground, Height: *r.in.ParapetHeight, Away: side.away, Other: side.other}
		bank, err := load.ProjectionBank(up)
		if r.failed("snow", err) {
			return false
		}
		s.add("parapet", side.beside, bank)
		if !set.ExceptionalSnow {
			continue
		}
		bank, err = load.ExceptionalParapetBank(up)
		if r.failed("snow", err) {
			return false
		}
		s.add("parapet", side.beside, bank)
	}
	return true
}

func (s *Snow) add(against string, beside bool, b load.Bank) {
	s.Banks = append(s.Banks, Bank{Against: against, Beside: beside, Peak: b.Peak(s.Ground), Edge: unit.AreaLoad(b.EdgeMu) * s.Ground,
		Length: b.Length, Exceptional: b.Accidental, Clause: b.Clause, far: unit.AreaLoad(b.Far) * s.Ground})
}

// drifts are the banks as one joist carries them. Joists run up the fall: a
// bank at their end falls along the joist, one beside them lies on the nearest
// joists with its peak from end to end.
func (s *Snow) drifts() []timber.Drift {
	var out []timber.Drift
	for _, b := range s.Banks {
		d := timber.Drift{Peak: b.Peak, Far: b.far, Length: b.Length, Accidental: b.Exceptional}
		if b.Beside {
			d.Far = b.Peak
		}
		out = append(out, d)
	}
	return out
}

// onLedger returns the even load that would press on a ledger at the wall as
// much as a bank does.
//
//	R = (p0 - p1)·l/2·(1 - l/3L) + p1·L/2    l <= L
//	R = L (2 p0 + pE)/6                      l > L, pE at the roof's edge
//	q = 2R/L
//
// Source: statics of a simple beam.
func (b Bank) onLedger(depth unit.Length) unit.AreaLoad {
	if b.Beside {
		return b.Peak
	}
	l, whole := float64(b.Length), float64(depth)
	if l > whole {
		return (2*b.Peak + b.Edge) / 3
	}
	return (b.Peak-b.far)*unit.AreaLoad(l/whole*(1-l/(3*whole))) + b.far
}

package plan

import (
	"fmt"

	"chargehand/calc"
	"chargehand/calc/load"
	"chargehand/calc/timber"
	"chargehand/calc/unit"
)

// Span is the joist judged at its clear span. While it is nil no joist has
// been judged: Lacks or Faults say why.
type Span struct {
	Clear, Max          unit.Length
	Utilisation         float64
	GovernedBy          string
	Status              calc.Status
	Method              string
	Dead, Imposed, Snow unit.AreaLoad
	Drift               unit.AreaLoad // the highest peak it was judged with
	Up                  unit.AreaLoad // wind from below; 0 where the wind is not known
	Hung                unit.Force    // on one joist, at mid-span

	LastingSag unit.Length // sag that stays, with creep
	FallLeft   *unit.Fall  // at the joists' low end once they have sagged; nil while the drop is not known
	Ponds      bool        // a fall that was enough is under 1:80 once the joists have sagged
}

// Over says whether the joist is over a limit: then the job is held.
func (s *Span) Over() bool { return s.Status == calc.Over }

// allowance is what later years bring: another covering, a light. Common
// practice, no source; it brings the build-up to the 0.25 kN/m² at which a light
// roof is usually reckoned. It weighs, but it is not there to hold down.
const allowance unit.SurfaceDensity = 10

// buildUp is what lies on the joists: boards, sheet and adhesive, and the
// insulation and ceiling of a heated room.
func (r *reckoner) buildUp() []load.Layer {
	thick := 18 * unit.Millimetre
	if r.in.BoardThick != nil {
		thick = *r.in.BoardThick
	}
	layers := []load.Layer{
		{Material: "osb", Thickness: thick},
		{Material: "rubber and adhesive", Weight: 2.0}, // 1.4 sheet and 0.6 adhesive, from memory
		{Material: "trims, fixings and lead", Weight: 3.0},
	}
	if r.in.Use == "heated" || r.in.Use == "cold-roof" {
		layers = append(layers,
			load.Layer{Material: "rigid insulation", Thickness: 120},
			load.Layer{Material: "plasterboard", Thickness: 12.5},
			load.Layer{Material: "insulation fixings and vapour layer", Weight: 1.0})
	}
	return layers
}

// dead is the weight on the joists, all that may come included.
func (r *reckoner) dead() (unit.AreaLoad, bool) {
	dead, _, err := load.Dead(append(r.buildUp(), load.Layer{Material: "allowance", Weight: allowance}))
	return dead, !r.failed("span", err)
}

// sureWeight is the weight that is there when the wind lifts: the joists' own
// counts once they are known.
func (r *reckoner) sureWeight() (unit.AreaLoad, bool) {
	dead, _, err := load.Dead(r.buildUp())
	return dead + r.own, !r.failed("span", err)
}

// highImposed and highMan are the upper end of what EN 1991-1-1 Table 6.10
// lets a country choose for a roof nobody uses: taken where the country is not
// known, so that not knowing is never the lighter case. Range from memory.
const (
	highImposed = 1.0 * unit.KilonewtonPerM2
	highMan     = 1.5 * unit.Kilonewton
)

// imposed is the load of people on the roof, even or one person's.
func (r *reckoner) imposed() (unit.AreaLoad, unit.Force) {
	if r.elsewhere() {
		return highImposed, highMan
	}
	set := r.loadSet()
	return set.Imposed, set.Man
}

// joist is a joist under this roof's loads, its section and centres left open.
func (r *reckoner) joist() (timber.Joist, bool) {
	dead, ok := r.dead()
	if !ok {
		return timber.Joist{}, false
	}
	j := timber.Joist{Method: timber.EC5, Grade: r.grade(), Dead: dead, Bearing: joistBearing, Snow: r.p.Snow.Flat, Drifts: r.p.Snow.drifts()}
	j.Imposed, j.Point = r.imposed()
	// The ceiling is left unknown, which is judged as plastered: L/250. The
	// L/150 of an open ceiling would let a flat roof sag into its own fall.
	if w := r.p.Wind; w != nil {
		// The wind is judged with 1.0 G - 1.5 W. The allowance is in G, but may not
		// be there: its weight goes back on to the wind's side.
		j.WindUp = w.Joist + unit.AreaLoad(float64(allowance)*unit.StandardGravity*1e-6/1.5)
	}
	if f := r.hung(); f > 0 {
		mid := (*r.in.ClearSpan + joistBearing) / 2
		j.Extras = []timber.Extra{{From: mid, To: mid, Force: f}}
	}
	return j, true
}

// hung is the most that hangs on one joist. It counts as always there: with
// k_mod 0.6 and 1.35 that asks as much of the joist as a short load 1.35 times
// as heavy would, which covers the jerk of a hand hoist.
func (r *reckoner) hung() unit.Force {
	if r.in.HungWeight == nil {
		return 0
	}
	return r.in.HungWeight.Weight()
}

// grade is the one on the stamp; the weaker of the two in the yard where there
// is none.
func (r *reckoner) grade() string {
	if r.in.Grade == "" {
		return "C16"
	}
	return r.in.Grade
}

func (r *reckoner) span() {
	in := r.in
	for _, need := range []struct {
		there bool
		n     Need
	}{
		{r.p.Outline != nil, NeedSize}, {in.BoardLength != nil, NeedBoard}, {in.MaxCentres != nil, NeedCentres}, {in.ClearSpan != nil, NeedSpan},
		{in.Hung == "" || in.Hung == "nothing" || in.HungWeight != nil, NeedHung},
	} {
		if !need.there {
			r.lacks(need.n)
		}
	}
	// Choosing and judging need the snow: without it a joist would look
	// stronger than it is.
	if len(r.p.Lacks) > 0 || r.p.Snow == nil || r.p.Joists == nil {
		return
	}
	j, ok := r.joist()
	if !ok {
		return
	}
	r.wish(j)
	if in.JoistB == nil || in.JoistH == nil {
		r.lacks(NeedJoist)
		return
	}
	j.Section, j.Centres = timber.Section{B: *in.JoistB, H: *in.JoistH}, r.p.Joists.Centres
	res, err := r.judge(j, *in.ClearSpan)
	if r.failed("span", err) {
		return
	}
	r.own = unit.AreaLoad(float64(res.OwnWeight) / float64(j.Centres))
	s := Span{Clear: *in.ClearSpan, Max: res.MaxClear, Utilisation: res.Utilisation, GovernedBy: res.GovernedBy, Status: res.Status, Method: "ec5",
		Dead: j.Dead, Imposed: j.Imposed, Snow: j.Snow, Hung: r.hung(), LastingSag: res.LastingSag}
	for _, d := range j.Drifts {
		s.Drift = max(s.Drift, d.Peak)
	}
	if r.p.Wind != nil {
		s.Up = r.p.Wind.Joist
	}
	if f := r.p.Fall; f != nil {
		left := f.Slope - res.LastingFall
		s.FallLeft = &left
		s.Ponds = f.Status != calc.Over && float64(left) < fallFinished
	}
	r.p.Span = &s
	r.used("span", timber.ID, load.SnowID)
}

// judged is a joist with its verdict.
type judged struct {
	res timber.Result
	err error
}

// judge checks a joist, unless the plan before has checked the same one.
func (r *reckoner) judge(j timber.Joist, clear unit.Length) (timber.Result, error) {
	key := fmt.Sprintf("%+v %v", j, float64(clear))
	done, ok := judged{}, false
	if r.before != nil {
		done, ok = r.before.judged[key]
	}
	if !ok {
		res, err := timber.Check(j, clear)
		done = judged{res, err}
	}
	r.p.judged[key] = done
	return done.res, done.err
}

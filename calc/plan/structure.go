package plan

import (
	"fmt"
	"math"

	"chargehand/calc"
	"chargehand/calc/fixings"
	"chargehand/calc/geom"
	"chargehand/calc/load"
	"chargehand/calc/setout"
	"chargehand/calc/takeoff"
	"chargehand/calc/timber"
	"chargehand/calc/unit"
)

// Snow is the snow on the roof.
type Snow struct {
	Ground, Flat unit.AreaLoad
	Drift        unit.AreaLoad // at a taller wall
	DriftLength  unit.Length   // 0 = no drift
	Set          string        // uk, or unknown where the zone was not known

	banks []timber.Drift // the persistent and the exceptional one
}

// Span is the joist judged at its clear span.
type Span struct {
	Clear, Max          unit.Length
	Utilisation         float64
	GovernedBy          string
	Status              calc.Status
	Method              string
	Dead, Imposed, Snow unit.AreaLoad
	Drift               unit.AreaLoad
}

// Over says whether the joist is over a limit: then the job is held.
func (s *Span) Over() bool { return s.Status == calc.Over }

// Choice is the lightest stocked joist that passes.
type Choice struct {
	B, H, Centres, Max, Clear unit.Length
	Grade                     string
}

// Plates are the wall plates or ledgers and what holds them.
type Plates struct {
	Runs                       []unit.Length
	Anchors                    int
	AnchorFirst, AnchorSpacing unit.Length
	Straps                     int
	StrapSpacing               unit.Length
	Sink                       unit.Length // counterbore so that the anchor's fixture limit holds
}

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

// leastPlate is the shortest run of plate worth an anchor of its own.
const leastPlate = 300 * unit.Millimetre

// Strutting is what keeps the joists upright.
type Strutting struct{ Rows, Noggins int }

// snowUnknown is the UK zone taken where none was told: the highest of the
// lowland map, so that not knowing is never the lighter case.
const snowUnknown = 5.0

func (r *reckoner) snow() {
	in := r.in
	if in.Altitude == nil || r.p.Depth == nil {
		return
	}
	zone, set := snowUnknown, "unknown"
	if len(in.SnowZone) == 1 {
		zone, set = float64(in.SnowZone[0]-'0'), "uk"
	}
	ground, err := load.GroundSnowUK(zone, unit.Length(*in.Altitude)*unit.Metre)
	if r.failed("snow", err) {
		return
	}
	mu, err := load.ShapeCoefficient(0)
	if r.failed("snow", err) {
		return
	}
	s := Snow{Ground: ground, Flat: unit.AreaLoad(mu) * ground, Set: set}
	if in.WallAbove != nil && *in.WallAbove > 0 {
		if in.UpperDepth == nil {
			return // the bank grows with the roof the snow blows from
		}
		uk, err := load.SetOf("UK")
		if r.failed("snow", err) {
			return
		}
		step := load.Step{Set: uk, Ground: ground, Height: *in.WallAbove, Lower: *r.p.Depth, Upper: *in.UpperDepth}
		for _, form := range []func(load.Step) (load.Bank, error){load.StepBank, load.ExceptionalStepBank} {
			bank, err := form(step)
			if r.failed("snow", err) {
				return
			}
			peak := bank.Peak(ground)
			s.banks = append(s.banks, timber.Drift{Peak: peak, Far: unit.AreaLoad(bank.Far) * ground, Length: bank.Length, Accidental: bank.Accidental})
			if peak > s.Drift {
				s.Drift, s.DriftLength = peak, bank.Length
			}
		}
	}
	r.p.Snow = &s
	r.used("snow", load.SnowID)
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
		// What later years bring: another covering, a light, a door track. Common
		// practice, no source; it brings the build-up to the 0.25 kN/m² at which a
		// light roof is usually reckoned.
		{Material: "allowance", Weight: 10},
	}
	if r.in.Use == "heated" || r.in.Use == "cold-roof" {
		layers = append(layers,
			load.Layer{Material: "rigid insulation", Thickness: 120},
			load.Layer{Material: "plasterboard", Thickness: 12.5},
			load.Layer{Material: "insulation fixings and vapour layer", Weight: 1.0})
	}
	return layers
}

// joist is the joist of the given section under this roof's loads.
func (r *reckoner) joist(b, h, centres unit.Length) (timber.Joist, bool) {
	dead, _, err := load.Dead(r.buildUp())
	if r.failed("span", err) {
		return timber.Joist{}, false
	}
	j := timber.Joist{Method: timber.EC5, Section: timber.Section{B: b, H: h}, Grade: r.in.Grade, Centres: centres,
		Dead: dead, Bearing: joistBearing}
	// The ceiling is left unknown, which is judged as plastered: L/250. The
	// L/150 of an open ceiling would let a flat roof sag into its own fall.
	if s := r.p.Snow; s != nil {
		j.Snow = s.Flat
		j.Drifts = r.drifts()
	}
	return j, true
}

// drifts are the banks of snow on one joist. Joists run up the fall: a taller
// wall at the back banks snow along the joist, one at a side banks it over the
// whole length of the joists beside it.
func (r *reckoner) drifts() []timber.Drift {
	out := append([]timber.Drift(nil), r.p.Snow.banks...)
	beside := false
	for i, e := range r.p.Outline.Edges {
		beside = beside || (e.Kind == geom.Wall && !r.level(i))
	}
	for i := range out {
		if beside {
			out[i].Far = out[i].Peak
		}
	}
	return out
}

func (r *reckoner) span() {
	in := r.in
	if in.ClearSpan == nil || in.Grade == "" || r.p.Joists == nil {
		return
	}
	// Choosing and judging need the snow: without it a joist would look
	// stronger than it is.
	if r.p.Snow == nil {
		return
	}
	r.choose()
	if in.JoistB == nil || in.JoistH == nil {
		return
	}
	j, ok := r.joist(*in.JoistB, *in.JoistH, r.p.Joists.Centres)
	if !ok {
		return
	}
	res, err := r.judge(j, *in.ClearSpan)
	if r.failed("span", err) {
		return
	}
	s := Span{Clear: *in.ClearSpan, Max: res.MaxClear, Utilisation: res.Utilisation, GovernedBy: res.GovernedBy, Status: res.Status, Method: "ec5",
		Dead: j.Dead, Imposed: 0.6 * unit.KilonewtonPerM2, Snow: j.Snow, Drift: r.p.Snow.Drift}
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

// stocked are the joist sections of a timber yard, lightest first.
//
// Source: EN 336 target sizes, 47 mm thick; 63 and 75 mm for long spans.
var stocked = []timber.Section{
	{B: 47, H: 97}, {B: 47, H: 120}, {B: 47, H: 145}, {B: 47, H: 170}, {B: 47, H: 195}, {B: 63, H: 170}, {B: 47, H: 220}, {B: 63, H: 195}, {B: 75, H: 195}, {B: 63, H: 220}, {B: 75, H: 220},
}

// choose finds the lightest stocked section whose longest clear span reaches
// the one needed with 5 % in hand.
func (r *reckoner) choose() {
	for _, sec := range stocked {
		j, ok := r.joist(sec.B, sec.H, r.p.Joists.Centres)
		if !ok {
			return
		}
		res, err := r.judge(j, *r.in.ClearSpan)
		if err != nil || res.Status != calc.Within {
			continue
		}
		r.p.Choice = &Choice{B: sec.B, H: sec.H, Centres: r.p.Joists.Centres, Max: res.MaxClear, Clear: *r.in.ClearSpan, Grade: r.in.Grade}
		r.used("span", timber.ID, load.SnowID)
		return
	}
}

func (r *reckoner) plates() {
	in := r.in
	if r.p.Outline == nil || in.Plate == "" {
		return
	}
	// Joists run up the fall, so the plates lie along the level edges.
	var p Plates
	for i, e := range r.p.Outline.Edges {
		if r.level(i) && e.Length >= leastPlate {
			p.Runs = append(p.Runs, e.Length)
		}
	}
	for _, run := range p.Runs {
		straps, err := fixings.Straps(run)
		if r.failed("plates", err) {
			return
		}
		p.Straps += straps.Count
		p.StrapSpacing = max(p.StrapSpacing, straps.Spacing)
		if in.Anchor == "straps-only" {
			continue
		}
		anchors, err := fixings.PlateAnchors(run)
		if r.failed("plates", err) {
			return
		}
		p.Anchors += anchors.Count
		p.AnchorFirst, p.AnchorSpacing = anchors.First, max(p.AnchorSpacing, anchors.Spacing)
	}
	if in.AnchorHolds != nil && in.PlateWidth != nil && in.PlateHeight != nil {
		thick := *in.PlateHeight
		if in.Plate == "ledger" {
			thick = *in.PlateWidth
		}
		p.Sink = max(thick-*in.AnchorHolds, 0)
	}
	r.p.Plates = &p
	r.used("plates", fixings.ID)
	r.used("straps", fixings.ID)
}

func (r *reckoner) strutting() {
	if r.in.ClearSpan == nil || r.p.Joists == nil {
		return
	}
	rows, err := fixings.StruttingRows(*r.in.ClearSpan)
	if r.failed("strutting", err) {
		return
	}
	s := Strutting{Rows: rows}
	if r.in.Noggins && r.in.BoardWidth != nil {
		seams := int(math.Ceil(float64(*r.p.Depth)/float64(*r.in.BoardWidth))) - 1
		s.Noggins = max(seams, 0) * (r.p.Joists.Count - 1)
	}
	r.p.Strutting = &s
	r.used("strutting", fixings.ID)
}

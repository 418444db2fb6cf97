package plan

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/fixings"
	"chargehand/calc/geom"
	"chargehand/calc/unit"
)

// Plates are the wall plates and ledgers and what holds them.
type Plates struct {
	Runs                       []unit.Length // plates on walls
	Ledgers                    []unit.Length // bolted to a wall's face
	Anchors                    int
	AnchorFirst, AnchorSpacing unit.Length
	Fit                        *fixings.Fit // how an anchor sits in its timber; nil while its sizes are not told
	Ledger                     *Ledger      // what an anchor of the ledger carries; nil unless its sheet says what it can
	Straps                     int
	StrapSpacing               unit.Length
	HoldDown                   *HoldDown // nil unless the wind is known
}

// Ledger is the hardest worked anchor of the ledgers.
type Ledger struct {
	Shear, Pull unit.Force
	PullChecked bool
	Utilisation float64
	Status      calc.Status
	Governs     string // uniform, point or uplift
}

// HoldDown is the pull of the wind on the straps of the hardest pulled plate.
type HoldDown struct {
	Net, Each unit.Force // design, on the plate and on one strap; not above 0 where the weight is enough
	ByUplift  bool       // more straps than 2 m spacing asks for
	Share     float64    // of a strap's strength; 0 while that is not told
	Caught    unit.Force // the wall a 1 m strap can catch; 0 where the wall is not of a kind that is reckoned
	WallShare float64
}

// leastPlate is the shortest run of plate worth an anchor of its own.
const leastPlate = 300 * unit.Millimetre

// embedment is how deep an anchor sits in the wall where its sheet was not
// asked: resin in brick. Common practice, no source; the sheet goes before it.
const embedment = 70 * unit.Millimetre

// leastApart is the closest two anchors may stand while the sheet is not asked.
// Common practice, no source.
const leastApart = 150 * unit.Millimetre

// heaviestJoists is the weight of the heaviest joists of a yard, 75 x 220 C24 at
// 400: taken for anchors while the joists are not known.
const heaviestJoists = 0.17 * unit.KilonewtonPerM2

// Half-brick walls catch straps by their weight. Source: size EN 771-1 brick,
// density as in package fixings.
const (
	halfBrick    = 102.5 * unit.Millimetre
	brickDensity = unit.Density(1900)
	strapReach   = unit.Metre // least length of a strap, NHBC Standards 7.1.5
)

func (r *reckoner) plates() {
	in := r.in
	if r.p.Outline == nil || in.Plate == "" {
		return
	}
	var p Plates
	r.lay(&p)
	if !r.anchors(&p) || !r.straps(&p) {
		return
	}
	r.p.Plates = &p
	r.used("plates", fixings.ID)
	r.used("straps", fixings.ID)
}

// lay puts plates along the level edges, since joists run up the fall. A ledger
// is bolted to what stands above the roof: the other end of the joists lies on a
// plate, unless no edge is a wall.
func (r *reckoner) lay(p *Plates) {
	atWall, _ := r.sides(geom.Wall)
	for i, e := range r.p.Outline.Edges {
		if !r.level(i) || e.Length < leastPlate {
			continue
		}
		if r.in.Plate == "ledger" && (e.Kind == geom.Wall || !atWall) {
			p.Ledgers = append(p.Ledgers, e.Length)
			continue
		}
		p.Runs = append(p.Runs, e.Length)
	}
}

// anchors sets out what holds the plates to the walls.
func (r *reckoner) anchors(p *Plates) bool {
	in := r.in
	if in.Anchor == "straps-only" {
		return true
	}
	for _, run := range p.Runs {
		row, err := fixings.PlateAnchors(run)
		if r.failed("plates", err) {
			return false
		}
		p.anchored(row)
	}
	for _, run := range p.Ledgers {
		row, err := r.ledger(p, run)
		if r.failed("plates", err) {
			return false
		}
		p.anchored(row)
	}
	if in.AnchorDia == nil || in.AnchorLength == nil || in.AnchorHolds == nil || in.PlateWidth == nil || in.PlateHeight == nil {
		return true
	}
	thick := *in.PlateHeight // a plate on a wall is held through its height
	if len(p.Ledgers) > 0 {
		thick = *in.PlateWidth
	}
	fit, err := fixings.FitAnchor(fixings.Packet{Diameter: *in.AnchorDia, Length: *in.AnchorLength, MaxFixture: *in.AnchorHolds, Embedment: embedment}, thick, 0)
	if !r.failed("anchor", err) {
		p.Fit = &fit
	}
	return true
}

func (p *Plates) anchored(row fixings.Row) {
	p.Anchors += row.Count
	p.AnchorFirst, p.AnchorSpacing = max(p.AnchorFirst, row.First), max(p.AnchorSpacing, row.Spacing)
}

// ledger sets out the anchors of one ledger: by its sheet's strength where that
// was told, by the usual spacing alone where it was not.
func (r *reckoner) ledger(p *Plates, run unit.Length) (fixings.Row, error) {
	in := r.in
	rule, err := fixings.RuleOf(fixings.Ledger)
	if err != nil {
		return fixings.Row{}, err
	}
	if in.AnchorDia != nil {
		d, err := fixings.BoltDistances(*in.AnchorDia)
		if err != nil {
			return fixings.Row{}, err
		}
		rule.First, rule.Lost = max(rule.First, d.End), max(rule.Lost, d.End)
	}
	kind := fixings.Kind(in.AnchorKind)
	told := in.AnchorShear != nil && (kind == fixings.Design || kind == fixings.Recommended)
	if !told || in.PlateWidth == nil || in.PlateHeight == nil || r.p.Snow == nil {
		return rule.Row(run)
	}
	dead, ok := r.dead()
	if !ok {
		return rule.Row(run)
	}
	if r.own > 0 {
		dead += r.own
	} else {
		dead += heaviestJoists
	}
	imposed, man := r.imposed()
	li := fixings.LedgerIn{Run: run, Span: *r.p.Depth, Dead: dead, Imposed: max(imposed, r.ledgerSnow(kind)), Point: man,
		Thickness: *in.PlateWidth, Below: *in.PlateHeight / 2, Shear: *in.AnchorShear, Kind: kind, Rule: rule, Least: leastApart}
	if in.AnchorPull != nil {
		li.Pull = *in.AnchorPull
	}
	if w := r.p.Wind; w != nil {
		li.Uplift = w.onPlate(run, *r.p.Length, *r.p.Depth)
	}
	out, err := fixings.LedgerAnchors(li)
	if err != nil {
		return fixings.Row{}, err
	}
	if p.Ledger == nil || out.Utilisation > p.Ledger.Utilisation {
		p.Ledger = &Ledger{Shear: out.Shear, Pull: out.Pull, PullChecked: out.PullChecked, Utilisation: out.Utilisation,
			Status: calc.Grade(out.Utilisation), Governs: out.Governs}
	}
	return out.Row, nil
}

// ledgerSnow is the even load that presses on a ledger as much as the worst
// snow does. An exceptional bank is an accidental load: it has no factor, which
// the even load is given one of, so it is put in that much smaller.
func (r *reckoner) ledgerSnow(kind fixings.Kind) unit.AreaLoad {
	worst := r.p.Snow.Flat
	for _, b := range r.p.Snow.Banks {
		q := b.onLedger(*r.p.Depth)
		if b.Exceptional && kind == fixings.Design {
			q /= 1.5
		}
		worst = max(worst, q)
	}
	return worst
}

// straps sets out what holds the plates down: never further apart than the
// prescribed spacing, and by the wind's pull where that is known.
func (r *reckoner) straps(p *Plates) bool {
	in := r.in
	rule, err := fixings.RuleOf(fixings.Strap)
	if r.failed("plates", err) {
		return false
	}
	sure, ok := r.sureWeight()
	if !ok {
		return false
	}
	for _, run := range p.Runs {
		w := r.p.Wind
		if w == nil {
			row, err := rule.Row(run)
			if r.failed("plates", err) {
				return false
			}
			p.strapped(row)
			continue
		}
		hd := fixings.HoldDownIn{Run: run, Rule: rule, Wind: w.onPlate(run, *r.p.Length, *r.p.Depth), Dead: on(sure, run.By(*r.p.Depth/2))}
		if in.StrapHolds != nil {
			hd.Strap = *in.StrapHolds
		}
		if in.Wall == "brick" {
			hd.Reach, hd.Leaf, hd.Wall = strapReach, halfBrick, brickDensity
		}
		out, err := fixings.HoldDown(hd)
		if r.failed("plates", err) {
			return false
		}
		p.strapped(out.Row)
		p.held(out)
	}
	return true
}

func (p *Plates) strapped(row fixings.Row) {
	p.Straps += row.Count
	p.StrapSpacing = max(p.StrapSpacing, row.Spacing)
}

// held keeps the plate with the hardest worked straps.
func (p *Plates) held(out fixings.HoldDownOut) {
	h := HoldDown{Net: out.Net, Each: out.Each, ByUplift: out.ByUplift, Share: out.Utilisation, Caught: out.Caught, WallShare: out.WallShare}
	if was := p.HoldDown; was != nil {
		h.ByUplift = h.ByUplift || was.ByUplift
		h.WallShare = math.Max(h.WallShare, was.WallShare)
		if was.Each > h.Each {
			h.Net, h.Each, h.Share, h.Caught = was.Net, was.Each, was.Share, was.Caught
		}
	}
	p.HoldDown = &h
}

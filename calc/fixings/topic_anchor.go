package fixings

import (
	"errors"
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// UK imposed load on a roof nobody uses, category H.
//
// Source: UK National Annex to EN 1991-1-1 Table NA.7, from memory.
const (
	usualImposed = 0.6 // kN/m²
	usualPoint   = 0.9 // kN
)

// anchored sets out the anchors of a plate or ledger and how each sits.
func (in FixingsIn) anchored() (FixingsOut, error) {
	what := What(in.What)
	run, err := need("run_mm", in.RunMM)
	if err != nil {
		return FixingsOut{}, err
	}
	r, err := in.rule(what)
	if err != nil {
		return FixingsOut{}, err
	}
	var early []Note
	if in.AnchorDMM != nil {
		d, err := BoltDistances(unit.Length(math.Max(*in.AnchorDMM, 6)))
		if err != nil {
			return FixingsOut{}, err
		}
		if d.End > r.First {
			r.First, r.Lost = d.End, d.End
			early = append(early, EndMoved)
		}
	}
	var out FixingsOut
	if what == Ledger && in.ShearKN != nil {
		out, err = in.carried(r)
	} else {
		var row Row
		row, err = r.Row(unit.Length(run))
		out = rowOut(row)
		if what == Ledger {
			out.note(NoCapacity)
		} else {
			out.note(StrapsHoldDown)
		}
	}
	if err != nil {
		return FixingsOut{}, err
	}
	out.Notes = append(early, out.Notes...)
	if err := in.seat(&out); err != nil {
		return FixingsOut{}, err
	}
	if err := in.inWall(&out); err != nil {
		return FixingsOut{}, err
	}
	return out, nil
}

// carried sets out a ledger's anchors from the strength on the packet.
func (in FixingsIn) carried(r Rule) (FixingsOut, error) {
	kind, err := need("resistance_kind", in.ResistanceKind)
	if err != nil {
		return FixingsOut{}, err
	}
	span, err := need("joist_span_mm", in.JoistSpanMM)
	if err != nil {
		return FixingsOut{}, err
	}
	dead, err := need("dead_kn_m2", in.DeadKNM2)
	if err != nil {
		return FixingsOut{}, err
	}
	thick, err := need("timber_b_mm", in.TimberBMM)
	if err != nil {
		return FixingsOut{}, err
	}
	below := in.AnchorAboveMM
	if below == nil {
		h, err := need("timber_h_mm", in.TimberHMM)
		if err != nil {
			return FixingsOut{}, err
		}
		half := h / 2
		below = &half
	}
	res, err := LedgerAnchors(LedgerIn{
		Run: unit.Length(*in.RunMM), Span: unit.Length(span), Rule: r, Kind: Kind(kind),
		Dead:      unit.AreaLoad(dead) * unit.KilonewtonPerM2,
		Imposed:   unit.AreaLoad(or(in.ImposedKNM2, usualImposed)) * unit.KilonewtonPerM2,
		Point:     unit.Force(or(in.PointKN, usualPoint) * 1000),
		Uplift:    unit.Force(or(in.WindUpliftKN, 0) * 1000),
		Thickness: unit.Length(thick), Below: unit.Length(*below),
		Shear: unit.Force(*in.ShearKN * 1000), Pull: unit.Force(or(in.PullKN, 0) * 1000),
		Least: unit.Length(math.Max(or(in.LeastMM, 100), 4*or(in.AnchorDMM, 0))),
	})
	if err != nil {
		return FixingsOut{}, err
	}
	out := rowOut(res.Row)
	out.ShearKN, out.PullKN, out.GovernedBy = kn(res.Shear), kn(res.Pull), res.Governs
	out.judge(res.Utilisation)
	if !res.PullChecked {
		out.note(NoPull)
	}
	if in.WindUpliftKN == nil {
		out.note(NoWind)
	}
	return out, nil
}

// seat says how the anchor sits in its timber.
func (in FixingsIn) seat(out *FixingsOut) error {
	if in.TimberHMM != nil && in.AnchorDMM != nil {
		below := or(in.AnchorAboveMM, *in.TimberHMM/2)
		if *in.TimberHMM-below < 4**in.AnchorDMM || below < 3**in.AnchorDMM {
			out.note(ShallowTimber)
		}
	}
	if in.TimberBMM == nil || in.AnchorDMM == nil || in.AnchorLenMM == nil || in.MaxFixtureMM == nil {
		return nil
	}
	fit, err := FitAnchor(Packet{
		Diameter: unit.Length(*in.AnchorDMM), Length: unit.Length(*in.AnchorLenMM),
		MaxFixture: unit.Length(*in.MaxFixtureMM), Embedment: unit.Length(or(in.EmbedmentMM, usualEmbedment)),
	}, unit.Length(*in.TimberBMM), unit.Length(or(in.PackerMM, 0)))
	if err != nil {
		return err
	}
	out.SinkMM, out.LeftMM, out.NeededLengthMM = mm(fit.Sink), mm(fit.Left), mm(fit.Length)
	if fit.Sink > 0 {
		out.note(Counterbore)
	}
	if !fit.LongOK {
		out.note(LongerAnchor)
	}
	return nil
}

// usualEmbedment is taken when the packet is silent.
//
// Source: common practice, no source: resin anchors in brick.
const usualEmbedment = 70.0 // mm

// inWall says what the wall asks of the holes.
func (in FixingsIn) inWall(out *FixingsOut) error {
	embed := or(in.EmbedmentMM, usualEmbedment)
	if in.WallMM != nil && or(in.Anchor, "") != "through bolt" {
		left, enough, err := BrickBehind(unit.Length(*in.WallMM), unit.Length(embed))
		if err != nil {
			return err
		}
		out.BrickBehindMM = mm(left)
		if !enough {
			out.note(ThinBehind)
		}
	}
	if in.EdgeMM != nil && *in.EdgeMM < or(in.MinEdgeMM, masonryEdge) {
		out.note(NearEdge)
	}
	if in.HoleDMM != nil && or(in.Anchor, "resin") == "resin" {
		v, err := ResinVolume(out.Count, unit.Length(*in.HoleDMM), unit.Length(embed))
		if err != nil {
			return inField(err, "embedment_mm", "hole_depth_mm")
		}
		ml := float64(v) / 1000
		out.ResinML = &ml
	}
	switch or(in.Wall, "") {
	case "solid brick":
		out.note(MiddleOfBrick)
	case "hollow brick", "block":
		out.note(ResinSleeve)
	case "", "stone", "timber":
	default:
		return &calc.DomainError{Op: topic, Field: "wall", Got: *in.Wall, Wanted: "solid brick, hollow brick, block, stone or timber"}
	}
	switch or(in.Anchor, "") {
	case "sleeve":
		out.note(NoExpansion)
	case "", "resin", "through bolt", "screw":
	default:
		return &calc.DomainError{Op: topic, Field: "anchor", Got: *in.Anchor, Wanted: "resin, sleeve, through bolt or screw"}
	}
	return nil
}

func (o *FixingsOut) judge(utilisation float64) {
	o.Utilisation, o.Status = &utilisation, calc.Grade(utilisation)
	if o.Status == calc.Over {
		o.note(TooWeak)
	}
}

func kn(f unit.Force) *float64 {
	v := f.In(unit.Kilonewton)
	return &v
}

func mm(l unit.Length) *float64 {
	v := float64(l)
	return &v
}

// inField names a domain error by the caller's key; with only given, just the
// errors of those fields.
func inField(err error, key string, only ...string) error {
	var d *calc.DomainError
	if !errors.As(err, &d) {
		return err
	}
	for _, o := range only {
		if o != d.Field {
			return err
		}
	}
	renamed := *d
	renamed.Field = key
	return &renamed
}

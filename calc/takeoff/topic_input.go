package takeoff

import (
	"chargehand/calc"
	"chargehand/calc/unit"
)

// input is the quantities as types. A list that is nil stays nil: not known.
func (in ListIn) input() (Input, error) {
	q := Input{
		PlateRuns: lengths(in.PlateRunsMM), DPCRuns: lengths(in.DPCRunsMM), AnchorRuns: lengths(in.AnchorRunsMM),
		Anchors: in.Anchors, NoResin: in.NoResin != nil && *in.NoResin,
		StrapRuns: lengths(in.StrapRunsMM), Straps: in.Straps, LateralRuns: lengths(in.LateralRunsMM),
		HangerEnds: in.HangerEnds, PlateEnds: in.PlateEnds, HangerHoles: in.HangerHoles,
		Joists: listed(in.Joists, ListPiece.piece), Noggins: listed(in.Noggins, ListPiece.piece),
		Strutting: listed(in.Strutting, ListPiece.piece), Firrings: listed(in.Firrings, ListPiece.piece),
		Boards: in.Boards, DeckScrews: in.DeckScrews, Battens: lengths(in.BattensMM), Fascias: lengths(in.FasciasMM),
		Upstands: listed(in.Upstands, func(u ListUpstand) Upstand {
			return Upstand{Run: unit.Length(u.RunMM), Height: unit.Length(u.HeightMM)}
		}),
		Patches: listed(in.Patches, func(p ListPatch) Patch {
			return Patch{Count: p.Count, Length: unit.Length(p.LengthMM), Width: unit.Length(p.WidthMM)}
		}),
		Pipes: in.Pipes, BarRuns: lengths(in.BarRunsMM),
		Trims: listed(in.Trims, func(t ListTrim) TrimEdge {
			return TrimEdge{Run: unit.Length(t.RunMM), Mitres: t.Mitres}
		}),
		TrimCorners: in.TrimCorners, TrimEnds: in.TrimEnds,
		GutterRuns: lengths(in.GutterRunsMM), Outlets: in.Outlets,
		LeadRuns: listed(in.Lead, ListLead.run), ChaseRuns: lengths(in.ChaseRunsMM),
		Batches: in.Batches, TowerDays: in.TowerDays,
	}
	if in.Corners != nil {
		q.Corners = *in.Corners
	}
	if err := in.measures(&q); err != nil {
		return Input{}, err
	}
	if err := in.packs(&q); err != nil {
		return Input{}, err
	}
	return q, nil
}

// measures fills in areas, sizes and rates. What is halved by silence (a sheet
// with a length and no width) is asked for.
func (in ListIn) measures(q *Input) error {
	set(&q.JoistStep, in.JoistStepMM)
	set(&q.CartridgeRun, in.CartridgeRunMM)
	set(&q.FieldRate, in.FieldRate)
	set(&q.ContactRate, in.ContactRate)
	q.DeckArea, q.FieldArea, q.ContactArea = area(in.DeckAreaM2), area(in.FieldM2), area(in.ContactM2)
	q.PatchEdge, q.Downpipe = length(in.PatchEdgeMM), length(in.DownpipeMM)
	if in.DeckEdge != nil {
		if q.DeckEdge = DeckEdge(*in.DeckEdge); q.DeckEdge != TongueAndGroove && q.DeckEdge != SquareEdge {
			return &calc.DomainError{Op: topic, Field: "deck_edge", Got: *in.DeckEdge, Wanted: "t&g or square"}
		}
	}
	if in.RubbishM3 != nil {
		v := unit.Volume(*in.RubbishM3) * unit.CubicMetre
		q.Rubbish = &v
	}
	var err error
	if q.Sheet, err = size("sheet", in.SheetLengthMM, in.SheetWidthMM); err != nil {
		return err
	}
	if q.Deck, err = size("deck", in.DeckLengthMM, in.DeckWidthMM); err != nil {
		return err
	}
	d, l, err := both("resin_hole_d_mm", in.ResinHoleDMM, "resin_hole_depth_mm", in.ResinDepthMM)
	if err == nil && d != nil {
		q.ResinHole = &Hole{Diameter: unit.Length(*d), Depth: unit.Length(*l)}
	}
	return err
}

// packs reads the builder's packs and prices, and refuses lines that do not exist.
func (in ListIn) packs(q *Input) error {
	for _, p := range in.Packs {
		key := Key(p.Line)
		if !key.known() {
			return &calc.DomainError{Op: topic, Field: "packs", Got: p.Line, Wanted: "the key of a line"}
		}
		if q.Packs == nil {
			q.Packs = map[Key][]PackSize{}
		}
		for _, s := range p.Sizes {
			own := PackSize{Size: s.Size}
			if s.Price != nil {
				price, err := money(*s.Price)
				if err != nil {
					return err
				}
				own.Price = &price
			}
			q.Packs[key] = append(q.Packs[key], own)
		}
	}
	for _, d := range in.Delivered {
		if !Key(d.Line).known() {
			return &calc.DomainError{Op: topic, Field: "delivered", Got: d.Line, Wanted: "the key of a line"}
		}
	}
	return nil
}

func (p ListPiece) piece() Piece { return Piece{Count: p.Count, Length: unit.Length(p.LengthMM)} }

// code4 is the mass of code 4 lead sheet.
//
// Source: density 11 340 kg/m³ by 1.80 mm (CIBSE Guide A Table 3.36; EN 12588).
const code4 = 20.4 // kg/m²

func (l ListLead) run() LeadRun {
	r := LeadRun{Run: unit.Length(l.RunMM), Width: unit.Length(l.WidthMM), Density: code4, Exposed: l.Exposed}
	set(&r.Density, l.KGM2)
	set(&r.Lap, l.LapMM)
	return r
}

func listed[A, B any](list []A, as func(A) B) []B {
	if list == nil {
		return nil
	}
	out := make([]B, len(list))
	for i, v := range list {
		out[i] = as(v)
	}
	return out
}

func set[T ~float64](to *T, v *float64) {
	if v != nil {
		*to = T(*v)
	}
}

func length(v *float64) *unit.Length {
	if v == nil {
		return nil
	}
	l := unit.Length(*v)
	return &l
}

func area(v *float64) *unit.Area {
	if v == nil {
		return nil
	}
	a := unit.Area(*v) * unit.SquareMetre
	return &a
}

func size(what string, l, w *float64) (*Size, error) {
	l, w, err := both(what+"_length_mm", l, what+"_width_mm", w)
	if err != nil || l == nil {
		return nil, err
	}
	return &Size{Length: unit.Length(*l), Width: unit.Length(*w)}, nil
}

// both wants two values or neither.
func both(aKey string, a *float64, bKey string, b *float64) (*float64, *float64, error) {
	switch {
	case a != nil && b == nil:
		return nil, nil, &calc.DomainError{Op: topic, Field: bKey, Got: nil, Wanted: "a value beside " + aKey}
	case a == nil && b != nil:
		return nil, nil, &calc.DomainError{Op: topic, Field: aKey, Got: nil, Wanted: "a value beside " + bKey}
	}
	return a, b, nil
}

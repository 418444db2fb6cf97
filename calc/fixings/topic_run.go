package fixings

import (
	"math"

	"chargehand/calc/unit"
)

// trimmed counts piece by piece; first and spacing are those of the longest.
func (in FixingsIn) trimmed() (FixingsOut, error) {
	if len(in.PiecesMM) == 0 {
		out, err := in.plain(Trim)
		if err == nil {
			out.note(OnePiece)
		}
		return out, err
	}
	r, err := in.rule(Trim)
	if err != nil {
		return FixingsOut{}, err
	}
	out := FixingsOut{Notes: []Note{}}
	longest := 0.0
	start := 0.0
	for _, p := range in.PiecesMM {
		row, err := r.Row(unit.Length(p))
		if err != nil {
			return FixingsOut{}, inField(err, "pieces_mm")
		}
		out.Count += row.Count
		if p > longest {
			longest, out.FirstMM, out.SpacingMM = p, float64(row.First), float64(row.Spacing)
		}
		for _, m := range row.Marks() {
			out.MarksMM = append(out.MarksMM, start+float64(m))
		}
		start += p
	}
	return out, nil
}

func (in FixingsIn) plugged() (FixingsOut, error) {
	out, err := in.plain(UpstandBoard)
	if err != nil {
		return out, err
	}
	_, out.Rows, err = UpstandPlugs(unit.Length(*in.RunMM), unit.Length(or(in.HeightMM, 150)))
	if err != nil {
		return FixingsOut{}, err
	}
	out.Count *= out.Rows
	return out, nil
}

// strapped sets out holding-down straps; with a wind calculation, by uplift too.
func (in FixingsIn) strapped() (FixingsOut, error) {
	row, err := in.run(Strap)
	if err != nil {
		return FixingsOut{}, err
	}
	if in.WindUpliftKN == nil {
		out := rowOut(row)
		out.Notes = append(out.Notes, NoWind, AtCorners, StrapJoist, NotOverLintel)
		return out, nil
	}
	r, err := in.rule(Strap)
	if err != nil {
		return FixingsOut{}, err
	}
	dead, err := need("dead_kn", in.DeadKN)
	if err != nil {
		return FixingsOut{}, err
	}
	h := HoldDownIn{
		Run: unit.Length(*in.RunMM), Rule: r,
		Wind:  unit.Force(*in.WindUpliftKN * 1000),
		Dead:  unit.Force(dead * 1000),
		Strap: unit.Force(or(in.StrapKN, 0) * 1000),
	}
	if in.StrapLenMM != nil && in.WallMM != nil {
		h.Reach, h.Leaf = unit.Length(*in.StrapLenMM), unit.Length(*in.WallMM)
		h.Wall = unit.Density(or(in.WallKGM3, usualWall))
	}
	res, err := HoldDown(h)
	if err != nil {
		return FixingsOut{}, err
	}
	out := rowOut(res.Row)
	out.GovernedBy = "spacing"
	if res.ByUplift {
		out.GovernedBy = "uplift"
	}
	out.NetUpliftKN, out.StrapKN = kn(res.Net), kn(res.Each)
	if h.Strap == 0 {
		out.note(NoCapacity)
	} else {
		out.judge(res.Utilisation)
	}
	if h.Reach == 0 {
		out.note(WallUnchecked)
	} else {
		out.WallShare = &res.WallShare
		if res.WallShare > 1 {
			out.note(WallTooLight)
		}
	}
	out.Notes = append(out.Notes, AtCorners, StrapJoist, NotOverLintel)
	if err := in.strapNails(&out, res.Each); err != nil {
		return FixingsOut{}, err
	}
	return out, nil
}

// usualWall is a cautious density of brickwork, taken where weight helps.
//
// Source: from memory.
const usualWall = 1900.0 // kg/m³

// Short-term strength of a nail: the load-duration factor of a short gust is
// higher, 0.9 is the cautious reading; 1.3 for the connection.
//
// Source: EN 1995-1-1 Tables 3.1 and 2.3.
const (
	nailDuration = 0.9
	nailMaterial = 1.3
)

// strapThick is the thickness of a holding-down strap, 30 x 2.5 mm.
//
// Source: NHBC Standards 7.1-M1 (2006).
const strapThick = 2.5 // mm

// strapNails counts the nails from a strap into the joist, when they are told.
func (in FixingsIn) strapNails(out *FixingsOut, each unit.Force) error {
	if in.NailDMM == nil || in.NailLenMM == nil || in.TimberKGM3 == nil {
		return nil
	}
	deep := *in.NailLenMM - strapThick
	if in.JoistMM != nil {
		deep = math.Min(deep, *in.JoistMM) // what comes out at the far side holds nothing
	}
	r, err := StrapNail(unit.Length(*in.NailDMM), unit.Length(deep), unit.Density(*in.TimberKGM3))
	if err != nil {
		return inField(inField(inField(err, "nail_length_mm", "penetration_mm"), "nail_d_mm", "d_mm"), "timber_kg_m3", "point_kg_m3")
	}
	n, err := Needed(each, unit.Force(float64(r)*nailDuration/nailMaterial))
	if err != nil {
		return err
	}
	out.Nails = &n
	return nil
}

func (in FixingsIn) restrained() (FixingsOut, error) {
	if in.BearingMM != nil {
		apart, err := need("joist_spacing_mm", in.JoistSpacingMM)
		if err != nil {
			return FixingsOut{}, err
		}
		holds, err := JoistsRestrain(unit.Length(*in.BearingMM), unit.Length(apart))
		if err != nil {
			return FixingsOut{}, err
		}
		if holds {
			return FixingsOut{Notes: []Note{JoistsHold}}, nil
		}
	}
	row, err := in.run(LateralStrap)
	if err != nil {
		return FixingsOut{}, err
	}
	out := rowOut(row)
	out.note(Screw50x10)
	if in.JoistSpacingMM == nil && in.JoistMM == nil && in.JoistHMM == nil {
		return out, nil
	}
	apart, err := need("joist_spacing_mm", in.JoistSpacingMM)
	if err != nil {
		return FixingsOut{}, err
	}
	thick, err := need("joist_mm", in.JoistMM)
	if err != nil {
		return FixingsOut{}, err
	}
	depth, err := need("joist_h_mm", in.JoistHMM)
	if err != nil {
		return FixingsOut{}, err
	}
	r, err := in.rule(LateralStrap)
	if err != nil {
		return FixingsOut{}, err
	}
	res, err := Restraint(RestraintIn{Run: unit.Length(*in.RunMM), Gap: unit.Length(or(in.GapMM, 0)),
		Apart: unit.Length(apart), Thick: unit.Length(thick), Depth: unit.Length(depth), Rule: r})
	if err != nil {
		return FixingsOut{}, err
	}
	out.StrapLengthMM, out.DepthMM = mm(res.StrapLength), mm(res.NogginDepth)
	out.Screws, out.Packers = res.Fixings, res.Packers
	out.Pieces = []FixingsPieces{{Count: res.Noggins, LengthMM: float64(res.NogginLength)}}
	return out, nil
}

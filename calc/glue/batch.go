package glue

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// BatchID names the size of a batch.
const BatchID = "glue.batch/1"

// Rate is how fast an area is rolled or laid, in m² a minute.
type Rate float64

const SquareMetrePerMinute Rate = 1

// Direction says how a strip is rolled; it is always laid from the fold outward.
type Direction string

const (
	FoldOutward Direction = "fold_outward" // roll from the fold, get off at the outer edge, lay from the fold
	OuterInward Direction = "outer_inward" // roll from the outer edge back to the fold, then lay outward
)

// BatchInput is what a batch depends on. Zero rates and turn mean the defaults.
type BatchInput struct {
	Window  unit.Minutes // usable time of the film, as Window returns it
	Factor  float64      // share of it to plan with; 0 = FirstBatch
	Hands   int          // 1 to 3
	Rollers int          // how many roll; 0 = one, or two of three hands
	WayOff  bool         // there is a way off at the outer edge of this batch
	Roll    Rate         // of all rollers together, once learned
	Lay     Rate         // once learned
	Turn    unit.Minutes // from the last spread to the first laid; 0 = default
	Field   unit.Area    // to be bonded in all; 0 = not asked
	Fold    unit.Length  // length of the fold line; 0 = not asked
}

// Shares of the window to plan with.
//
// Source: common practice, no source.
const (
	FirstBatch   = 0.6  // first batch on a tin not tried here, or weather that asks for care
	AfterGood    = 0.7  // after one good batch
	AfterBracket = 0.85 // once the job factor is the cautious end of a bracketed test square of the day
)

// BatchPlan is how much to spread at once, and how.
type BatchPlan struct {
	Area      unit.Area   // the most that can be spread; 0 when NoGo says why
	Strip     unit.Length // its width, square to the fold; 0 when no fold was given
	Batches   int         // for the whole field; 0 when no field was given
	Each      unit.Area   // of equal batches
	EachStrip unit.Length // of equal batches
	Direction Direction
	Usable    unit.Minutes // the window times the factor
	Oldest    unit.Minutes // age of the oldest film when the greatest batch is down
	NoGo      NoGo
}

// NoGo says why nothing should be spread now.
type NoGo string

const (
	AreaSmall   NoGo = "area_small"   // under 1 m²
	StripNarrow NoGo = "strip_narrow" // under 0.4 m
)

// Rates, turn and least sizes to plan with until the job has its own.
//
// Source: common practice, no source.
const (
	rollRate  Rate         = 1.0 // m²/min, each roller
	layTwo    Rate         = 1.5 // m²/min, two hands or more
	layAlone  Rate         = 1.2 // m²/min
	turnTwo   unit.Minutes = 2
	turnAlone unit.Minutes = 1.5

	leastArea  unit.Area   = 1 * unit.SquareMetre
	leastStrip unit.Length = 400 * unit.Millimetre
)

// Batch returns how much may be spread at once.
//
//	U = f·W
//	from the fold outward, way off at the outer edge: A = min(r_s, r_l)·(U - t_d)
//	from the outer edge inward, one hand or no way off: A = (U - t_d)/(1/r_s + 1/r_l)
//	strip = A / fold
//
// The oldest film is the first strip when rolling is the slower, else the last;
// inward, the outer edge is oldest and covered last.
//
// Source: our own model: rolled at r_s, turned in t_d, laid at r_l, and the age
// of the oldest film set to U. Rates from common practice, no source.
// Units: in and out by type; rates m²/min.
// Shape: grows with the window, the factor, the rates; falls with the turn;
// without a way off never more than with one.
// Domain: window 0..480 min, factor 0.1..1, 1..3 hands, rollers 1..hands, rates
// 0.1..6 m²/min, turn 0.1..30 min, field 0..1000 m², fold 0.5..30 m.
// Ignores: the sheet's own stiffness, mixing and opening tins.
// Errors: DomainError only. A window too short to work in is not an error.
func Batch(in BatchInput) (BatchPlan, error) {
	in, err := in.checked()
	if err != nil {
		return BatchPlan{}, err
	}
	usable := in.Factor * float64(in.Window) // min
	rs, rl := float64(in.Roll), float64(in.Lay)
	perMinute := 1 / (1/rs + 1/rl) // m² for each minute of U - t_d
	plan := BatchPlan{Direction: OuterInward, Usable: unit.Minutes(usable)}
	if in.Hands > 1 && in.WayOff {
		plan.Direction = FoldOutward
		perMinute = math.Min(rs, rl)
	}
	area := unit.Area(perMinute*(usable-float64(in.Turn))) * unit.SquareMetre
	if area < leastArea {
		plan.NoGo = AreaSmall
		return plan, nil
	}
	if in.Fold != 0 {
		plan.Strip = unit.Length(float64(area) / float64(in.Fold))
		if plan.Strip < leastStrip {
			plan.Strip, plan.NoGo = 0, StripNarrow
			return plan, nil
		}
	}
	plan.Area = area
	plan.Oldest = plan.Usable
	if in.Field != 0 {
		// One part of the sheet lies still and holds the line while the other is
		// folded back, so a field takes two batches at least.
		plan.Batches = max(2, int(math.Ceil(float64(in.Field)/float64(area))))
		plan.Each = in.Field / unit.Area(plan.Batches)
		if in.Fold != 0 {
			plan.EachStrip = unit.Length(float64(plan.Each) / float64(in.Fold))
		}
	}
	return plan, nil
}

// checked fills in defaults and refuses the impossible.
func (in BatchInput) checked() (BatchInput, error) {
	const op = "glue.batch"
	if err := calc.Outside(op, "hands", float64(in.Hands), 1, 3, "people"); err != nil {
		return in, err
	}
	if in.Rollers == 0 {
		in.Rollers = max(1, in.Hands-1)
	}
	if err := calc.Outside(op, "rollers", float64(in.Rollers), 1, float64(in.Hands), "rollers, no more than hands"); err != nil {
		return in, err
	}
	if in.Factor == 0 {
		in.Factor = FirstBatch
	}
	if in.Roll == 0 {
		in.Roll = rollRate * Rate(in.Rollers)
	}
	if in.Lay == 0 {
		in.Lay = layTwo
		if in.Hands == 1 {
			in.Lay = layAlone
		}
	}
	if in.Turn == 0 {
		in.Turn = turnTwo
		if in.Hands == 1 {
			in.Turn = turnAlone
		}
	}
	for _, c := range []struct {
		field       string
		v, min, max float64
		unit        string
	}{
		{"window_min", float64(in.Window), 0, 480, "min"},
		{"factor", in.Factor, 0.1, 1, ""},
		{"roll_m2_min", float64(in.Roll), 0.1, 6, "m²/min"},
		{"lay_m2_min", float64(in.Lay), 0.1, 6, "m²/min"},
		{"turn_min", float64(in.Turn), 0.1, 30, "min"},
		{"field_m2", in.Field.In(unit.SquareMetre), 0, 1000, "m²"},
	} {
		if err := calc.Outside(op, c.field, c.v, c.min, c.max, c.unit); err != nil {
			return in, err
		}
	}
	if in.Fold == 0 {
		return in, nil
	}
	return in, calc.Outside(op, "fold_mm", float64(in.Fold), 500, 30000, "mm")
}

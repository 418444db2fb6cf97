package glue

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

// CalibrateID names the reading of test squares.
const CalibrateID = "glue.calibrate/1"

// Square is one look at a film that was left to itself: a test square half a
// metre wide, or a batch as it happened.
type Square struct {
	Model     unit.Minutes // the smaller rule for its conditions: min(ByPocket, ByEvaporation)
	LastWet   unit.Minutes // age at which it was last seen white and wet; 0 = not seen
	FirstGone unit.Minutes // age at which it was first seen clear or skinned; 0 = not seen
}

// Calibration is what the squares of one tin, substrate and method say together.
type Calibration struct {
	Factor    float64 // to plan with: the cautious end of the bracket; 1 where there is none
	Low, High float64 // the factor lies between; 0 = no such bound seen
	Bracketed bool    // both ends were seen and agree: the label's lower number may be left
	Likely    float64 // geometric mean of the bracket, told beside it and never planned with; 0 without two that overlap
	Conflict  bool    // the squares exclude one another: the shortest-lived was taken
	AtCeiling bool    // the cautious end is over 2 and 2 is planned with
}

// The factors that a test square may give. Over the ceiling the ceiling is
// planned with, which is the shorter; under the floor something is wrong with
// tin, board or thermometer, and a floor would plan for longer than the film
// was seen wet: nothing is planned.
//
// Source: common practice, no source.
const (
	leastFactor = 0.3
	mostFactor  = 2.0
)

// Calibrate returns the job factor that test squares give.
//
//	k between last seen wet / model and first seen gone / model
//
// Several squares are intersected, never averaged. The cautious end is planned with.
// Seen gone and never seen wet gives no cautious end: the factor is then the upper
// bound, at most 1, and not bracketed. Seen wet and never gone leaves it at 1.
//
// Source: common practice, no source.
// Units: in by type, out factors.
// Shape: scaling model and times together changes nothing; another square never
// widens the bracket.
// Domain: model and times 0.1..480 min, last wet before first gone, at least one
// of them seen, the cautious end not under 0.3.
// Ignores: which tin, board and day: the caller keeps those apart.
// Errors: DomainError only.
func Calibrate(squares ...Square) (Calibration, error) {
	const op = "glue.calibrate"
	if len(squares) == 0 {
		return Calibration{}, &calc.DomainError{Op: op, Field: "squares", Got: 0, Wanted: "at least one test square"}
	}
	low, high, brackets := 0.0, math.Inf(1), 0
	shortest := bounds{high: math.Inf(1)}
	for _, s := range squares {
		b, err := s.bounds(op)
		if err != nil {
			return Calibration{}, err
		}
		low, high = math.Max(low, b.low), math.Min(high, b.high)
		if b.low > 0 && !math.IsInf(b.high, 1) {
			brackets++
		}
		if b.high < shortest.high {
			shortest = b
		}
	}
	c := Calibration{Factor: 1, Conflict: low >= high}
	if c.Conflict {
		low, high = shortest.low, shortest.high
	}
	c.Low = low
	if !math.IsInf(high, 1) {
		c.High = high
	}
	switch {
	case c.Low > 0 && c.High > 0:
		c.Bracketed, c.Factor = !c.Conflict, c.Low
		if brackets > 1 && c.Bracketed {
			c.Likely = math.Sqrt(c.Low * c.High)
		}
	case c.High > 0:
		c.Factor = math.Min(1, c.High)
	}
	if c.Factor > mostFactor {
		c.Factor, c.AtCeiling = mostFactor, true
	}
	if c.Factor < leastFactor {
		return Calibration{}, &calc.DomainError{Op: op, Field: "job_factor", Got: c.Factor,
			Wanted: "at least 0.3: a film so much shorter-lived than the model points to tin, board or thermometer"}
	}
	return c, nil
}

// bounds of the factor from one square; 0 and +Inf where an end was not seen.
type bounds struct{ low, high float64 }

func (s Square) bounds(op string) (bounds, error) {
	if err := calc.Outside(op, "model_min", float64(s.Model), 0.1, 480, "min"); err != nil {
		return bounds{}, err
	}
	if s.LastWet == 0 && s.FirstGone == 0 {
		return bounds{}, &calc.DomainError{Op: op, Field: "last_wet_min", Got: 0, Wanted: "last seen wet, first seen gone, or both"}
	}
	b := bounds{high: math.Inf(1)}
	if s.LastWet != 0 {
		if err := calc.Outside(op, "last_wet_min", float64(s.LastWet), 0.1, 480, "min"); err != nil {
			return bounds{}, err
		}
		b.low = float64(s.LastWet) / float64(s.Model)
	}
	if s.FirstGone != 0 {
		if err := calc.Outside(op, "first_gone_min", float64(s.FirstGone), 0.1, 480, "min"); err != nil {
			return bounds{}, err
		}
		b.high = float64(s.FirstGone) / float64(s.Model)
	}
	if b.low >= b.high {
		return bounds{}, &calc.DomainError{Op: op, Field: "first_gone_min", Got: float64(s.FirstGone), Wanted: "later than last_wet_min"}
	}
	return b, nil
}

// Share returns the share of a window to plan a batch with.
//
//	0.6 in weather that asks for care, and until a batch has gone well;
//	0.85 after a bracketed test square of the day; else 0.7 after a good batch
//
// Source: common practice, no source.
// Domain: good batches 0 or more; a negative count is misuse and counts as none.
func Share(care, squareToday bool, goodBatches int) float64 {
	switch {
	case care:
		return FirstBatch
	case squareToday:
		return AfterBracket
	case goodBatches > 0:
		return AfterGood
	}
	return FirstBatch
}

// DryFactor returns how much longer than the model a face of contact adhesive
// took to pass the knuckle; sooner than the model teaches nothing.
//
//	k = max(1, first seen dry / model)
//
// Source: common practice, no source.
// Domain: both 0.1..480 min, k at most 5.
// Errors: DomainError only.
func DryFactor(model, seen unit.Minutes) (float64, error) {
	k, err := ratio("glue.dry_factor", model, seen)
	if err != nil {
		return 0, err
	}
	return math.Max(1, k), calc.Outside("glue.dry_factor", "dry_factor", k, 0, 5, "")
}

// LifeFactor returns how much shorter than the model a coated face still
// grabbed; longer than the model teaches nothing.
//
//	k = min(1, last seen grabbing / model)
//
// Source: common practice, no source.
// Domain: both 0.1..480 min, k at least 0.2.
// Errors: DomainError only.
func LifeFactor(model, seen unit.Minutes) (float64, error) {
	k, err := ratio("glue.life_factor", model, seen)
	if err != nil {
		return 0, err
	}
	return math.Min(1, k), calc.Outside("glue.life_factor", "max_factor", k, 0.2, math.MaxFloat64, "")
}

func ratio(op string, model, seen unit.Minutes) (float64, error) {
	if err := calc.Outside(op, "model_min", float64(model), 0.1, 480, "min"); err != nil {
		return 0, err
	}
	if err := calc.Outside(op, "seen_min", float64(seen), 0.1, 480, "min"); err != nil {
		return 0, err
	}
	return float64(seen) / float64(model), nil
}

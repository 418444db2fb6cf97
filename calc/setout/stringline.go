package setout

import (
	"math"

	"chargehand/calc/unit"
)

// offLine returns how far each height stands off the string line that
// [CheckLevels] describes. Every pair of joists is tried: a hundred joists are
// half a million comparisons.
func offLine(at, heights []unit.Length) []unit.Length {
	best := stringLine{out: math.MaxInt}
	for i := range at {
		for j := i + 1; j < len(at); j++ {
			if l := lineThrough(at, heights, i, j); l.better(best) {
				best = l
			}
		}
	}
	return best.off(at, heights)
}

// stringLine is a line across the joists and how the joists stand to it.
type stringLine struct {
	x, h, slope float64
	out, high   int     // joists out of tolerance; those of them above
	correct     float64 // sum of what is out of tolerance, mm
}

func lineThrough(at, heights []unit.Length, i, j int) stringLine {
	l := stringLine{
		x: float64(at[i]), h: float64(heights[i]),
		slope: float64(heights[j]-heights[i]) / float64(at[j]-at[i]),
	}
	for _, off := range l.off(at, heights) {
		if size := math.Abs(float64(off)); size > float64(StringTolerance) {
			l.out++
			l.correct += size
			if off > 0 {
				l.high++
			}
		}
	}
	return l
}

func (l stringLine) off(at, heights []unit.Length) []unit.Length {
	out := make([]unit.Length, len(at))
	for k := range at {
		out[k] = heights[k] - unit.Length(l.h+l.slope*(float64(at[k])-l.x))
	}
	return out
}

func (l stringLine) better(m stringLine) bool {
	if l.out != m.out {
		return l.out < m.out
	}
	if l.high != m.high {
		return l.high < m.high
	}
	return l.correct < m.correct
}

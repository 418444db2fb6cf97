package weather

import "slices"

// grader collects reasons and keeps the worst verdict.
type grader struct {
	verdict  Verdict
	reasons  []Reason
	unjudged []Key
}

func (g *grader) add(r Reason) {
	g.verdict = worse(g.verdict, r.Verdict)
	g.reasons = append(g.reasons, r)
}

// below grades a value that is worse the lower it is. label, if known, is a
// limit on the tin: under it is a stop, where it is stricter than ours.
func (g *grader) below(k Key, v float64, r row, label *float64) {
	switch {
	case label != nil && *label > r.stop && v < *label:
		g.add(Reason{Key: k, Verdict: Stop, Value: v, Limit: *label, Label: true})
	case v < r.stop:
		g.add(Reason{Key: k, Verdict: Stop, Value: v, Limit: r.stop})
	case v < r.care:
		g.add(Reason{Key: k, Verdict: Care, Value: v, Limit: r.care})
	}
}

// above is below turned over.
func (g *grader) above(k Key, v float64, r row, label *float64) {
	switch {
	case label != nil && *label < r.stop && v > *label:
		g.add(Reason{Key: k, Verdict: Stop, Value: v, Limit: *label, Label: true})
	case v > r.stop:
		g.add(Reason{Key: k, Verdict: Stop, Value: v, Limit: r.stop})
	case v > r.care:
		g.add(Reason{Key: k, Verdict: Care, Value: v, Limit: r.care})
	}
}

func (g *grader) belowIfKnown(k Key, v *float64, r row) {
	if v == nil {
		g.unjudged = append(g.unjudged, k)
		return
	}
	g.below(k, *v, r, nil)
}

// sorted puts stops before cares and keeps the order of the table within each.
func (g *grader) sorted() []Reason {
	slices.SortStableFunc(g.reasons, func(a, b Reason) int {
		switch {
		case a.Verdict == b.Verdict:
			return 0
		case a.Verdict == Stop:
			return -1
		}
		return 1
	})
	return g.reasons
}

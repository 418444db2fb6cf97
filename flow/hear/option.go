package hear

import "slices"

// PickOption reads text as the reply to an Ambiguity that was shown with its
// options numbered from 1: a number of the list, a unit ("cm"), yes or no where
// there was a single option, or a fresh answer to the question itself.
func PickOption(text string, a Ambiguity, w Want) Heard {
	said, why := clean(text, MaxLine, false)
	if why != "" || len(a.Options) == 0 {
		return Answer(text, w)
	}
	take := func(o Option) Heard {
		h := Heard{Values: slices.Clone(o.Values)}
		for i, v := range h.Values {
			switch w.part(i).grade(v) {
			case outside:
				r := w.refused(text, RefusedRange)
				r.Refused.Part, r.Refused.Got = i, &h.Values[i]
				return r
			case odd:
				h.Soft = true
			}
		}
		return h
	}
	l := listener{w: w, said: said, t: tongueOf(w.Lang), toks: scan(said)}
	if n, ok := l.place(); ok {
		if n < 0 {
			n = len(a.Options)
		}
		if n >= 1 && n <= len(a.Options) {
			return take(a.Options[n-1])
		}
		if n > len(a.Options) && n <= mostOptions {
			return w.refused(text, RefusedChoice) // a tap beside the list, not 3 metres
		}
	}
	if len(a.Options) == 1 {
		s := Want{Kind: YesNo}.agreed(l.t, l.toks, "")
		if l.takesOffer() {
			return take(a.Options[0])
		}
		if s.refused == "" && s.why == "" {
			if s.cands[0].v.Key == Yes {
				return take(a.Options[0])
			}
			if w.Kind != YesNo {
				return w.refused(text, RefusedNumber)
			}
		}
	}
	if hit, ok := l.byUnit(a); ok {
		return take(hit)
	}
	return Answer(text, w)
}

// byUnit finds the only option read in the unit that text names.
func (l *listener) byUnit(a Ambiguity) (Option, bool) {
	p := lineParser{numberParser: numberParser{toks: l.toks, t: l.t}}
	p.dims = func(n int) dimension { return l.w.part(n).Kind.dimension() }
	ids, next := p.unit(0, 0)
	if ids == nil || next != len(l.toks) {
		return Option{}, false
	}
	var hit []Option
	for _, o := range a.Options {
		if slices.ContainsFunc(o.Values, func(v Value) bool { return slices.Contains(ids, v.Unit) }) {
			hit = append(hit, o)
		}
	}
	if len(hit) != 1 {
		return Option{}, false
	}
	return hit[0], true
}

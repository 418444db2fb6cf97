package flow

import (
	"math"

	"chargehand/calc/plan"
	"chargehand/calc/setout"
	"chargehand/calc/unit"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// Joists are taped one by one once they stand, in one line: where a board end
// would miss, the ways to make it bear are offered, the cheapest first.

const (
	stepTaped = "joist-centres"
	stepCure  = "joist-cure"
)

func oldJoists(v View) bool { return v.Pick("joists-stay") == "joists-old" }
func newJoists(v View) bool { return !oldJoists(v) }

// rectangular says whether the outline is one rectangle.
func (v View) rectangular() bool {
	o := v.Plan().Outline
	return o == nil || len(o.Edges) == 4
}

// onePart says whether the deck is laid in one part, so that its joists can be
// taped from one end.
func onePart(v View) bool {
	j := v.Plan().Joists
	return oldJoists(v) || j == nil || (j.Parts == nil && j.Skewed == nil && v.rectangular())
}

func lengthsOf(val event.Value) []unit.Length {
	var out []unit.Length
	for _, n := range val.Nums {
		out = append(out, unit.Length(n))
	}
	return out
}

// tellOldSpan judges joists that stand already, once it is known how far apart.
func tellOldSpan(v View) *event.Told {
	if newJoists(v) {
		return nil
	}
	return tellSpan(v)
}

// offerMarks takes the joists to stand on their marks.
func offerMarks(v View) (event.Value, bool) {
	if j := v.Plan().Joists; j != nil && newJoists(v) {
		return lengths(j.Marks), true
	}
	return event.Value{}, false
}

// doubtTaped refuses a line that can't be joists in a row, and asks about one
// that misses some.
func doubtTaped(v View, val event.Value) *Doubt {
	long, _ := v.size()
	b := float64(or47(v))
	for i, n := range val.Nums {
		if i > 0 && n-val.Nums[i-1] < b {
			return &Doubt{Key: "refuse.taped-order", Args: args("first", event.Of("mm", val.Nums[i-1]), "second", event.Of("mm", n)), Refuse: true}
		}
	}
	last := val.Nums[len(val.Nums)-1]
	if long > 0 && last > float64(long) {
		return &Doubt{Key: "refuse.taped-long", Args: args("last", event.Of("mm", last), "length", length(long)), Refuse: true}
	}
	if j := v.Plan().Joists; j != nil && newJoists(v) && len(val.Nums) != j.Count {
		return &Doubt{Key: "doubt.taped-count", Args: args("got", whole(len(val.Nums)), "want", whole(j.Count))}
	}
	s := v.with(stepTaped, val).Plan().Standing
	switch {
	case s == nil:
	case len(s.Missed) > 0 && len(s.Options) == 0:
		return &Doubt{Key: "doubt.taped-no-way", Args: args("joint", tenths(float64(s.Missed[0].Joint)))}
	case len(s.Wide) > 0 && len(s.Missed) == 0: // otherwise it is told with the ways
		w := s.Wide[0]
		return &Doubt{Key: "told.wide-bay", Args: args("joist", whole(w.From+1), "bay", length(w.Spacing), "over", length(up(w.Over)))}
	}
	return nil
}

// or47 is the joist's thickness, the usual one until it is told.
func or47(v View) unit.Length {
	if b := Inputs(v.S).JoistB; b != nil {
		return *b
	}
	return 47 * unit.Millimetre
}

// cureWant offers the ways that were found, the cheapest first.
func cureWant(v View) hear.Want {
	keys := []string{"cure-module"}
	if s := v.Plan().Standing; s != nil && len(s.Options) > 0 {
		keys = nil
		for _, o := range s.Options {
			keys = append(keys, "cure-"+plan.Cure(o.Way))
		}
	}
	return choices(keys)
}

func offerCure(v View) (event.Value, bool) {
	return event.Word("pick", cureWant(v).Choices[0].Key), true
}

// cured does what a way brings: joists that are moved are taped again.
func (t *turn) cured(val event.Value) {
	if val.Text == "cure-"+plan.Cure(setout.Rearrange) {
		t.emit(event.Reopened{Steps: []string{stepTaped}, Because: stepCure})
	}
}

// tellTaped names the joints that miss, and what each way would take.
func tellTaped(v View) *event.Told {
	s := v.Plan().Standing
	if s == nil || len(s.Missed) == 0 {
		return nil
	}
	t := told("taped", v.Plan().Formulas("standing"))
	add := func(key string, pairs ...any) { t.Lines = append(t.Lines, line(key, pairs...)) }
	m := s.Missed[0]
	add("told.missed", "joint", tenths(float64(m.Joint)), "off", tenths(math.Abs(float64(m.Offset))), "joist", whole(m.Joist+1), "n", whole(len(s.Missed)))
	for _, o := range s.Options {
		boards, work := whole(o.Boards), event.Of("min", math.Ceil(float64(o.Work)))
		switch o.Way {
		case setout.AsTheyStand:
			add("told.way.stand", "boards", boards, "work", work)
		case setout.Rearrange:
			add("told.way.module", "n", whole(o.Moves), "new", whole(o.Joists), "boards", boards, "work", work)
		case setout.Sister:
			add("told.way.battens", "n", whole(len(o.Battens)), "boards", boards, "work", work)
		case setout.CutBoards:
			add("told.way.cut", "boards", boards, "work", work)
		case setout.Ladder:
			add("told.way.noggins", "n", whole(o.Noggins), "boards", boards, "work", work)
		}
	}
	for _, w := range s.Wide {
		add("told.wide-bay", "joist", whole(w.From+1), "bay", length(w.Spacing), "over", length(up(w.Over)))
	}
	return t
}

// tellCured says what the chosen way puts where.
func tellCured(v View) *event.Told {
	s := v.Plan().Standing
	if s == nil {
		return nil
	}
	var out []event.Line
	for _, o := range s.Options {
		if "cure-"+plan.Cure(o.Way) != v.Pick(stepCure) {
			continue
		}
		for _, b := range o.Battens {
			side := "told.batten.near"
			if b.Beyond {
				side = "told.batten.far"
			}
			out = append(out, line(side, "joist", whole(b.Joist+1), "length", length(up(b.Length))))
		}
		for _, b := range o.Bearers {
			out = append(out, line("told.bearer", "joint", length(b.Joint), "n", whole(b.Rows)))
		}
	}
	if len(out) == 0 {
		return nil
	}
	return told("cured", v.Plan().Formulas("standing"), out...)
}

// doubtJoistFalls looks at two falls, at the end joists; or at every joist's top,
// one number each under a string or two each below a level line.
func doubtJoistFalls(v View, val event.Value) *Doubt {
	if len(val.Nums) == 2 {
		return doubtEndFalls(v, val)
	}
	after := v.with("joist-falls", val).Plan()
	l := after.Levels
	if l == nil {
		n := 0
		if m, ok := v.Value(stepTaped); ok {
			n = len(m.Nums)
		} else if after.Joists != nil {
			n = len(after.Joists.Marks)
		}
		return &Doubt{Key: "refuse.levels", Args: args("got", whole(len(val.Nums)), "each", whole(n), "both", whole(2*n)), Refuse: true}
	}
	switch {
	case len(l.Low) > 0:
		return &Doubt{Key: "doubt.joist-low", Args: args("joist", whole(l.Low[0].Joist+1), "by", length(up(l.Low[0].By)))}
	case len(l.Ponds) > 0:
		return &Doubt{Key: "doubt.joist-pond", Args: args("joist", whole(l.Ponds[0].Joist+1), "depth", length(up(l.Ponds[0].Depth)))}
	case len(l.Flat) > 0:
		return &Doubt{Key: "doubt.joist-flat", Args: args("joist", whole(l.Flat[0]+1))}
	case len(l.High) > 0:
		return &Doubt{Key: "doubt.joist-high", Args: args("joist", whole(l.High[0]+1))}
	}
	return nil
}

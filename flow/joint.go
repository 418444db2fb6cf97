package flow

import (
	"fmt"
	"time"

	"chargehand/calc/geom"
	"chargehand/calc/glue"
	"chargehand/calc/plan"
	"chargehand/calc/unit"
	"chargehand/flow/event"
)

// Contact adhesive is pressed once, when both faces are touch-dry. The clock only
// prompts; the knuckle decides, face by face.

func contactName(n int) string { return fmt.Sprintf("contact/%d", n) }

// run returns the number of the contact run in hand, from 1, and its work.
func run(s State) (int, Work) {
	for n := 1; ; n++ {
		w, ok := s.Works[contactName(n)]
		if !ok || !w.Done("mated") {
			return n, w
		}
	}
}

var faces = []string{"wall", "rubber"}

func otherFace(face string) string {
	if face == "wall" {
		return "rubber"
	}
	return "wall"
}

// dry says whether a face has passed the knuckle since it was last coated.
func dry(w Work, face string) bool {
	return w.Done("dry-"+face) && !w.Marks["dry-"+face].Before(w.Marks["coated-"+face])
}

// coated says whether glue lies open on either face.
func coated(w Work) bool {
	return (w.Done("coated-wall") || w.Done("coated-rubber")) && !w.Done("mated")
}

// deadAt is when a coated face is planned to be too old to grab: four fifths of its
// life.
func deadAt(w Work, face string) time.Time {
	return w.Marks["coated-"+face].Add(after(w, "dead-coated-"+face) * 8 / 10)
}

func contactTaps(v View) []tap {
	n, w := run(v.S)
	name := contactName(n)
	var coat, test []tap
	order := faces
	if c := v.Plan().Contact; c != nil && c.First == "rubber" {
		order = []string{"rubber", "wall"} // the slower face first
	}
	bothDry := true
	for _, face := range order {
		rung, called := v.S.Rung[name+"/dead-"+face]
		old := called && w.Done("coated-"+face) && !rung.Before(deadAt(w, face))
		switch {
		case !w.Done("coated-" + face):
			coat = append(coat, tap{action: "coat-" + face, work: name, mark: "coated-" + face})
			bothDry = false
		case !dry(w, face):
			test = append(test, tap{action: "dry-" + face, work: name, mark: "dry-" + face})
			bothDry = false
			if old {
				coat = append(coat, tap{action: "coat-" + face, work: name, mark: "coated-" + face})
			}
		default: // a second coat, where the clock or the hand says so
			test = append(test, tap{action: "coat-" + face, work: name, mark: "coated-" + face, hidden: !old})
		}
	}
	taps := append(coat, test...)
	if bothDry {
		return append([]tap{{action: "mated", work: name, mark: "mated"}}, taps...)
	}
	if n > 1 && !coated(w) {
		all := tap{action: "all-pressed", work: "contact", mark: "down", ends: true}
		if c := v.Plan().Contact; c != nil && len(c.Runs) == 0 {
			return append([]tap{all}, taps...)
		}
		taps = append(taps, all)
	}
	return taps
}

// nextRun is the piece of edge that is to be coated next; nil where the runs are
// not known or all done.
func nextRun(v View) *glue.Run {
	if c := v.Plan().Contact; c != nil && len(c.Runs) > 0 {
		return &c.Runs[0]
	}
	return nil
}

// coatHas keeps the face's times, and where the run is, as coating begins.
func coatHas(v View, mark string) map[string]event.Value {
	c := v.Plan().Contact
	if c == nil {
		return nil
	}
	face := c.Wall
	if mark == "coated-rubber" {
		face = c.Rubber
	}
	has := map[string]event.Value{
		"ready-" + mark: event.Of("min", face.ReadyMin),
		"dead-" + mark:  event.Of("min", face.DeadMin),
	}
	if c.WaitMin > 1 {
		has["wait"] = event.Of("min", tenth(c.WaitMin))
		has["first"] = event.Word("text", c.First)
	}
	if r := nextRun(v); r != nil {
		has["edge"] = event.Of("count", float64(r.Edge+1))
		has["from"], has["to"] = event.Of("mm", round(r.From)), event.Of("mm", round(r.To))
	}
	return has
}

// pressedInto writes the runs that are done into the plan's inputs.
func pressedInto(in *plan.Inputs, s State) {
	for n := 1; ; n++ {
		w, ok := s.Works[contactName(n)]
		if !ok {
			return
		}
		if edge := w.Has["edge"]; w.Done("mated") && edge.Unit != "" {
			in.Pressed = append(in.Pressed, glue.Run{Edge: int(edge.Num()) - 1, From: unit.Length(w.Has["from"].Num()), To: unit.Length(w.Has["to"].Num())})
		}
	}
}

// hindersCoat refuses to open a contact tin in weather that ruins the joint, or
// where no joint would open.
func (t *turn) hindersCoat() *Doubt {
	c := t.view().Plan().Contact
	read := t.s.Settled[stepFaces]
	switch _, w := run(t.s); {
	case c == nil:
		return &Doubt{Key: "refuse.no-faces"}
	case coated(w): // glue lies open: what is begun is finished
		return nil
	case read.Answer() && t.in.When().Sub(read.At) > oldAir:
		return &Doubt{Key: "refuse.faces-old", Args: args("age", minutes(t.in.When().Sub(read.At)))}
	case c.Verdict == "stop":
		return &Doubt{Key: "refuse.contact-stop"}
	case c.Never || c.Run <= 0:
		return &Doubt{Key: "told.contact.never"}
	}
	return nil
}

// tooWet says which face keeps a joint from being pressed, and when to test it.
func (t *turn) tooWet() *Doubt {
	n, w := run(t.s)
	for _, face := range faces {
		if !w.Done("coated-" + face) {
			return &Doubt{Key: "refuse.mate-bare", Args: args("face", key("face."+face))}
		}
		if !dry(w, face) {
			at := nextKnuckle(w, face, t.s.Rung[contactName(n)+"/knuckle-"+face])
			return &Doubt{Key: "refuse.mate-wet", Args: args("face", key("face."+face), "test", moment(later(at, t.in.When())))}
		}
	}
	return &Doubt{Key: "refuse.tap"}
}

// nextKnuckle is when a face wants testing next: at 0.7 of its drying time, then at
// every 0.15 of it, up to its end.
func nextKnuckle(w Work, face string, rung time.Time) time.Time {
	begun := w.Marks["coated-"+face]
	prompts, err := glue.Prompts(unit.Minutes(w.Has["ready-coated-"+face].Num()), 40)
	if err != nil {
		return time.Time{}
	}
	for _, p := range prompts {
		at := begun.Add(time.Duration(float64(p) * float64(time.Minute))).Round(time.Second)
		if !at.Before(deadAt(w, face)) {
			return time.Time{}
		}
		if at.After(rung) {
			return at
		}
	}
	return time.Time{}
}

// edgeKind is what stands on an edge, counted from 1.
func (v View) edgeKind(n int) geom.Kind {
	kinds := v.edges()
	if n < 1 || n > len(kinds) {
		return ""
	}
	return geom.Kind(kinds[n-1])
}

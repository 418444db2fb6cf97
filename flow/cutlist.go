package flow

import (
	"slices"
	"strings"

	"chargehand/calc/deck"
	"chargehand/calc/plan"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
	"chargehand/flow/event"
)

// Cut lists are told as one saws them: so many bars or boards alike, each piece
// with the letter to write on it.

// lettered are pieces with their letters.
func lettered(letters []string, ls []unit.Length) event.Value {
	v := lengths(ls)
	v.Unit, v.Text = "pieces", strings.Join(letters, " ")
	return v
}

// tellBoards says how many boards the deck takes, and whether fewer would do. It is
// told apart from the list, which need not be told again when a search proves it.
func tellBoards(v View) *event.Told {
	d := v.Plan().Deck
	if d == nil {
		return nil
	}
	proof := "told.deck.open"
	switch {
	case d.Proven:
		proof = "told.deck.proven"
	case !d.Searched:
		proof = "told.deck.search"
	}
	return told(toldBoards, v.Plan().Formulas("deck"), line(proof, "n", whole(d.Boards), "bound", whole(d.Bound), "pieces", whole(d.Pieces)))
}

func tellDeck(v View) *event.Told {
	d := v.Plan().Deck
	if d == nil {
		return nil
	}
	t := told("deck", v.Plan().Formulas("deck"))
	for _, g := range d.Groups {
		t.Lines = append(t.Lines, sawLines(g)...)
	}
	for i, row := range d.Rows {
		if d.Parts > 1 && (i == 0 || d.Rows[i-1].Part != row.Part) {
			t.Lines = append(t.Lines, line("told.deck.part", "n", whole(row.Part+1)))
		}
		t.Lines = append(t.Lines, line("told.deck.row", "n", whole(i+1), "width", length(row.Width), "lengths", lettered(row.Letters, row.Lengths)))
	}
	t.Lines = append(t.Lines, stripLines(d)...)
	return t
}

// stripLines say where the upstand boards go.
func stripLines(d *plan.Deck) []event.Line {
	var out []event.Line
	for i, s := range d.Strips {
		out = append(out, line("told.deck.strip", "edge", event.Word("text", s.Label), "n", whole(s.Count), "letter", event.Word("text", stripLetter(d.Groups, i)),
			"length", length(s.Length), "height", length(s.Height)))
	}
	return out
}

// sawLines are the cuts of boards sawn alike: whole pieces in one line, then a
// line for each length to be ripped and its lanes.
func sawLines(g deck.Group) []event.Line {
	var letters []string
	var ls []unit.Length
	var ripped []deck.Section
	for _, sec := range g.Cuts.Sections {
		if len(sec.Lanes) == 1 && len(sec.Lanes[0].Parts) == 1 && sec.Length == sec.Lanes[0].Parts[0].Length {
			letters, ls = append(letters, sec.Lanes[0].Parts[0].Letter), append(ls, sec.Length)
			continue
		}
		ripped = append(ripped, sec)
	}
	n := whole(g.Times)
	var out []event.Line
	if len(ls) > 0 {
		out = append(out, line("told.saw", "n", n, "pieces", lettered(letters, ls)))
	}
	for i, sec := range ripped {
		if i == 0 && len(ls) == 0 {
			out = append(out, line("told.saw.rip", "n", n, "length", length(sec.Length)))
		} else {
			out = append(out, line("told.saw.rest", "length", length(sec.Length)))
		}
		out = append(out, laneLines(sec.Lanes)...)
	}
	return out
}

// laneLines are the rips of one length, rips alike as one line.
func laneLines(lanes []deck.Lane) []event.Line {
	var out []event.Line
	times := 1
	for i, ln := range lanes {
		var letters []string
		var ls []unit.Length
		for _, p := range ln.Parts {
			letters, ls = append(letters, p.Letter), append(ls, p.Length)
		}
		key, pieces := "told.saw.lane", lettered(letters, ls)
		if i+1 < len(lanes) && lanes[i+1].Width == ln.Width && sameParts(lanes[i+1].Parts, ln.Parts) {
			times++
			continue
		}
		if times > 1 {
			key = "told.saw.lanes"
		}
		out = append(out, line(key, "n", whole(times), "width", length(ln.Width), "pieces", pieces))
		times = 1
	}
	return out
}

func sameParts(a, b []deck.Part) bool {
	return slices.EqualFunc(a, b, func(p, q deck.Part) bool { return p.Letter == q.Letter })
}

// stripLetter is the letter of an upstand board.
func stripLetter(groups []deck.Group, strip int) string {
	for _, g := range groups {
		for _, sec := range g.Cuts.Sections {
			for _, ln := range sec.Lanes {
				for _, p := range ln.Parts {
					if p.Strip == strip {
						return p.Letter
					}
				}
			}
		}
	}
	return ""
}

func tellScrews(v View) *event.Told {
	d := v.Plan().Deck
	if d == nil {
		return nil
	}
	t := told("screws", v.Plan().Formulas("screws"), line("told.screws", "n", whole(d.Screws), "length", length(d.ScrewLength)))
	t.Lines = append(t.Lines, buyLines(v, takeoff.DeckScrews)...)
	return t
}

// buyLines say what is still to buy of some things.
func buyLines(v View, keys ...takeoff.Key) []event.Line {
	var out []event.Line
	for _, k := range keys {
		if o, ok := v.Plan().Order(k); ok && len(o.ToGet) > 0 {
			out = append(out, line("told.buy", "packs", packs(o.ToGet, o.Unit), "item", event.Word("key", item(k))))
		}
	}
	return out
}

// cutLines are what to buy of a line of timber or trim, and how it is sawn.
func cutLines(v View, k takeoff.Key) []event.Line {
	l, ok := v.Plan().Lengths[k]
	if !ok {
		return nil
	}
	out := buyLines(v, k)
	if l.Whole() {
		return out // whole lengths: there is nothing to saw
	}
	for _, g := range l.List.Groups() {
		var letters []string
		var ls []unit.Length
		for _, c := range g.Cuts {
			letters, ls = append(letters, c.Letter), append(ls, c.Length)
		}
		out = append(out, line("told.cut", "n", whole(g.Times), "stock", length(g.Length), "pieces", lettered(letters, ls)))
	}
	if !l.List.Proven {
		out = append(out, line("told.cut.open", "share", event.Of("pct", l.List.Gap*100)))
	}
	return out
}

// doubtBoards catches a deck that is said to be cut while boards are missing.
func doubtBoards(v View, val event.Value) *Doubt {
	if o, ok := v.Plan().Order(takeoff.Boards); ok && val.Yes() && len(o.Came) > 0 && len(o.ToGet) > 0 {
		return &Doubt{Key: "doubt.boards-short", Args: args("packs", packs(o.ToGet, o.Unit))}
	}
	return nil
}

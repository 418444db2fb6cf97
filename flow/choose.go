package flow

import (
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"chargehand/calc/plan"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// The table of joists: what would do, and what changes with the centres, the
// grade or the depth. A row is taken by its number, by a tap or by its label. It
// is taken as it was told, not as the plan would tell it now.

const (
	toldChoice = "choice"
	choiceRow  = "told.choice.row"
)

func tellChoice(v View) *event.Told {
	c := v.Plan().Choice()
	if c == nil || len(c.Rows) == 0 {
		return nil
	}
	t := told(toldChoice, v.Plan().Formulas("choice"))
	if first := c.Rows[0]; c.Fits {
		t.Lines = append(t.Lines, line("told.choice", "b", length(first.B), "h", length(first.H), "grade", event.Word("text", first.Grade), "centres", tenths(float64(first.Centres)), "max", length(floor(first.Max)), "span", length(c.Clear)))
	} else {
		t.Lines = append(t.Lines, line("told.choice.none", "span", length(c.Clear)))
	}
	rows := slices.Clone(c.Rows)
	slices.SortStableFunc(rows, func(a, b plan.Option) int { return over(a) - over(b) }) // what can be tapped comes first
	for i, o := range rows {
		t.Lines = append(t.Lines, line(choiceRow, "n", whole(i+1), "b", length(o.B), "h", length(o.H), "grade", event.Word("text", o.Grade), "class", whole(o.Class),
			"centres", tenths(float64(o.Centres)), "share", share(o.Utilisation), "max", length(floor(o.Max)), "what", key("choice.is-"+o.What), "status", event.Word("text", string(o.Status))))
	}
	return t
}

func over(o plan.Option) int {
	if o.Status == "over" {
		return 1
	}
	return 0
}

func tenths(mm float64) event.Value { return event.Of("mm", math.Round(mm*10)/10) }

func offerJoist(v View) (event.Value, bool) {
	c := v.Plan().Choice()
	if c == nil || !c.Fits {
		return event.Value{}, false
	}
	return event.Of("mm", float64(c.Rows[0].B), float64(c.Rows[0].H)), true
}

// rows are the rows of the table as it was last told.
func rows(s State) []event.Line {
	var out []event.Line
	for _, l := range s.Told[toldChoice].Lines {
		if l.Key == choiceRow {
			out = append(out, l)
		}
	}
	return out
}

// rowOptions are the rows that carry the span, as taps: three at most.
func rowOptions(s State) []talk.Option {
	var out []talk.Option
	for i, l := range rows(s) {
		if l.Args["status"].Text != "over" && len(out) < 3 {
			out = append(out, talk.Option{Action: "choose " + numeral(i+1), Label: phrase("choice.label", l.Args, s.Zone)})
		}
	}
	return out
}

// rowOf finds the row that a text means: its number, or what its label says.
func rowOf(s State, text string) (event.Line, bool) {
	all := rows(s)
	if n, err := strconv.Atoi(strings.TrimSpace(text)); err == nil {
		if n < 1 || n > len(all) {
			return event.Line{}, false
		}
		return all[n-1], true
	}
	said := strings.FieldsFunc(strings.ToUpper(text), func(r rune) bool { return !unicode.IsDigit(r) && !unicode.IsLetter(r) })
	for _, l := range all {
		want := []string{}
		for _, name := range []string{"b", "h"} {
			want = append(want, strconv.FormatFloat(l.Args[name].Num(), 'f', -1, 64))
		}
		want = append(want, l.Args["grade"].Text, strconv.FormatFloat(l.Args["class"].Num(), 'f', -1, 64))
		said := slices.DeleteFunc(slices.Clone(said), func(w string) bool { return w == "X" || w == "AT" || w == "BY" })
		if slices.Equal(said, want) {
			return l, true
		}
	}
	return event.Line{}, false
}

// choose tells the table, or takes a row of it.
func (t *turn) choose(rest, text string) {
	if strings.TrimSpace(rest) == "" {
		if told := tellChoice(t.view()); told != nil {
			t.emit(*told)
			return
		}
		t.heard(text, "choose.none", nil)
		return
	}
	row, ok := rowOf(t.s, rest)
	switch {
	case t.s.Pending != nil:
		t.heard(text, "refuse.move", nil)
	case len(rows(t.s)) == 0:
		t.heard(text, "choose.none", nil)
	case !ok:
		t.heard(text, "choose.row", args("heard", event.Word("text", cut(rest)), "n", whole(len(rows(t.s)))))
	default:
		t.takeRow(row, text)
	}
}

// takeRow answers centres, grade and joist as the row has them. An answer that
// needs a word of its own, because work rests on it, stops the rest.
func (t *turn) takeRow(row event.Line, text string) {
	class := strconv.Itoa(int(row.Args["class"].Num()))
	for _, part := range []struct {
		id  string
		val event.Value
	}{
		{stepCentres, event.Word("pick", class)},
		{stepGrade, event.Word("pick", row.Args["grade"].Text)},
		{stepJoist, event.Of("mm", row.Args["b"].Num(), row.Args["h"].Num())},
	} {
		spec, ok := Lookup(part.id)
		if !ok {
			return
		}
		now := t.s.Settled[part.id]
		same := now.Value.Equal(part.val) || (part.id == stepGrade && now.Value.Text == "unknown" && part.val.Text == "C16")
		if part.id != stepJoist && now.Answer() && same {
			continue
		}
		before := len(t.events)
		t.answer(spec, text, part.val, false)
		if t.s.Pending != nil {
			return
		}
		if _, refused := t.events[before].Event.(event.Heard); refused {
			return
		}
	}
}

// choiceTable sets a told table of joists.
func choiceTable(ev event.Told, zone string) []talk.Reply {
	first := ev.Lines[0]
	show := talk.Show{Title: phrase("choice.title", nil, zone),
		Head: []talk.Phrase{talk.P("choice.n"), talk.P("choice.joist"), talk.P("choice.grade"), talk.P("choice.centres"), talk.P("choice.used"), talk.P("choice.clears"), talk.P("choice.what")},
		Foot: []talk.Phrase{talk.P("choice.foot")}}
	for _, l := range ev.Lines[1:] {
		q := func(name string) any { return Quantity(l.Args[name], zone) }
		show.Rows = append(show.Rows, []talk.Phrase{talk.P("value", "value", q("n")), talk.P("choice.section", "b", q("b"), "h", q("h")), talk.P("value", "value", q("grade")),
			talk.P("choice.mm", "x", q("centres")), talk.P("value", "value", q("share")), talk.P("choice.m", "x", q("max")), talk.P("value", "value", q("what"))})
	}
	return []talk.Reply{talk.Say(phrase(first.Key, first.Args, zone)), show}
}

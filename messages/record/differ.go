package record

import (
	"slices"
	"strings"
	"time"

	"chargehand/flow/talk"
)

// Difference is a telling that today's formulas would make otherwise.
type Difference struct {
	Seq          uint64
	At           time.Time
	Zone         string
	What         string   // the name of the telling
	OldBy, NewBy []string // the formulas
	Old, New     []talk.Reply
}

// Differ writes how many tellings were compared, and each that differs.
func (p *Printer) Differ(compared int, ds []Difference) error {
	if len(ds) == 0 {
		return p.line("", talk.P("record.same", "n", compared))
	}
	if err := p.line("", talk.P("record.differs", "n", len(ds), "all", compared)); err != nil {
		return err
	}
	for _, d := range ds {
		if err := p.difference(d); err != nil {
			return err
		}
	}
	return nil
}

func (p *Printer) difference(d Difference) error {
	what := d.What
	switch was, now := strings.Join(d.OldBy, " "), strings.Join(d.NewBy, " "); {
	case was == now && was != "":
		what += " (" + was + ")"
	case was != now:
		what += " (" + was + " -> " + now + ")"
	}
	err := p.line("", talk.P("record.diff", "seq", int(d.Seq), "day", talk.Moment{At: d.At, Zone: d.Zone, Date: true},
		"at", talk.Moment{At: d.At, Zone: d.Zone}, "what", what))
	if err != nil {
		return err
	}
	for _, pair := range unlike(p.lines(d.Old), p.lines(d.New)) {
		if err := p.line("  ", talk.P("record.diff.line", "old", p.orNothing(pair[0]), "new", p.orNothing(pair[1]))); err != nil {
			return err
		}
	}
	return nil
}

func (p *Printer) orNothing(s string) any {
	if s == "" {
		return talk.P("record.diff.nothing")
	}
	return s
}

// lines says every line of what was told; a row of a table is one.
func (p *Printer) lines(replies []talk.Reply) []string {
	var out []string
	for _, r := range replies {
		switch r := r.(type) {
		case talk.Tell:
			for _, l := range r.Lines {
				out = append(out, p.say.Say(l))
			}
		case talk.Picture:
			out = append(out, p.say.Say(r.Caption))
		case talk.Show:
			for _, row := range r.Rows {
				if len(row) == 1 {
					continue // a heading
				}
				var cells []any
				for _, c := range row {
					cells = append(cells, strings.TrimSpace(p.say.Say(c)))
				}
				out = append(out, p.say.Say(talk.P("record.row", "cells", cells)))
			}
			for _, f := range r.Foot {
				out = append(out, p.say.Say(f))
			}
		}
	}
	return out
}

// unlike pairs the lines that are not in both, old and new; "" is none.
func unlike(a, b []string) [][2]string {
	// common[i][j] is the length of the longest common run of a[i:] and b[j:].
	common := make([][]int, len(a)+1)
	for i := range common {
		common[i] = make([]int, len(b)+1)
	}
	for i, x := range slices.Backward(a) {
		for j, y := range slices.Backward(b) {
			common[i][j] = max(common[i+1][j], common[i][j+1])
			if x == y {
				common[i][j] = common[i+1][j+1] + 1
			}
		}
	}
	var out [][2]string
	var gone, come []string
	pair := func() {
		for k := range max(len(gone), len(come)) {
			var p [2]string
			if k < len(gone) {
				p[0] = gone[k]
			}
			if k < len(come) {
				p[1] = come[k]
			}
			out = append(out, p)
		}
		gone, come = nil, nil
	}
	for i, j := 0, 0; i < len(a) || j < len(b); {
		switch {
		case i < len(a) && j < len(b) && a[i] == b[j]:
			pair()
			i, j = i+1, j+1
		case j == len(b) || i < len(a) && common[i+1][j] >= common[i][j+1]:
			gone = append(gone, a[i])
			i++
		default:
			come = append(come, b[j])
			j++
		}
	}
	pair()
	return out
}

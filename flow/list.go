package flow

import (
	"sort"
	"strings"

	"chargehand/calc/plan"
	"chargehand/calc/takeoff"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// list tells the materials: needed, to buy, left over, by where one buys.
func (t *turn) list(said string) {
	out := listOf(t.view())
	if out == nil {
		t.heard(said, "list.none", nil)
		return
	}
	t.emit(*out)
}

// listOf is the materials list as it is told; nil while nothing is known.
func listOf(v View) *event.Told {
	p := v.Plan()
	if p.Bill == nil || len(p.Orders) == 0 {
		return nil
	}
	out := &event.Told{What: "list", Formulas: p.Formulas("list", "lengths")}
	unpriced := 0
	for _, o := range p.Orders {
		out.Lines = append(out.Lines, orderLine(o))
		if o.Cost == nil {
			unpriced++
		}
	}
	if len(p.Bill.Missing) > 0 {
		var missing []string
		for _, m := range p.Bill.Missing {
			missing = append(missing, item(m))
		}
		sort.Strings(missing)
		out.Lines = append(out.Lines, line("list.missing", "items", event.Word("keys", strings.Join(missing, " "))))
	}
	if p.Bill.Priced > 0 {
		sum := event.Of("money", float64(p.Bill.Priced))
		if unpriced > 0 {
			out.Lines = append(out.Lines, line("list.sum-part", "sum", sum, "n", whole(unpriced)))
		} else {
			out.Lines = append(out.Lines, line("list.sum", "sum", sum))
		}
	}
	return out
}

// orderLine is one line of the list with its numbers.
func orderLine(o plan.Order) event.Line {
	buy := 0.0
	for _, p := range o.ToGet {
		buy += p.Size * float64(p.Count)
	}
	if len(o.Packs) == 0 { // bought by measure, not in packs
		buy = o.ToBuy
	}
	ln := line(item(o.Key),
		"needed", event.Of("number", tidy(o.Needed+o.Waste)), "buy", event.Of("number", tidy(buy)), "left", event.Of("number", tidy(o.LeftOver)),
		"unit", key("unit."+string(o.Unit)), "where", key("where."+string(o.Where)))
	put := func(name string, ps []takeoff.Pack) {
		if len(ps) > 0 {
			ln.Args[name] = packs(ps, o.Unit)
		}
	}
	put("packs", o.ToGet)
	put("came", o.Came)
	put("offer", o.Offer)
	if len(o.Size) > 0 {
		ln.Args["size"] = lengths(o.Size)
	}
	if o.Tight {
		ln.Args["flag"] = key("flag.tight")
	} else if o.Surplus {
		ln.Args["flag"] = key("flag.surplus")
	}
	if o.Cost != nil {
		ln.Args["cost"] = event.Of("money", float64(*o.Cost))
	}
	return ln
}

// listTable sets a told list as a table. A column of prices is there only where
// something has a price.
func listTable(ev event.Told, zone string) talk.Show {
	show := talk.Show{Title: talk.P("list.title"), Head: []talk.Phrase{talk.P("list.item"), talk.P("list.needed"), talk.P("list.buy"), talk.P("list.left")}}
	priced := false
	for _, l := range ev.Lines {
		_, has := l.Args["cost"]
		priced = priced || has
	}
	if priced {
		show.Head = append(show.Head, talk.P("list.cost"))
	}
	where := ""
	for _, l := range ev.Lines {
		if strings.HasPrefix(l.Key, "list.") {
			show.Foot = append(show.Foot, phrase(l.Key, l.Args, zone))
			continue
		}
		if w := l.Args["where"].Text; w != where {
			where = w
			show.Rows = append(show.Rows, []talk.Phrase{talk.P(w)})
		}
		row := listRow(l, zone)
		if priced {
			cost := talk.P("list.no-cost")
			if c, ok := l.Args["cost"]; ok {
				cost = talk.P("list.money", "n", Quantity(c, zone))
			}
			row = append(row, cost)
		}
		show.Rows = append(show.Rows, row)
	}
	return show
}

func listRow(l event.Line, zone string) []talk.Phrase {
	unit := Quantity(l.Args["unit"], zone)
	amount := func(name string) talk.Phrase {
		if l.Args["unit"].Text == "unit."+string(takeoff.Each) {
			return talk.P("list.count", "n", Quantity(l.Args[name], zone))
		}
		return talk.P("list.amount", "n", Quantity(l.Args[name], zone), "unit", unit)
	}
	spoken := func(name string) (talk.Phrase, bool) {
		v := l.Args[name]
		if v.Text == "" { // a list told before packs had their unit with them
			v.Text = l.Args["unit"].Text
		}
		return packPhrase(v), len(v.Nums) >= 2
	}
	buy, some := spoken("packs")
	if came, ok := spoken("came"); ok {
		if some {
			buy = talk.P("list.to-get", "packs", buy, "came", came)
		} else {
			buy = talk.P("list.in-hand")
		}
	} else if !some {
		buy = amount("buy")
	}
	name := talk.P(l.Key)
	if size, ok := l.Args["size"]; ok {
		name = talk.P("list.sized", "item", name, "size", Quantity(size, zone))
	}
	left := amount("left")
	if f, ok := l.Args["flag"]; ok {
		left = talk.P("list.flagged", "left", left, "flag", Quantity(f, zone))
		if offer, has := spoken("offer"); has {
			left = talk.P("list.offered", "left", left, "packs", offer)
		}
	}
	return []talk.Phrase{name, amount("needed"), buy, left}
}

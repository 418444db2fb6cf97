package flow

import (
	"chargehand/calc/takeoff"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// packs are sizes and how many of each, with the key of their unit, as the
// record keeps them.
func packs(ps []takeoff.Pack, u takeoff.Unit) event.Value {
	v := event.Value{Unit: "packs", Text: "unit." + string(u)}
	for _, p := range ps {
		v.Nums = append(v.Nums, float64(p.Count), p.Size)
	}
	return v
}

// packPhrase is packs as they are spoken: "2 x 3.6, 1 x 4.8 m".
func packPhrase(v event.Value) talk.Phrase {
	var each []any
	counted := v.Text == "unit."+string(takeoff.Each) || v.Text == "unit."+string(takeoff.Cartridge) || v.Text == "unit."+string(takeoff.Day)
	for i := 0; i+1 < len(v.Nums); i += 2 {
		p := talk.P("list.pack", "n", int(v.Nums[i]), "size", v.Nums[i+1])
		switch n := int(v.Nums[i]); {
		case v.Nums[i+1] == 1 && counted:
			p = talk.P("list.count", "n", n)
		case n == 1 && v.Text == "unit."+string(takeoff.SquareMetre):
			p = talk.P("list.count", "n", v.Nums[i+1])
		}
		each = append(each, p)
	}
	if v.Text == "unit."+string(takeoff.Each) {
		return talk.P("list.each", "packs", each)
	}
	return talk.P("list.packs", "packs", each, "unit", talk.P(v.Text))
}

// pricedReplies echoes a price or a size as it was understood.
func pricedReplies(ev event.Priced) []talk.Reply {
	key := "priced"
	switch {
	case ev.Gone:
		key = "priced.gone"
	case ev.Price == 0:
		key = "priced.size"
	}
	u := takeoff.UnitOf(itemKey(ev.Item))
	size := talk.P("priced.each")
	if !single(itemKey(ev.Item)) {
		size = talk.P("list.amount", "n", ev.Size, "unit", talk.P("unit."+string(u)))
	} else if u != takeoff.Each {
		size = talk.P("priced.per", "unit", talk.P("unit."+string(u)))
	}
	return []talk.Reply{talk.Say(talk.P(key, "item", talk.P(item(itemKey(ev.Item))), "size", size, "price", talk.Money(ev.Price)))}
}

// tellDelivery says what is still to get of a thing, and how far what came goes.
func tellDelivery(v View, key takeoff.Key) *event.Told {
	o, ok := v.Plan().Order(key)
	if !ok {
		return nil
	}
	t := told(deliveryOf+string(key), v.Plan().Formulas("list"))
	if len(o.ToGet) == 0 {
		t.Lines = append(t.Lines, line("came.all"))
		return t
	}
	t.Lines = append(t.Lines, line("came.to-get", "packs", packs(o.ToGet, o.Unit)))
	if d := v.Plan().Deck; key == takeoff.Boards && d != nil {
		n := 0
		for _, p := range o.Came {
			n += p.Count
		}
		if rows := d.Laid(n); rows > 0 {
			t.Lines = append(t.Lines, line("came.rows", "n", whole(rows)))
		}
	}
	return t
}

// deliveryOf begins what is told of a delivery; the thing follows.
const deliveryOf = "delivery/"

// cameReplies echoes what came of a size, all told.
func cameReplies(after State, ev event.Came) []talk.Reply {
	name := talk.P(item(itemKey(ev.Item)))
	if ev.Count == 0 {
		return []talk.Reply{talk.Say(talk.P("came.none", "item", name))}
	}
	n := after.Came[sized(ev.Item, "", ev.Size)].Count
	ps := packs([]takeoff.Pack{{Size: ev.Size, Count: n}}, takeoff.UnitOf(itemKey(ev.Item)))
	return []talk.Reply{talk.Say(talk.P("came", "item", name, "packs", packPhrase(ps)))}
}

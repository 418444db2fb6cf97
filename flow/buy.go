package flow

import (
	"math"
	"slices"
	"strings"
	"unicode"

	"chargehand/calc/deck"
	"chargehand/calc/plan"
	"chargehand/calc/takeoff"
	"chargehand/flow/event"
	"chargehand/flow/hear"
)

// A builder says at any question what he pays and what came: "price joists 4.8
// 13.90", "came boards 3". Both are kept in the job's record; prices go into the
// book as well, for the next job.

// Items lists the phrase keys of everything on the list, which are also the
// names by which a thing is heard.
func Items() []string {
	var out []string
	for _, k := range takeoff.Keys() {
		out = append(out, item(k))
	}
	return out
}

func item(k takeoff.Key) string { return "item." + dashKey(string(k)) }

func itemKey(phrase string) takeoff.Key { return takeoff.Key(strings.TrimPrefix(phrase, "item.")) }

// thing finds in what was said the longest run of words that names a thing; the
// rest are its numbers. Currency signs are left out: an amount is in the builder's own.
func (t *turn) thing(said string) (key takeoff.Key, rest string, ok bool) {
	said = strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Sc, r) {
			return -1
		}
		return r
	}, said)
	fields := strings.Fields(said)
	want := hear.Want{Kind: hear.Choice, Lang: t.in.By.Lang}
	for _, k := range Items() {
		want.Choices = append(want.Choices, hear.Pick{Key: k})
	}
	best := 0
	for from := range fields {
		for to := from + 1; to <= min(from+4, len(fields)); to++ {
			name := strings.Join(fields[from:to], " ")
			if len(name) < 3 || len(name) <= best || strings.ContainsFunc(name, unicode.IsDigit) {
				continue
			}
			h := hear.Answer(name, want)
			if len(h.Values) != 1 {
				continue
			}
			best, key, ok = len(name), itemKey(h.Values[0].Key), true
			rest = strings.Join(append(slices.Clone(fields[:from]), fields[to:]...), " ")
		}
	}
	return key, rest, ok
}

// sizeWant hears the size of a pack or length in the unit of its line.
func sizeWant(key takeoff.Key) hear.Want {
	switch takeoff.UnitOf(key) {
	case takeoff.Metre:
		return ranged(hear.PlanLength, 0, 0, 200, 30000)
	case takeoff.Litre, takeoff.Millilitre:
		return ranged(hear.Litres, 0, 0, 0.01, 200)
	case takeoff.Kilogram:
		return ranged(hear.Mass, 0, 0, 0.01, 500)
	}
	return ranged(hear.Count, 0, 0, 1, 100000)
}

// sizeOf turns a heard size into the unit of its line.
func sizeOf(key takeoff.Key, v hear.Value) float64 {
	switch takeoff.UnitOf(key) {
	case takeoff.Metre:
		return math.Round(v.Num) / 1000
	case takeoff.Millilitre:
		return v.Num * 1000
	}
	return v.Num
}

// single says whether a thing has one size that need not be said: a board, a
// square metre of sheet.
func single(key takeoff.Key) bool {
	switch takeoff.UnitOf(key) {
	case takeoff.SquareMetre, takeoff.Cartridge, takeoff.Day:
		return true
	case takeoff.Each:
		usual := takeoff.Usual(key)
		return len(usual) == 0 || len(usual) == 1 && usual[0] == 1
	}
	return false
}

// price hears "price NAME SIZE PRICE". Without a price the size can be had; with
// "none" it can't be any more.
func (t *turn) price(rest, text string) {
	key, numbers, ok := t.thing(rest)
	if !ok {
		t.heard(text, "refuse.item", args("heard", event.Word("text", cut(rest))))
		return
	}
	p := event.Priced{Item: string(key), Of: Inputs(t.s).Of(key), Size: 1}
	if words := strings.Fields(numbers); len(words) > 0 && (words[len(words)-1] == "none" || words[len(words)-1] == "gone") {
		p.Gone = true
		numbers = strings.Join(words[:len(words)-1], " ")
	}
	paid := hear.Want{Kind: hear.Number, Range: hear.Range{HardMin: 0.01, HardMax: 100000}}
	want := parts(1, sizeWant(key), paid)
	switch {
	case p.Gone:
		want = parts(1, sizeWant(key))
	case single(key):
		want = parts(1, paid)
	}
	want.Lang = t.in.By.Lang
	if !(p.Gone && single(key)) {
		h := hear.Answer(numbers, want)
		if len(h.Values) == 0 {
			t.heard(text, "refuse.price", args("item", event.Word("key", item(key))))
			return
		}
		vals := h.Values
		if !single(key) {
			p.Size, vals = sizeOf(key, vals[0]), vals[1:]
		}
		if len(vals) > 0 {
			p.Price = int64(math.Round(vals[0].Num * 100))
		}
	}
	t.emit(p)
}

// came hears "came NAME COUNT SIZE". A count of 0 takes back what was said.
func (t *turn) came(rest, text string, spec Spec, isStep bool) {
	key, numbers, ok := t.thing(rest)
	if !ok || key == takeoff.Sheet {
		if got, known := Lookup(stepDelivered); known && isStep && spec.ID == stepDelivered {
			t.listen(got, numbersOf(rest), t.want(got)) // the sheet's own question is open
			return
		}
		if ok {
			t.heard(text, "refuse.came-sheet", nil)
			return
		}
		t.heard(text, "refuse.item", args("heard", event.Word("text", cut(rest))))
		return
	}
	want := parts(1, ranged(hear.Count, 0, 0, 0, 10000), sizeWant(key))
	want.Lang = t.in.By.Lang
	h := hear.Answer(numbers, want)
	if len(h.Values) == 0 {
		t.heard(text, "refuse.came", args("item", event.Word("key", item(key))))
		return
	}
	c := event.Came{Item: string(key), Count: int(h.Values[0].Num), Size: 1}
	order, listed := t.view().Plan().Order(key)
	switch {
	case len(h.Values) > 1:
		c.Size = sizeOf(key, h.Values[1])
	case listed && len(order.Packs) == 1:
		c.Size = order.Packs[0].Size
	case !single(key):
		t.heard(text, "refuse.came", args("item", event.Word("key", item(key))))
		return
	}
	t.emit(c)
	if now := tellDelivery(t.view(), key); now != nil {
		t.emit(*now)
	}
	t.lacking(key)
}

// numbersOf drops the words before the first number.
func numbersOf(said string) string {
	if i := strings.IndexFunc(said, unicode.IsDigit); i >= 0 {
		return said[i:]
	}
	return said
}

// lacking opens the steps again that took a thing to be in hand, when less came
// than is needed.
func (t *turn) lacking(key takeoff.Key) {
	o, ok := t.view().Plan().Order(key)
	if !ok || len(o.ToGet) == 0 {
		return
	}
	var again []string
	for _, s := range script() {
		if slices.Contains(s.Holds, key) && t.s.Settled[s.ID].Answer() {
			again = append(again, s.ID)
		}
	}
	if len(again) > 0 {
		t.emit(event.Reopened{Steps: again, Because: becauseCame})
	}
}

// becauseCame is why a delivery opens a step again.
const becauseCame = "came"

// bought hands the plan what the builder has told of prices and deliveries, and
// what searches have found.
func bought(in *plan.Inputs, s State) {
	for _, key := range sorted(s.Prices) {
		if p := s.Prices[key]; !p.Gone {
			in.Prices = append(in.Prices, plan.Price{Key: itemKey(p.Item), Of: p.Of, Size: p.Size, Price: takeoff.Money(p.Price)})
		}
	}
	for _, key := range sorted(s.Came) {
		c := s.Came[key]
		in.Came = append(in.Came, plan.Came{Key: itemKey(c.Item), Size: c.Size, Count: c.Count})
	}
	for of, f := range s.Found {
		if in.Found == nil {
			in.Found = map[string]deck.Written{}
		}
		in.Found[of] = deck.Written{Rows: f.Rows, Boards: f.Boards, Bound: f.Bound, Work: f.Work}
	}
}

package takeoff

import (
	"math"

	"chargehand/calc"
	"chargehand/calc/unit"
)

const topic = "list"

// ReckonList answers the topic list.
//
// Source, domain: those of [List] and [Delivered].
// Errors: DomainError with the JSON key.
func ReckonList(in ListIn) (ListOut, error) {
	q, err := in.input()
	if err != nil {
		return ListOut{}, err
	}
	bill, err := List(q)
	if err != nil {
		return ListOut{}, err
	}
	out := ListOut{Lines: []ListLine{}, Missing: append([]Key{}, bill.Missing...), Groups: []ListGroup{},
		Cost: amount(bill.Cost), Priced: *amount(&bill.Priced), Unpriced: []Key{}}
	for _, l := range bill.Lines {
		line, err := in.line(l)
		if err != nil {
			return ListOut{}, err
		}
		out.Lines = append(out.Lines, line)
		if l.Cost == nil {
			out.Unpriced = append(out.Unpriced, l.Key)
		}
	}
	for _, g := range bill.Groups() {
		group := ListGroup{Where: g.Where, Cost: amount(g.Cost)}
		for _, l := range g.Lines {
			group.Lines = append(group.Lines, l.Key)
		}
		out.Groups = append(out.Groups, group)
	}
	return out, nil
}

// line is a line with its delivery, if one was recorded.
func (in ListIn) line(l Line) (ListLine, error) {
	out := ListLine{Line: l.Key, Unit: l.Unit, Where: l.Where, Needed: l.Needed, Waste: l.Waste, ToBuy: l.ToBuy, LeftOver: l.LeftOver,
		Packs: append([]Pack{}, l.Packs...), Tight: l.Tight, Surplus: l.Surplus, Offer: l.Offer, Cost: amount(l.Cost)}
	for _, s := range l.Size {
		out.SizesMM = append(out.SizesMM, float64(s))
	}
	if l.Mass > 0 {
		kg := float64(l.Mass)
		out.MassKG = &kg
	}
	for _, d := range in.Delivered {
		if Key(d.Line) != l.Key || d.SizeMM != nil && (len(l.Size) == 0 || float64(l.Size[0]) != *d.SizeMM) {
			continue
		}
		got, err := Delivered(l, d.Packs)
		if err != nil {
			return ListLine{}, rename(err, "delivered")
		}
		out.Arrived, out.ToGet = &got.Arrival, got.ToGet
	}
	return out, nil
}

// amount turns hundredths into the builder's currency.
func amount(m *Money) *float64 {
	if m == nil {
		return nil
	}
	v := float64(*m) / 100
	return &v
}

// money turns the builder's currency into hundredths.
func money(v float64) (Money, error) {
	if err := calc.Outside(topic, "packs", v, 0, float64(dearest)/100, "of your currency"); err != nil {
		return 0, err
	}
	return Money(math.Round(v * 100)), nil
}

func lengths(mm []float64) []unit.Length {
	if mm == nil {
		return nil
	}
	l := make([]unit.Length, len(mm))
	for i, v := range mm {
		l[i] = unit.Length(v)
	}
	return l
}

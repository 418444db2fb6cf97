package plan

import (
	"fmt"
	"math"
	"slices"

	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// Price is one size of a thing the builder can buy, at his own price.
type Price struct {
	Key   takeoff.Key
	Of    string        // the section or kind it is of, as [Inputs.Of] names it
	Size  float64       // in the unit of the line
	Price takeoff.Money // 0 = not told
}

// Came is what came of one size of a thing.
type Came struct {
	Key   takeoff.Key
	Size  float64 // in the unit of the line
	Count int
}

// Of names what a price of a line is a price of, where the line's name leaves
// it open: the section of a joist, the size of a board. A price told for one
// section says nothing of another.
func (in Inputs) Of(key takeoff.Key) string {
	by := func(ls ...*unit.Length) string {
		out := ""
		for i, l := range ls {
			if l == nil {
				return ""
			}
			if i > 0 {
				out += "x"
			}
			out += fmt.Sprintf("%g", float64(*l))
		}
		return out
	}
	switch key {
	case takeoff.JoistTimber:
		return by(in.JoistB, in.JoistH)
	case takeoff.PlateTimber:
		return by(in.PlateWidth, in.PlateHeight)
	case takeoff.Boards:
		return by(in.BoardLength, in.BoardWidth, in.BoardThick)
	case takeoff.LeadSheet:
		return fmt.Sprintf("%d/%g", or(in.LeadCode, usualLeadCode), float64(or(in.LeadWidth, usualLeadWidth)))
	}
	return ""
}

// or is what p points at, or the usual.
func or[T any](p *T, usual T) T {
	if p == nil {
		return usual
	}
	return *p
}

// told are the sizes the builder has told for a line.
func (r *reckoner) told(key takeoff.Key) []takeoff.PackSize {
	of := r.in.Of(key)
	var out []takeoff.PackSize
	for _, p := range r.in.Prices {
		if p.Key != key || (p.Of != "" && of != "" && p.Of != of) {
			continue
		}
		s := takeoff.PackSize{Size: p.Size}
		if p.Price > 0 {
			price := p.Price
			s.Price = &price
		}
		out = append(out, s)
	}
	return out
}

// sizes are the packs or lengths a line can be bought in: what the builder has
// told, else the usual ones. Trim lengths have a question of their own; prices
// told for them are put to the lengths it names.
func (r *reckoner) sizes(key takeoff.Key) []takeoff.PackSize {
	own := r.told(key)
	if key == takeoff.Trim && len(r.in.TrimStock) > 0 {
		var out []takeoff.PackSize
		for _, l := range r.in.TrimStock {
			s := takeoff.PackSize{Size: l.In(unit.Metre)}
			if i := slices.IndexFunc(own, func(o takeoff.PackSize) bool { return sameSize(o.Size, s.Size) }); i >= 0 {
				s.Price = own[i].Price
			}
			out = append(out, s)
		}
		return out
	}
	if len(own) > 0 {
		return own
	}
	var out []takeoff.PackSize
	for _, s := range takeoff.Usual(key) {
		if key == takeoff.JoistTimber && s > r.handy() {
			break
		}
		out = append(out, takeoff.PackSize{Size: s})
	}
	return out
}

// handy is the longest joist bought without being asked for: what two carry
// round a corner, or what the longest piece takes, in metres. Common practice, no
// source.
func (r *reckoner) handy() float64 {
	longest := 4.8
	if j := r.p.Joists; j != nil {
		longest = max(longest, math.Ceil(j.Each.In(unit.Metre)/0.3-1e-9)*0.3+1e-9)
	}
	return longest
}

// came is what came of a line, the largest first.
func (r *reckoner) came(key takeoff.Key) []takeoff.Pack {
	var out []takeoff.Pack
	for _, c := range r.in.Came {
		if c.Key == key && c.Count > 0 {
			out = append(out, takeoff.Pack{Size: c.Size, Count: c.Count})
		}
	}
	slices.SortStableFunc(out, func(a, b takeoff.Pack) int {
		switch {
		case a.Size > b.Size:
			return -1
		case a.Size < b.Size:
			return 1
		}
		return 0
	})
	return out
}

// sameSize compares sizes as people tell them, to a thousandth.
func sameSize(a, b float64) bool { return a-b < 5e-4 && b-a < 5e-4 }

// Order is a line of the list with what came of it.
type Order struct {
	takeoff.Line
	Came  []takeoff.Pack
	ToGet []takeoff.Pack // still to buy
}

// orders puts what came beside the list, in the order one buys.
func (r *reckoner) orders() {
	for _, g := range r.p.Bill.Groups() {
		for _, l := range g.Lines {
			o := Order{Line: l, ToGet: l.Packs, Came: r.came(l.Key)}
			if cut, ok := r.p.Lengths[l.Key]; ok {
				o.ToGet = cut.Buy
			} else if len(o.Came) > 0 {
				d, err := takeoff.Delivered(l, o.Came)
				if r.failed("list", err) {
					continue
				}
				o.ToGet = d.ToGet
			}
			r.p.Orders = append(r.p.Orders, o)
		}
	}
}

// Order returns the line of a thing; false where the list has none.
func (p *Plan) Order(key takeoff.Key) (Order, bool) {
	i := slices.IndexFunc(p.Orders, func(o Order) bool { return o.Key == key })
	if i < 0 {
		return Order{}, false
	}
	return p.Orders[i], true
}

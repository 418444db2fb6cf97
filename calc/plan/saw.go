package plan

import (
	"fmt"
	"math"

	"chargehand/calc/cut"
	"chargehand/calc/takeoff"
	"chargehand/calc/unit"
)

// saw works out the cut list of a line, with its spares: the cheapest where every
// length has a price, else the least timber.
func (r *reckoner) saw(key takeoff.Key, pieces []cut.Piece) {
	if len(pieces) == 0 {
		return
	}
	sizes := r.sizes(key)
	p := cut.Problem{Pieces: pieces, Kerf: kerf, Budget: cut.QuickBudget}
	priced := true
	for _, s := range sizes {
		priced = priced && s.Price != nil
	}
	for _, s := range sizes {
		l := unit.Length(math.Round(s.Size * 1000))
		p.Stocks = append(p.Stocks, cut.Stock{Length: l, Cost: int64(l), Available: cut.Unlimited})
		if priced {
			p.Stocks[len(p.Stocks)-1].Cost = max(int64(*s.Price), 1)
		}
	}
	order, err := r.cut(p)
	if r.failed("lengths", err) {
		return
	}
	out := Lengths{Key: key, Pieces: pieces, List: order, Order: bought(order, len(sizes))}
	out.Buy = out.Order
	if came := r.came(key); len(came) > 0 {
		for _, c := range came {
			p.Stocks = append(p.Stocks, cut.Stock{Length: unit.Length(math.Round(c.Size * 1000)), Available: c.Count})
		}
		sawn, err := r.cut(p)
		if r.failed("lengths", err) {
			return
		}
		out.List, out.Buy = sawn, bought(sawn, len(sizes))
	}
	r.p.Lengths[key] = out
	r.used("lengths", cut.ID)
}

// bought lists the bars of the first n stocks: the rest is there already.
func bought(l cut.List, n int) []takeoff.Pack {
	var out []takeoff.Pack
	for _, b := range l.Bars {
		if b.Stock >= n {
			continue
		}
		size := b.Length.In(unit.Metre)
		if k := len(out) - 1; k >= 0 && sameSize(out[k].Size, size) {
			out[k].Count++
			continue
		}
		out = append(out, takeoff.Pack{Size: size, Count: 1})
	}
	return out
}

// solvedCut is a cutting problem with its list.
type solvedCut struct {
	list cut.List
	err  error
}

// cut solves and checks, unless the plan before has solved the same problem.
func (r *reckoner) cut(p cut.Problem) (cut.List, error) {
	key := fmt.Sprintf("%+v", p)
	done, ok := r.p.cuts[key]
	if !ok && r.before != nil {
		done, ok = r.before.cuts[key]
	}
	if !ok {
		done.list, done.err = cut.Solve(p)
		if done.err == nil {
			done.err = cut.Check(p, done.list)
		}
	}
	r.p.cuts[key] = done
	return done.list, done.err
}

// sawn hands the cut lists to the materials list.
func (r *reckoner) sawn() map[takeoff.Key]takeoff.Sawn {
	out := map[takeoff.Key]takeoff.Sawn{}
	for key, l := range r.p.Lengths {
		s := takeoff.Sawn{Packs: l.Order}
		for _, p := range l.Pieces {
			if sum := unit.Length(p.Count) * p.Length; p.Label == spareLabel {
				s.Spare += sum
			} else {
				s.Needed += sum
			}
		}
		out[key] = s
	}
	return out
}

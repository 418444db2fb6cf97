package flow

import (
	"sort"

	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// Book is what outlives a job: the fold of the book's own stream. Its zero value
// is a book with nothing in it. A job is told what the book knows when it begins,
// and keeps it in its own record: what another job says later changes nothing in
// one that is under way.
type Book struct {
	prices map[string]event.Priced
}

// ApplyBook is the only way a Book changes. It is total: an event that does not
// belong in a book changes nothing.
func ApplyBook(b Book, e event.Entry) Book {
	if p, ok := e.Event.(event.Priced); ok {
		b.prices = with(b.prices, sized(p.Item, p.Of, p.Size), p)
	}
	return b
}

// Prices lists what the book knows of prices and sizes, in a fixed order.
func (b Book) Prices() []talk.Price {
	var out []talk.Price
	for _, key := range sorted(b.prices) {
		if p := b.prices[key]; !p.Gone {
			out = append(out, talk.Price{Item: p.Item, Of: p.Of, Size: p.Size, Price: p.Price})
		}
	}
	return out
}

// forBook are the events of a job that belong into the book as well.
func forBook(events []event.Entry) []event.Entry {
	var out []event.Entry
	for _, e := range events {
		if _, ok := e.Event.(event.Priced); ok {
			out = append(out, e)
		}
	}
	return out
}

// recall keeps what the book knew in the job's own record.
func (t *turn) recall(prices []talk.Price) {
	var r event.Recalled
	for _, p := range prices {
		r.Prices = append(r.Prices, event.Priced{Item: p.Item, Of: p.Of, Size: p.Size, Price: p.Price})
	}
	if len(r.Prices) == 0 {
		return
	}
	sort.SliceStable(r.Prices, func(i, j int) bool {
		a, b := r.Prices[i], r.Prices[j]
		return sized(a.Item, a.Of, a.Size) < sized(b.Item, b.Of, b.Size)
	})
	t.emit(r)
}

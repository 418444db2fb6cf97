package flow

import (
	"reflect"
	"slices"
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
	films  map[string]event.Film // by the moment they were spread
}

// ApplyBook is the only way a Book changes. It is total: an event that does not
// belong in a book changes nothing.
func ApplyBook(b Book, e event.Entry) Book {
	switch ev := e.Event.(type) {
	case event.Priced:
		b.prices = with(b.prices, sized(ev.Item, ev.Of, ev.Size), ev)
	case event.Calibrated:
		b.films = with(b.films, spread(ev.Film), ev.Film)
		if ev.Gone {
			delete(b.films, spread(ev.Film))
		}
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

// Films lists the latest film of each tin and deck surface that the book knows, in a
// fixed order. Older ones are not averaged with it.
func (b Book) Films() []talk.Film {
	var out []talk.Film
	for _, key := range sorted(b.films) { // in the order they were spread
		f := talk.Film(b.films[key])
		out = slices.DeleteFunc(out, func(o talk.Film) bool { return o.Substrate == f.Substrate && slices.Equal(o.Label, f.Label) })
		out = append(out, f)
	}
	return out
}

// book is what this turn has to say to later jobs: its prices, and the films that
// taught something, or no longer do.
func (t *turn) book(before State) []event.Entry {
	var out []event.Entry
	for _, e := range t.events {
		if _, ok := e.Event.(event.Priced); ok {
			out = append(out, e)
		}
	}
	was, now := films(before), films(t.s)
	for _, key := range sorted(was) {
		if _, ok := now[key]; !ok {
			out = append(out, t.entry(event.Calibrated{Film: was[key], Gone: true}))
		}
	}
	for _, key := range sorted(now) {
		if f, ok := was[key]; !ok || !reflect.DeepEqual(f, now[key]) {
			out = append(out, t.entry(event.Calibrated{Film: now[key]}))
		}
	}
	return out
}

// recall keeps what the book knew in the job's own record.
func (t *turn) recall(known talk.Begun) {
	var r event.Recalled
	for _, p := range known.Prices {
		r.Prices = append(r.Prices, event.Priced{Item: p.Item, Of: p.Of, Size: p.Size, Price: p.Price})
	}
	for _, f := range known.Films {
		r.Films = append(r.Films, event.Film(f))
	}
	if len(r.Prices)+len(r.Films) == 0 {
		return
	}
	sort.SliceStable(r.Prices, func(i, j int) bool {
		a, b := r.Prices[i], r.Prices[j]
		return sized(a.Item, a.Of, a.Size) < sized(b.Item, b.Of, b.Size)
	})
	t.emit(r)
}

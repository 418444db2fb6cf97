package runner

import (
	"context"
	"fmt"
	"sync"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// shelf holds the book as far as it has been read.
type shelf struct {
	mu   sync.Mutex
	book flow.Book
	head event.Head
}

// Known adds to the beginning of a job what the book knows.
func (r *Runner) Known(ctx context.Context, b talk.Begun) (talk.Begun, error) {
	book, _, err := r.book.open(ctx, r.Journal)
	b.Prices, b.Films = book.Prices(), book.Films()
	return b, err
}

// open brings the book up to the journal.
func (s *shelf) open(ctx context.Context, j Journal) (flow.Book, event.Head, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for {
		records, err := j.Read(ctx, event.Book, s.head.Seq, page)
		if err != nil {
			return s.book, s.head, err
		}
		for _, rec := range records {
			if err := rec.Verify(s.head); err != nil {
				return s.book, s.head, fmt.Errorf("book: %w", err)
			}
			e, err := rec.Open()
			if err != nil {
				return s.book, s.head, fmt.Errorf("book: %w", err)
			}
			s.book, s.head = flow.ApplyBook(s.book, e), rec.Head()
		}
		if len(records) < page {
			return s.book, s.head, nil
		}
	}
}

// entry makes what is to be written into the book beside a job's own events. If
// somebody else writes to it first, the commit conflicts and is made anew.
func (s *shelf) entry(ctx context.Context, j Journal, events []event.Entry, salt func([]byte)) (event.Part, error) {
	_, head, err := s.open(ctx, j)
	if err != nil {
		return event.Part{}, err
	}
	part := event.Part{Stream: event.Book, Expect: head, Keep: true}
	for _, e := range events {
		rec, err := event.Seal(head, e, salt)
		if err != nil {
			return event.Part{}, err
		}
		part.Records = append(part.Records, rec)
		head = rec.Head()
	}
	return part, nil
}

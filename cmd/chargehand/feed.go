package main

import (
	"context"
	"sync"

	"chargehand/flow/event"
	"chargehand/flow/runner"
)

// feed is a journal that lets others wait for the next commit to a stream.
type feed struct {
	runner.Journal

	mu   sync.Mutex
	next map[string]chan struct{}
}

func newFeed(j runner.Journal) *feed { return &feed{Journal: j, next: map[string]chan struct{}{}} }

// Commit commits, and wakes whoever waits for one of the streams.
func (f *feed) Commit(ctx context.Context, c event.Commit) error {
	err := f.Journal.Commit(ctx, c)
	if err != nil {
		return err
	}
	f.mu.Lock()
	defer f.mu.Unlock()
	for _, p := range c.Parts {
		if ch, ok := f.next[p.Stream]; ok {
			close(ch)
			delete(f.next, p.Stream)
		}
	}
	return nil
}

// moved is closed at the next commit to the stream. Ask for it before looking
// at the stream, or a commit in between is missed.
func (f *feed) moved(stream string) <-chan struct{} {
	f.mu.Lock()
	defer f.mu.Unlock()
	ch, ok := f.next[stream]
	if !ok {
		ch = make(chan struct{})
		f.next[stream] = ch
	}
	return ch
}

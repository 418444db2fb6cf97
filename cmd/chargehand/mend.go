package main

import (
	"context"
	"errors"

	"chargehand/flow"
	"chargehand/flow/event"
)

// mendClocks sets the clocks of a job anew, again if somebody wrote meanwhile.
func (d *desk) mendClocks(ctx context.Context, job string) error {
	for {
		err := d.setClocks(ctx, job)
		if !errors.Is(err, event.ErrConflict) {
			return err
		}
	}
}

// setClocks first takes all clocks away: one that is known by name but would
// never ring is only then made again.
func (d *desk) setClocks(ctx context.Context, job string) error {
	head, err := d.feed.Head(ctx, job)
	if err != nil {
		return err
	}
	part := event.Part{Stream: job, Expect: head}
	if err := d.feed.Commit(ctx, event.Commit{Parts: []event.Part{part}}); err != nil {
		return err
	}
	s, err := refold(ctx, d.feed, job)
	var other *otherClocks
	if err != nil && !errors.As(err, &other) {
		return err
	}
	part.Clocks = flow.Clocks(s)
	return d.feed.Commit(ctx, event.Commit{Parts: []event.Part{part}})
}

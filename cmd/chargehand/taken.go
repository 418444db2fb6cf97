package main

import (
	"context"
	"errors"
	"fmt"

	"chargehand/flow"
	"chargehand/flow/event"
)

// taken is a job's record, taken out of the store: however long it is looked at,
// the store is free.
type taken struct {
	job     jobInfo
	records []event.Record
	entries []event.Entry
	state   flow.State
	broken  error // where the record stops to hold
}

func takeRecord(ctx context.Context, w world, o options, want string) (taken, error) {
	k, err := enter(ctx, w, o, toRead)
	if err != nil {
		return taken{}, err
	}
	t := taken{}
	t.job, err = theJob(ctx, k, want)
	if err == nil {
		t.records, err = history(ctx, k, t.job.ID)
	}
	var b *broken
	if errors.As(err, &b) {
		t.broken, err = b, nil
	}
	if err := errors.Join(err, k.Close()); err != nil {
		return t, err
	}
	t.entries, t.state, err = openAll(t.records)
	if err != nil { // what comes later stays unread
		t.broken = fmt.Errorf("job %s: %w", t.job.ID, err)
	}
	return t, nil
}

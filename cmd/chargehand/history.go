package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/store"
)

// pageRecords is how many records one asking brings.
const pageRecords = 512

// maxWait is how long an asking for news waits at most: after that it is asked
// again, so that a connection nobody needs any more does not last.
const maxWait = 30 * time.Second

// recordsIn asks for the records of a job behind one. Where there are none yet,
// it waits for some.
type recordsIn struct {
	Job   string `json:"job"`
	After uint64 `json:"after"`
	Wait  bool   `json:"wait,omitempty"`
}

// recordsOut are records as the store keeps them. Broken says where the record
// stops to hold, behind those that are given.
type recordsOut struct {
	Records []json.RawMessage `json:"records"`
	Broken  string            `json:"broken,omitempty"`
}

var opRecords = operation[recordsIn, recordsOut]{"records", func(ctx context.Context, d *desk, in recordsIn) (recordsOut, error) {
	var out recordsOut
	late := time.NewTimer(maxWait)
	defer late.Stop()
	for {
		moved := d.feed.moved(in.Job)
		records, err := d.feed.Read(ctx, in.Job, in.After, pageRecords)
		var damaged *store.Damaged
		if errors.As(err, &damaged) {
			out.Broken = err.Error()
		} else if err != nil {
			return out, err
		}
		for _, r := range records {
			raw, err := event.MarshalRecord(r)
			if err != nil {
				return out, err
			}
			out.Records = append(out.Records, raw)
		}
		if len(records) > 0 || out.Broken != "" || !in.Wait {
			return out, nil
		}
		select {
		case <-moved:
		case <-late.C:
			return out, nil
		case <-ctx.Done():
			return out, ctx.Err()
		}
	}
}}

// broken is where a record stops to hold.
type broken struct{ why string }

func (b *broken) Error() string { return b.why }

// readOn reads what comes behind a head, one page of it, and verifies it here
// too. *broken comes with the records that hold.
func readOn(ctx context.Context, k *keeper, job string, head event.Head, wait bool) ([]event.Record, error) {
	got, err := ask(ctx, k, opRecords, recordsIn{Job: job, After: head.Seq, Wait: wait})
	if err != nil {
		return nil, err
	}
	var out []event.Record
	for _, raw := range got.Records {
		r, err := event.UnmarshalRecord(raw)
		if err == nil {
			err = r.Verify(head)
		}
		if err != nil {
			return out, &broken{fmt.Sprintf("job %s: %v", job, err)}
		}
		out, head = append(out, r), r.Head()
	}
	if got.Broken != "" {
		return out, &broken{got.Broken}
	}
	return out, nil
}

// history reads a job from its first event to its last. *broken comes with the
// records that hold.
func history(ctx context.Context, k *keeper, job string) ([]event.Record, error) {
	var all []event.Record
	var head event.Head
	for {
		more, err := readOn(ctx, k, job, head, false)
		all = append(all, more...)
		if err != nil || len(more) == 0 {
			return all, err
		}
		head = more[len(more)-1].Head()
	}
}

// openAll decodes records and folds them.
func openAll(records []event.Record) ([]event.Entry, flow.State, error) {
	var s flow.State
	entries := make([]event.Entry, len(records))
	for i, r := range records {
		e, err := r.Open()
		if err != nil {
			return entries[:i], s, err
		}
		entries[i], s = e, flow.Apply(s, e)
	}
	return entries, s, nil
}

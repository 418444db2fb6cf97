package store

import (
	"errors"
	"fmt"

	"chargehand/flow/event"
)

// Decode turns raw records into records that verify, the first of them
// following prev. At the first that does not, it returns those before it and a
// *Damaged or *Newer that names it.
func Decode(path, stream string, prev event.Head, raw [][]byte) ([]event.Record, error) {
	out := make([]event.Record, 0, len(raw))
	for _, b := range raw {
		r, err := event.UnmarshalRecord(b)
		if err == nil && r.Version > event.Version {
			return out, &Newer{Path: path, Found: fmt.Sprintf("record version %d", r.Version), Knows: fmt.Sprintf("record version %d", event.Version)}
		}
		if err == nil {
			err = r.Verify(prev)
		}
		if err != nil {
			return out, BadEvent(path, stream, prev.Seq+1, err)
		}
		out = append(out, r)
		prev = r.Head()
	}
	return out, nil
}

// BadEvent is the damage found at one event of a stream.
func BadEvent(path, stream string, seq uint64, err error) *Damaged {
	why := err.Error()
	var broken *event.BrokenError
	if errors.As(err, &broken) {
		why = broken.Why
	}
	return &Damaged{Path: path, Stream: stream, Seq: seq, Why: why, Do: AdviceCheck, Err: err}
}

package runner

import (
	"context"
	"time"

	"chargehand/flow/event"
)

// Journal keeps the streams. store/bolt is the embedded one; store/storetest
// holds the promises every Journal makes, as tests.
type Journal interface {
	// Commit writes c in one durable transaction. event.ErrSeen: a key is known,
	// nothing written. event.ErrConflict: a head differs, nothing written.
	Commit(ctx context.Context, c event.Commit) error
	// Read returns up to limit records of a stream with Seq > after, in order.
	Read(ctx context.Context, stream string, after uint64, limit int) ([]event.Record, error)
	// Head returns the end of a stream; the zero Head for an unknown one.
	Head(ctx context.Context, stream string) (event.Head, error)
	// Streams lists all streams in order of name.
	Streams(ctx context.Context) ([]event.StreamInfo, error)
	// Due returns up to limit clocks due at or before t, soonest first.
	Due(ctx context.Context, t time.Time, limit int) ([]event.DueClock, error)
	// NextDue returns the soonest clock of all; ok is false when there is none.
	NextDue(ctx context.Context) (c event.DueClock, ok bool, err error)
	// Clocks returns the clocks of one stream, soonest first.
	Clocks(ctx context.Context, stream string) ([]event.Clock, error)
	// Mark returns how far a reader has been told; the zero Mark if never.
	Mark(ctx context.Context, stream string, r event.Reader) (event.Mark, error)
	// SetMark remembers how far a reader has been told.
	SetMark(ctx context.Context, stream string, r event.Reader, m event.Mark) error
	// Readers lists the readers that have a mark for a stream.
	Readers(ctx context.Context, stream string) (map[event.Reader]event.Mark, error)
}

// Photos keeps pictures by the hash of their content.
type Photos interface {
	Put(ctx context.Context, content []byte) (hash string, err error)
	Get(ctx context.Context, hash string) ([]byte, error)
}

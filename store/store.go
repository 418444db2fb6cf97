package store

import (
	"context"
	"encoding/json"
	"time"

	"chargehand/flow/event"
)

// Journal keeps the streams. All methods may be called by many at once; all
// slices that go in are copied, all that come out belong to the caller.
type Journal interface {
	// Commit writes c in one durable transaction. event.ErrSeen: a key is known,
	// nothing written. event.ErrConflict: a head differs, nothing written.
	// *BadCommit: c could never be written. When ctx ends first, its error means
	// that nothing was written; once the writing has begun, Commit waits for it.
	Commit(ctx context.Context, c event.Commit) error
	// Read returns up to limit records of a stream with Seq > after, in order,
	// none for an unknown stream. What it returns follows the record at after and
	// verifies; at the first record that does not, Read returns those before it
	// and a *Damaged that names it.
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
	// SetMark remembers how far a reader has been told. A mark beyond the end of
	// the stream is a *BadCommit: it would silence what comes next.
	SetMark(ctx context.Context, stream string, r event.Reader, m event.Mark) error
	// Readers lists the readers that have a mark for a stream.
	Readers(ctx context.Context, stream string) (map[event.Reader]event.Mark, error)
}

// Eraser drops a person's data from a stream.
type Eraser interface {
	// Erase drops value and salt of every leaf of the stream for which match says
	// yes, in one durable transaction, and returns how many there were. The chain
	// verifies as before. event.ErrUnknown: there is no such stream.
	Erase(ctx context.Context, stream string, match func(seq uint64, pointer string, value json.RawMessage) bool) (int, error)
	// Forget drops the mark of a reader, whose name can be a person's address. It
	// is no error when there is none.
	Forget(ctx context.Context, stream string, r event.Reader) error
}

// Photos keeps pictures by the hash of their content.
type Photos interface {
	// Put keeps content and returns its name, the SHA-256 in hex. Putting the same
	// content again is no error. *TooLarge: it was refused.
	Put(ctx context.Context, content []byte) (hash string, err error)
	// Get returns the content, after comparing it with its name (*Damaged).
	// event.ErrUnknown: there is no such photo.
	Get(ctx context.Context, hash string) ([]byte, error)
}

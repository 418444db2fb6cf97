package bolt

import (
	"context"
	"errors"
	"fmt"
	"runtime/debug"
	"strings"
	"sync/atomic"
	"syscall"

	"go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"

	"chargehand/store"
)

// maxBatch is how many requests one transaction carries at most.
const maxBatch = 512

// request is one caller's part of a transaction. check only reads and says why
// it is refused; write only writes, and is called only after check agreed.
type request struct {
	check func(*bbolt.Tx) error
	write func(*bbolt.Tx) error
	seen  int // how many seen keys it adds

	state atomic.Int32
	done  chan error // gets the answer once, when the request was taken
}

// A request waits until the writer takes it or its caller gives it up: one of
// the two, so that the caller knows whether it was written.
const (
	waiting = iota
	taken
	givenUp
)

func (r *request) take() bool   { return r.state.CompareAndSwap(waiting, taken) }
func (r *request) giveUp() bool { return r.state.CompareAndSwap(waiting, givenUp) }

// submit has the writer do r and returns its answer.
func (db *DB) submit(ctx context.Context, r *request) error {
	r.done = make(chan error, 1)
	if err := db.enqueue(ctx, r); err != nil {
		return err
	}
	select {
	case err := <-r.done:
		return err
	case <-ctx.Done():
		if r.giveUp() {
			return ctx.Err()
		}
		return <-r.done // it is being written: an fsync away
	}
}

func (db *DB) enqueue(ctx context.Context, r *request) error {
	db.closing.RLock()
	defer db.closing.RUnlock()
	if db.closed {
		return store.ErrClosed
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	select {
	case db.queue <- r:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// run is the writer: it takes what waits and writes it together.
func (db *DB) run() {
	defer close(db.done)
	debug.SetPanicOnFault(true)
	batch := make([]*request, 0, maxBatch)
	for first := range db.queue {
		batch = batch[:0]
		if first.take() {
			batch = append(batch, first)
		}
	more:
		for len(batch) < maxBatch {
			select {
			case r, ok := <-db.queue:
				if !ok {
					break more
				}
				if r.take() {
					batch = append(batch, r)
				}
			default:
				break more
			}
		}
		db.serve(batch)
		clear(batch)
	}
}

// serve answers every request of a batch.
func (db *DB) serve(batch []*request) {
	answers := make([]error, len(batch))
	err := db.together(batch, answers)
	if err != nil && len(batch) > 1 && db.failed.Load() == nil {
		// One of them does not fit, and the transaction is undone for all: each
		// gets one of its own, or it would cost its neighbours their commit.
		for i, r := range batch {
			alone := []error{nil}
			if err := db.together([]*request{r}, alone); err != nil {
				alone[0] = err
			}
			answers[i] = alone[0]
		}
	} else if err != nil {
		for i := range answers {
			answers[i] = err
		}
	}
	for i, r := range batch {
		r.done <- answers[i]
	}
}

// together runs a batch in one transaction. Refusals go into answers; the error
// is for the transaction, of which then nothing was written.
func (db *DB) together(batch []*request, answers []error) (err error) {
	if f := db.failed.Load(); f != nil {
		return f
	}
	tx, err := db.b.Begin(true)
	if err != nil {
		return db.fail(err)
	}
	defer func() {
		if p := recover(); p != nil {
			err = db.fail(fmt.Errorf("its pages are damaged: %v", p))
			defer func() { recover() }() // a broken tree can break the undoing as well; nothing of it is in the file
		}
		tx.Rollback() // does nothing after Commit
	}()
	written, seen := 0, 0
	for i, r := range batch {
		if answers[i] = r.check(tx); answers[i] != nil {
			continue
		}
		if err := r.write(tx); err != nil {
			return db.writeError(err)
		}
		written++
		seen += r.seen
	}
	if written == 0 {
		return nil
	}
	if err := db.sweep(tx, seen); err != nil {
		return db.writeError(err)
	}
	if err := tx.Commit(); err != nil {
		return db.writeError(err)
	}
	return nil
}

// writeError sorts errors of a transaction: when there was no room nothing
// happened and the next may fit; after any other it is unknown what the disk
// holds (a failed fsync may have dropped the pages it should have kept), and
// only opening anew can tell.
func (db *DB) writeError(err error) error {
	switch {
	case errors.Is(err, berrors.ErrMaxSizeReached), errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT),
		errors.Is(err, syscall.EFBIG), strings.HasPrefix(err.Error(), "file resize error"): // bbolt wraps that one as text only
		return &store.NoRoom{Path: db.path, Err: err}
	case errors.Is(err, errKey):
		return db.fail(&store.Damaged{Path: db.path, Why: err.Error(), Do: store.AdviceCheck, Err: err})
	}
	return db.fail(err)
}

// fail stops all writing for good.
func (db *DB) fail(err error) error {
	f := &store.DiskFailed{Path: db.path, Err: err}
	db.failed.CompareAndSwap(nil, f)
	return db.failed.Load()
}

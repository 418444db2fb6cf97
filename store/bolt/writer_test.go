package bolt

import (
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.etcd.io/bbolt"

	"chargehand/flow/event"
	"chargehand/store"
	"chargehand/store/storetest"
)

func openTemp(t testing.TB, o Options) *DB {
	t.Helper()
	db, err := Open(filepath.Join(t.TempDir(), "jobs.store"), o)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	return db
}

// hold keeps the writer busy until the returned func is called, so that what is
// submitted meanwhile comes into one transaction.
func hold(t *testing.T, db *DB) (release func()) {
	t.Helper()
	busy, free := make(chan struct{}), make(chan struct{})
	go db.submit(context.Background(), &request{
		check: func(*bbolt.Tx) error { close(busy); <-free; return errors.New("only held") },
	})
	<-busy
	return func() { close(free) }
}

// queued waits until n requests wait for the writer.
func queued(t *testing.T, db *DB, n int) {
	t.Helper()
	require.Eventually(t, func() bool { return len(db.queue) == n }, 5*time.Second, time.Millisecond)
}

// inOneBatch submits requests one after the other while the writer is held, and
// returns their answers and the number of transactions they took.
func inOneBatch(t *testing.T, db *DB, calls ...func() error) ([]error, int) {
	t.Helper()
	release := hold(t, db)
	errs := make([]error, len(calls))
	var wg sync.WaitGroup
	for i, call := range calls {
		wg.Go(func() { errs[i] = call() })
		queued(t, db, i+1)
	}
	before := db.txid(t)
	release()
	wg.Wait()
	return errs, db.txid(t) - before
}

// txid counts the transactions that were made durable.
func (db *DB) txid(t *testing.T) (id int) {
	require.NoError(t, db.view(func(tx *bbolt.Tx) error { id = tx.ID(); return nil }))
	return id
}

func commit(db *DB, parts []event.Part, seen ...event.SeenKey) func() error {
	return func() error {
		return db.Commit(context.Background(), event.Commit{Seen: seen, Parts: parts})
	}
}

func TestOneTransactionForAllThatWait(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{})
	w := storetest.NewWriter(1)
	first := w.Part("job/a", event.Head{}, 1)
	second := w.Part("job/a", first.Records[0].Head(), 1)
	other := w.Part("job/b", event.Head{}, 1)
	errs, txs := inOneBatch(t, db,
		commit(db, []event.Part{first}, "k1"),
		commit(db, []event.Part{second}, "k2"), // made for the end that the one before it makes
		commit(db, []event.Part{first}, "k3"),  // refused: conflict
		commit(db, []event.Part{other}, "k1"),  // refused: seen a moment ago
		commit(db, []event.Part{other}, "k4"),
		func() error {
			return db.SetMark(context.Background(), "job/a", "term:local", event.Mark{Seq: 2})
		},
		func() error {
			return db.SetMark(context.Background(), "job/a", "term:local", event.Mark{Seq: 3})
		}, // refused: beyond the end
	)
	assert.Equal(t, 1, txs)
	require.NoError(t, errs[0])
	require.NoError(t, errs[1])
	require.ErrorIs(t, errs[2], event.ErrConflict)
	require.ErrorIs(t, errs[3], event.ErrSeen)
	require.NoError(t, errs[4])
	require.NoError(t, errs[5])
	require.ErrorAs(t, errs[6], new(*store.BadCommit))
	storetest.Sound(t, db)
	m, err := db.Mark(t.Context(), "job/a", "term:local")
	require.NoError(t, err)
	assert.EqualValues(t, 2, m.Seq)
	require.NoError(t, commit(db, nil, "k3")(), "the refused one left no trace")
}

func TestAllRefusedWritesNothing(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{})
	require.NoError(t, commit(db, nil, "k1")())
	errs, txs := inOneBatch(t, db, commit(db, nil, "k1"), commit(db, nil, "k1"))
	for _, err := range errs {
		require.ErrorIs(t, err, event.ErrSeen)
	}
	assert.Zero(t, txs, "a transaction was made durable for nothing")
}

func TestGivenUpIsNotWritten(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{})
	ctx, end := context.WithCancel(t.Context())
	release := hold(t, db)
	answer := make(chan error, 1)
	go func() { answer <- db.Commit(ctx, event.Commit{Seen: []event.SeenKey{"k1"}}) }()
	queued(t, db, 1)
	end()
	require.ErrorIs(t, <-answer, context.Canceled, "the caller need not wait for the writer")
	release()
	require.NoError(t, commit(db, nil, "k1")(), "it was not written")
}

func TestBegunIsWaitedFor(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{})
	ctx, end := context.WithCancel(t.Context())
	begun, goOn := make(chan struct{}), make(chan struct{})
	answer := make(chan error, 1)
	go func() {
		answer <- db.submit(ctx, &request{
			check: func(*bbolt.Tx) error { close(begun); <-goOn; return nil },
			write: func(tx *bbolt.Tx) error { return db.putSeen(tx, []event.SeenKey{"k1"}) },
		})
	}()
	<-begun
	end()
	select {
	case err := <-answer:
		t.Fatalf("answered %v before it was known", err)
	case <-time.After(20 * time.Millisecond):
	}
	close(goOn)
	require.NoError(t, <-answer, "it was written, so that is the answer")
	require.ErrorIs(t, commit(db, nil, "k1")(), event.ErrSeen)
}

func TestCloseWritesWhatWaits(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{})
	release := hold(t, db)
	errs := make([]error, 20)
	var wg sync.WaitGroup
	for i := range errs {
		wg.Go(func() { errs[i] = commit(db, nil, event.SeenKey(fmt.Sprint(i)))() })
	}
	queued(t, db, len(errs))
	closed := make(chan error, 1)
	go func() { closed <- db.Close() }()
	release()
	wg.Wait()
	require.NoError(t, <-closed)
	for _, err := range errs {
		require.NoError(t, err)
	}
	again, err := Open(db.path, Options{Existing: true})
	require.NoError(t, err)
	for i := range errs {
		require.ErrorIs(t, commit(again, nil, event.SeenKey(fmt.Sprint(i)))(), event.ErrSeen)
	}
	require.NoError(t, again.Close())
}

// TestNoRoom fills a store up to its limit: the commit that does not fit is
// refused alone, its neighbours are written, and small ones go on.
func TestNoRoom(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{MaxBytes: 3 << 20})
	w := storetest.NewWriter(2)
	huge := w.Part("job/huge", event.Head{}, 1)
	big, err := event.Seal(event.Head{}, event.Entry{At: time.Unix(0, 0), Event: event.Noted{Text: string(make([]byte, 4<<20))}}, func([]byte) {})
	require.NoError(t, err)
	huge.Records = []event.Record{big}
	a, b := w.Part("job/a", event.Head{}, 1), w.Part("job/b", event.Head{}, 1)
	errs, _ := inOneBatch(t, db,
		commit(db, []event.Part{a}, "k1"),
		commit(db, []event.Part{huge}, "k2"),
		commit(db, []event.Part{b}, "k3"),
		commit(db, []event.Part{b}, "k1"),
	)
	require.NoError(t, errs[0])
	require.ErrorAs(t, errs[1], new(*store.NoRoom))
	require.NoError(t, errs[2])
	require.ErrorIs(t, errs[3], event.ErrSeen)
	require.NoError(t, commit(db, nil, "k2")(), "nothing of the refused one was written")
	storetest.Sound(t, db)
}

// TestDiskFailed has the disk fail in a way after which nothing is certain.
func TestDiskFailed(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{})
	require.NoError(t, commit(db, nil, "k1")())
	broken := errors.New("input/output error")
	release := hold(t, db)
	errs := make([]error, 2)
	var wg sync.WaitGroup
	wg.Go(func() { errs[0] = commit(db, nil, "k1")() }) // seen, but told in a transaction that fails
	queued(t, db, 1)
	wg.Go(func() {
		errs[1] = db.submit(context.Background(), &request{
			check: func(*bbolt.Tx) error { return nil },
			write: func(*bbolt.Tx) error { return broken },
		})
	})
	queued(t, db, 2)
	release()
	wg.Wait()
	var failed *store.DiskFailed
	for _, err := range append(errs, commit(db, nil, "k2")(), db.SetMark(t.Context(), "job/a", "term:local", event.Mark{})) {
		require.ErrorAs(t, err, &failed)
		require.ErrorIs(t, err, broken)
	}
	_, err := db.Streams(t.Context())
	require.NoError(t, err, "reading goes on")
	require.NoError(t, db.Close())
	again, err := Open(db.path, Options{Existing: true})
	require.NoError(t, err)
	require.ErrorIs(t, commit(again, nil, "k1")(), event.ErrSeen)
	require.NoError(t, commit(again, nil, "k2")())
	require.NoError(t, again.Close())
}

// TestPanicInside has the tree break while it is written.
func TestPanicInside(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{})
	err := db.submit(t.Context(), &request{
		check: func(*bbolt.Tx) error { return nil },
		write: func(*bbolt.Tx) error { panic("page 7 is of no kind") },
	})
	require.ErrorAs(t, err, new(*store.DiskFailed))
	assert.Contains(t, err.Error(), "page 7")
	require.ErrorAs(t, commit(db, nil, "k1")(), new(*store.DiskFailed))
	_, err = db.Head(t.Context(), "job/a")
	require.NoError(t, err)
}

// TestSeenIsForgottenByAge lets keys grow old: they go, a few with each commit,
// and young ones stay.
func TestSeenIsForgottenByAge(t *testing.T) {
	t.Parallel()
	now := time.Date(2031, 5, 12, 0, 0, 0, 0, time.UTC)
	var mu sync.Mutex
	db := openTemp(t, Options{NoSync: true, KeepSeen: 24 * time.Hour, Now: func() time.Time { mu.Lock(); defer mu.Unlock(); return now }})
	pass := func(d time.Duration) { mu.Lock(); now = now.Add(d); mu.Unlock() }
	count := func() int { return storetest.Sound(t, db).Seen }
	for i := range 100 {
		require.NoError(t, commit(db, nil, event.SeenKey(fmt.Sprintf("old/%d", i)))())
	}
	pass(23 * time.Hour)
	for i := range 100 {
		require.NoError(t, commit(db, nil, event.SeenKey(fmt.Sprintf("young/%d", i)))())
	}
	assert.Equal(t, 200, count(), "nothing is old yet")
	pass(2 * time.Hour)
	for i := range 120 { // each looks at four
		require.NoError(t, commit(db, nil, event.SeenKey(fmt.Sprintf("new/%d", i)))())
	}
	assert.Equal(t, 220, count())
	for i := range 100 {
		require.ErrorIs(t, commit(db, nil, event.SeenKey(fmt.Sprintf("young/%d", i)))(), event.ErrSeen)
		require.NoError(t, commit(db, nil, event.SeenKey(fmt.Sprintf("old/%d", i)))())
	}
}

// TestNoLongReads expects that no read transaction is open when a method has
// returned, and that a long stream is read in several.
func TestNoLongReads(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{NoSync: true})
	w := storetest.NewWriter(3)
	p := w.Part("job/a", event.Head{}, 3*pageRecords+1)
	require.NoError(t, commit(db, []event.Part{p})())
	before := db.b.Stats().TxN
	records, err := db.Read(t.Context(), "job/a", 0, 1<<20)
	require.NoError(t, err)
	assert.Len(t, records, 3*pageRecords+1)
	stats := db.b.Stats()
	assert.Equal(t, 4, stats.TxN-before)
	assert.Zero(t, stats.OpenTxN)
}

func TestTimeKeys(t *testing.T) {
	t.Parallel()
	times := []time.Time{
		{}, time.Unix(-1, 0), time.Unix(-1, 999999999), time.Unix(0, 0), time.Unix(0, 1), time.Unix(1, 0),
		time.Unix(1<<31, 0), time.Unix(1<<40, 5), time.Unix(-1<<50, 0),
	}
	for _, a := range times {
		back, err := keyTime(timeKey(a))
		require.NoError(t, err)
		require.True(t, a.Equal(back))
		for _, b := range times {
			require.Equal(t, a.Compare(b), compareBytes(timeKey(a), timeKey(b)), "%v %v", a, b)
		}
	}
	for _, bad := range [][]byte{nil, make([]byte, 11), make([]byte, 13), {0, 0, 0, 0, 0, 0, 0, 0, 0xff, 0, 0, 0}} {
		_, err := keyTime(bad)
		require.Error(t, err)
	}
	for _, bad := range []string{"", "\x00", "a", "a\x00", "\x00a"} {
		_, _, err := keyPair([]byte(bad))
		require.Error(t, err, "%q", bad)
	}
	stream, name, err := keyPair(pairKey("job/a", "relax"))
	require.NoError(t, err)
	assert.Equal(t, [2]string{"job/a", "relax"}, [2]string{stream, name})
}

func compareBytes(a, b []byte) int {
	switch {
	case string(a) < string(b):
		return -1
	case string(a) > string(b):
		return 1
	}
	return 0
}

package bolt

import (
	"encoding/json"
	"os"
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

// TestBoltPanics opens a cut file without the inspection before it: what bbolt
// makes of it is an error of ours.
func TestBoltPanics(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{NoSync: true})
	for i := range 50 {
		p := storetest.NewWriter(uint64(i)).Part("job/a"+string(rune('a'+i)), event.Head{}, 20)
		require.NoError(t, commit(db, []event.Part{p})())
	}
	tmp, err := db.snapshot(t.Context(), db.path)
	require.NoError(t, err)
	b, err := bbolt.Open(tmp, fileMode, nil) // with a list of free pages, which bbolt reads in our goroutine
	require.NoError(t, err)
	require.NoError(t, b.Close())
	require.NoError(t, os.Truncate(tmp, 8192))
	_, err = openBolt(tmp, &bbolt.Options{Timeout: time.Second})
	require.ErrorAs(t, err, new(*store.Damaged))
}

func TestBoltMakesNoFile(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "jobs.store")
	_, err := openBolt(path, &bbolt.Options{Timeout: time.Second})
	require.ErrorIs(t, err, os.ErrNotExist)
	_, err = os.Stat(path)
	require.ErrorIs(t, err, os.ErrNotExist)
}

func TestPublishTakesNobodysPlace(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	there, tmp := filepath.Join(dir, "there"), filepath.Join(dir, "tmp")
	require.NoError(t, os.WriteFile(there, []byte("old"), fileMode))
	require.NoError(t, os.WriteFile(tmp, []byte("new"), fileMode))
	require.ErrorAs(t, publish(tmp, there), new(*store.Exists))
	content, err := os.ReadFile(there)
	require.NoError(t, err)
	assert.Equal(t, "old", string(content))
	require.NoError(t, publish(tmp, filepath.Join(dir, "free")))
	_, err = os.Stat(tmp)
	require.ErrorIs(t, err, os.ErrNotExist)
}

// TestReplacedWhileWaiting waits for the lock of a file that is replaced before
// the lock is let go. The one that waited must not write to the old file, which
// has no name any more.
func TestReplacedWhileWaiting(t *testing.T) {
	t.Parallel()
	ctx := t.Context()
	first := openTemp(t, Options{})
	path := first.path
	tmp, err := first.snapshot(ctx, path)
	require.NoError(t, err)

	var wg sync.WaitGroup
	var waited error
	var second *DB
	var openErr error
	wg.Go(func() { _, waited = openBolt(path, &bbolt.Options{Timeout: 20 * time.Second}) })
	wg.Go(func() { second, openErr = Open(path, Options{Timeout: 20 * time.Second}) })
	time.Sleep(200 * time.Millisecond) // in which they have opened the old file and wait for its lock
	require.NoError(t, replace(first, tmp, path))
	require.NoError(t, first.Close())
	wg.Wait()
	require.ErrorIs(t, waited, errReplaced)
	require.NoError(t, openErr)
	require.NoError(t, commit(second, nil, "k1")())
	require.NoError(t, second.Close())

	third, err := Open(path, Options{Existing: true})
	require.NoError(t, err)
	require.ErrorIs(t, commit(third, nil, "k1")(), event.ErrSeen, "the commit went to a file that is gone")
	require.NoError(t, third.Close())
}

// TestEraseWhileTheStreamGrows: a record that comes between reading and writing
// is erased too.
func TestEraseWhileTheStreamGrows(t *testing.T) {
	t.Parallel()
	db := openTemp(t, Options{})
	w := storetest.NewWriter(1)
	p := w.Part("job/a", event.Head{}, 2)
	require.NoError(t, commit(db, []event.Part{p})())
	release := hold(t, db)
	var wg sync.WaitGroup
	var commitErr, eraseErr error
	var n int
	late := w.Part("job/a", p.Records[1].Head(), 1)
	wg.Go(func() { commitErr = commit(db, []event.Part{late})() })
	queued(t, db, 1)
	wg.Go(func() {
		n, eraseErr = db.Erase(t.Context(), "job/a", func(_ uint64, pointer string, _ json.RawMessage) bool { return pointer == "/by/name" })
	})
	queued(t, db, 2)
	release()
	wg.Wait()
	require.NoError(t, commitErr)
	require.NoError(t, eraseErr)
	assert.Equal(t, 3, n)
	assert.Equal(t, 3, storetest.Sound(t, db).Erased)
}

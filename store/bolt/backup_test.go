package bolt_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store"
	"chargehand/store/bolt"
	"chargehand/store/storetest"
)

// commitOn commits to a stream until the returned func is called, which says how
// many records there are.
func commitOn(t *testing.T, db *bolt.DB, stream string) (stop func() int) {
	var wg sync.WaitGroup
	ctx, cancel := context.WithCancel(context.Background())
	n := 0
	wg.Go(func() {
		w := storetest.NewWriter(55)
		var head event.Head
		for ctx.Err() == nil {
			p := w.Part(stream, head, 1)
			if !assert.NoError(t, db.Commit(context.Background(), event.Commit{Parts: []event.Part{p}})) {
				return
			}
			head = p.Records[0].Head()
			n++
		}
	})
	return func() int { cancel(); wg.Wait(); return n }
}

func TestBackupWhileOpen(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, "jobs.store")
	write(sample(t, 20))(path)
	db := open(t, path, bolt.Options{NoSync: true})
	stop := commitOn(t, db, "job/new")
	for range 5 {
		var copied bytes.Buffer
		require.NoError(t, db.Backup(t.Context(), &copied))
		to := filepath.Join(t.TempDir(), "backup")
		write(copied.Bytes())(to)
		r, err := bolt.CheckFile(t.Context(), to)
		require.NoError(t, err)
		assert.Empty(t, r.Findings)
		assert.GreaterOrEqual(t, r.Streams, 4)
	}
	stop()
	names, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, names, 1, "nothing is left over")
}

// gate is a sink that takes nothing until it is opened.
type gate struct {
	asked, open chan struct{}
	once        sync.Once
}

func (g *gate) Write(p []byte) (int, error) {
	g.once.Do(func() { close(g.asked) })
	<-g.open
	return len(p), nil
}

// TestBackupToASlowSink has a sink that does not move: commits go on meanwhile
// and the pages they free are used again.
func TestBackupToASlowSink(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "jobs.store")
	write(sample(t, 20))(path)
	db := open(t, path, bolt.Options{NoSync: true})
	g := &gate{asked: make(chan struct{}), open: make(chan struct{})}
	done := make(chan error, 1)
	go func() { done <- db.Backup(t.Context(), g) }()
	<-g.asked
	for i := range 2000 { // each changes one mark: the same few pages again and again
		require.NoError(t, db.SetMark(t.Context(), "job/a", "term:local", event.Mark{Attempts: i}))
	}
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Less(t, info.Size(), int64(4<<20), "a reader kept freed pages from being used again")
	close(g.open)
	require.NoError(t, <-done)
}

func TestBackupStops(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, "jobs.store")
	write(sample(t, 5))(path)
	db := open(t, path, bolt.Options{})
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	require.ErrorIs(t, db.Backup(ctx, new(bytes.Buffer)), context.Canceled)
	require.ErrorIs(t, db.BackupTo(ctx, filepath.Join(dir, "backup")), context.Canceled)
	full := errors.New("the sink is full")
	require.ErrorIs(t, db.Backup(t.Context(), failing{full}), full)
	names, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, names, 1, "nothing is left over")
}

type failing struct{ err error }

func (f failing) Write([]byte) (int, error) { return 0, f.err }

// TestRestore backs up, loses the store, restores, and goes on.
func TestRestore(t *testing.T) {
	t.Parallel()
	ctx := t.Context()
	path := filepath.Join(t.TempDir(), "jobs.store")
	write(sample(t, 20))(path)
	db := open(t, path, bolt.Options{})
	photo, err := db.Photos().Put(ctx, []byte("a photo"))
	require.NoError(t, err)
	want, err := said(db)
	require.NoError(t, err)
	backup := filepath.Join(t.TempDir(), "monday.backup")
	require.NoError(t, db.BackupTo(ctx, backup))
	require.ErrorAs(t, db.BackupTo(ctx, backup), new(*store.Exists), "a backup is not overwritten")

	content, err := os.ReadFile(backup)
	require.NoError(t, err)
	require.ErrorAs(t, bolt.Restore(ctx, backup, path), new(*store.Exists), "a store is not overwritten")
	elsewhere := filepath.Join(t.TempDir(), "jobs.store")
	require.NoError(t, bolt.Restore(ctx, backup, elsewhere))
	after, err := os.ReadFile(backup)
	require.NoError(t, err)
	assert.True(t, bytes.Equal(content, after), "the backup was changed")

	again := open(t, elsewhere, bolt.Options{Existing: true})
	got, err := said(again)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	kept, err := again.Photos().Get(ctx, photo)
	require.NoError(t, err)
	assert.Equal(t, "a photo", string(kept))
	mark, err := again.Mark(ctx, "job/small", "term:local")
	require.NoError(t, err)
	assert.EqualValues(t, 1, mark.Seq)
	head, err := again.Head(ctx, "job/a")
	require.NoError(t, err)
	require.NoError(t, again.Commit(ctx, event.Commit{Parts: []event.Part{storetest.NewWriter(1).Part("job/a", head, 1)}}))
	storetest.Sound(t, again)
}

func TestRestoreRefusesDamagedPhotos(t *testing.T) {
	t.Parallel()
	ctx := t.Context()
	path := filepath.Join(t.TempDir(), "jobs.store")
	db := open(t, path, bolt.Options{})
	photo, err := db.Photos().Put(ctx, []byte("a photo"))
	require.NoError(t, err)
	backup := filepath.Join(t.TempDir(), "backup")
	require.NoError(t, db.BackupTo(ctx, backup))
	require.NoError(t, os.WriteFile(filepath.Join(backup+".photos", photo[:2], photo), []byte("b photo"), 0o600))
	to := filepath.Join(t.TempDir(), "jobs.store")
	require.ErrorAs(t, bolt.Restore(ctx, backup, to), new(*store.Damaged))
	_, err = os.Stat(to)
	require.ErrorIs(t, err, os.ErrNotExist)
}

// TestCompact writes, erases and compacts: smaller, the same record, and the
// erased name is nowhere in the file any more.
func TestCompact(t *testing.T) {
	t.Parallel()
	ctx := t.Context()
	path := filepath.Join(t.TempDir(), "jobs.store")
	db := open(t, path, bolt.Options{NoSync: true})
	w := storetest.NewWriter(8)
	var head event.Head
	for i := range 200 {
		p := w.Part("job/a", head, 3, event.Clock{Name: "relax", Due: time.Unix(int64(i), 0)})
		require.NoError(t, db.Commit(ctx, event.Commit{Parts: []event.Part{p}}))
		head = p.Records[2].Head()
	}
	n, err := db.Erase(ctx, "job/a", func(_ uint64, pointer string, _ json.RawMessage) bool { return pointer == "/by/name" })
	require.NoError(t, err)
	assert.Equal(t, 600, n)
	want, err := said(db)
	require.NoError(t, err)
	require.NoError(t, db.Close())

	before, after, err := bolt.Compact(ctx, path)
	require.NoError(t, err)
	assert.Less(t, after, before)
	content, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Len(t, content, int(after))
	assert.False(t, bytes.Contains(content, []byte("Ada")), "an erased name is still in the file")
	names, err := os.ReadDir(filepath.Dir(path))
	require.NoError(t, err)
	assert.Len(t, names, 1, "nothing is left over")

	db = open(t, path, bolt.Options{Existing: true})
	got, err := said(db)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	require.NoError(t, db.Commit(ctx, event.Commit{Parts: []event.Part{w.Part("job/a", head, 1)}}))
	storetest.Sound(t, db)
}

// TestOpenWhileCompacting opens a store that is replaced while the other waits
// for its lock: it must get the new file, never the one that is gone.
func TestOpenWhileCompacting(t *testing.T) {
	t.Parallel()
	ctx := t.Context()
	path := filepath.Join(t.TempDir(), "jobs.store")
	write(sample(t, 10))(path)
	w := storetest.NewWriter(9)
	var head event.Head
	for range 15 {
		var wg sync.WaitGroup
		wg.Go(func() {
			_, _, err := bolt.Compact(ctx, path)
			var locked *store.Locked
			assert.True(t, err == nil || errors.As(err, &locked), "%v", err)
		})
		wg.Go(func() {
			db, err := bolt.Open(path, bolt.Options{Existing: true})
			if !assert.NoError(t, err) {
				return
			}
			p := w.Part("job/new", head, 1)
			assert.NoError(t, db.Commit(ctx, event.Commit{Parts: []event.Part{p}}))
			head = p.Records[0].Head()
			assert.NoError(t, db.Close())
		})
		wg.Wait()
	}
	db := open(t, path, bolt.Options{Existing: true})
	got, err := db.Head(ctx, "job/new")
	require.NoError(t, err)
	assert.Equal(t, head, got)
	storetest.Sound(t, db)
}

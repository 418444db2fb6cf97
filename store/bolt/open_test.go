package bolt_test

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.etcd.io/bbolt"

	"chargehand/flow/event"
	"chargehand/store"
	"chargehand/store/bolt"
	"chargehand/store/storetest"
)

func TestOpenMakesAPrivateFile(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, "jobs.store")
	db := open(t, path, bolt.Options{})
	assert.Equal(t, path, db.Path())
	assert.Empty(t, db.Warnings())
	info, err := os.Stat(path)
	require.NoError(t, err)
	if runtime.GOOS != "windows" {
		assert.Equal(t, fs.FileMode(0o600), info.Mode().Perm())
	}
	assert.Less(t, info.Size(), int64(1<<20), "an empty store is small")
	names, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, names, 1, "nothing is left over")
}

func TestOpenLocked(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "jobs.store")
	open(t, path, bolt.Options{})
	before := time.Now()
	tries := map[string]func() error{
		"open":    func() error { _, err := bolt.Open(path, bolt.Options{}); return err },
		"check":   func() error { _, err := bolt.CheckFile(t.Context(), path); return err },
		"compact": func() error { _, _, err := bolt.Compact(t.Context(), path); return err },
		"restore": func() error { return bolt.Restore(t.Context(), path, path+".2") },
	}
	var wg sync.WaitGroup
	for name, try := range tries {
		wg.Go(func() {
			err := try()
			var locked *store.Locked
			if assert.ErrorAs(t, err, &locked, name) {
				assert.Equal(t, path, locked.Path)
				assert.Contains(t, err.Error(), "in use by another running chargehand")
			}
		})
	}
	wg.Wait()
	assert.Less(t, time.Since(before), 10*time.Second, "nobody waits for ever")
}

func TestOpenMissing(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, "jobs.store")
	for name, try := range map[string]func() error{
		"none where one is expected": func() error { _, err := bolt.Open(path, bolt.Options{Existing: true}); return err },
		"no folder":                  func() error { _, err := bolt.Open(filepath.Join(dir, "a", "b"), bolt.Options{}); return err },
		"compact":                    func() error { _, _, err := bolt.Compact(t.Context(), path); return err },
		"photos without their file": func() error {
			mine := filepath.Join(t.TempDir(), "jobs.store")
			require.NoError(t, os.MkdirAll(filepath.Join(mine+".photos", "ab"), 0o700))
			_, err := bolt.Open(mine, bolt.Options{})
			return err
		},
	} {
		var missing *store.Missing
		err := try()
		require.ErrorAs(t, err, &missing, name)
		require.ErrorIs(t, err, fs.ErrNotExist, name)
	}
	names, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Empty(t, names, "nothing was made")
}

// TestOpenRefuses opens files that are no store of ours: each is told apart and
// none is changed.
func TestOpenRefuses(t *testing.T) {
	t.Parallel()
	good := sample(t, 1)
	cases := map[string]struct {
		make func(path string)
		is   any
		says string
	}{
		"empty":         {write(nil), new(*store.Damaged), "empty"},
		"one byte":      {write([]byte{0xED}), new(*store.NotOurs), "begins like no store"},
		"text":          {write([]byte(strings.Repeat("a shopping list\n", 2000))), new(*store.NotOurs), "begins like no store"},
		"zeros":         {write(make([]byte, 1<<16)), new(*store.NotOurs), "begins like no store"},
		"a bare head":   {write(good[:100]), new(*store.Damaged), ""},
		"both heads":    {write(spoilt(good, 40, 4096+40)), new(*store.Damaged), "both its head pages"},
		"other program": {foreign(t, "files", nil), new(*store.NotOurs), "another kind"},
		"like ours":     {foreign(t, "meta", map[string]string{"format": "something"}), new(*store.NotOurs), "another kind"},
		"no version":    {foreign(t, "meta", map[string]string{"format": "chargehand store x"}), new(*store.NotOurs), "another kind"},
		"newer":         {foreign(t, "meta", map[string]string{"format": "chargehand store 2"}), new(*store.Newer), "newer chargehand"},
		"other chain":   {foreign(t, "meta", map[string]string{"format": "chargehand store 1", "hash": "chargehand/chain/2"}), new(*store.Damaged), "missing"},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			path := filepath.Join(t.TempDir(), "jobs.store")
			c.make(path)
			before, err := os.ReadFile(path)
			require.NoError(t, err)
			for range 2 { // a refusal leaves no lock behind
				_, err = bolt.Open(path, bolt.Options{})
				require.ErrorAs(t, err, c.is)
				assert.Contains(t, err.Error(), c.says)
				assert.Contains(t, err.Error(), path)
				assert.Contains(t, err.Error(), "nothing was changed")
			}
			r, err := bolt.CheckFile(t.Context(), path)
			assert.True(t, err != nil || !r.Sound())
			require.Error(t, bolt.Restore(t.Context(), path, path+".restored"))
			after, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.True(t, bytes.Equal(before, after), "the file was changed")
			names, err := os.ReadDir(filepath.Dir(path))
			require.NoError(t, err)
			assert.Len(t, names, 1, "something was left over")
		})
	}
	t.Run("a folder", func(t *testing.T) {
		_, err := bolt.Open(t.TempDir(), bolt.Options{})
		require.ErrorAs(t, err, new(*store.NotOurs))
	})
}

func TestOpenOtherChainScheme(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "jobs.store")
	write(sample(t, 1))(path)
	edit(t, path, func(tx *bbolt.Tx) error {
		return tx.Bucket([]byte("meta")).Put([]byte("hash"), []byte("chargehand/chain/2"))
	})
	_, err := bolt.Open(path, bolt.Options{})
	require.ErrorAs(t, err, new(*store.Newer))
}

func TestClosed(t *testing.T) {
	t.Parallel()
	db := open(t, filepath.Join(t.TempDir(), "jobs.store"), bolt.Options{})
	require.NoError(t, db.Close())
	require.NoError(t, db.Close())
	ctx := t.Context()
	require.ErrorIs(t, db.Commit(ctx, event.Commit{Seen: []event.SeenKey{"k"}}), store.ErrClosed)
	_, err := db.Head(ctx, "job/a")
	require.ErrorIs(t, err, store.ErrClosed)
	_, err = db.Streams(ctx)
	require.ErrorIs(t, err, store.ErrClosed)
	require.ErrorIs(t, db.Backup(ctx, new(bytes.Buffer)), store.ErrClosed)
}

func write(content []byte) func(string) {
	return func(path string) {
		if err := os.WriteFile(path, content, 0o600); err != nil {
			panic(err)
		}
	}
}

// spoilt is content with a bit turned in each of the bytes named.
func spoilt(content []byte, at ...int) []byte {
	out := bytes.Clone(content)
	for _, i := range at {
		out[i] ^= 0x10
	}
	return out
}

// foreign makes a bbolt file with one bucket that is not ours.
func foreign(t *testing.T, bucket string, keys map[string]string) func(string) {
	return func(path string) {
		b, err := bbolt.Open(path, 0o600, nil)
		require.NoError(t, err)
		require.NoError(t, b.Update(func(tx *bbolt.Tx) error {
			bkt, err := tx.CreateBucket([]byte(bucket))
			for k, v := range keys {
				require.NoError(t, bkt.Put([]byte(k), []byte(v)))
			}
			return err
		}))
		require.NoError(t, b.Close())
	}
}

// edit changes a store behind its back.
func edit(t testing.TB, path string, fn func(*bbolt.Tx) error) {
	t.Helper()
	b, err := bbolt.Open(path, 0o600, &bbolt.Options{NoFreelistSync: true, Timeout: time.Second})
	require.NoError(t, err)
	require.NoError(t, b.Update(fn))
	require.NoError(t, b.Close())
}

// sample is the file of a store with records in several streams, clocks, marks
// and seen keys, without free space at its end.
func sample(t testing.TB, size int) []byte {
	t.Helper()
	ctx := t.Context()
	db := open(t, filepath.Join(t.TempDir(), "jobs.store"), bolt.Options{NoSync: true})
	w := storetest.NewWriter(99)
	for i, stream := range []string{event.Book, "job/a", "job/b", "job/small"} {
		var head event.Head
		n := size
		if stream == "job/small" {
			n = 1 // its bucket lies inside another page
		}
		for c := range n {
			p := w.Part(stream, head, 1+c%3, event.Clock{Name: "relax", Due: time.Unix(int64(1000*i+c), 0)}, event.Clock{Name: "dew", Due: time.Unix(9999, int64(c))})
			p.Summary = []byte("of " + stream)
			require.NoError(t, db.Commit(ctx, event.Commit{Seen: []event.SeenKey{event.SeenKey(stream + strings.Repeat("x", c%9) + string(rune('a'+c%26)))}, Parts: []event.Part{p}}))
			head = p.Records[len(p.Records)-1].Head()
		}
		require.NoError(t, db.SetMark(ctx, stream, "term:local", event.Mark{Seq: head.Seq}))
	}
	var copied bytes.Buffer
	require.NoError(t, db.Backup(ctx, &copied))
	return copied.Bytes()
}

package bolt_test

import (
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.etcd.io/bbolt"

	"chargehand/flow/event"
	"chargehand/store"
	"chargehand/store/bolt"
)

func seq(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

// bucket is a bucket by the names of package store's layout.
func bucket(tx *bbolt.Tx, names ...string) *bbolt.Bucket {
	b := tx.Bucket([]byte(names[0]))
	for _, n := range names[1:] {
		b = b.Bucket([]byte(n))
	}
	return b
}

// rewrite changes one stored record.
func rewrite(tx *bbolt.Tx, stream string, n uint64, change func(*event.Record)) error {
	b := bucket(tx, "events", stream)
	r, err := event.UnmarshalRecord(b.Get(seq(n)))
	if err != nil {
		return err
	}
	change(&r)
	raw, err := event.MarshalRecord(r)
	if err != nil {
		return err
	}
	return b.Put(seq(n), raw)
}

// TestCheckNames makes the damage that the page structure does not show, and
// expects it to be named: the stream and the first bad event.
func TestCheckNames(t *testing.T) {
	t.Parallel()
	whole := sample(t, 20)
	due := func(t time.Time) []byte {
		return binary.BigEndian.AppendUint32(seq(uint64(t.Unix())^1<<63), uint32(t.Nanosecond()))
	}
	cases := map[string]struct {
		edit func(*bbolt.Tx) error
		want store.Finding // Why is a part of it
	}{
		"tampered value": {
			func(tx *bbolt.Tx) error {
				return rewrite(tx, "job/a", 7, func(r *event.Record) { r.Leaves[0].Value = []byte(`"p2"`) })
			},
			store.Finding{In: store.InEvents, Stream: "job/a", Seq: 7, Why: "do not match its seal"},
		},
		"tampered and sealed again": {
			func(tx *bbolt.Tx) error {
				return rewrite(tx, "job/a", 7, func(r *event.Record) {
					sealed, err := event.Seal(event.Head{Seq: 6, Hash: r.Prev}, event.Entry{At: r.At, Event: event.Continued{}}, func([]byte) {})
					if err != nil {
						panic(err)
					}
					*r = sealed
				})
			},
			store.Finding{In: store.InEvents, Stream: "job/a", Seq: 8, Why: "does not follow"},
		},
		"removed": {
			func(tx *bbolt.Tx) error { return bucket(tx, "events", "job/a").Delete(seq(5)) },
			store.Finding{In: store.InEvents, Stream: "job/a", Seq: 5, Why: "missing"},
		},
		"removed and closed up": {
			func(tx *bbolt.Tx) error {
				b := bucket(tx, "events", "job/a")
				return b.Put(seq(5), bytes.Clone(b.Get(seq(6))))
			},
			store.Finding{In: store.InEvents, Stream: "job/a", Seq: 5, Why: "number 6 stands where 5 belongs"},
		},
		"swapped": {
			func(tx *bbolt.Tx) error {
				b := bucket(tx, "events", "job/b")
				three, four := bytes.Clone(b.Get(seq(3))), bytes.Clone(b.Get(seq(4)))
				if err := b.Put(seq(3), four); err != nil {
					return err
				}
				return b.Put(seq(4), three)
			},
			store.Finding{In: store.InEvents, Stream: "job/b", Seq: 3, Why: "number 4 stands"},
		},
		"of another stream": {
			func(tx *bbolt.Tx) error {
				return bucket(tx, "events", "job/b").Put(seq(1), bytes.Clone(bucket(tx, "events", "job/a").Get(seq(1))))
			},
			store.Finding{In: store.InEvents, Stream: "job/b", Seq: 2, Why: "does not follow"},
		},
		"another spelling": {
			func(tx *bbolt.Tx) error {
				b := bucket(tx, "events", "job/a")
				return b.Put(seq(6), bytes.Replace(bytes.Clone(b.Get(seq(6))), []byte(`"kind"`), []byte(`"Kind"`), 1))
			},
			store.Finding{In: store.InEvents, Stream: "job/a", Seq: 6, Why: "bytes are not as they were written"},
		},
		"no JSON": {
			func(tx *bbolt.Tx) error { return bucket(tx, "events", "job/a").Put(seq(2), []byte(`{"v":1,`)) },
			store.Finding{In: store.InEvents, Stream: "job/a", Seq: 2, Why: "does not decode"},
		},
		"newer record": {
			func(tx *bbolt.Tx) error {
				return rewrite(tx, "job/a", 9, func(r *event.Record) { r.Version = 2 })
			},
			store.Finding{In: store.InEvents, Stream: "job/a", Seq: 9, Why: "newer program"},
		},
		"end cut off": {
			func(tx *bbolt.Tx) error {
				b := bucket(tx, "events", "job/a")
				k, _ := b.Cursor().Last()
				return b.Delete(bytes.Clone(k))
			},
			store.Finding{In: store.InEvents, Stream: "job/a", Seq: 39, Why: "missing"},
		},
		"end cut off and the list with it": {
			func(tx *bbolt.Tx) error {
				v := bytes.Clone(bucket(tx, "heads").Get([]byte("job/a")))
				copy(v, seq(38))
				return bucket(tx, "heads").Put([]byte("job/a"), v)
			},
			store.Finding{In: store.InHeads, Stream: "job/a", Why: "it says 38"},
		},
		"all records gone": {
			func(tx *bbolt.Tx) error { return bucket(tx, "events").DeleteBucket([]byte("job/a")) },
			store.Finding{In: store.InEvents, Stream: "job/a", Seq: 1, Why: "missing"},
		},
		"not in the list": {
			func(tx *bbolt.Tx) error { return bucket(tx, "heads").Delete([]byte("job/a")) },
			store.Finding{In: store.InHeads, Stream: "job/a", Why: "not in the list"},
		},
		"end of no form": {
			func(tx *bbolt.Tx) error { return bucket(tx, "heads").Put([]byte("job/a"), []byte("x")) },
			store.Finding{In: store.InHeads, Why: "form"},
		},
		"a clock that never rings": {
			func(tx *bbolt.Tx) error {
				c := bucket(tx, "due").Cursor()
				k, _ := c.First()
				return bucket(tx, "due").Delete(bytes.Clone(k))
			},
			store.Finding{In: store.InClocks, Stream: "book", Why: "relax, due 1970-01-01T00:00:19Z: it would never ring"},
		},
		"a clock of nobody": {
			func(tx *bbolt.Tx) error {
				return bucket(tx, "due").Put(append(due(time.Unix(5, 0)), "job/a\x00ghost"...), []byte{1})
			},
			store.Finding{In: store.InClocks, Stream: "job/a", Why: "ghost, due 1970-01-01T00:00:05Z: it would ring, but"},
		},
		"a clock of no stream": {
			func(tx *bbolt.Tx) error {
				return bucket(tx, "clocks").Put([]byte("job/x\x00ghost"), due(time.Unix(5, 0)))
			},
			store.Finding{In: store.InClocks, Stream: "job/x", Why: "does not exist"},
		},
		"a clock of no form": {
			func(tx *bbolt.Tx) error { return bucket(tx, "clocks").Put([]byte("job/a\x00relax"), []byte("soon")) },
			store.Finding{In: store.InClocks, Stream: "job/a", Why: "form"},
		},
		"told too much": {
			func(tx *bbolt.Tx) error {
				return bucket(tx, "marks").Put([]byte("job/a\x00term:local"), []byte(`{"seq":40}`))
			},
			store.Finding{In: store.InMarks, Stream: "job/a", Why: "term:local was told up to 40, but the stream ends at 39"},
		},
		"told of nothing": {
			func(tx *bbolt.Tx) error {
				return bucket(tx, "marks").Put([]byte("job/x\x00term:local"), []byte(`{"seq":4}`))
			},
			store.Finding{In: store.InMarks, Stream: "job/x", Why: "does not exist"},
		},
		"mark of no form": {
			func(tx *bbolt.Tx) error { return bucket(tx, "marks").Put([]byte("job/a\x00term:local"), []byte(`{`)) },
			store.Finding{In: store.InMarks, Stream: "job/a", Why: "form"},
		},
		"seen key of no form": {
			func(tx *bbolt.Tx) error { return bucket(tx, "seen").Put([]byte("bot/1"), []byte("x")) },
			store.Finding{In: store.InSeen, Why: "form"},
		},
		"unknown part": {
			func(tx *bbolt.Tx) error { _, err := tx.CreateBucket([]byte("extra")); return err },
			store.Finding{In: store.InFile, Why: `"extra"`},
		},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			path := filepath.Join(t.TempDir(), "jobs.store")
			write(whole)(path)
			edit(t, path, c.edit)
			r, err := bolt.CheckFile(t.Context(), path)
			require.NoError(t, err)
			require.NotEmpty(t, r.Findings)
			f := r.Findings[0]
			assert.Contains(t, f.Why, c.want.Why)
			f.Why = c.want.Why
			assert.Equal(t, c.want, f)
			assert.NotEmpty(t, r.Findings[0].String())

			// The live check says the same, and the store neither backs up nor
			// compacts what is damaged.
			db, err := bolt.Open(path, bolt.Options{})
			require.NoError(t, err)
			live, err := db.Check(t.Context())
			require.NoError(t, err)
			assert.Equal(t, r, live)
			require.ErrorAs(t, db.BackupTo(t.Context(), path+".backup"), new(*store.Damaged))
			require.NoError(t, db.Close())
			_, _, err = bolt.Compact(t.Context(), path)
			require.ErrorAs(t, err, new(*store.Damaged))
			require.ErrorAs(t, bolt.Restore(t.Context(), path, path+".restored"), new(*store.Damaged))
			names, err := os.ReadDir(filepath.Dir(path))
			require.NoError(t, err)
			assert.Len(t, names, 1, "nothing is left over")
		})
	}
}

// TestReadNamesTheFirstBadEvent reads up to a bad event, from before and behind.
func TestReadNamesTheFirstBadEvent(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "jobs.store")
	write(sample(t, 20))(path)
	edit(t, path, func(tx *bbolt.Tx) error {
		return rewrite(tx, "job/a", 7, func(r *event.Record) { r.Leaves[0].Value = []byte(`"p2"`) })
	})
	db := open(t, path, bolt.Options{})
	for _, after := range []uint64{0, 3, 6} {
		records, err := db.Read(t.Context(), "job/a", after, 1000)
		var damaged *store.Damaged
		require.ErrorAs(t, err, &damaged)
		assert.Equal(t, path, damaged.Path)
		assert.Equal(t, "job/a", damaged.Stream)
		assert.EqualValues(t, 7, damaged.Seq)
		assert.Len(t, records, int(6-after))
		assert.Contains(t, err.Error(), "damaged in job/a from event 7 on")
		var broken *event.BrokenError
		require.ErrorAs(t, err, &broken)
	}
	records, err := db.Read(t.Context(), "job/a", 0, 6)
	require.NoError(t, err, "what is whole can be read")
	assert.Len(t, records, 6)
	_, err = db.Read(t.Context(), "job/b", 0, 1000)
	require.NoError(t, err, "other jobs are not touched")
}

// TestCheckWhileOpen checks again and again while commits go on.
func TestCheckWhileOpen(t *testing.T) {
	t.Parallel()
	db := open(t, filepath.Join(t.TempDir(), "jobs.store"), bolt.Options{NoSync: true})
	stop := commitOn(t, db, "job/a")
	for range 10 {
		r, err := db.Check(t.Context())
		require.NoError(t, err)
		require.Empty(t, r.Findings)
	}
	n := stop()
	r, err := db.Check(t.Context())
	require.NoError(t, err)
	require.Empty(t, r.Findings)
	assert.Equal(t, n, r.Events)
}

func TestCheckOneHead(t *testing.T) {
	t.Parallel()
	content := sample(t, 5)
	for _, at := range []int{40, 4096 + 40} {
		path := filepath.Join(t.TempDir(), "jobs.store")
		write(spoilt(content, at))(path)
		r, err := bolt.CheckFile(t.Context(), path)
		require.NoError(t, err)
		require.Len(t, r.Findings, 1)
		assert.Equal(t, store.InFile, r.Findings[0].In)
		assert.Contains(t, r.Findings[0].Why, "one of its two head pages")
		db := open(t, path, bolt.Options{})
		assert.Equal(t, r.Findings, db.Warnings())
	}
}

func TestCheckPhotos(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "jobs.store")
	db := open(t, path, bolt.Options{})
	name, err := db.Photos().Put(t.Context(), []byte("a photo"))
	require.NoError(t, err)
	_, err = db.Photos().Put(t.Context(), []byte("another"))
	require.NoError(t, err)
	r, err := db.Check(t.Context())
	require.NoError(t, err)
	assert.Equal(t, store.Report{Photos: 2}, r)
	require.NoError(t, os.WriteFile(filepath.Join(path+".photos", name[:2], name), []byte("a phota"), 0o600))
	r, err = db.Check(t.Context())
	require.NoError(t, err)
	require.Len(t, r.Findings, 1)
	assert.Equal(t, name, r.Findings[0].Photo)
	assert.True(t, strings.HasPrefix(r.Findings[0].String(), "photos "+name))
}

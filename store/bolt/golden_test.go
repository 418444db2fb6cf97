package bolt_test

import (
	"bytes"
	"compress/gzip"
	"flag"
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store"
	"chargehand/store/bolt"
	"chargehand/store/storetest"
)

// goldenStore is a whole file as the first version of the layout wrote it. It is
// never made anew: it must open for ever.
const goldenStore = "testdata/v1.store.gz"

var makeGolden = flag.Bool("make-golden", false, "make "+goldenStore+" where there is none")

// goldenLines is how many lines of the golden record it was made of.
const goldenLines = 26

var (
	goldenClocks = []event.Clock{
		{Name: "relax", Due: time.Date(2031, 5, 12, 8, 0, 0, 0, time.UTC)},
		{Name: "inspection", Due: time.Date(2032, 5, 12, 8, 0, 0, 7, time.UTC)},
	}
	goldenMark = event.Mark{Seq: 20, MessageID: "77", Asked: "survey/depth@2", NotBefore: goldenClocks[0].Due, Attempts: 2}
)

func goldenRecord(t *testing.T) []event.Record {
	raw, err := os.ReadFile("../../testdata/journal/v1.jsonl")
	require.NoError(t, err)
	var out []event.Record
	for line := range bytes.Lines(raw) {
		if len(out) == goldenLines {
			break
		}
		r, err := event.UnmarshalRecord(bytes.TrimSpace(line))
		require.NoError(t, err)
		out = append(out, r)
	}
	require.Len(t, out, goldenLines)
	return out
}

func TestGoldenStore(t *testing.T) {
	ctx := t.Context()
	want := goldenRecord(t)
	if *makeGolden {
		writeGolden(t, want)
	}
	f, err := os.Open(goldenStore)
	require.NoError(t, err)
	defer f.Close()
	z, err := gzip.NewReader(f)
	require.NoError(t, err)
	content, err := io.ReadAll(z)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "jobs.store")
	write(content)(path)

	r, err := bolt.CheckFile(ctx, path)
	require.NoError(t, err)
	assert.Equal(t, store.Report{Streams: 2, Events: goldenLines + 1, Clocks: 2, Marks: 1, Seen: 2, Erased: r.Erased}, r)
	assert.Positive(t, r.Erased)
	db := open(t, path, bolt.Options{Existing: true})
	got, err := db.Read(ctx, "job/golden", 0, 100)
	require.NoError(t, err)
	assert.Equal(t, want, got)
	streams, err := db.Streams(ctx)
	require.NoError(t, err)
	require.Len(t, streams, 2)
	assert.Equal(t, event.StreamInfo{Stream: "job/golden", Head: want[goldenLines-1].Head(), Summary: []byte("golden")}, streams[1])
	clocks, err := db.Clocks(ctx, "job/golden")
	require.NoError(t, err)
	assert.Equal(t, goldenClocks, clocks)
	due, ok, err := db.NextDue(ctx)
	require.NoError(t, err)
	assert.True(t, ok)
	assert.Equal(t, event.DueClock{Stream: "job/golden", Clock: goldenClocks[0]}, due)
	mark, err := db.Mark(ctx, "job/golden", "term:local")
	require.NoError(t, err)
	assert.Equal(t, goldenMark, mark)
	for _, key := range []event.SeenKey{"bot/1", "bot/2"} {
		require.ErrorIs(t, db.Commit(ctx, event.Commit{Seen: []event.SeenKey{key}}), event.ErrSeen)
	}
	next := storetest.NewWriter(1).Part("job/golden", streams[1].Head, 1)
	require.NoError(t, db.Commit(ctx, event.Commit{Parts: []event.Part{next}}))
	storetest.Sound(t, db)
}

func writeGolden(t *testing.T, records []event.Record) {
	_, err := os.Stat(goldenStore)
	require.ErrorIs(t, err, os.ErrNotExist, "it is never made anew")
	db := open(t, filepath.Join(t.TempDir(), "jobs.store"), bolt.Options{})
	require.NoError(t, db.Commit(t.Context(), event.Commit{
		Seen: []event.SeenKey{"bot/1", "bot/2"},
		Parts: []event.Part{
			{Stream: "job/golden", Records: records, Clocks: goldenClocks, Summary: []byte("golden")},
			storetest.NewWriter(7).Part(event.Book, event.Head{}, 1),
		},
	}))
	require.NoError(t, db.SetMark(t.Context(), "job/golden", "term:local", goldenMark))
	require.NoError(t, os.MkdirAll("testdata", 0o755))
	f, err := os.OpenFile(goldenStore, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	require.NoError(t, err)
	z := gzip.NewWriter(f)
	require.NoError(t, db.Backup(t.Context(), z))
	require.NoError(t, z.Close())
	require.NoError(t, f.Close())
}

package storetest

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
)

// copies changes everything that went in and came out, and looks again.
func copies(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(21)
	p := w.Part("job/a", event.Head{}, 3, event.Clock{Name: "relax", Due: began})
	p.Summary = []byte("summary")
	c := one(p, "key/1")
	before := encoded(t, p.Records)
	require.NoError(t, j.Commit(ctx, c))

	spoil(p.Records)
	p.Clocks[0].Name = "spoilt"
	copy(p.Summary, "SPOILT!")
	c.Seen[0] = "key/2"
	look := func() {
		t.Helper()
		records, err := j.Read(ctx, "job/a", 0, 10)
		require.NoError(t, err)
		require.Equal(t, before, encoded(t, records))
		spoil(records)
		clocks, err := j.Clocks(ctx, "job/a")
		require.NoError(t, err)
		require.Equal(t, []event.Clock{{Name: "relax", Due: began}}, clocks)
		clocks[0].Name = "spoilt"
		streams, err := j.Streams(ctx)
		require.NoError(t, err)
		require.Equal(t, "summary", string(streams[0].Summary))
		copy(streams[0].Summary, "SPOILT!")
		due, err := j.Due(ctx, began, 10)
		require.NoError(t, err)
		require.Len(t, due, 1)
		require.Equal(t, "relax", due[0].Name)
		due[0].Name = "spoilt"
		readers, err := j.Readers(ctx, "job/a")
		require.NoError(t, err)
		require.Empty(t, readers)
		readers["term:local"] = event.Mark{Seq: 1}
	}
	look()
	look()
	require.ErrorIs(t, j.Commit(ctx, event.Commit{Seen: []event.SeenKey{"key/1"}}), event.ErrSeen)
	require.NoError(t, j.Commit(ctx, event.Commit{Seen: []event.SeenKey{"key/2"}}))
	readers, err := j.Readers(ctx, "job/a")
	require.NoError(t, err)
	assert.Empty(t, readers)
}

func spoil(records []event.Record) {
	for i := range records {
		records[i].Seq = 99
		records[i].Hash[0] ^= 1
		for k := range records[i].Leaves {
			l := &records[i].Leaves[k]
			l.Pointer = "/spoilt"
			for n := range l.Value {
				l.Value[n] = '!'
			}
			for n := range l.Salt {
				l.Salt[n] = 0
			}
		}
	}
}

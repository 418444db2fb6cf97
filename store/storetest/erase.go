package storetest

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store"
)

func erase(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(31)
	eraser, ok := j.(store.Eraser)
	if !ok {
		t.Skip("this store does not erase")
	}
	p := w.Part("job/a", event.Head{}, 300)
	require.NoError(t, j.Commit(ctx, one(p)))
	other := w.Part("job/b", event.Head{}, 2)
	require.NoError(t, j.Commit(ctx, one(other)))

	isName := func(_ uint64, pointer string, _ json.RawMessage) bool { return pointer == "/by/name" }
	n, err := eraser.Erase(ctx, "job/a", isName)
	require.NoError(t, err)
	assert.Equal(t, 300, n)
	n, err = eraser.Erase(ctx, "job/a", isName)
	require.NoError(t, err)
	assert.Zero(t, n, "what is gone is not erased again")
	n, err = eraser.Erase(ctx, "job/a", func(seq uint64, pointer string, value json.RawMessage) bool {
		return seq == 7 && pointer == "/by/id" && string(value) == `"p1"`
	})
	require.NoError(t, err)
	assert.Equal(t, 1, n)
	_, err = eraser.Erase(ctx, "job/none", isName)
	require.ErrorIs(t, err, event.ErrUnknown)

	records, err := j.Read(ctx, "job/a", 0, 1000)
	require.NoError(t, err)
	require.Len(t, records, 300)
	for i, r := range records {
		assert.Equal(t, p.Records[i].Hash, r.Hash)
		e, err := r.Open()
		require.NoError(t, err)
		assert.Empty(t, e.By.Name)
	}
	got, err := j.Read(ctx, "job/b", 0, 10)
	require.NoError(t, err)
	equalRecords(t, other.Records, got)

	require.NoError(t, j.SetMark(ctx, "job/a", "bot:1", event.Mark{Seq: 3}))
	require.NoError(t, j.SetMark(ctx, "job/a", "bot:2", event.Mark{Seq: 4}))
	require.NoError(t, eraser.Forget(ctx, "job/a", "bot:1"))
	require.NoError(t, eraser.Forget(ctx, "job/a", "bot:1"), "forgetting twice is no error")
	readers, err := j.Readers(ctx, "job/a")
	require.NoError(t, err)
	assert.Equal(t, map[event.Reader]event.Mark{"bot:2": {Seq: 4}}, readers)

	// And it goes on as before.
	require.NoError(t, j.Commit(ctx, one(w.Part("job/a", headOf(p), 1))))
	assert.Equal(t, 301, Sound(t, j).Erased)
}

func checkCounts(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(32)
	p := w.Part("job/a", event.Head{}, 3, event.Clock{Name: "a", Due: began}, event.Clock{Name: "b", Due: began})
	require.NoError(t, j.Commit(ctx, one(p, "k1", "k2", "k3")))
	require.NoError(t, j.Commit(ctx, one(w.Part("job/b", event.Head{}, 4))))
	require.NoError(t, j.SetMark(ctx, "job/a", "bot:1", event.Mark{Seq: 3}))
	r := Sound(t, j)
	assert.Equal(t, store.Report{Streams: 2, Events: 7, Clocks: 2, Marks: 1, Seen: 3}, r)
}

package storetest

import (
	"context"
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store"
)

func empty(t *testing.T, h Harness) {
	j, ctx := h.open(t), t.Context()
	head, err := j.Head(ctx, "job/none")
	require.NoError(t, err)
	assert.Zero(t, head)
	records, err := j.Read(ctx, "job/none", 0, 10)
	require.NoError(t, err)
	assert.Empty(t, records)
	streams, err := j.Streams(ctx)
	require.NoError(t, err)
	assert.Empty(t, streams)
	_, ok, err := j.NextDue(ctx)
	require.NoError(t, err)
	assert.False(t, ok)
	mark, err := j.Mark(ctx, "job/none", "term:local")
	require.NoError(t, err)
	assert.Zero(t, mark)
	readers, err := j.Readers(ctx, "job/none")
	require.NoError(t, err)
	assert.NotNil(t, readers)
	assert.Empty(t, readers)
	require.NoError(t, j.Commit(ctx, event.Commit{}))
	require.NoError(t, j.Commit(ctx, one(event.Part{Stream: "job/none"})), "a part may expect that there is no such stream")
	require.NoError(t, j.Commit(ctx, one(event.Part{Stream: "job/none", Summary: []byte{}})))
	streams, err = j.Streams(ctx)
	require.NoError(t, err)
	assert.Empty(t, streams, "expecting nothing makes no stream")
}

func appendAndRead(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(1)
	var all []event.Record
	var head event.Head
	for n := 1; len(all) < 600; n++ { // more than a store reads at once
		p := w.Part("job/a", head, n)
		require.NoError(t, j.Commit(ctx, one(p)))
		all, head = append(all, p.Records...), headOf(p)
		got, err := j.Head(ctx, "job/a")
		require.NoError(t, err)
		require.Equal(t, head, got)
	}
	for _, after := range []int{0, 1, 2, 255, 256, 257, len(all) - 1, len(all), len(all) + 1, len(all) + 1000} {
		for _, limit := range []int{-1, 0, 1, 2, 256, 257, 513, len(all), 1 << 30} {
			from := min(after, len(all))
			to := min(from+max(limit, 0), len(all))
			got, err := j.Read(ctx, "job/a", uint64(after), limit)
			require.NoError(t, err)
			equalRecords(t, all[from:to], got)
		}
	}
	got, err := event.VerifyChain(all)
	require.NoError(t, err)
	assert.Equal(t, head, got)
}

func conflict(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(2)
	clock := event.Clock{Name: "relax", Due: began}
	first := w.Part("job/a", event.Head{}, 2, clock)
	require.NoError(t, j.Commit(ctx, one(first)))
	head := headOf(first)

	other := head
	other.Hash[3] ^= 1
	for name, expect := range map[string]event.Head{
		"before the first": {}, "behind": first.Records[0].Head(), "another past": other, "ahead": {Seq: 9, Hash: head.Hash},
	} {
		t.Run(name, func(t *testing.T) {
			err := j.Commit(ctx, one(w.Part("job/a", expect, 1), "key/"+event.SeenKey(name)))
			require.ErrorIs(t, err, event.ErrConflict)
			err = j.Commit(ctx, one(event.Part{Stream: "job/a", Expect: expect}))
			require.ErrorIs(t, err, event.ErrConflict, "a part without records expects too")
			got, err := j.Read(ctx, "job/a", 0, 10)
			require.NoError(t, err)
			equalRecords(t, first.Records, got)
			clocks, err := j.Clocks(ctx, "job/a")
			require.NoError(t, err)
			assert.Equal(t, []event.Clock{clock}, clocks)
			streams, err := j.Streams(ctx)
			require.NoError(t, err)
			assert.Equal(t, []event.StreamInfo{{Stream: "job/a", Head: head}}, streams)
			// The message of the refused commit was not acted on.
			require.NoError(t, j.Commit(ctx, event.Commit{Seen: []event.SeenKey{"key/" + event.SeenKey(name)}}))
		})
	}
}

func seen(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(3)
	first := w.Part("job/a", event.Head{}, 1)
	require.NoError(t, j.Commit(ctx, one(first, "bot/1", "bot/1", "bot/2")), "a key named twice is one key")
	head := headOf(first)
	for name, c := range map[string]event.Commit{
		"the same again":     one(first, "bot/1"),
		"right place":        one(w.Part("job/a", head, 1), "bot/2"),
		"among new ones":     one(w.Part("job/a", head, 1), "bot/3", "bot/1"),
		"another stream":     one(w.Part("job/b", event.Head{}, 1), "bot/1"),
		"conflicts as well":  one(w.Part("job/a", event.Head{}, 1), "bot/1"),
		"with no part":       {Seen: []event.SeenKey{"bot/1"}},
		"only one of two is": {Seen: []event.SeenKey{"bot/4", "bot/2"}},
	} {
		require.ErrorIs(t, j.Commit(ctx, c), event.ErrSeen, name)
	}
	require.NoError(t, j.Commit(ctx, one(w.Part("job/a", head, 1), "bot/3", "bot/4")), "a refused commit leaves its other keys new")
	require.NoError(t, j.Commit(ctx, one(w.Part("job/b", event.Head{}, 1), "bot/11")), "a key is not a prefix")
	streams, err := j.Streams(ctx)
	require.NoError(t, err)
	require.Len(t, streams, 2)
	assert.EqualValues(t, 2, streams[0].Head.Seq)
	assert.EqualValues(t, 1, streams[1].Head.Seq)
}

func severalStreams(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(4)
	job, book := w.Part("job/a", event.Head{}, 2), w.Part(event.Book, event.Head{}, 1)
	require.NoError(t, j.Commit(ctx, event.Commit{Seen: []event.SeenKey{"k1"}, Parts: []event.Part{job, book}}))

	// The first part is right and the second is not: neither is written.
	next := w.Part("job/a", headOf(job), 1)
	for _, parts := range [][]event.Part{{next, w.Part(event.Book, event.Head{}, 1)}, {w.Part(event.Book, event.Head{}, 1), next}} {
		require.ErrorIs(t, j.Commit(ctx, event.Commit{Seen: []event.SeenKey{"k2"}, Parts: parts}), event.ErrConflict)
	}
	for stream, want := range map[string]event.Head{"job/a": headOf(job), event.Book: headOf(book)} {
		got, err := j.Head(ctx, stream)
		require.NoError(t, err)
		assert.Equal(t, want, got, stream)
	}
	// A part without records holds the other to a state of its stream.
	require.NoError(t, j.Commit(ctx, event.Commit{
		Seen:  []event.SeenKey{"k2"},
		Parts: []event.Part{next, {Stream: event.Book, Expect: headOf(book), Keep: true}},
	}))
}

func badCommits(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(5)
	good := w.Part("job/a", event.Head{}, 3)
	require.NoError(t, j.Commit(ctx, one(good)))
	head := headOf(good)

	records := w.Records(head, 3)
	part := func(change func([]event.Record)) event.Part {
		mine := append([]event.Record{}, records...)
		change(mine)
		return event.Part{Stream: "job/a", Expect: head, Records: mine}
	}
	tampered := records[1]
	tampered.Leaves = append([]event.Leaf{}, tampered.Leaves...)
	tampered.Leaves[0].Value = []byte(`"somebody else"`)
	late := began.AddDate(9000, 0, 0)
	for name, c := range map[string]event.Commit{
		"a gap":                one(part(func(r []event.Record) { r[1] = r[2] })),
		"twice the same":       one(part(func(r []event.Record) { r[1] = r[0] })),
		"swapped":              one(part(func(r []event.Record) { r[1], r[2] = r[2], r[1] })),
		"tampered":             one(part(func(r []event.Record) { r[1] = tampered })),
		"made for elsewhere":   one(event.Part{Stream: "job/a", Expect: head, Records: w.Records(event.Head{Seq: 3}, 1)}),
		"beyond the calendar":  one(event.Part{Stream: "job/a", Expect: head, Records: []event.Record{{Seq: 4, At: late}}}),
		"two parts of one":     {Parts: []event.Part{{Stream: "job/a", Expect: head}, {Stream: "job/a", Expect: head}}},
		"no name":              one(event.Part{}),
		"zero byte":            one(event.Part{Stream: "job\x00a"}),
		"long name":            one(event.Part{Stream: strings.Repeat("x", store.MaxName+1)}),
		"clock with no name":   one(event.Part{Stream: "job/a", Expect: head, Clocks: []event.Clock{{Due: began}}}),
		"clock with zero byte": one(event.Part{Stream: "job/a", Expect: head, Clocks: []event.Clock{{Name: "a\x00", Due: began}}}),
		"clock twice":          one(event.Part{Stream: "job/a", Expect: head, Clocks: []event.Clock{{Name: "a", Due: began}, {Name: "a", Due: late}}}),
		"clock with no record": one(event.Part{Stream: "job/b", Clocks: []event.Clock{{Name: "a", Due: began}}}),
		"summary of nothing":   one(event.Part{Stream: "job/b", Summary: []byte("b")}),
		"empty key":            one(event.Part{Stream: "job/a", Expect: head}, ""),
		"long key":             one(event.Part{Stream: "job/a", Expect: head}, event.SeenKey(strings.Repeat("x", store.MaxKey+1))),
	} {
		var bad *store.BadCommit
		require.ErrorAs(t, j.Commit(ctx, c), &bad, name)
		assert.NotEmpty(t, bad.Why, name)
	}
	got, err := j.Read(ctx, "job/a", 0, 100)
	require.NoError(t, err)
	equalRecords(t, good.Records, got)
	longest := strings.Repeat("x", store.MaxName)
	require.NoError(t, j.Commit(ctx, one(w.Part(longest, event.Head{}, 1, event.Clock{Name: longest, Due: began}), event.SeenKey(strings.Repeat("x", store.MaxKey)))))
}

func summary(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(6)
	says := func(want string) {
		t.Helper()
		streams, err := j.Streams(ctx)
		require.NoError(t, err)
		require.Len(t, streams, 1)
		assert.Equal(t, want, string(streams[0].Summary))
	}
	p := w.Part("job/a", event.Head{}, 1)
	p.Summary = []byte("begun")
	require.NoError(t, j.Commit(ctx, one(p)))
	says("begun")
	p = w.Part("job/a", headOf(p), 1)
	require.NoError(t, j.Commit(ctx, one(p)))
	says("begun")
	require.NoError(t, j.Commit(ctx, one(event.Part{Stream: "job/a", Expect: headOf(p), Keep: true, Summary: []byte("done\x00\n")})))
	says("done\x00\n")
	require.NoError(t, j.Commit(ctx, one(event.Part{Stream: "job/a", Expect: headOf(p), Keep: true, Summary: []byte{}})))
	says("")
}

func prefix(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(7)
	before := []string{}
	var head event.Head
	for range 30 {
		p := w.Part("job/a", head, 1+w.rng.IntN(3))
		require.NoError(t, j.Commit(ctx, one(p)))
		head = headOf(p)
		records, err := j.Read(ctx, "job/a", 0, 1000)
		require.NoError(t, err)
		now := encoded(t, records)
		require.Equal(t, before, now[:len(before)], "what was read before must not change")
		before = now
	}
}

func endedContext(t *testing.T, h Harness) {
	j, w := h.open(t), NewWriter(8)
	ctx, end := context.WithCancel(t.Context())
	end()
	p := w.Part("job/a", event.Head{}, 1)
	require.ErrorIs(t, j.Commit(ctx, one(p, "k")), context.Canceled)
	require.ErrorIs(t, j.SetMark(ctx, "job/a", "term:local", event.Mark{}), context.Canceled)
	_, err := j.Read(ctx, "job/a", 0, 1)
	require.ErrorIs(t, err, context.Canceled)
	_, err = j.Streams(ctx)
	require.ErrorIs(t, err, context.Canceled)
	_, err = j.Due(ctx, began, 1)
	require.ErrorIs(t, err, context.Canceled)

	head, err := j.Head(t.Context(), "job/a")
	require.NoError(t, err)
	assert.Zero(t, head, "the error means that nothing was written")
	require.NoError(t, j.Commit(t.Context(), one(p, "k")))
}

// refused says that a commit was refused for reasons of the store's state.
func refused(err error) bool {
	return errors.Is(err, event.ErrConflict) || errors.Is(err, event.ErrSeen)
}

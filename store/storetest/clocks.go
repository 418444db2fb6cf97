package storetest

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store"
)

func clocks(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(11)
	has := func(stream string, want ...event.Clock) {
		t.Helper()
		got, err := j.Clocks(ctx, stream)
		require.NoError(t, err)
		require.Equal(t, append([]event.Clock{}, want...), append([]event.Clock{}, got...))
	}
	soon := event.Clock{Name: "relax", Due: began.Add(time.Nanosecond)}
	later := event.Clock{Name: "batch/1", Due: began.Add(time.Hour)}
	p := w.Part("job/a", event.Head{}, 1, later, soon)
	require.NoError(t, j.Commit(ctx, one(p)))
	has("job/a", soon, later)

	kept := w.Part("job/a", headOf(p), 1, event.Clock{Name: "ignored", Due: began})
	kept.Keep = true
	require.NoError(t, j.Commit(ctx, one(kept)))
	has("job/a", soon, later)

	moved := event.Clock{Name: "relax", Due: began.Add(2 * time.Hour)}
	p = w.Part("job/a", headOf(kept), 1, moved, later)
	require.NoError(t, j.Commit(ctx, one(p)))
	has("job/a", later, moved)

	other := w.Part("job/b", event.Head{}, 1, soon)
	require.NoError(t, j.Commit(ctx, one(other)))
	has("job/b", soon)

	// A part without records can set clocks right: what a rebuild does.
	require.NoError(t, j.Commit(ctx, one(event.Part{Stream: "job/a", Expect: headOf(p), Clocks: []event.Clock{soon}})))
	has("job/a", soon)
	require.NoError(t, j.Commit(ctx, one(event.Part{Stream: "job/a", Expect: headOf(p)})))
	has("job/a")
	has("job/b", soon)

	// Whatever the zone, the instant is kept, to the nanosecond.
	zone := time.FixedZone("", 5*3600+1800)
	odd := []event.Clock{
		{Name: "a", Due: time.Date(1969, 12, 31, 23, 59, 59, 999999999, zone)},
		{Name: "b", Due: time.Time{}},
		{Name: "c", Due: time.Date(9999, 12, 31, 23, 59, 59, 1, zone)},
		{Name: "d", Due: time.Date(-50, 1, 1, 0, 0, 0, 7, zone)},
	}
	require.NoError(t, j.Commit(ctx, one(event.Part{Stream: "job/a", Expect: headOf(p), Clocks: odd})))
	slices.SortFunc(odd, store.CompareClocks)
	for i := range odd {
		odd[i].Due = odd[i].Due.UTC()
	}
	has("job/a", odd...)
}

func due(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(12)
	var all []event.DueClock
	for _, stream := range []string{"job/b", "job/a", "job/ab"} {
		var mine []event.Clock
		for i := range 700 { // more than a store looks at in one go
			c := event.Clock{Name: string(rune('a' + i%26)), Due: began.Add(time.Duration(w.rng.IntN(200)-100) * time.Second)}
			c.Name += string(rune('a' + i/26))
			mine = append(mine, c)
			all = append(all, event.DueClock{Stream: stream, Clock: c})
		}
		require.NoError(t, j.Commit(ctx, one(w.Part(stream, event.Head{}, 1, mine...))))
	}
	slices.SortFunc(all, store.CompareDue)
	first, ok, err := j.NextDue(ctx)
	require.NoError(t, err)
	require.True(t, ok)
	assert.Equal(t, all[0], first)

	for _, at := range []time.Duration{-time.Hour, -101 * time.Second, 0, time.Nanosecond, -time.Nanosecond, 99 * time.Second, time.Hour} {
		until := began.Add(at)
		n := 0
		for n < len(all) && !all[n].Due.After(until) {
			n++
		}
		for _, limit := range []int{-1, 0, 1, 100, len(all), math.MaxInt} {
			want := all[:min(n, max(limit, 0))]
			got, err := j.Due(ctx, until, limit)
			require.NoError(t, err)
			require.Equal(t, len(want), len(got), "at %v, limit %d", at, limit)
			require.Equal(t, append([]event.DueClock{}, want...), append([]event.DueClock{}, got...))
		}
	}
}

func marks(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(13)
	p := w.Part("job/a", event.Head{}, 5)
	require.NoError(t, j.Commit(ctx, one(p)))
	mine := event.Mark{Seq: 5, MessageID: "77", Asked: "survey/depth@2", NotBefore: began.In(time.FixedZone("", 3600)), Attempts: 3}
	require.NoError(t, j.SetMark(ctx, "job/a", "bot:1", event.Mark{Seq: 1}))
	require.NoError(t, j.SetMark(ctx, "job/a", "bot:1", mine))
	require.NoError(t, j.SetMark(ctx, "job/a", "bot:12", event.Mark{}))
	mine.NotBefore = began

	got, err := j.Mark(ctx, "job/a", "bot:1")
	require.NoError(t, err)
	assert.Equal(t, mine, got)
	readers, err := j.Readers(ctx, "job/a")
	require.NoError(t, err)
	assert.Equal(t, map[event.Reader]event.Mark{"bot:1": mine, "bot:12": {}}, readers)

	var bad *store.BadCommit
	require.ErrorAs(t, j.SetMark(ctx, "job/a", "bot:1", event.Mark{Seq: 6}), &bad, "beyond the end")
	require.ErrorAs(t, j.SetMark(ctx, "job/none", "bot:1", event.Mark{Seq: 1}), &bad, "of a stream that is not there")
	require.ErrorAs(t, j.SetMark(ctx, "job/a", "", event.Mark{}), &bad)
	require.ErrorAs(t, j.SetMark(ctx, "job/a", "bot:\x00", event.Mark{}), &bad)
	require.ErrorAs(t, j.SetMark(ctx, "", "bot:1", event.Mark{}), &bad)
	got, err = j.Mark(ctx, "job/a", "bot:1")
	require.NoError(t, err)
	assert.Equal(t, mine, got)

	// A mark can go back: the reader's place was lost and is told anew.
	require.NoError(t, j.SetMark(ctx, "job/a", "bot:1", event.Mark{Seq: 2}))
	// A reader can wait for a stream to begin; that makes no stream.
	require.NoError(t, j.SetMark(ctx, "job/later", "bot:1", event.Mark{}))
	streams, err := j.Streams(ctx)
	require.NoError(t, err)
	assert.Len(t, streams, 1)
}

func streams(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(14)
	names := []string{"job/b", event.Book, "job/a", "job/ab", "job/a b", "job/é", "~", "0"}
	var want []event.StreamInfo
	for _, name := range names {
		p := w.Part(name, event.Head{}, 1)
		p.Summary = []byte("of " + name)
		require.NoError(t, j.Commit(ctx, one(p)))
		want = append(want, event.StreamInfo{Stream: name, Head: headOf(p), Summary: p.Summary})
	}
	for from := 0; from < 1500; from += 100 { // more than a store looks at in one go
		var c event.Commit
		for i := from; i < from+100; i++ {
			p := w.Part(fmt.Sprintf("many/%04d", i*7919%1500), event.Head{}, 1)
			want = append(want, event.StreamInfo{Stream: p.Stream, Head: headOf(p)})
			c.Parts = append(c.Parts, p)
		}
		require.NoError(t, j.Commit(ctx, c))
	}
	slices.SortFunc(want, func(a, b event.StreamInfo) int { return strings.Compare(a.Stream, b.Stream) })
	got, err := j.Streams(ctx)
	require.NoError(t, err)
	require.Equal(t, want, got)
}

// namesApart uses names of which one begins like the other.
func namesApart(t *testing.T, h Harness) {
	j, ctx, w := h.open(t), t.Context(), NewWriter(15)
	names := []string{"a", "ab", "a\x01", "a/", "b"}
	for i, name := range names {
		p := w.Part(name, event.Head{}, i+1, event.Clock{Name: "c" + name, Due: began.Add(time.Duration(i))})
		require.NoError(t, j.Commit(ctx, one(p)))
		require.NoError(t, j.SetMark(ctx, name, event.Reader("r:"+name), event.Mark{Seq: uint64(i + 1)}))
	}
	for i, name := range names {
		clocks, err := j.Clocks(ctx, name)
		require.NoError(t, err)
		assert.Equal(t, []event.Clock{{Name: "c" + name, Due: began.Add(time.Duration(i))}}, clocks)
		readers, err := j.Readers(ctx, name)
		require.NoError(t, err)
		assert.Equal(t, map[event.Reader]event.Mark{event.Reader("r:" + name): {Seq: uint64(i + 1)}}, readers)
		records, err := j.Read(ctx, name, 0, 100)
		require.NoError(t, err)
		assert.Len(t, records, i+1)
	}
}

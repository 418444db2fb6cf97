package storetest

import (
	"errors"
	"fmt"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store"
)

// manyAtOnce has writers with a stream each, all of which also write to one
// common stream, and readers beside them.
func manyAtOnce(t *testing.T, h Harness) {
	j, ctx := h.open(t), t.Context()
	const writers, commits = 8, 15
	var wg sync.WaitGroup
	errs := make(chan error, 2*writers)
	for i := range writers {
		wg.Go(func() { errs <- writeBoth(t, j, i, commits) })
	}
	stop := make(chan struct{})
	var watching sync.WaitGroup
	watching.Go(func() {
		for {
			select {
			case <-stop:
				errs <- nil
				return
			default:
			}
			if err := watch(t, j); err != nil {
				errs <- err
				return
			}
		}
	})
	wg.Wait()
	close(stop)
	watching.Wait()
	close(errs)
	for err := range errs {
		require.NoError(t, err)
	}
	head, err := j.Head(ctx, event.Book)
	require.NoError(t, err)
	assert.EqualValues(t, writers*commits, head.Seq, "each commit is there once")
	records, err := j.Read(ctx, event.Book, 0, 1<<20)
	require.NoError(t, err)
	said := map[string]int{}
	for _, r := range records {
		e, err := r.Open()
		require.NoError(t, err)
		said[e.Event.(event.Noted).Text]++
	}
	assert.Len(t, said, writers*commits)
	for i := range writers {
		head, err := j.Head(ctx, fmt.Sprintf("job/%d", i))
		require.NoError(t, err)
		assert.EqualValues(t, commits, head.Seq)
	}
}

// writeBoth commits to a stream of its own and to the book, again and again
// until the book's end did not move in between.
func writeBoth(t *testing.T, j store.Journal, i, commits int) error {
	w := NewWriter(uint64(100 + i))
	ctx := t.Context()
	stream := fmt.Sprintf("job/%d", i)
	var head event.Head
	for n := range commits {
		own := w.Part(stream, head, 1, event.Clock{Name: "c", Due: began})
		note := event.Noted{Text: fmt.Sprintf("%d/%d", i, n)}
		for {
			at, err := j.Head(ctx, event.Book)
			if err != nil {
				return err
			}
			r, err := event.Seal(at, event.Entry{At: began, By: event.Actor{Role: "system"}, Event: note}, w.salt)
			if err != nil {
				return err
			}
			err = j.Commit(ctx, event.Commit{
				Seen:  []event.SeenKey{event.SeenKey(note.Text)},
				Parts: []event.Part{own, {Stream: event.Book, Expect: at, Records: []event.Record{r}}},
			})
			if err == nil {
				break
			}
			if !errors.Is(err, event.ErrConflict) {
				return err
			}
		}
		head = headOf(own)
		if err := j.SetMark(ctx, stream, "term:local", event.Mark{Seq: head.Seq}); err != nil {
			return err
		}
	}
	return nil
}

// watch reads what is there and expects it to hold together.
func watch(t *testing.T, j store.Journal) error {
	ctx := t.Context()
	head, err := j.Head(ctx, event.Book)
	if err != nil {
		return err
	}
	records, err := j.Read(ctx, event.Book, 0, 1<<20)
	if err != nil {
		return err
	}
	if uint64(len(records)) < head.Seq {
		return fmt.Errorf("the end was %d, but only %d records are read afterwards", head.Seq, len(records))
	}
	if _, err := event.VerifyChain(records); err != nil {
		return err
	}
	if _, _, err := j.NextDue(ctx); err != nil {
		return err
	}
	_, err = j.Streams(ctx)
	return err
}

// oneStream has many commit for the same end: exactly one is right.
func oneStream(t *testing.T, h Harness) {
	j, ctx := h.open(t), t.Context()
	const writers, rounds = 8, 8
	var head event.Head
	for round := range rounds {
		var wg sync.WaitGroup
		heads := make([]event.Head, writers)
		errs := make([]error, writers)
		for i := range writers {
			p := NewWriter(uint64(1000*round+i)).Part("job/a", head, 1)
			heads[i] = headOf(p)
			wg.Go(func() { errs[i] = j.Commit(ctx, one(p, event.SeenKey(fmt.Sprintf("%d/%d", round, i)))) })
		}
		wg.Wait()
		right := 0
		for i, err := range errs {
			if err == nil {
				right++
				head = heads[i]
			} else {
				require.ErrorIs(t, err, event.ErrConflict)
			}
		}
		require.Equal(t, 1, right)
		got, err := j.Head(ctx, "job/a")
		require.NoError(t, err)
		require.Equal(t, head, got)
	}
}

package storetest

import (
	"bytes"
	"context"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store"
)

// RunPhotos runs what every store of photos promises. open returns an empty one
// that keeps photos of up to max bytes.
func RunPhotos(t *testing.T, open func(tb testing.TB, max int64) store.Photos) {
	ctx := t.Context()
	t.Run("kept by content", func(t *testing.T) {
		p := open(t, 1000)
		for _, content := range [][]byte{[]byte("picture"), {}, bytes.Repeat([]byte{0}, 1000)} {
			given := bytes.Clone(content)
			name, err := p.Put(ctx, given)
			require.NoError(t, err)
			assert.Equal(t, store.PhotoName(content), name)
			for i := range given {
				given[i] = '!' // what was put is not what the caller still holds
			}
			got, err := p.Get(ctx, name)
			require.NoError(t, err)
			assert.True(t, bytes.Equal(content, got))
			for i := range got {
				got[i] = '!'
			}
			again, err := p.Put(ctx, content)
			require.NoError(t, err)
			assert.Equal(t, name, again)
			got, err = p.Get(ctx, name)
			require.NoError(t, err)
			assert.True(t, bytes.Equal(content, got))
		}
	})
	t.Run("too large", func(t *testing.T) {
		p := open(t, 1000)
		content := make([]byte, 1001)
		_, err := p.Put(ctx, content)
		var large *store.TooLarge
		require.ErrorAs(t, err, &large)
		assert.Equal(t, store.TooLarge{Size: 1001, Max: 1000}, *large)
		_, err = p.Get(ctx, store.PhotoName(content))
		require.ErrorIs(t, err, event.ErrUnknown)
	})
	t.Run("not there", func(t *testing.T) {
		p := open(t, 1000)
		name, err := p.Put(ctx, []byte("picture"))
		require.NoError(t, err)
		for _, other := range []string{"", "x", store.PhotoName(nil), strings.ToUpper(name), name + "0", "../../../etc/passwd", "..", name[:2] + "/" + name} {
			_, err := p.Get(ctx, other)
			require.ErrorIs(t, err, event.ErrUnknown, other)
		}
	})
	t.Run("ended context", func(t *testing.T) {
		p := open(t, 1000)
		ended, end := context.WithCancel(ctx)
		end()
		_, err := p.Put(ended, []byte("picture"))
		require.ErrorIs(t, err, context.Canceled)
		_, err = p.Get(ctx, store.PhotoName([]byte("picture")))
		require.ErrorIs(t, err, event.ErrUnknown)
	})
	t.Run("many at once", func(t *testing.T) {
		p := open(t, 1000)
		var wg sync.WaitGroup
		for i := range 8 {
			wg.Go(func() {
				for n := range 10 {
					content := bytes.Repeat([]byte{byte((n + i) % 10)}, 500)
					name, err := p.Put(ctx, content)
					if !assert.NoError(t, err) {
						return
					}
					got, err := p.Get(ctx, name)
					assert.NoError(t, err)
					assert.True(t, bytes.Equal(content, got))
				}
			})
		}
		wg.Wait()
	})
}

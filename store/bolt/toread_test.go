package bolt_test

import (
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

func TestReadersReadTogetherAndChangeNothing(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "jobs.store")
	db, err := bolt.Open(path, bolt.Options{})
	require.NoError(t, err)
	p := storetest.NewWriter(5).Part("job/a", event.Head{}, 3)
	require.NoError(t, db.Commit(t.Context(), event.Commit{Parts: []event.Part{p}}))
	require.NoError(t, db.Close())
	before, err := os.ReadFile(path)
	require.NoError(t, err)

	one, err := bolt.OpenToRead(path, bolt.Options{})
	require.NoError(t, err)
	two, err := bolt.OpenToRead(path, bolt.Options{})
	require.NoError(t, err)
	for _, r := range []*bolt.DB{one, two} {
		got, err := r.Read(t.Context(), "job/a", 0, 10)
		require.NoError(t, err)
		assert.Len(t, got, 3)
	}
	require.ErrorIs(t, one.Commit(t.Context(), event.Commit{Parts: []event.Part{{Stream: "job/a", Expect: p.Expect}}}), store.ErrClosed)

	var locked *store.Locked
	_, err = bolt.Open(path, bolt.Options{Timeout: time.Millisecond})
	require.ErrorAs(t, err, &locked, "who writes waits for those who read")
	require.NoError(t, one.Close())
	require.NoError(t, two.Close())
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, before, after)

	var missing *store.Missing
	_, err = bolt.OpenToRead(path+".not", bolt.Options{})
	require.ErrorAs(t, err, &missing)
	assert.NoFileExists(t, path+".not")
}

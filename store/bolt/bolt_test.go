package bolt_test

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/store"
	"chargehand/store/bolt"
	"chargehand/store/storetest"
)

// open opens a store that lasts as long as the test.
func open(t testing.TB, path string, o bolt.Options) *bolt.DB {
	t.Helper()
	db, err := bolt.Open(path, o)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, db.Close()) })
	return db
}

func TestPromises(t *testing.T) {
	storetest.Run(t, storetest.Harness{
		Open: func(t testing.TB) store.Journal {
			return open(t, filepath.Join(t.TempDir(), "jobs.store"), bolt.Options{})
		},
		Reopen: func(t testing.TB, j store.Journal) store.Journal {
			db := j.(*bolt.DB)
			require.NoError(t, db.Close())
			return open(t, db.Path(), bolt.Options{Existing: true})
		},
	})
}

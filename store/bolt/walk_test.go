package bolt

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/fnv"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"go.etcd.io/bbolt"
)

// TestWalkAgrees grows and shrinks random bbolt files with buckets in buckets,
// long values and deletions. What bbolt finds whole, walk must find whole, at
// every page size.
func TestWalkAgrees(t *testing.T) {
	t.Parallel()
	for seed := range uint64(6) {
		rng := rand.New(rand.NewPCG(seed, 5))
		path := filepath.Join(t.TempDir(), "file")
		b, err := bbolt.Open(path, 0o600, &bbolt.Options{PageSize: 1024 << rng.IntN(4), NoSync: true, NoFreelistSync: seed%2 == 0})
		require.NoError(t, err)
		for range 12 {
			require.NoError(t, b.Update(func(tx *bbolt.Tx) error { return scribble(tx, rng) }))
			require.NoError(t, b.View(func(tx *bbolt.Tx) error {
				for err := range tx.Check() {
					return err
				}
				return nil
			}))
			content, err := os.ReadFile(path)
			require.NoError(t, err)
			f := bytes.NewReader(content)
			h := readHeads(f, int64(len(content)))
			require.True(t, h.both)
			require.NoError(t, walk(f, h), "seed %d", seed)
		}
		require.NoError(t, b.Close())
	}
}

func scribble(tx *bbolt.Tx, rng *rand.Rand) error {
	for range 40 {
		b, err := tx.CreateBucketIfNotExists([]byte{byte('a' + rng.IntN(3))})
		if err != nil {
			return err
		}
		for range rng.IntN(3) {
			if b, err = b.CreateBucketIfNotExists([]byte{byte('A' + rng.IntN(6))}); err != nil {
				return err
			}
		}
		for range rng.IntN(60) {
			key := fmt.Appendf(nil, "key %d", rng.IntN(400))
			if rng.IntN(3) == 0 {
				if err := b.Delete(key); err != nil {
					return err
				}
				continue
			}
			size := rng.IntN(100)
			if rng.IntN(40) == 0 {
				size = rng.IntN(20000)
			}
			if err := b.Put(key, make([]byte, size)); err != nil {
				return err
			}
		}
	}
	return nil
}

// FuzzWalk: whatever lies in the file, reading its heads and pages ends, and
// without a panic. The head pages are sealed again, or no damage behind them
// would ever be reached.
func FuzzWalk(f *testing.F) {
	dir := f.TempDir()
	for seed := range uint64(3) {
		rng := rand.New(rand.NewPCG(seed, 6))
		path := filepath.Join(dir, fmt.Sprint(seed))
		b, err := bbolt.Open(path, 0o600, &bbolt.Options{PageSize: 1024, NoSync: true, NoFreelistSync: true})
		require.NoError(f, err)
		b.AllocSize = 1
		require.NoError(f, b.Update(func(tx *bbolt.Tx) error {
			bkt, err := tx.CreateBucket([]byte("a"))
			if err != nil {
				return err
			}
			for i := range 30 * seed {
				if err := bkt.Put(fmt.Appendf(nil, "key %03d", i), make([]byte, rng.IntN(80))); err != nil {
					return err
				}
			}
			return nil
		}))
		require.NoError(f, b.Close())
		content, err := os.ReadFile(path)
		require.NoError(f, err)
		f.Add(content)
	}
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, content []byte) {
		for _, at := range []int{0, 1024} {
			if len(content) < at+pageHeader+headBytes {
				continue
			}
			sum := fnv.New64a()
			sum.Write(content[at+pageHeader : at+pageHeader+56])
			binary.NativeEndian.PutUint64(content[at+pageHeader+56:], sum.Sum64())
		}
		r := bytes.NewReader(content)
		if h := readHeads(r, int64(len(content))); h.whole {
			_ = walk(r, h)
		}
	})
}

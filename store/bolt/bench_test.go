package bolt_test

import (
	"context"
	"encoding/binary"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"go.etcd.io/bbolt"

	"chargehand/flow/event"
	"chargehand/store/bolt"
	"chargehand/store/storetest"
)

// envJobs changes how many jobs BenchmarkOpen has in its store.
const envJobs = "STORE_JOBS"

// work is one commit as one builder's answer makes it: a record, a seen key, two
// clocks of which one moves, a new line for the list; and the same bytes as bare
// puts.
type work struct {
	commit event.Commit
	bare   func(*bbolt.Tx) error
}

// works makes the commits of one writer, to a stream of its own.
func works(b *testing.B, writer, n int) []work {
	out := make([]work, n)
	w := storetest.NewWriter(uint64(writer))
	stream := fmt.Sprintf("job/%04d", writer)
	var head event.Head
	for i := range out {
		relax := event.Clock{Name: "relax", Due: time.Unix(int64(1e9+60*i), 0).UTC()}
		p := w.Part(stream, head, 1, relax, event.Clock{Name: "inspection", Due: time.Unix(2e9, 0).UTC()})
		p.Summary = []byte("Garage roof · deck · 34 of 60")
		head = p.Records[0].Head()
		key := event.SeenKey(fmt.Sprintf("bot/%d/%d", writer, i))
		out[i].commit = event.Commit{Seen: []event.SeenKey{key}, Parts: []event.Part{p}}

		raw, err := event.MarshalRecord(p.Records[0])
		require.NoError(b, err)
		headValue := append(append(seq(head.Seq), head.Hash[:]...), p.Summary...)
		pair := []byte(stream + "\x00relax")
		moved, before := instant(relax.Due), instant(relax.Due.Add(-time.Minute))
		number := seq(head.Seq)
		out[i].bare = func(tx *bbolt.Tx) error {
			if err := tx.Bucket([]byte("seen")).Put([]byte(key), seq(1)); err != nil {
				return err
			}
			b, err := tx.Bucket([]byte("events")).CreateBucketIfNotExists([]byte(stream))
			if err != nil {
				return err
			}
			if err := b.Put(number, raw); err != nil {
				return err
			}
			if err := tx.Bucket([]byte("heads")).Put([]byte(stream), headValue); err != nil {
				return err
			}
			if err := tx.Bucket([]byte("due")).Delete(append(before, pair...)); err != nil {
				return err
			}
			if err := tx.Bucket([]byte("due")).Put(append(moved, pair...), []byte{1}); err != nil {
				return err
			}
			return tx.Bucket([]byte("clocks")).Put(pair, moved)
		}
	}
	return out
}

func instant(t time.Time) []byte {
	return binary.BigEndian.AppendUint32(seq(uint64(t.Unix())^1<<63), uint32(t.Nanosecond()))
}

// bareGroup is group commit and nothing else: no check, no hash, no encoding.
type bareGroup struct {
	db    *bbolt.DB
	queue chan bareRequest
}

type bareRequest struct {
	write func(*bbolt.Tx) error
	done  chan error
}

func (g *bareGroup) run() {
	for first := range g.queue {
		batch := []bareRequest{first}
	more:
		for len(batch) < 512 {
			select {
			case r := <-g.queue:
				batch = append(batch, r)
			default:
				break more
			}
		}
		err := g.db.Update(func(tx *bbolt.Tx) error {
			for _, r := range batch {
				if err := r.write(tx); err != nil {
					return err
				}
			}
			return nil
		})
		for _, r := range batch {
			r.done <- err
		}
	}
}

func (g *bareGroup) commit(write func(*bbolt.Tx) error) error {
	r := bareRequest{write, make(chan error, 1)}
	g.queue <- r
	return <-r.done
}

func newBareGroup(b *testing.B) *bareGroup {
	db, err := bbolt.Open(filepath.Join(b.TempDir(), "bare"), 0o600, &bbolt.Options{NoFreelistSync: true, FreelistType: bbolt.FreelistMapType, InitialMmapSize: 1 << 30})
	require.NoError(b, err)
	db.AllocSize = 1 << 20
	require.NoError(b, db.Update(func(tx *bbolt.Tx) error {
		for _, name := range []string{"events", "heads", "due", "clocks", "seen"} {
			if _, err := tx.CreateBucket([]byte(name)); err != nil {
				return err
			}
		}
		return nil
	}))
	g := &bareGroup{db: db, queue: make(chan bareRequest, 512)}
	go g.run()
	b.Cleanup(func() { close(g.queue); db.Close() })
	return g
}

// BenchmarkCommit commits with several writers at once and compares with bare
// group commit of the same bytes, in turns, so that both meet the same disk; the
// median turn counts, since a disk now and then stops for a while. The aim is a
// ratio above 0.8.
func BenchmarkCommit(b *testing.B) {
	for _, writers := range []int{1, 8, 64} {
		b.Run(fmt.Sprintf("writers=%d", writers), func(b *testing.B) {
			const turn = 20 // commits a writer makes before the other store has its turn
			each := (b.N/writers/turn + 1) * turn
			all := make([][]work, writers)
			for i := range all {
				all[i] = works(b, i, each)
			}
			ours := open(b, filepath.Join(b.TempDir(), "jobs.store"), bolt.Options{})
			bare := newBareGroup(b)
			together := func(from int, do func(work) error) time.Duration {
				var wg sync.WaitGroup
				begin := time.Now()
				for i := range all {
					wg.Go(func() {
						for _, w := range all[i][from : from+turn] {
							if err := do(w); err != nil {
								b.Error(err)
							}
						}
					})
				}
				wg.Wait()
				return time.Since(begin)
			}
			var oursTook, bareTook []time.Duration
			b.ResetTimer()
			for from := 0; from < each; from += turn {
				oursTook = append(oursTook, together(from, func(w work) error { return ours.Commit(context.Background(), w.commit) }))
				bareTook = append(bareTook, together(from, func(w work) error { return bare.commit(w.bare) }))
			}
			n, o, p := float64(writers*turn), median(oursTook).Seconds(), median(bareTook).Seconds()
			b.ReportMetric(n/o, "commits/s")
			b.ReportMetric(n/p, "bare/s")
			b.ReportMetric(p/o, "ratio")
			b.ReportMetric(0, "ns/op") // of both together: says nothing
		})
	}
}

func median(d []time.Duration) time.Duration {
	slices.Sort(d)
	return d[len(d)/2]
}

// BenchmarkOpen starts with many jobs in the store and says what each costs.
func BenchmarkOpen(b *testing.B) {
	jobs := 10000
	if n, err := strconv.Atoi(os.Getenv(envJobs)); err == nil {
		jobs = n
	}
	const events = 20
	path := filepath.Join(b.TempDir(), "jobs.store")
	fillStore(b, path, jobs, events)
	info, err := os.Stat(path)
	require.NoError(b, err)

	b.Run("open", func(b *testing.B) {
		for b.Loop() {
			db, err := bolt.Open(path, bolt.Options{Existing: true})
			require.NoError(b, err)
			b.StopTimer()
			require.NoError(b, db.Close())
			b.StartTimer()
		}
		b.ReportMetric(float64(info.Size())/float64(jobs), "file-B/job")
	})
	b.Run("list", func(b *testing.B) {
		heap, rss := memory()
		db := open(b, path, bolt.Options{Existing: true})
		for b.Loop() {
			streams, err := db.Streams(b.Context())
			require.NoError(b, err)
			require.Len(b, streams, jobs)
		}
		heap2, rss2 := memory()
		b.ReportMetric(float64(heap2-heap)/float64(jobs), "heap-B/job")
		b.ReportMetric(float64(rss2-rss)/float64(jobs), "rss-B/job")
	})
	b.Run("read one job", func(b *testing.B) {
		db := open(b, path, bolt.Options{Existing: true})
		i := 0
		for b.Loop() {
			records, err := db.Read(b.Context(), fmt.Sprintf("job/%05d", i%jobs), 0, 1000)
			require.NoError(b, err)
			require.Len(b, records, events)
			i += 7
		}
	})
	b.Run("check", func(b *testing.B) {
		for b.Loop() {
			r, err := bolt.CheckFile(b.Context(), path)
			require.NoError(b, err)
			require.True(b, r.Sound())
		}
	})
}

func fillStore(b *testing.B, path string, jobs, events int) {
	db, err := bolt.Open(path, bolt.Options{NoSync: true})
	require.NoError(b, err)
	for from := 0; from < jobs; from += 50 {
		var c event.Commit
		for i := from; i < min(from+50, jobs); i++ {
			p := storetest.NewWriter(uint64(i)).Part(fmt.Sprintf("job/%05d", i), event.Head{}, events, event.Clock{Name: "inspection", Due: time.Unix(int64(1e9+i), 0)})
			p.Summary = []byte("Garage roof · deck · 34 of 60")
			c.Parts = append(c.Parts, p)
		}
		require.NoError(b, db.Commit(context.Background(), c))
	}
	require.NoError(b, db.Close())
}

// memory is what the process holds: live heap, and resident pages where that can
// be told.
func memory() (heap, rss int64) {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	var total, resident int64
	if raw, err := os.ReadFile("/proc/self/statm"); err == nil {
		fmt.Sscan(string(raw), &total, &resident)
	}
	return int64(m.HeapAlloc), resident * int64(os.Getpagesize())
}

package bolt_test

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store/bolt"
	"chargehand/store/storetest"
)

// The tests here run this test binary again as a child and kill it at random
// moments. envKills raises how often.
const (
	envKills = "STORE_KILLS"
	envChild = "STORE_CHILD" // what the child does
	envPath  = "STORE_CHILD_PATH"
	envRun   = "STORE_CHILD_RUN"
)

func TestMain(m *testing.M) {
	if what := os.Getenv(envChild); what != "" {
		if err := child(what, os.Getenv(envPath)); err != nil {
			fmt.Fprintln(os.Stderr, err)
			os.Exit(1)
		}
		return
	}
	os.Exit(m.Run())
}

func kills(normal int) int {
	if n, err := strconv.Atoi(os.Getenv(envKills)); err == nil {
		return n
	}
	return normal
}

// child does one thing until it is killed; each line on stdout is a promise.
func child(what, path string) error {
	ctx := context.Background()
	switch what {
	case "commit":
		return childCommits(path)
	case "open":
		for i := 0; ; i++ {
			db, err := bolt.Open(fmt.Sprintf("%s.%s.%d", path, os.Getenv(envRun), i), bolt.Options{})
			if err != nil {
				return err
			}
			fmt.Println("opened", i)
			if err := db.Close(); err != nil {
				return err
			}
		}
	case "compact":
		for {
			if _, _, err := bolt.Compact(ctx, path); err != nil {
				return err
			}
			fmt.Println("compacted")
		}
	case "restore":
		for i := 0; ; i++ {
			to := fmt.Sprintf("%s.%s.%d", path, os.Getenv(envRun), i)
			if err := bolt.Restore(ctx, path, to); err != nil {
				return err
			}
			fmt.Println("restored", to)
		}
	}
	return fmt.Errorf("no child does %q", what)
}

// childCommits has four hands commit at once, each to its own stream and now and
// then to the book, and says each commit that was acknowledged.
func childCommits(path string) error {
	db, err := bolt.Open(path, bolt.Options{})
	if err != nil {
		return err
	}
	fmt.Println("ready")
	errs := make(chan error)
	for hand := range 4 {
		go func() { errs <- commitForEver(db, hand) }()
	}
	return <-errs
}

func commitForEver(db *bolt.DB, hand int) error {
	ctx := context.Background()
	stream := fmt.Sprintf("job/%d", hand)
	head, err := db.Head(ctx, stream)
	if err != nil {
		return err
	}
	for i := 0; ; i++ {
		id := fmt.Sprintf("%s/%d/%d", os.Getenv(envRun), hand, i)
		own, err := note(head, id)
		if err != nil {
			return err
		}
		clock := event.Clock{Name: "next", Due: time.Unix(int64(i), 0)}
		c := event.Commit{Seen: []event.SeenKey{event.SeenKey(id)}, Parts: []event.Part{{Stream: stream, Expect: head, Records: []event.Record{own}, Clocks: []event.Clock{clock}}}}
		for i%3 == 0 {
			at, err := db.Head(ctx, event.Book)
			if err != nil {
				return err
			}
			common, err := note(at, id)
			if err != nil {
				return err
			}
			c.Parts = append(c.Parts[:1], event.Part{Stream: event.Book, Expect: at, Records: []event.Record{common}, Keep: true})
			if err = db.Commit(ctx, c); err == nil {
				break
			} else if !errors.Is(err, event.ErrConflict) {
				return err
			}
		}
		if i%3 != 0 {
			if err := db.Commit(ctx, c); err != nil {
				return err
			}
		}
		head = own.Head()
		fmt.Printf("%s %d %s\n", stream, head.Seq, id) // one write, so lines stay whole
		if err := db.SetMark(ctx, stream, "term:local", event.Mark{Seq: head.Seq}); err != nil {
			return err
		}
	}
}

func note(at event.Head, text string) (event.Record, error) {
	return event.Seal(at, event.Entry{At: time.Unix(int64(at.Seq), 0), By: event.Actor{Role: "system"}, Event: event.Noted{Text: text}}, func(b []byte) {
		for i := range b {
			b[i] = byte(rand.Uint32())
		}
	})
}

// killed starts a child, kills it some time after its first line, and returns
// the whole lines it said.
func killed(t *testing.T, what, path string, run int, after time.Duration) []string {
	t.Helper()
	cmd := exec.Command(os.Args[0])
	cmd.Env = append(os.Environ(), envChild+"="+what, envPath+"="+path, envRun+"="+strconv.Itoa(run))
	var trouble strings.Builder
	cmd.Stderr = &trouble
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	var lines []string
	began := make(chan struct{})
	var reading sync.WaitGroup
	reading.Go(func() {
		r := bufio.NewReader(out)
		for {
			line, err := r.ReadString('\n')
			if err != nil {
				break // a half line is no promise
			}
			if lines = append(lines, strings.TrimSpace(line)); len(lines) == 1 {
				close(began)
			}
		}
	})
	select {
	case <-began:
	case <-time.After(20 * time.Second):
		t.Errorf("the child said nothing: %s", trouble.String())
	}
	time.Sleep(after)
	require.NoError(t, cmd.Process.Kill())
	reading.Wait()
	cmd.Wait()
	require.Empty(t, trouble.String())
	require.NotEmpty(t, lines)
	return lines
}

// TestKilledWhileCommitting kills a store's process again and again: every commit
// that was acknowledged is there, once; at most the one that each hand was in the
// middle of is there besides; and the store is sound.
func TestKilledWhileCommitting(t *testing.T) {
	t.Parallel()
	ctx := t.Context()
	path := filepath.Join(t.TempDir(), "jobs.store")
	rng := rand.New(rand.NewPCG(uint64(time.Now().UnixNano()), 1))
	type promise struct {
		stream string
		seq    uint64
	}
	promised := map[string]promise{}
	runs := kills(30)
	for run := range runs {
		for _, line := range killed(t, "commit", path, run, time.Duration(rng.IntN(25000))*time.Microsecond)[1:] {
			var p promise
			var id string
			_, err := fmt.Sscanf(line, "%s %d %s", &p.stream, &p.seq, &id)
			require.NoError(t, err)
			promised[id] = p
		}
		r, err := bolt.CheckFile(ctx, path)
		require.NoError(t, err)
		require.Empty(t, r.Findings, "after run %d", run)
	}
	db := open(t, path, bolt.Options{Existing: true})
	found, twice := map[string]promise{}, map[string]int{}
	streams, err := db.Streams(ctx)
	require.NoError(t, err)
	for _, s := range streams {
		records, err := db.Read(ctx, s.Stream, 0, 1<<30)
		require.NoError(t, err)
		for _, rec := range records {
			e, err := rec.Open()
			require.NoError(t, err)
			id := e.Event.(event.Noted).Text
			if s.Stream == event.Book {
				twice[id]++
				continue
			}
			require.NotContains(t, found, id, "doubled")
			found[id] = promise{s.Stream, rec.Seq}
		}
	}
	for id, p := range promised {
		require.Equal(t, p, found[id], "acknowledged commit %s", id)
	}
	for id, n := range twice {
		require.Equal(t, 1, n)
		require.Contains(t, found, id, "one commit, two streams: both or none")
	}
	for id := range found {
		if strings.HasSuffix(id, "/0") { // the first of every third
			require.Contains(t, twice, id)
		}
	}
	assert.LessOrEqual(t, len(found)-len(promised), 4*runs)
	t.Logf("%d kills, %d commits acknowledged, %d found", runs, len(promised), len(found))
}

// TestKilledWhileOpening kills a process that makes new stores: each is whole or
// not there.
func TestKilledWhileOpening(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, "jobs.store")
	for run := range kills(4) {
		killed(t, "open", path, run, time.Duration(rand.IntN(20))*time.Millisecond)
	}
	eachWhole(t, dir, func(path string) {
		db, err := bolt.Open(path, bolt.Options{Existing: true})
		require.NoError(t, err)
		require.NoError(t, db.Close())
	})
}

// TestKilledWhileCompacting expects the old file or the new one, never less.
func TestKilledWhileCompacting(t *testing.T) {
	t.Parallel()
	path := filepath.Join(t.TempDir(), "jobs.store")
	content := sample(t, 20)
	want := truth(t, content)
	write(content)(path)
	for run := range kills(4) {
		killed(t, "compact", path, run, time.Duration(rand.IntN(30))*time.Millisecond)
		db, err := bolt.Open(path, bolt.Options{Existing: true})
		require.NoError(t, err)
		got, err := said(db)
		require.NoError(t, err)
		require.Equal(t, want, got)
		storetest.Sound(t, db)
		require.NoError(t, db.Close())
	}
}

// TestKilledWhileRestoring expects each restored store to be whole or not there.
func TestKilledWhileRestoring(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, "backup")
	content := sample(t, 20)
	want := truth(t, content)
	write(content)(path)
	for run := range kills(4) {
		killed(t, "restore", path, run, time.Duration(rand.IntN(30))*time.Millisecond)
	}
	eachWhole(t, dir, func(path string) {
		db, err := bolt.Open(path, bolt.Options{Existing: true})
		require.NoError(t, err)
		got, err := said(db)
		require.NoError(t, err)
		require.Equal(t, want, got)
		require.NoError(t, db.Close())
	})
}

// eachWhole calls fn for every file in a folder that has its final name.
func eachWhole(t *testing.T, dir string, fn func(path string)) {
	t.Helper()
	names, err := os.ReadDir(dir)
	require.NoError(t, err)
	n := 0
	for _, e := range names {
		if !strings.Contains(e.Name(), ".part-") {
			fn(filepath.Join(dir, e.Name()))
			n++
		}
	}
	require.Positive(t, n)
}

// TestLitter: what a killed process left is deleted when it is old enough to be
// nobody's.
func TestLitter(t *testing.T) {
	t.Parallel()
	dir := t.TempDir()
	path := filepath.Join(dir, "jobs.store")
	open(t, path, bolt.Options{}).Close()
	require.NoError(t, os.Mkdir(path+".photos", 0o700))
	old, young := path+".part-1", path+".part-2"
	photo := filepath.Join(path+".photos", ".part-3")
	others := filepath.Join(dir, "other.store.part-1")
	for _, name := range []string{old, young, photo, others} {
		write([]byte("half"))(name)
	}
	long := time.Now().Add(-2 * time.Hour)
	for _, name := range []string{old, photo, others} {
		require.NoError(t, os.Chtimes(name, long, long))
	}
	open(t, path, bolt.Options{})
	for name, want := range map[string]bool{old: false, photo: false, young: true, others: true} {
		_, err := os.Stat(name)
		assert.Equal(t, want, err == nil, name)
	}
}

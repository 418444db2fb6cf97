package main

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"math/rand/v2"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/store/bolt"
)

// child is the program running in a process of its own, over pipes.
type child struct {
	cmd *exec.Cmd
	in  io.WriteCloser
	out *bufio.Reader
}

func startChild(t *testing.T, db string) *child {
	t.Helper()
	exe, err := os.Executable()
	require.NoError(t, err)
	c := exec.Command(exe, "--db", db)
	c.Env = append(os.Environ(), "CHARGEHAND_CHILD=1", "TZ=Europe/London")
	in, err := c.StdinPipe()
	require.NoError(t, err)
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	c.Stderr = os.Stderr
	require.NoError(t, c.Start())
	return &child{c, in, bufio.NewReader(out)}
}

// reply reads up to the empty line that ends a reply; ok is false when the
// process died first.
func (c *child) reply() (string, bool) {
	var b strings.Builder
	for {
		line, err := c.out.ReadString('\n')
		if err != nil {
			return b.String(), false
		}
		if line == "\n" {
			return b.String(), true
		}
		b.WriteString(line)
	}
}

func (c *child) kill() {
	_ = c.cmd.Process.Kill()
	_ = c.cmd.Wait() // the kill is its error
}

// killMoments is how often the program is killed.
func killMoments(t *testing.T) int {
	if s := os.Getenv("KILLS"); s != "" {
		n, err := strconv.Atoi(s)
		require.NoError(t, err)
		return n
	}
	return 200
}

// TestKilledAtAnyMoment answers a job over pipes, a key on every line, and
// kills the program again and again: before a line is read, while it works,
// while it writes, after it has answered. No acknowledged answer may be lost,
// none doubled, and the question must be asked again.
func TestKilledAtAnyMoment(t *testing.T) {
	if testing.Short() {
		t.Skip("two hundred processes")
	}
	db := filepath.Join(t.TempDir(), "jobs.db")
	r := rand.New(rand.NewPCG(uint64(time.Now().UnixNano()), 1))
	seed := r.Uint64()
	t.Logf("seed %d", seed)
	r = rand.New(rand.NewPCG(seed, 1))
	lines := killLines()
	kills := killMoments(t)
	acked := 0
	for killed := 0; killed < kills; {
		c := startChild(t, db)
		hello, alive := c.reply()
		if !alive {
			c.kill()
			t.Fatalf("the program did not come up again after %d kills: %s", killed, hello)
		}
		require.Contains(t, hello, "? ", "no question is asked after a kill")
		for range 1 + r.IntN(4) {
			if _, err := fmt.Fprintf(c.in, "#k%d %s\n", acked, lines[acked%len(lines)]); err != nil {
				break
			}
			if r.IntN(3) == 0 { // killed at work
				time.Sleep(time.Duration(r.IntN(6000)) * time.Microsecond)
				break
			}
			reply, ok := c.reply()
			if !ok {
				break
			}
			require.NotEmpty(t, reply)
			acked++
		}
		c.kill()
		killed++
	}
	require.Greater(t, acked, kills/2, "hardly anything was answered between the kills")

	store, err := bolt.Open(db, bolt.Options{Existing: true})
	require.NoError(t, err)
	defer store.Close()
	ctx := context.Background()
	report, err := store.Check(ctx)
	require.NoError(t, err)
	require.Empty(t, report.Findings)
	jobs, err := listJobs(ctx, store)
	require.NoError(t, err)
	require.Len(t, jobs, 1)
	state, err := refold(ctx, store, jobs[0].ID)
	require.NoError(t, err)
	require.Equal(t, flow.JobActive, state.Status)
	causes := map[string]int{}
	var order []int
	var after uint64
	for {
		records, err := store.Read(ctx, jobs[0].ID, after, 512)
		require.NoError(t, err)
		if len(records) == 0 {
			break
		}
		for _, rec := range records {
			e, err := rec.Open()
			require.NoError(t, err)
			after = rec.Seq
			key, ok := strings.CutPrefix(string(e.Cause), "term:k")
			if !ok {
				continue
			}
			n, err := strconv.Atoi(key)
			require.NoError(t, err)
			if causes[key] == 0 {
				order = append(order, n)
			}
			causes[key]++
		}
	}
	for i, n := range order {
		require.Equal(t, i, n, "answers are missing or out of order")
	}
	require.GreaterOrEqual(t, len(order), acked, "an acknowledged answer is lost")
	require.LessOrEqual(t, len(order), acked+1, "an answer is there that was never sent")
}

// killLines are answers that can be given for ever: one value changed to and
// fro, a refusal, a note. Each writes at least one event.
func killLines() []string {
	return []string{"full", "change hands 3", "nonsense", "note the van is late", "change hands 1", "where", "change way full", "?", "b", "list"}
}

// A line that is sent again acts once: the second time nothing changes and the
// open question is asked again.
func TestALineSentTwiceActsOnce(t *testing.T) {
	db := filepath.Join(t.TempDir(), "jobs.db")
	say := func(text string) string {
		var out strings.Builder
		w := scriptWorld()
		w.In, w.Out = strings.NewReader(text), &out
		require.Zero(t, run([]string{"--db", db}, w))
		return out.String()
	}
	first := say("#1 full\n#2 attached\n")
	require.Contains(t, first, "Building: attached.")
	again := say("#2 attached\n#2 detached\n#3 2000 or later\n")
	require.NotContains(t, again, "Building:")
	require.Contains(t, again, "Age: 2000 or later.")
}

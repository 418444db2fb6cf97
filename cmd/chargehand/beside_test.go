package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// patience is how long a test waits for something that should come at once.
const patience = 20 * time.Second

// sink is an output that is never full and can be waited on.
type sink struct {
	mu   sync.Mutex
	buf  bytes.Buffer
	more chan struct{}
}

func newSink() *sink { return &sink{more: make(chan struct{}, 1)} }

func (s *sink) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.buf.Write(p)
	select {
	case s.more <- struct{}{}:
	default:
	}
	return len(p), nil
}

func (s *sink) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.buf.String()
}

// until waits for words, and returns all that was written.
func (s *sink) until(t testing.TB, words string) string {
	t.Helper()
	late := time.After(patience)
	for {
		if got := s.String(); strings.Contains(got, words) {
			return got
		}
		select {
		case <-s.more:
		case <-late:
			t.Fatalf("never said %q, only:\n%s", words, s.String())
		}
	}
}

// program is the program running beside the test.
type program struct {
	t    testing.TB
	in   *io.PipeWriter
	out  *sink
	err  *sink
	stop context.CancelFunc
	done chan int
}

// start runs the program with an open input until end or stop is called.
func start(t testing.TB, change func(*world), args ...string) *program {
	t.Helper()
	p := &program{t: t, out: newSink(), err: newSink(), done: make(chan int, 1)}
	ctx, cancel := context.WithCancel(context.Background())
	p.stop = cancel
	w := scriptWorld()
	in, write := io.Pipe()
	p.in = write
	w.In, w.Out, w.Err = in, p.out, p.err
	w.Signal = func(context.Context) (context.Context, context.CancelFunc) { return ctx, cancel }
	if change != nil {
		change(&w)
	}
	go func() { p.done <- run(args, w) }()
	t.Cleanup(func() {
		cancel()
		write.Close()
		<-p.done
	})
	return p
}

// say types a line.
func (p *program) say(text string) {
	p.t.Helper()
	_, err := fmt.Fprintln(p.in, text)
	require.NoError(p.t, err)
}

// end ends its input and waits for it.
func (p *program) end() int {
	p.t.Helper()
	require.NoError(p.t, p.in.Close())
	return p.wait()
}

func (p *program) wait() int {
	p.t.Helper()
	select {
	case code := <-p.done:
		p.done <- code
		return code
	case <-time.After(patience):
		p.t.Fatalf("it does not end: %s %s", p.out, p.err)
		return 0
	}
}

// once runs a command to its end.
func once(t testing.TB, args ...string) (out, errs string, code int) {
	t.Helper()
	p := start(t, nil, args...)
	code = p.end()
	return p.out.String(), p.err.String(), code
}

// good runs a command that must not fail, and returns what it says.
func good(t testing.TB, args ...string) string {
	t.Helper()
	out, errs, code := once(t, args...)
	require.Zero(t, code, "%v: %s%s", args, out, errs)
	return out
}

// leaveNothing fails when the program leaves a goroutine of its own behind.
func leaveNothing(t *testing.T) {
	t.Cleanup(func() {
		buf := make([]byte, 1<<20)
		buf = buf[:runtime.Stack(buf, true)]
		for _, g := range strings.Split(string(buf), "\n\n") {
			if strings.Contains(g, "chargehand/") && !strings.Contains(g, "testing.tRunner") && !strings.Contains(g, "testing.(*T).Parallel") {
				t.Errorf("left running:\n%s", g)
			}
		}
	})
}

func TestRunningChatDoesForOthersWhatTheyWouldDo(t *testing.T) {
	leaveNothing(t)
	dir := t.TempDir()
	db := filepath.Join(dir, "jobs.db")
	chat := start(t, nil, "--db", db, "--new", "--job", "Shed")
	chat.say("full")
	chat.out.until(t, "Way of asking: full.")

	info, err := os.Lstat(socketOf(db))
	require.NoError(t, err)
	assert.Equal(t, os.ModeSocket|0o600, info.Mode())

	assert.Contains(t, good(t, "jobs", "--db", db), "Shed")
	assert.Contains(t, good(t, "replay", "shed", "--db", db), "Way of asking: full.")
	assert.Contains(t, good(t, "check", "--db", db), "Sound: 1 jobs, 2 events")
	assert.Contains(t, good(t, "verify", db), "Sound: 1 jobs")
	assert.Contains(t, good(t, "backup", "--db", db, filepath.Join(dir, "copy.db")), "Copied to")
	assert.Contains(t, good(t, "verify", filepath.Join(dir, "copy.db")), "Sound: 1 jobs, 2 events")
	file := filepath.Join(dir, "shed.jsonl")
	good(t, "export", "shed", "--db", db, "--out", file)
	assert.Contains(t, good(t, "import", "--db", db, file), "nothing new")

	good(t, "rename", "shed", "Back shed", "--db", db)
	chat.out.until(t, "Now called Back shed.")
	good(t, "archive", "job-1", "--db", db)
	chat.out.until(t, "Put away.")
	good(t, "archive", "job-1", "--back", "--db", db)

	chat.say("note Ottoline has the key")
	chat.out.until(t, "Noted.")
	out := good(t, "erase", "Ottoline", "--job", "job-1", "--db", db)
	assert.Contains(t, out, "1 values erased")
	assert.Contains(t, out, "chargehand compact")
	assert.NotContains(t, good(t, "replay", "job-1", "--db", db), "Ottoline")
	assert.Contains(t, good(t, "check", "--mend", "--db", db), "Sound: 1 jobs")

	_, errs, code := once(t, "rename", "barn", "x", "--db", db)
	assert.Equal(t, exitUsage, code)
	assert.Contains(t, errs, `there is no job "barn"`)
	_, errs, code = once(t, "backup", "--db", db, file)
	assert.Equal(t, exitError, code)
	assert.Contains(t, errs, "exists already")

	// What goes over the socket is what the file holds, byte for byte.
	chat.say("snag a<b & c>d")
	chat.out.until(t, "a<b & c>d")
	over := good(t, "export", "job-1", "--db", db)
	assert.Contains(t, over, "a<b & c>d")

	// Another chat, and what can't be done meanwhile, name the one that runs.
	for _, args := range [][]string{{"--db", db}, {"compact", "--db", db}} {
		_, errs, code = once(t, args...)
		assert.Equal(t, exitError, code)
		assert.Contains(t, errs, fmt.Sprintf("is in use by a chat on a pipe (process %d, since", os.Getpid()))
	}

	// The chat goes on as if nothing had been.
	chat.say("attached")
	chat.out.until(t, "Building: attached.")
	require.Zero(t, chat.end())
	assert.Empty(t, chat.err.String())
	_, err = os.Lstat(socketOf(db))
	require.ErrorIs(t, err, os.ErrNotExist)
	assert.Contains(t, good(t, "jobs", "--db", db), "Back shed")
	lines := strings.SplitAfter(over, "\n")
	assert.Contains(t, good(t, "export", "job-1", "--db", db), strings.Join(lines[1:], ""))
	assert.Contains(t, good(t, "compact", "--db", db), "kB now")
	raw, err := os.ReadFile(db)
	require.NoError(t, err)
	assert.NotContains(t, string(raw), "Ottoline")
}

// What a killed process leaves behind is nobody's.
func TestStaleSocketIsNobodys(t *testing.T) {
	leaveNothing(t)
	db := filepath.Join(t.TempDir(), "jobs.db")
	l, err := net.ListenUnix("unix", &net.UnixAddr{Name: socketOf(db), Net: "unix"})
	require.NoError(t, err)
	l.SetUnlinkOnClose(false)
	require.NoError(t, l.Close())

	chat := start(t, nil, "--db", db, "--new")
	chat.say("full")
	chat.out.until(t, "Way of asking")
	assert.Contains(t, good(t, "jobs", "--db", db), "Garage")
	require.Zero(t, chat.end())
	assert.Empty(t, chat.err.String())

	l, err = net.ListenUnix("unix", &net.UnixAddr{Name: socketOf(db), Net: "unix"})
	require.NoError(t, err)
	l.SetUnlinkOnClose(false)
	require.NoError(t, l.Close())
	assert.Contains(t, good(t, "jobs", "--db", db), "Garage", "the file is opened where nobody answers")
	assert.Contains(t, good(t, "check", "--db", db), "Sound")
}

// A file that happens to lie there is not deleted; the chat goes on without.
func TestWhatIsNoSocketIsLeftAlone(t *testing.T) {
	db := filepath.Join(t.TempDir(), "jobs.db")
	require.NoError(t, os.WriteFile(socketOf(db), []byte("mine"), 0o600))
	p := start(t, nil, "--db", db, "--new")
	p.say("full")
	p.out.until(t, "Way of asking")
	require.Zero(t, p.end())
	assert.Contains(t, p.err.String(), "is no socket and is left alone")
	raw, err := os.ReadFile(socketOf(db))
	require.NoError(t, err)
	assert.Equal(t, "mine", string(raw))
}

// A path too long for a socket costs the socket, not the chat.
func TestPathTooLongForASocket(t *testing.T) {
	dir := filepath.Join(t.TempDir(), strings.Repeat("long", 30))
	p := start(t, nil, "--db", filepath.Join(dir, "jobs.db"), "--new")
	p.say("full")
	p.out.until(t, "Way of asking")
	require.Zero(t, p.end())
	assert.Contains(t, p.err.String(), "other commands can't reach this one")
}

func TestAnotherProtocolIsToldApart(t *testing.T) {
	leaveNothing(t)
	db := filepath.Join(t.TempDir(), "jobs.db")
	good(t, "--db", db, "--new")
	l, err := net.Listen("unix", socketOf(db))
	require.NoError(t, err)
	s := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		_ = json.NewEncoder(w).Encode(hello{Protocol: 2, Program: "v9", PID: 7, Doing: "a server"})
	})}
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(l) }()
	defer func() { s.Close(); <-ended }()
	_, errs, code := once(t, "jobs", "--db", db)
	assert.Equal(t, exitError, code)
	assert.Contains(t, errs, "a server (process 7")
	assert.Contains(t, errs, "protocol 2, this one 1: use the same version")
}

// What is asked of a running process and it does not know is an error in words.
func TestUnknownOperation(t *testing.T) {
	leaveNothing(t)
	db := filepath.Join(t.TempDir(), "jobs.db")
	chat := start(t, nil, "--db", db, "--new")
	chat.out.until(t, "? ")
	o := options{db: db}
	k, err := overSocket(t.Context(), o)
	require.NoError(t, err)
	require.NotNil(t, k)
	defer k.Close()
	_, err = ask(t.Context(), k, operation[nothing, nothing]{name: "dance"}, nothing{})
	require.ErrorContains(t, err, "does not know /1/dance: use the same version")
	type more struct {
		Job, Colour string
	}
	_, err = ask(t.Context(), k, operation[more, nothing]{name: "archive"}, more{"job-1", "red"})
	require.ErrorContains(t, err, `unknown field "Colour"`)
	var u usage
	require.ErrorAs(t, err, &u)
	require.Zero(t, chat.end())
}

// What has come to a job on another machine is said in the chat that is open on
// it when it is taken in.
func TestImportBesideAChatIsSaidThere(t *testing.T) {
	leaveNothing(t)
	dir := t.TempDir()
	here, there := filepath.Join(dir, "here.db"), filepath.Join(dir, "there.db")
	out, back := filepath.Join(dir, "out.jsonl"), filepath.Join(dir, "back.jsonl")
	chat := start(t, nil, "--db", here, "--new", "--job", "Shed")
	chat.say("full")
	chat.out.until(t, "Way of asking: full.")
	good(t, "export", "shed", "--db", here, "--out", out)
	good(t, "import", out, "--db", there)
	other := start(t, nil, "--db", there)
	other.say("attached")
	require.Zero(t, other.end())
	good(t, "export", "shed", "--db", there, "--out", back)

	assert.Contains(t, good(t, "import", back, "--db", here), "events added behind 2")
	chat.out.until(t, "Building: attached.")
	chat.say("2000 or later")
	chat.out.until(t, "Age: 2000 or later.")
	require.Zero(t, chat.end())
	assert.Contains(t, good(t, "check", "--db", here), "Sound")
}

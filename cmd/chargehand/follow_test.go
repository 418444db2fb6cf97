package main

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// byHand lets a test say when the store is looked at again.
func byHand(w *world) chan struct{} {
	look := make(chan struct{})
	w.Sleep = func(ctx context.Context, _ time.Duration) error {
		select {
		case <-look:
			return nil
		case <-ctx.Done():
			return ctx.Err()
		}
	}
	return look
}

// A follower is told where the job stands and then what is said, as it is said;
// not asked, and not told what was before.
func TestFollowBesideAChat(t *testing.T) {
	leaveNothing(t)
	db := filepath.Join(t.TempDir(), "jobs.db")
	chat := start(t, nil, "--db", db, "--new", "--job", "Shed")
	chat.say("full")
	chat.say("attached")
	chat.out.until(t, "Building: attached.")

	f := start(t, nil, "follow", "shed", "--db", db)
	f.out.until(t, "1 of 9: survey. Done 2 of")
	chat.say("before 2000")
	f.out.until(t, "Age: before 2000.")
	chat.say("felt")
	got := f.out.until(t, "STOP. It may hold asbestos")
	assert.NotContains(t, got, "?", "a follower is not asked")
	assert.NotContains(t, got, "Building: attached", "what was before is not told")
	good(t, "rename", "job-1", "Barn", "--db", db)
	f.out.until(t, "Now called Barn.")

	f.stop() // Ctrl-C
	assert.Zero(t, f.wait())
	assert.Empty(t, f.err.String())
	require.Zero(t, chat.end())
}

// A store that nobody has open is looked at; a chat that is begun, and one that
// ends, change nothing for who follows.
func TestFollowAnIdleStoreThroughChats(t *testing.T) {
	leaveNothing(t)
	db := filepath.Join(t.TempDir(), "jobs.db")
	good(t, "--db", db, "--new", "--job", "Shed")
	var look chan struct{}
	f := start(t, func(w *world) { look = byHand(w) }, "follow", "shed", "--db", db)
	f.out.until(t, "Done 0 of")
	look <- struct{}{}
	look <- struct{}{} // nothing has changed
	good(t, "rename", "shed", "Barn", "--db", db)
	look <- struct{}{}
	f.out.until(t, "Now called Barn.")

	for n, said := range []string{"full", "attached"} {
		chat := start(t, nil, "--db", db)
		chat.out.until(t, "? ")
		select { // the file has been opened: it is read, and then stayed with
		case look <- struct{}{}:
		case <-time.After(patience):
			t.Fatal("nobody looks")
		}
		chat.say(said)
		f.out.until(t, []string{"Way of asking: full.", "Building: attached."}[n])
		require.Zero(t, chat.end())
	}
	look <- struct{}{}
	good(t, "archive", "job-1", "--db", db)
	look <- struct{}{}
	f.out.until(t, "Put away.")
	f.stop()
	assert.Zero(t, f.wait())
	assert.Empty(t, f.err.String())
}

// A running process that is killed leaves who follows with the store.
func TestFollowOutlivesAKilledChat(t *testing.T) {
	leaveNothing(t)
	db := filepath.Join(t.TempDir(), "jobs.db")
	c := startChild(t, db)
	say := func(line string) {
		_, err := fmt.Fprintln(c.in, line)
		require.NoError(t, err)
		_, alive := c.reply()
		require.True(t, alive)
	}
	_, alive := c.reply()
	require.True(t, alive)
	say("full")
	var look chan struct{}
	f := start(t, func(w *world) { look = byHand(w) }, "follow", "garage", "--db", db)
	f.out.until(t, "Done 1 of")
	say("attached")
	f.out.until(t, "Building: attached.")
	c.kill()
	_, err := os.Lstat(socketOf(db))
	require.NoError(t, err, "the socket of a killed process stays")
	look <- struct{}{}
	good(t, "rename", "garage", "Barn", "--db", db)
	look <- struct{}{}
	f.out.until(t, "Now called Barn.")
	f.stop()
	assert.Zero(t, f.wait())
}

// BenchmarkFollowLatency is from the line that is typed into a chat to the words
// in front of somebody who follows: stepped, written to the disk, told.
func BenchmarkFollowLatency(b *testing.B) {
	db := filepath.Join(b.TempDir(), "jobs.db")
	chat := start(b, nil, "--db", db, "--new", "--job", "Shed")
	chat.say("full")
	chat.out.until(b, "Way of asking")
	f := start(b, nil, "follow", "shed", "--db", db)
	f.out.until(b, "Done 1 of")
	for i := 0; b.Loop(); i++ {
		chat.say(fmt.Sprintf("snag number %d of them", i))
		f.out.until(b, fmt.Sprintf("number %d of them", i))
	}
	b.StopTimer()
	f.stop()
	f.wait()
	chat.end()
}

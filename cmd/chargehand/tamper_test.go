package main

import (
	"bytes"
	"encoding/binary"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"go.etcd.io/bbolt"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/store/bolt"
)

// told is a store with one job of some events, and the job as an exported file.
func told(t *testing.T) (db, file string) {
	t.Helper()
	dir := t.TempDir()
	db, file = filepath.Join(dir, "jobs.db"), filepath.Join(dir, "job.jsonl")
	p := start(t, nil, "--db", db, "--new", "--job", "Shed")
	for _, l := range []string{"full", "attached", "2000 or later", "felt", ".", ".", ".", "yes", ".", "5400 2900"} {
		p.say(l)
	}
	require.Zero(t, p.end())
	good(t, "export", "shed", "--db", db, "--out", file)
	return db, file
}

// edit changes a store behind the program's back.
func edit(t *testing.T, db string, change func(*bbolt.Tx) error) {
	t.Helper()
	b, err := bbolt.Open(db, 0o600, &bbolt.Options{Timeout: patience, NoFreelistSync: true})
	require.NoError(t, err)
	require.NoError(t, b.Update(change))
	require.NoError(t, b.Close())
}

// records edits the records of job-1 as they are kept.
func records(change func(*bbolt.Bucket) error) func(*bbolt.Tx) error {
	return func(tx *bbolt.Tx) error { return change(tx.Bucket([]byte("events")).Bucket([]byte("job-1"))) }
}

func number(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

// Whoever changes the past of a store is found out, and the first event that
// does not hold any more is named: by check, by verify, by replay and export.
func TestStoreTamperedWith(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*bbolt.Bucket) error
		first  string // the first bad event
		why    string
	}{
		"tampered": {func(b *bbolt.Bucket) error {
			return b.Put(number(3), bytes.Replace(b.Get(number(3)), []byte("attached"), []byte("detached"), 1))
		}, "event 3", "do not match its seal"},
		"removed": {func(b *bbolt.Bucket) error { return b.Delete(number(5)) }, "event 5", "missing"},
		"re-ordered": {func(b *bbolt.Bucket) error {
			six, seven := bytes.Clone(b.Get(number(6))), bytes.Clone(b.Get(number(7)))
			if err := b.Put(number(6), seven); err != nil {
				return err
			}
			return b.Put(number(7), six)
		}, "event 6", "number 7 stands where 6 belongs"},
		"flipped bit": {func(b *bbolt.Bucket) error {
			raw := bytes.Clone(b.Get(number(8)))
			raw[bytes.Index(raw, []byte(`"s":"`))+7] ^= 1
			return b.Put(number(8), raw)
		}, "event 8", ""},
		"end cut off": {func(b *bbolt.Bucket) error {
			k, _ := b.Cursor().Last()
			return b.Delete(k)
		}, "", "missing"},
	} {
		t.Run(name, func(t *testing.T) {
			db, _ := told(t)
			edit(t, db, records(c.change))
			for _, args := range [][]string{{"check", "--db", db}, {"verify", db}} {
				out, errs, code := once(t, args...)
				assert.Equal(t, exitError, code, out)
				assert.Contains(t, out, "events of job-1 from "+c.first)
				assert.Contains(t, out, c.why)
				assert.Empty(t, errs)
				assert.NotContains(t, out, "Sound")
			}
			out, errs, code := once(t, "replay", "shed", "--db", db)
			assert.Equal(t, exitError, code)
			assert.Contains(t, errs, c.first)
			assert.Contains(t, out, "Way of asking: full.", "what holds is shown")
			_, errs, code = once(t, "export", "shed", "--db", db)
			assert.Equal(t, exitError, code)
			assert.Contains(t, errs, c.first)
			_, errs, code = once(t, "backup", "--db", db, db+".copy")
			assert.Equal(t, exitError, code, "damage is not copied")
			assert.Contains(t, errs, c.first)
		})
	}
}

// The same by a running process, which is asked.
func TestStoreTamperedWithAndInUse(t *testing.T) {
	db, _ := told(t)
	edit(t, db, records(func(b *bbolt.Bucket) error { return b.Delete(number(5)) }))
	opened, err := bolt.Open(db, bolt.Options{})
	require.NoError(t, err)
	d := atDesk(scriptWorld(), opened, &screen{out: newSink()})
	l, err := d.listen("a test")
	require.NoError(t, err)
	defer opened.Close()
	defer l.Close()
	out, _, code := once(t, "check", "--db", db)
	assert.Equal(t, exitError, code)
	assert.Contains(t, out, "events of job-1 from event 5 on: it is missing")
	out, errs, code := once(t, "replay", "job-1", "--db", db)
	assert.Equal(t, exitError, code)
	assert.Contains(t, errs, "from event 5 on: it is missing")
	assert.Contains(t, out, "Building: attached.")
}

// The file as a whole: cut short, or a bit of its pages flipped.
func TestFileTornOrFlipped(t *testing.T) {
	db, _ := told(t)
	whole, err := os.ReadFile(db)
	require.NoError(t, err)
	torn := filepath.Join(t.TempDir(), "torn.db")
	require.NoError(t, os.WriteFile(torn, whole[:len(whole)/64], 0o600))
	for _, args := range [][]string{{"check", "--db", torn}, {"verify", torn}} {
		out, errs, code := once(t, args...)
		assert.Equal(t, exitError, code)
		assert.Contains(t, out+errs, "cut short")
	}
	flipped := filepath.Join(t.TempDir(), "flipped.db")
	at := bytes.LastIndex(whole, []byte(`"attached"`))
	require.Positive(t, at)
	whole[at+1] ^= 1
	require.NoError(t, os.WriteFile(flipped, whole, 0o600))
	out, _, code := once(t, "verify", flipped)
	assert.Equal(t, exitError, code)
	assert.Contains(t, out, "events of job-1 from event 3 on: its contents do not match its seal")
}

// An exported job that was changed on its way names the first bad event, and is
// not taken in.
func TestJobFileTamperedWith(t *testing.T) {
	_, file := told(t)
	whole, err := os.ReadFile(file)
	require.NoError(t, err)
	lines := bytes.SplitAfter(whole, []byte("\n"))
	join := func(ls ...[]byte) []byte { return bytes.Join(ls, nil) }
	for name, c := range map[string]struct {
		raw   []byte
		wants string
	}{
		"tampered":     {bytes.Replace(whole, []byte(`"attached"`), []byte(`"detached"`), 1), "event 3 does not hold: its contents do not match its seal"},
		"removed":      {join(append(append([][]byte{}, lines[:5]...), lines[6:]...)...), "event 5 does not hold: number 6 stands where 5 belongs"},
		"re-ordered":   {join(append(append(append([][]byte{}, lines[:6]...), lines[7], lines[6]), lines[8:]...)...), "event 6 does not hold: number 7 stands where 6 belongs"},
		"flipped bit":  {bytes.Replace(whole, []byte(`"kind":"answered"`), []byte(`"Kind":"answered"`), 1), "event 2 does not hold: its line is not as it was written"},
		"flipped name": {bytes.Replace(whole, []byte(`{"v":1,"seq":4`), []byte(`{"V":1,"seq":4`), 1), "event 4 does not hold: its line is not as it was written"},
		"cut short":    {join(lines[:9]...), "event 9 does not hold: it is missing: the file is cut short"},
		"torn":         {whole[:len(whole)-40], "does not hold"},
		"end repeated": {append(bytes.Clone(whole), lines[len(lines)-2]...), "does not hold"},
	} {
		t.Run(name, func(t *testing.T) {
			require.NotEqual(t, whole, c.raw)
			bad := filepath.Join(t.TempDir(), "bad.jsonl")
			require.NoError(t, os.WriteFile(bad, c.raw, 0o600))
			out, errs, code := once(t, "verify", bad)
			assert.Equal(t, exitError, code, out)
			assert.Contains(t, out, c.wants)
			assert.Empty(t, errs)
			db := filepath.Join(t.TempDir(), "other", "jobs.db")
			_, errs, code = once(t, "import", bad, "--db", db)
			assert.Equal(t, exitError, code)
			assert.Contains(t, errs, "is damaged from event")
			assert.NoFileExists(t, db)
		})
	}
}

// Clocks that are not those of the record are found, and set anew where that is
// asked for: taken away, added, and known by name but not by time.
func TestClocksMended(t *testing.T) {
	db, _ := told(t)
	p := start(t, nil, "--db", db)
	for _, line := range []string{"yes", "go shape", ".", "go length", "5400 2900", "go diagonals"} {
		p.say("@2026-05-11T10:01:00Z " + line)
	}
	p.say("@2026-05-11T10:02:00Z d friday")
	p.out.until(t, "put off until")
	require.Zero(t, p.end())
	b, err := bolt.Open(db, bolt.Options{})
	require.NoError(t, err)
	right, err := b.Clocks(t.Context(), "job-1")
	require.NoError(t, err)
	require.NotEmpty(t, right, "the story has no clock")
	head, err := b.Head(t.Context(), "job-1")
	require.NoError(t, err)
	require.NoError(t, b.Close())

	set := func(clocks ...event.Clock) func() {
		return func() {
			b, err := bolt.Open(db, bolt.Options{})
			require.NoError(t, err)
			require.NoError(t, b.Commit(t.Context(), event.Commit{Parts: []event.Part{{Stream: "job-1", Expect: head, Clocks: clocks}}}))
			require.NoError(t, b.Close())
		}
	}
	for name, spoil := range map[string]func(){
		"taken away": set(),
		"added":      set(append([]event.Clock{{Name: "hose/done", Due: time.Date(2030, 1, 1, 0, 0, 0, 0, time.UTC)}}, right...)...),
		"never rings": func() {
			edit(t, db, func(tx *bbolt.Tx) error {
				k, _ := tx.Bucket([]byte("due")).Cursor().First()
				return tx.Bucket([]byte("due")).Delete(k)
			})
		},
	} {
		spoil()
		out, _, code := once(t, "check", "--db", db)
		assert.Equal(t, exitError, code, name)
		assert.Contains(t, out, "clock", name)
		assert.Contains(t, good(t, "check", "--mend", "--db", db), "its clocks are set anew from its record", name)
		assert.Contains(t, good(t, "check", "--db", db), "Sound", name)
		b, err := bolt.Open(db, bolt.Options{})
		require.NoError(t, err)
		kept, err := b.Clocks(t.Context(), "job-1")
		require.NoError(t, err)
		assert.Equal(t, right, kept, name)
		s, err := refold(t.Context(), b, "job-1")
		require.NoError(t, err)
		assert.Equal(t, flow.Clocks(s), kept, name)
		require.NoError(t, b.Close())
	}
}

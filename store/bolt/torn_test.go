package bolt_test

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store"
	"chargehand/store/bolt"
	"chargehand/store/storetest"
)

// envDamages raises the number of damaged files each test here makes.
const envDamages = "STORE_DAMAGES"

func damages(normal int) int {
	if n, err := strconv.Atoi(os.Getenv(envDamages)); err == nil {
		return n
	}
	return normal
}

// said is everything that a store answers about its streams and clocks.
// Summaries, marks and seen keys are left out: nothing seals them, and a wrong
// bit there repeats or skips a sentence, no more.
func said(j store.Journal) (string, error) {
	ctx := context.Background()
	streams, err := j.Streams(ctx)
	if err != nil {
		return "", err
	}
	var out strings.Builder
	for _, s := range streams {
		fmt.Fprintf(&out, "%s %d %s\n", s.Stream, s.Head.Seq, s.Head.Hash)
		records, err := j.Read(ctx, s.Stream, 0, 1<<20)
		if err != nil {
			return "", err
		}
		for _, r := range records {
			raw, err := event.MarshalRecord(r)
			if err != nil {
				return "", err
			}
			out.Write(raw)
		}
		clocks, err := j.Clocks(ctx, s.Stream)
		if err != nil {
			return "", err
		}
		fmt.Fprintln(&out, clocks)
	}
	return out.String(), nil
}

// outcome is how a damaged file was met.
type outcome struct{ refused, found, harmless int }

// meet opens and checks a damaged file. Whatever the damage, it must be refused
// or found, or what the store says must be what it said before; and the file must
// be the same afterwards.
func (o *outcome) meet(t *testing.T, path string, content []byte, want string) {
	t.Helper()
	write(content)(path)
	r, checkErr := bolt.CheckFile(context.Background(), path)
	found := checkErr != nil || !r.Sound()
	db, err := bolt.Open(path, bolt.Options{})
	if err != nil {
		var damaged *store.Damaged
		var notOurs *store.NotOurs
		var newer *store.Newer
		require.True(t, errors.As(err, &damaged) || errors.As(err, &notOurs) || errors.As(err, &newer), "%T %v", err, err)
		require.True(t, found, "refused (%v), but the check finds nothing", err)
		o.refused++
	} else {
		got, err := said(db)
		require.NoError(t, db.Close())
		switch {
		case err != nil:
			var damaged *store.Damaged
			var newer *store.Newer
			require.True(t, errors.As(err, &damaged) || errors.As(err, &newer), "%T %v", err, err)
			require.True(t, found, "read with %v, but the check finds nothing", err)
			o.found++
		case got != want:
			require.True(t, found, "it says something else, and the check finds nothing")
			o.found++
		default:
			o.harmless++
		}
	}
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	require.True(t, bytes.Equal(content, after), "the file was changed")
}

func truth(t *testing.T, content []byte) string {
	path := filepath.Join(t.TempDir(), "jobs.store")
	write(content)(path)
	db := open(t, path, bolt.Options{})
	want, err := said(db)
	require.NoError(t, err)
	require.NotEmpty(t, want)
	return want
}

// TestCutShort cuts a store at many lengths.
func TestCutShort(t *testing.T) {
	t.Parallel()
	whole := sample(t, 25)
	want := truth(t, whole)
	path := filepath.Join(t.TempDir(), "jobs.store")
	rng := rand.New(rand.NewPCG(1, 1))
	lengths := []int{0, 1, 79, 80, 4095, 4096, 4097, 8191, 8192, 8193, 12288, len(whole) - 4096, len(whole) - 1}
	for range damages(60) {
		lengths = append(lengths, rng.IntN(len(whole)))
	}
	var o outcome
	for _, n := range lengths {
		o.meet(t, path, whole[:n], want)
	}
	assert.Equal(t, outcome{refused: len(lengths)}, o, "a file that lost any part is refused")
	// Room behind the last page is not part of the store.
	o = outcome{}
	o.meet(t, path, append(bytes.Clone(whole), make([]byte, 5000)...), want)
	assert.Equal(t, outcome{harmless: 1}, o)
}

// TestFlippedBits turns single bits, in the head pages and anywhere else.
func TestFlippedBits(t *testing.T) {
	t.Parallel()
	whole := sample(t, 25)
	want := truth(t, whole)
	path := filepath.Join(t.TempDir(), "jobs.store")
	rng := rand.New(rand.NewPCG(2, 2))
	var o outcome
	flip := func(at int) {
		content := bytes.Clone(whole)
		content[at] ^= 1 << rng.IntN(8)
		o.meet(t, path, content, want)
	}
	for range damages(30) {
		flip(rng.IntN(2)*4096 + rng.IntN(80)) // head pages
	}
	for range damages(40) {
		flip(8192 + rng.IntN(len(whole)/4096-2)*4096 + rng.IntN(100)) // page headers and first elements
	}
	for range damages(100) {
		flip(8192 + rng.IntN(len(whole)-8192))
	}
	t.Logf("%+v", o)
	assert.Positive(t, o.refused)
	assert.Positive(t, o.found)
}

// TestSpoiltPages overwrites whole pages: with zeros, noise and other pages.
func TestSpoiltPages(t *testing.T) {
	t.Parallel()
	whole := sample(t, 25)
	want := truth(t, whole)
	path := filepath.Join(t.TempDir(), "jobs.store")
	rng := rand.New(rand.NewPCG(3, 3))
	pages := len(whole) / 4096
	var o outcome
	for i := range damages(60) {
		content := bytes.Clone(whole)
		page := content[rng.IntN(pages)*4096:][:4096]
		switch i % 3 {
		case 0:
			clear(page)
		case 1:
			for k := range page {
				page[k] = byte(rng.Uint32())
			}
		case 2:
			copy(page, whole[rng.IntN(pages)*4096:])
		}
		o.meet(t, path, content, want)
	}
	t.Logf("%+v", o)
	assert.Positive(t, o.refused)
}

// TestWriteToDamaged commits to damaged stores that could be opened: an error or
// a proper commit, and never the end of the process.
func TestWriteToDamaged(t *testing.T) {
	t.Parallel()
	whole := sample(t, 25)
	path := filepath.Join(t.TempDir(), "jobs.store")
	rng := rand.New(rand.NewPCG(4, 4))
	w := storetest.NewWriter(4)
	written, refused := 0, 0
	for range damages(30) {
		content := bytes.Clone(whole)
		content[8192+rng.IntN(len(whole)-8192)] ^= 1 << rng.IntN(8)
		write(content)(path)
		db, err := bolt.Open(path, bolt.Options{NoSync: true})
		if err != nil {
			continue
		}
		for _, stream := range []string{event.Book, "job/a", "job/b", "job/small", "job/new"} {
			head, err := db.Head(t.Context(), stream)
			if err != nil {
				continue
			}
			p := w.Part(stream, head, 1, event.Clock{Name: "relax", Due: time.Unix(5, 0)})
			err = db.Commit(t.Context(), event.Commit{Seen: []event.SeenKey{event.SeenKey("new " + stream)}, Parts: []event.Part{p}})
			if err != nil {
				require.ErrorAs(t, err, new(*store.DiskFailed))
				refused++
			} else {
				got, err := db.Head(t.Context(), stream)
				require.NoError(t, err)
				require.Equal(t, p.Records[0].Head(), got)
				written++
			}
		}
		require.NoError(t, db.Close())
	}
	t.Logf("%d written, %d refused", written, refused)
	assert.Positive(t, written)
}

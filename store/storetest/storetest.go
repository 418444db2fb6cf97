// Package storetest is what every store promises, as tests. An implementation
// runs the suite with [Run] (and [RunPhotos]); every store that is opened
// through it is checked as a whole when its test ends.
package storetest

import (
	"testing"

	"github.com/stretchr/testify/require"

	"chargehand/store"
)

// Harness is how the suite gets at stores of one kind.
type Harness struct {
	// Open returns an empty store that is closed when the test ends.
	Open func(testing.TB) store.Journal
	// Reopen closes a store that Open returned and opens it again; nil when that
	// kind of store does not outlive its process.
	Reopen func(testing.TB, store.Journal) store.Journal
}

// open returns an empty store and has it checked at the end, when it is still
// the one in use.
func (h Harness) open(t testing.TB) store.Journal {
	t.Helper()
	j := h.Open(t)
	t.Cleanup(func() { Sound(t, j) })
	return j
}

// Sound checks the whole store and fails the test for each finding.
func Sound(t testing.TB, j store.Journal) store.Report {
	t.Helper()
	r, err := store.Check(t.Context(), j)
	if t.Context().Err() != nil { // in a Cleanup the test's context has ended
		r, err = store.Check(background, j)
	}
	require.NoError(t, err)
	for _, f := range r.Findings {
		t.Errorf("check: %v", f)
	}
	return r
}

// Run runs the whole suite.
func Run(t *testing.T, h Harness) {
	for name, test := range map[string]func(*testing.T, Harness){
		"empty":            empty,
		"append and read":  appendAndRead,
		"conflict":         conflict,
		"seen":             seen,
		"several streams":  severalStreams,
		"bad commits":      badCommits,
		"clocks":           clocks,
		"due":              due,
		"marks":            marks,
		"streams":          streams,
		"names apart":      namesApart,
		"summary":          summary,
		"copies":           copies,
		"prefix":           prefix,
		"ended context":    endedContext,
		"many at once":     manyAtOnce,
		"one stream":       oneStream,
		"erase":            erase,
		"check finds none": checkCounts,
		"simulation":       simulation,
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			test(t, h)
		})
	}
}

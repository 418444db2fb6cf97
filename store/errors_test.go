package store_test

import (
	"errors"
	"io/fs"
	"testing"

	"github.com/stretchr/testify/assert"

	"chargehand/flow/event"
	"chargehand/store"
)

// TestErrorsSayWhatToDo: every error about a file names the file, and ends in
// something a person can do.
func TestErrorsSayWhatToDo(t *testing.T) {
	const path = "/home/ada/jobs.store"
	cause := errors.New("the cause")
	for want, err := range map[string]error{
		"the store /home/ada/jobs.store is in use by another running chargehand: stop that one first, or ask it":                                                    &store.Locked{Path: path},
		"the store /home/ada/jobs.store is damaged: why: move it aside and restore a backup; nothing was changed":                                                   &store.Damaged{Path: path, Why: "why", Do: store.AdviceRestore},
		"the store /home/ada/jobs.store is damaged in job/a from event 7 on: why: run the check to see what is damaged, then restore a backup; nothing was changed": &store.Damaged{Path: path, Stream: "job/a", Seq: 7, Why: "why", Do: store.AdviceCheck},
		"the store is damaged in job/a: why: copy it back from a backup; the record itself is not touched by this":                                                  &store.Damaged{Stream: "job/a", Why: "why", Do: store.AdvicePhoto},
		"there is no store at /home/ada/jobs.store: why: say where the store is, or restore a backup there; nothing was changed":                                    &store.Missing{Path: path, Why: "why"},
		"/home/ada/jobs.store is not a chargehand store: why: move it aside or name another file; nothing was changed":                                              &store.NotOurs{Path: path, Why: "why"},
		"/home/ada/jobs.store exists already and is not overwritten: move it aside or name another file; nothing was changed":                                       &store.Exists{Path: path},
		"the store /home/ada/jobs.store was written by a newer chargehand (it says \"2\", this program knows \"1\"): use that one; nothing was changed":             &store.Newer{Path: path, Found: "2", Knows: "1"},
		"the store /home/ada/jobs.store can no longer be written: the cause: look at the disk (full, failing, pulled out?), then start again":                       &store.DiskFailed{Path: path, Err: cause},
		"no room left for the store /home/ada/jobs.store: the cause: free some space and try again; nothing was lost":                                               &store.NoRoom{Path: path, Err: cause},
		"commit to \"job/a\" refused: why":                       &store.BadCommit{Stream: "job/a", Why: "why"},
		"commit refused: why":                                    &store.BadCommit{Why: "why"},
		"the photo has 12 bytes, more than the 10 that are kept": &store.TooLarge{Size: 12, Max: 10},
	} {
		assert.Equal(t, want, err.Error())
	}
}

func TestErrorsKeepTheirCause(t *testing.T) {
	broken := &event.BrokenError{Seq: 3, Why: "why"}
	err := store.BadEvent("path", "job/a", 3, broken)
	assert.Equal(t, "why", err.Why)
	assert.ErrorIs(t, err, broken)
	assert.ErrorIs(t, &store.Missing{Err: fs.ErrNotExist}, fs.ErrNotExist)
	assert.ErrorIs(t, &store.NoRoom{Err: fs.ErrClosed}, fs.ErrClosed)
	assert.ErrorIs(t, &store.DiskFailed{Err: fs.ErrClosed}, fs.ErrClosed)
	assert.ErrorIs(t, &store.BadCommit{Err: broken}, broken)
}

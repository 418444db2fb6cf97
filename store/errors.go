package store

import (
	"errors"
	"fmt"
)

// ErrClosed means that the store was closed; nothing was written.
var ErrClosed = errors.New("the store is closed")

// Advice is a key for what a person can do about an error. The sentences of
// Error are for the operator; a room with texts of its own looks up the key.
type Advice string

const (
	AdviceRestore Advice = "restore"   // put the file aside and restore a backup
	AdviceCheck   Advice = "check"     // run the check, which names what is damaged
	AdviceAside   Advice = "aside"     // move the file away, or name another one
	AdviceRestart Advice = "restart"   // mend the disk, then start again
	AdvicePhoto   Advice = "photo"     // only this photo is lost; take it from a backup
	AdviceMissing Advice = "not-there" // say where the store is
)

// says is the operator's sentence for an advice.
func (a Advice) says() string {
	switch a {
	case AdviceRestore:
		return "move it aside and restore a backup; nothing was changed"
	case AdviceCheck:
		return "run the check to see what is damaged, then restore a backup; nothing was changed"
	case AdviceAside:
		return "move it aside or name another file; nothing was changed"
	case AdviceRestart:
		return "look at the disk (full, failing, pulled out?), then start again"
	case AdvicePhoto:
		return "copy it back from a backup; the record itself is not touched by this"
	case AdviceMissing:
		return "say where the store is, or restore a backup there; nothing was changed"
	}
	return string(a)
}

// Locked means that another process has the store open.
type Locked struct{ Path string }

func (e *Locked) Error() string {
	return fmt.Sprintf("the store %s is in use by another running chargehand: stop that one first, or ask it", e.Path)
}

// Damaged means that what is on the disk is not what was written.
type Damaged struct {
	Path   string // the file; empty when there is none
	Stream string // the stream, when only one is touched
	Seq    uint64 // the first event that does not hold, when it is known
	Why    string
	Do     Advice
	Err    error
}

func (e *Damaged) Error() string {
	what := "the store"
	if e.Path != "" {
		what += " " + e.Path
	}
	what += " is damaged"
	if e.Stream != "" {
		what += " in " + e.Stream
		if e.Seq > 0 {
			what += fmt.Sprintf(" from event %d on", e.Seq)
		}
	}
	return fmt.Sprintf("%s: %s: %s", what, e.Why, e.Do.says())
}

func (e *Damaged) Unwrap() error { return e.Err }

// Missing means that a store was expected and there is none.
type Missing struct {
	Path string
	Why  string
	Err  error
}

func (e *Missing) Error() string {
	return fmt.Sprintf("there is no store at %s: %s: %s", e.Path, e.Why, AdviceMissing.says())
}

func (e *Missing) Unwrap() error { return e.Err }

// NotOurs means that the file is something else than a store of this program.
type NotOurs struct {
	Path string
	Why  string
}

func (e *NotOurs) Error() string {
	return fmt.Sprintf("%s is not a chargehand store: %s: %s", e.Path, e.Why, AdviceAside.says())
}

// Newer means that the file was written by a later program.
type Newer struct {
	Path  string
	Found string
	Knows string
}

func (e *Newer) Error() string {
	return fmt.Sprintf("the store %s was written by a newer chargehand (it says %q, this program knows %q): use that one; nothing was changed", e.Path, e.Found, e.Knows)
}

// Exists means that something stands where a new file was to be put.
type Exists struct{ Path string }

func (e *Exists) Error() string {
	return fmt.Sprintf("%s exists already and is not overwritten: %s", e.Path, AdviceAside.says())
}

// DiskFailed means that the disk refused a write in such a way that nothing
// more can be written with a promise until the store is opened again. Whether
// the commit that met it is kept shows after that: sent again, it is either
// written or answered with event.ErrSeen.
type DiskFailed struct {
	Path string
	Err  error
}

func (e *DiskFailed) Error() string {
	return fmt.Sprintf("the store %s can no longer be written: %v: %s", e.Path, e.Err, AdviceRestart.says())
}

func (e *DiskFailed) Unwrap() error { return e.Err }

// NoRoom means that there is no room for a commit. It was not written, what was
// written before is whole, and a later commit may fit again.
type NoRoom struct {
	Path string
	Err  error
}

func (e *NoRoom) Error() string {
	return fmt.Sprintf("no room left for the store %s: %v: free some space and try again; nothing was lost", e.Path, e.Err)
}

func (e *NoRoom) Unwrap() error { return e.Err }

// BadCommit means that a commit, or a mark, is wrong in itself: the caller has
// a mistake in it, and trying again does not help.
type BadCommit struct {
	Stream string
	Why    string
	Err    error
}

func (e *BadCommit) Error() string {
	if e.Stream == "" {
		return "commit refused: " + e.Why
	}
	return fmt.Sprintf("commit to %q refused: %s", e.Stream, e.Why)
}

func (e *BadCommit) Unwrap() error { return e.Err }

// TooLarge means that a photo is over the limit.
type TooLarge struct{ Size, Max int64 }

func (e *TooLarge) Error() string {
	return fmt.Sprintf("the photo has %d bytes, more than the %d that are kept", e.Size, e.Max)
}

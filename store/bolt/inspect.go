package bolt

import (
	"errors"
	"fmt"
	"os"
	"runtime/debug"
	"time"

	"go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"

	"chargehand/store"
)

// inspect reads the file under a shared lock without mapping more than its head
// pages.
func inspect(path string, timeout time.Duration) ([]store.Finding, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, fmt.Errorf("store: %w", err)
	}
	defer f.Close()
	if _, err := headsOf(f, path); err != nil { // before bbolt sees an empty or foreign file
		return nil, err
	}
	b, err := openBolt(path, &bbolt.Options{Timeout: timeout, ReadOnly: true})
	if err != nil {
		return nil, err
	}
	defer b.Close()
	h, err := headsOf(f, path) // again, now that nobody writes
	if err != nil {
		return nil, err
	}
	if err := walk(f, h); err != nil {
		return nil, torn(path, err)
	}
	if !h.both {
		return []store.Finding{oneHead}, nil
	}
	return nil, nil
}

var oneHead = store.Finding{In: store.InFile, Why: "one of its two head pages is damaged: a crash in the middle of writing does that, and so does a failing disk; in the second case the newest commit may be missing"}

func torn(path string, err error) error {
	return &store.Damaged{Path: path, Why: err.Error(), Do: store.AdviceRestore, Err: err}
}

// headsOf reads the head pages of a file that should be a store.
func headsOf(f *os.File, path string) (heads, error) {
	info, err := f.Stat()
	if err != nil {
		return heads{}, fmt.Errorf("store: %w", err)
	}
	if !info.Mode().IsRegular() {
		return heads{}, &store.NotOurs{Path: path, Why: "it is no ordinary file"}
	}
	if info.Size() == 0 {
		return heads{}, &store.Damaged{Path: path, Why: "the file is empty, and this program never leaves it so", Do: store.AdviceRestore}
	}
	h := readHeads(f, info.Size())
	switch {
	case !h.ours:
		return heads{}, &store.NotOurs{Path: path, Why: "it begins like no store does"}
	case !h.whole:
		return heads{}, &store.Damaged{Path: path, Why: "both its head pages are damaged", Do: store.AdviceRestore}
	case info.Size() < 2*int64(h.use.pageSize):
		return heads{}, &store.Damaged{Path: path, Why: "the file is cut short: it ends in its head pages", Do: store.AdviceRestore}
	}
	return h, nil
}

// openBolt opens the file with bbolt and turns its errors and panics into ours.
// It makes no file: bbolt would.
func openBolt(path string, o *bbolt.Options) (b *bbolt.DB, err error) {
	var file *os.File
	o.OpenFile = func(name string, flag int, mode os.FileMode) (*os.File, error) {
		f, err := os.OpenFile(name, flag&^os.O_CREATE, mode)
		file = f
		return f, err
	}
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			// The mapping, and the lock with it, stay until the process ends:
			// bbolt gives us nothing to undo them with.
			b, err = nil, torn(path, fmt.Errorf("%v", p))
		}
	}()
	b, err = bbolt.Open(path, fileMode, o)
	switch {
	case err == nil:
	case errors.Is(err, berrors.ErrTimeout):
		return nil, &store.Locked{Path: path}
	case errors.Is(err, berrors.ErrInvalid), errors.Is(err, berrors.ErrVersionMismatch), errors.Is(err, berrors.ErrChecksum):
		return nil, torn(path, err)
	default:
		return nil, fmt.Errorf("store: %w", err)
	}
	opened, err1 := file.Stat()
	named, err2 := os.Stat(path)
	if err1 != nil || err2 != nil || !os.SameFile(opened, named) {
		b.Close()
		return nil, errReplaced
	}
	return b, nil
}

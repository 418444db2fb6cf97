package bolt

import (
	"errors"
	"fmt"
	"io/fs"
	"os"

	"chargehand/store"
	"chargehand/store/photos"
)

// OpenToRead opens a store only to read it, beside others that only read. A
// process that writes locks them out, and they it, for as long as it lasts
// (*store.Locked). Nothing is changed on the disk, not even litter swept away;
// Commit and SetMark are answered with store.ErrClosed.
func OpenToRead(path string, o Options) (*DB, error) {
	if o.Timeout == 0 {
		o.Timeout = defaultTimeout
	}
	for range retries {
		db, err := openChecked(path, o)
		if !errors.Is(err, errReplaced) {
			return db, err
		}
	}
	return nil, &store.Locked{Path: path}
}

// openChecked looks at the head pages before bbolt sees the file. The tree is
// not walked first: a reader can be stopped by a torn page, but not led to
// write over a good one.
func openChecked(path string, o Options) (*DB, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, &store.Missing{Path: path, Why: "the file does not exist", Err: err}
	}
	if err != nil {
		return nil, fmt.Errorf("store: %w", err)
	}
	_, err = headsOf(f, path)
	if err := errors.Join(err, f.Close()); err != nil {
		return nil, err
	}
	db, err := openToRead(path, o.Timeout)
	if err != nil {
		return nil, err
	}
	db.photos = photos.In(photosOf(path), o.MaxPhoto)
	return db, nil
}

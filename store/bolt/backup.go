package bolt

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"go.etcd.io/bbolt"

	"chargehand/store"
	"chargehand/store/photos"
)

// Backup writes a copy of the store, as it is at one moment, to w while it is in
// use. The copy is first made beside the store, so that a slow w holds up nobody.
// Photos are not in it; see BackupTo.
func (db *DB) Backup(ctx context.Context, w io.Writer) error {
	tmp, err := db.snapshot(ctx, db.path)
	if err != nil {
		return err
	}
	defer os.Remove(tmp)
	f, err := os.Open(tmp)
	if err != nil {
		return fmt.Errorf("backup: %w", err)
	}
	defer f.Close()
	if _, err := io.Copy(w, reader{ctx, f}); err != nil {
		return fmt.Errorf("backup: %w", err)
	}
	return nil
}

// BackupTo makes a copy of the store, as it is at one moment, at path and copies
// the photos beside it, while the store is in use. The copy is checked before it
// gets its name; nothing that is there is overwritten (*store.Exists).
func (db *DB) BackupTo(ctx context.Context, path string) error {
	if _, err := os.Lstat(path); err == nil {
		return &store.Exists{Path: path}
	}
	tmp, err := db.snapshot(ctx, path)
	if err != nil {
		return err
	}
	defer os.Remove(tmp)
	if err := mustBeSound(ctx, tmp, db.path); err != nil {
		return err
	}
	// Photos last: those of events that came since are more than needed, none is
	// missing.
	if err := copyPhotos(ctx, db.path, path); err != nil {
		return err
	}
	return publish(tmp, path)
}

// snapshot copies the store to a file beside path. The read transaction lasts
// only as long as the disk needs to copy.
func (db *DB) snapshot(ctx context.Context, path string) (string, error) {
	tmp, err := tempBeside(path)
	if err != nil {
		return "", fmt.Errorf("backup: %w", err)
	}
	f, err := os.OpenFile(tmp, os.O_WRONLY, 0)
	if err == nil {
		err = db.view(func(tx *bbolt.Tx) error {
			_, err := tx.WriteTo(writer{ctx, f})
			return err
		})
		err = errors.Join(err, f.Close())
	}
	if err != nil {
		os.Remove(tmp)
		if ctx.Err() != nil {
			return "", ctx.Err() // bbolt hands on the text only
		}
		return "", fmt.Errorf("backup: %w", err)
	}
	return tmp, nil
}

// mustBeSound checks the copy at tmp and speaks of the file it was made of.
func mustBeSound(ctx context.Context, tmp, of string) error {
	r, err := checkFile(ctx, tmp)
	if err != nil {
		return err
	}
	if r.Sound() {
		return nil
	}
	f := r.Findings[0]
	return &store.Damaged{Path: of, Stream: f.Stream, Seq: f.Seq, Why: f.Why, Do: store.AdviceCheck}
}

// copyPhotos copies the photos of one store to the place of another's.
func copyPhotos(ctx context.Context, from, to string) error {
	return photos.In(photosOf(from), 0).CopyTo(ctx, photos.In(photosOf(to), 0))
}

// reader and writer stop when their context ends.
type reader struct {
	ctx context.Context
	r   io.Reader
}

func (r reader) Read(p []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.r.Read(p)
}

type writer struct {
	ctx context.Context
	w   io.Writer
}

func (w writer) Write(p []byte) (int, error) {
	if err := w.ctx.Err(); err != nil {
		return 0, err
	}
	return w.w.Write(p)
}

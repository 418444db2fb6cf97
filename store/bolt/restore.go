package bolt

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"

	"chargehand/store"
)

// Restore puts the backup at from, with its photos, in the place to, where there
// must be nothing (*store.Exists). The backup is checked as a whole before
// anything gets its final name, and is not changed.
func Restore(ctx context.Context, from, to string) error {
	if _, err := os.Lstat(to); err == nil {
		return &store.Exists{Path: to}
	}
	if r, err := CheckFile(ctx, from); err != nil {
		return err
	} else if !r.Sound() {
		f := r.Findings[0]
		return &store.Damaged{Path: from, Stream: f.Stream, Seq: f.Seq, Why: f.Why, Do: store.AdviceCheck}
	}
	tmp, err := copyBeside(ctx, from, to)
	if err != nil {
		return fmt.Errorf("restore: %w", err)
	}
	defer os.Remove(tmp)
	if err := mustBeSound(ctx, tmp, from); err != nil { // what was copied, not what was there
		return err
	}
	if err := copyPhotos(ctx, from, to); err != nil {
		return err
	}
	return publish(tmp, to)
}

// copyBeside copies a file that nobody writes to a file beside to.
func copyBeside(ctx context.Context, from, to string) (string, error) {
	src, err := os.Open(from)
	if err != nil {
		return "", err
	}
	defer src.Close()
	tmp, err := tempBeside(to)
	if err != nil {
		return "", err
	}
	dst, err := os.OpenFile(tmp, os.O_WRONLY, 0)
	if err == nil {
		_, err = io.Copy(dst, reader{ctx, src})
		err = errors.Join(err, dst.Close())
	}
	if err != nil {
		os.Remove(tmp)
		return "", err
	}
	return tmp, nil
}

package bolt

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"chargehand/store"
)

// publish gives a finished file its name, durably, and never takes the place of
// a file that is there (*store.Exists).
func publish(tmp, path string) error {
	if err := syncFile(tmp); err != nil {
		return fmt.Errorf("store: %w", err)
	}
	err := os.Link(tmp, path)
	switch {
	case err == nil:
		os.Remove(tmp)
	case errors.Is(err, fs.ErrExist):
		return &store.Exists{Path: path}
	default: // a file system without hard links
		if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
			return &store.Exists{Path: path}
		}
		if err := os.Rename(tmp, path); err != nil {
			return fmt.Errorf("store: %w", err)
		}
	}
	return syncDir(filepath.Dir(path))
}

func syncFile(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// syncDir makes a new name in a folder durable.
func syncDir(dir string) error {
	if runtime.GOOS == "windows" { // folders can't be synced there
		return nil
	}
	d, err := os.Open(dir)
	if err != nil {
		return fmt.Errorf("store: %w", err)
	}
	if err := errors.Join(d.Sync(), d.Close()); err != nil {
		return fmt.Errorf("store: %w", err)
	}
	return nil
}

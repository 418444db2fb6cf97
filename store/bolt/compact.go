package bolt

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"

	"go.etcd.io/bbolt"
)

// compactStep is how much one transaction of compacting carries.
const compactStep = 16 << 20

// Compact rewrites a store that no process has open without its free pages, and
// returns its size before and after. The new file is checked and takes the old
// one's place in one step. It is also what takes erased values out of the file.
func Compact(ctx context.Context, path string) (before, after int64, err error) {
	db, err := Open(path, Options{Existing: true})
	if err != nil {
		return 0, 0, err
	}
	defer db.Close()
	tmp, err := tempBeside(path)
	if err != nil {
		return 0, 0, fmt.Errorf("compact: %w", err)
	}
	defer os.Remove(tmp)
	if err := db.compactTo(tmp); err != nil {
		return 0, 0, fmt.Errorf("compact: %w", err)
	}
	if err := mustBeSound(ctx, tmp, path); err != nil {
		return 0, 0, err
	}
	if before, after, err = sizes(path, tmp); err != nil {
		return 0, 0, fmt.Errorf("compact: %w", err)
	}
	if err := syncFile(tmp); err != nil {
		return 0, 0, fmt.Errorf("compact: %w", err)
	}
	if err := replace(db, tmp, path); err != nil {
		return 0, 0, fmt.Errorf("compact: %w", err)
	}
	return before, after, syncDir(filepath.Dir(path))
}

func (db *DB) compactTo(tmp string) error {
	dst, err := bbolt.Open(tmp, fileMode, &bbolt.Options{NoFreelistSync: true, FreelistType: bbolt.FreelistMapType, NoSync: true})
	if err != nil {
		return err
	}
	return errors.Join(bbolt.Compact(dst, db.b, compactStep), dst.Close())
}

func sizes(a, b string) (int64, int64, error) {
	x, err1 := os.Stat(a)
	y, err2 := os.Stat(b)
	if err := errors.Join(err1, err2); err != nil {
		return 0, 0, err
	}
	return x.Size(), y.Size(), nil
}

// replace gives the new file the old one's name while the old one is still
// locked, so that nobody can write to a file that is about to go. Windows does
// not rename over an open file.
func replace(db *DB, tmp, path string) error {
	if runtime.GOOS == "windows" {
		if err := db.Close(); err != nil {
			return err
		}
	}
	return os.Rename(tmp, path)
}

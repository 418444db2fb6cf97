package photos

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"chargehand/store"
)

// litterAge is how old a half-written file must be to be nobody's, because its
// process was killed.
const litterAge = time.Hour

// CopyTo puts every photo that to does not have there, verified on the way.
func (d *Dir) CopyTo(ctx context.Context, to *Dir) error {
	return d.each(func(path, name string) error {
		if !store.IsPhotoName(name) {
			return nil
		}
		content, err := d.Get(ctx, name)
		if err != nil {
			return err
		}
		_, err = to.Put(ctx, content)
		return err
	})
}

// Check reads every photo and reports those that are damaged and what does not
// belong there.
func (d *Dir) Check(ctx context.Context, r *store.Report) error {
	return d.each(func(path, name string) error {
		if strings.HasPrefix(name, partPrefix) {
			r.Find(store.Finding{In: store.InPhotos, Photo: name, Why: "left over from a write that was cut off; it can be deleted"})
			return nil
		}
		if !store.IsPhotoName(name) || path != d.file(name) {
			r.Find(store.Finding{In: store.InPhotos, Photo: name, Why: "it does not belong there"})
			return nil
		}
		r.Photos++
		_, err := d.Get(ctx, name)
		var bad *store.Damaged
		if errors.As(err, &bad) {
			r.Find(store.Finding{In: store.InPhotos, Photo: name, Why: bad.Why})
			return nil
		}
		return err
	})
}

// SweepLitter deletes what killed processes left half-written. It is no matter
// if that fails.
func (d *Dir) SweepLitter() {
	entries, _ := os.ReadDir(d.path)
	for _, e := range entries {
		if !strings.HasPrefix(e.Name(), partPrefix) {
			continue
		}
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > litterAge {
			os.Remove(filepath.Join(d.path, e.Name()))
		}
	}
}

// each calls fn for every file, in order of name.
func (d *Dir) each(fn func(path, name string) error) error {
	return filepath.WalkDir(d.path, func(path string, e fs.DirEntry, err error) error {
		if err != nil {
			if path == d.path && errors.Is(err, fs.ErrNotExist) {
				return fs.SkipAll // no photo was ever put
			}
			return fmt.Errorf("photos: %w", err)
		}
		if e.IsDir() {
			return nil
		}
		return fn(path, e.Name())
	})
}

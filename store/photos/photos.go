// Package photos keeps pictures as files named by the SHA-256 of their content,
// in a folder of which nothing else is expected. A picture is written whole or
// not at all, and compared with its name whenever it is read.
package photos

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"

	"chargehand/flow/event"
	"chargehand/store"
)

// partPrefix begins the names of files that are being written.
const partPrefix = ".part-"

// Dir is a folder of photos. The folder is made when the first photo comes.
type Dir struct {
	path string
	max  int64
}

var _ store.Photos = (*Dir)(nil)

// In returns the photos in the folder path, each up to max bytes (0 means
// store.MaxPhoto).
func In(path string, max int64) *Dir {
	if max == 0 {
		max = store.MaxPhoto
	}
	return &Dir{path: path, max: max}
}

// file is where the photo of that name lies: in one of 256 folders, so that
// none becomes large.
func (d *Dir) file(name string) string { return filepath.Join(d.path, name[:2], name) }

// Put writes the photo durably under its name. A damaged file of that name is
// replaced by the good one.
func (d *Dir) Put(ctx context.Context, content []byte) (string, error) {
	if int64(len(content)) > d.max {
		return "", &store.TooLarge{Size: int64(len(content)), Max: d.max}
	}
	if err := ctx.Err(); err != nil {
		return "", err
	}
	name := store.PhotoName(content)
	if _, err := d.Get(ctx, name); err == nil {
		return name, nil
	}
	if err := d.write(name, content); err != nil {
		return "", fmt.Errorf("photos: %w", err)
	}
	return name, nil
}

func (d *Dir) write(name string, content []byte) error {
	folder := filepath.Dir(d.file(name))
	if err := d.makeFolder(folder); err != nil {
		return err
	}
	f, err := os.CreateTemp(d.path, partPrefix+"*") // readable for nobody else
	if err != nil {
		return err
	}
	defer os.Remove(f.Name())
	_, err = f.Write(content)
	if err == nil {
		err = f.Sync()
	}
	if err := errors.Join(err, f.Close()); err != nil {
		return err
	}
	if err := os.Rename(f.Name(), d.file(name)); err != nil {
		return err
	}
	// The folders too: a photo in one that is gone after a power cut is gone.
	if err := syncDir(folder); err != nil {
		return err
	}
	return syncDir(d.path)
}

func (d *Dir) makeFolder(folder string) error {
	if _, err := os.Stat(folder); err == nil {
		return nil
	}
	if err := os.MkdirAll(folder, 0o700); err != nil {
		return err
	}
	return syncDir(filepath.Dir(d.path))
}

func syncDir(path string) error {
	if runtime.GOOS == "windows" { // folders can't be synced there
		return nil
	}
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// Get reads the photo of that name and compares it with the name.
func (d *Dir) Get(ctx context.Context, name string) ([]byte, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if !store.IsPhotoName(name) {
		return nil, event.ErrUnknown
	}
	f, err := os.Open(d.file(name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, event.ErrUnknown
	}
	if err != nil {
		return nil, fmt.Errorf("photos: %w", err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, fmt.Errorf("photos: %w", err)
	}
	if !info.Mode().IsRegular() {
		return nil, damaged(f.Name(), "it is no ordinary file")
	}
	content := make([]byte, info.Size())
	if _, err := io.ReadFull(f, content); err != nil {
		return nil, fmt.Errorf("photos: %w", err)
	}
	if store.PhotoName(content) != name {
		return nil, damaged(f.Name(), "the picture is not the one that was put there")
	}
	return content, nil
}

func damaged(path, why string) error {
	return &store.Damaged{Path: path, Why: why, Do: store.AdvicePhoto}
}

// Remove deletes a photo for good, as is done with a wrong one. The record keeps
// its name, unless that is erased too. event.ErrUnknown: it was not there.
func (d *Dir) Remove(ctx context.Context, name string) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	if !store.IsPhotoName(name) {
		return event.ErrUnknown
	}
	err := os.Remove(d.file(name))
	if errors.Is(err, fs.ErrNotExist) {
		return event.ErrUnknown
	}
	if err != nil {
		return fmt.Errorf("photos: %w", err)
	}
	return syncDir(filepath.Dir(d.file(name)))
}

package bolt

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strconv"
	"strings"

	"go.etcd.io/bbolt"

	"chargehand/flow/event"
	"chargehand/store"
)

// checkFormat reads the marks in meta before anything is written.
func (db *DB) checkFormat() error {
	var format, hash string
	err := db.view(func(tx *bbolt.Tx) error {
		meta := tx.Bucket(metaBucket)
		if meta == nil {
			return nil
		}
		format, hash = string(meta.Get(formatKey)), string(meta.Get(hashKey))
		if format != formatName+strconv.Itoa(formatVersion) {
			return nil
		}
		for _, name := range buckets() {
			if tx.Bucket(name) == nil {
				return torn(db.path, fmt.Errorf("the part %q is missing", name))
			}
		}
		return nil
	})
	if err != nil {
		return err
	}
	version, ok := strings.CutPrefix(format, formatName)
	n, bad := strconv.Atoi(version)
	switch {
	case !ok || bad != nil || n < 1:
		return &store.NotOurs{Path: db.path, Why: "it is a database of another kind"}
	case n > formatVersion:
		return &store.Newer{Path: db.path, Found: format, Knows: formatName + strconv.Itoa(formatVersion)}
	case hash != event.Scheme:
		return &store.Newer{Path: db.path, Found: hash, Knows: event.Scheme}
	}
	return nil
}

// makeNew makes an empty store and gives it its name only when it is whole, so
// that a crash leaves no half-made file under that name.
func makeNew(path string, o Options) error {
	if o.Existing {
		return &store.Missing{Path: path, Why: "the file does not exist", Err: fs.ErrNotExist}
	}
	if names, _ := os.ReadDir(photosOf(path)); len(names) > 0 {
		return &store.Missing{Path: path, Why: "its photos are there but the file is not; no new one is made beside them", Err: fs.ErrNotExist}
	}
	tmp, err := tempBeside(path)
	if errors.Is(err, fs.ErrNotExist) {
		return &store.Missing{Path: path, Why: "its folder does not exist", Err: err}
	}
	if err != nil {
		return fmt.Errorf("store: %w", err)
	}
	defer os.Remove(tmp)
	b, err := bbolt.Open(tmp, fileMode, &bbolt.Options{NoFreelistSync: true, FreelistType: bbolt.FreelistMapType})
	if err != nil {
		return fmt.Errorf("store: %w", err)
	}
	err = b.Update(func(tx *bbolt.Tx) error {
		for _, name := range buckets() {
			if _, err := tx.CreateBucket(name); err != nil {
				return err
			}
		}
		meta := tx.Bucket(metaBucket)
		if err := meta.Put(formatKey, []byte(formatName+strconv.Itoa(formatVersion))); err != nil {
			return err
		}
		return meta.Put(hashKey, []byte(event.Scheme))
	})
	if err := errors.Join(err, b.Close()); err != nil {
		return fmt.Errorf("store: %w", err)
	}
	if err := publish(tmp, path); err != nil {
		var exists *store.Exists
		if errors.As(err, &exists) {
			return nil // another process was quicker; its store is as good
		}
		return err
	}
	return nil
}

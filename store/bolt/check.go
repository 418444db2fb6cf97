package bolt

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"slices"

	"go.etcd.io/bbolt"

	"chargehand/flow/event"
	"chargehand/store"
	"chargehand/store/photos"
)

// maxFindings bounds what one broken page can make bbolt's own check say.
const maxFindings = 20

// Check checks a copy of the store, so that commits go on and no long read
// transaction lets the file grow; then the photos where they are.
func (db *DB) Check(ctx context.Context) (store.Report, error) {
	tmp, err := db.snapshot(ctx, db.path)
	if err != nil {
		return store.Report{}, err
	}
	defer os.Remove(tmp)
	r, err := checkFile(ctx, tmp)
	if err != nil {
		return r, err
	}
	r.Findings = append(slices.Clone(db.warnings), r.Findings...)
	return r, photos.In(photosOf(db.path), 0).Check(ctx, &r)
}

// CheckFile checks a store that no process has open, and its photos, without
// changing anything: the tree of pages, bbolt's own check, every chain, the ends,
// clocks, marks and seen keys. What is damaged is in the report; the error is for
// a file that is no store of ours, is newer, locked, or can't be read.
func CheckFile(ctx context.Context, path string) (store.Report, error) {
	r, err := checkFile(ctx, path)
	if err != nil {
		return r, err
	}
	return r, photos.In(photosOf(path), 0).Check(ctx, &r)
}

func checkFile(ctx context.Context, path string) (store.Report, error) {
	var r store.Report
	f, err := os.Open(path)
	if err != nil {
		return r, fmt.Errorf("store: %w", err)
	}
	defer f.Close()
	h, err := headsOf(f, path)
	if err != nil {
		return r, fileDamage(&r, err)
	}
	db, err := openToRead(path, defaultTimeout)
	if errors.Is(err, errReplaced) {
		return r, &store.Locked{Path: path}
	}
	if err != nil {
		var damaged *store.Damaged
		if why := walk(f, h); errors.As(err, &damaged) && why != nil {
			damaged.Why = why.Error() // what bbolt stumbled over says less
		}
		return r, fileDamage(&r, err)
	}
	defer db.Close()
	h, err = headsOf(f, path) // now that nobody writes
	if err != nil {
		return r, fileDamage(&r, err)
	}
	if err := walk(f, h); err != nil {
		r.Find(store.Finding{In: store.InFile, Why: err.Error()})
	} else if err := db.checkPages(&r); err != nil {
		return r, err
	}
	if !h.both {
		r.Find(oneHead)
	}
	logical, err := store.CheckJournal(ctx, db)
	logical.Findings = append(r.Findings, logical.Findings...)
	r = logical
	if err != nil {
		return r, err
	}
	if err := db.view(func(tx *bbolt.Tx) error { return checkKeys(tx, &r) }); err != nil {
		return r, fileDamage(&r, err)
	}
	r.Sort()
	return r, ctx.Err()
}

// fileDamage makes a finding of an error that tells of damage.
func fileDamage(r *store.Report, err error) error {
	var damaged *store.Damaged
	if !errors.As(err, &damaged) {
		return err
	}
	f := store.Finding{In: store.InFile, Why: damaged.Why}
	if !slices.Contains(r.Findings, f) {
		r.Find(f)
	}
	return nil
}

// checkPages runs bbolt's own check, which is only done on pages that walk found
// whole: it works in a goroutine where a memory fault would end the process.
func (db *DB) checkPages(r *store.Report) error {
	return db.view(func(tx *bbolt.Tx) error {
		n := 0
		for err := range tx.Check() { // to its end, or its goroutine stays
			if n++; n <= maxFindings {
				r.Find(store.Finding{In: store.InFile, Why: err.Error()})
			}
		}
		return nil
	})
}

// checkKeys looks at what no method of the store shows: keys of a wrong form, and
// entries for streams that do not exist.
func checkKeys(tx *bbolt.Tx, r *store.Report) error {
	known := buckets()
	err := tx.ForEach(func(name []byte, _ *bbolt.Bucket) error {
		if !slices.ContainsFunc(known, func(k []byte) bool { return string(k) == string(name) }) {
			r.Find(store.Finding{In: store.InFile, Why: fmt.Sprintf("it has a part %q that this program does not know", name)})
		}
		return nil
	})
	if err != nil {
		return err
	}
	if err := checkEventKeys(tx, r); err != nil {
		return err
	}
	err = tx.Bucket(clocksBucket).ForEach(func(k, _ []byte) error {
		stream, name, err := keyPair(k)
		if err != nil {
			r.Find(store.Finding{In: store.InClocks, Why: err.Error()})
		} else if tx.Bucket(headsBucket).Get([]byte(stream)) == nil {
			r.Find(store.Finding{In: store.InClocks, Stream: stream, Why: fmt.Sprintf("%s belongs to a stream that does not exist", name)})
		}
		return nil
	})
	if err != nil {
		return err
	}
	err = tx.Bucket(marksBucket).ForEach(func(k, v []byte) error {
		stream, reader, err := keyPair(k)
		m, err2 := valueMark(v)
		if err := errors.Join(err, err2); err != nil {
			r.Find(store.Finding{In: store.InMarks, Why: errKey.Error()})
		} else if m.Seq > 0 && tx.Bucket(headsBucket).Get([]byte(stream)) == nil {
			r.Find(store.Finding{In: store.InMarks, Stream: stream, Why: fmt.Sprintf("%s was told of a stream that does not exist", reader)})
		}
		return nil
	})
	if err != nil {
		return err
	}
	return tx.Bucket(seenBucket).ForEach(func(_, v []byte) error {
		r.Seen++
		if len(v) != 8 {
			r.Find(store.Finding{In: store.InSeen, Why: errKey.Error()})
		}
		return nil
	})
}

func checkEventKeys(tx *bbolt.Tx, r *store.Report) error {
	events := tx.Bucket(eventsBucket)
	return events.ForEach(func(name, v []byte) error {
		stream := string(name)
		if v != nil {
			r.Find(store.Finding{In: store.InEvents, Stream: stream, Why: "a value stands where a stream belongs"})
			return nil
		}
		head, err := headOf(tx, stream)
		if err != nil {
			return nil // the list of streams has told it
		}
		if head.Seq == 0 {
			r.Find(store.Finding{In: store.InHeads, Stream: stream, Why: "there are records, but the stream is not in the list"})
			return nil
		}
		k, _ := events.Bucket(name).Cursor().Last()
		if len(k) != 8 || binary.BigEndian.Uint64(k) > head.Seq {
			r.Find(store.Finding{In: store.InHeads, Stream: stream, Why: fmt.Sprintf("there are records behind its end at %d", head.Seq)})
		}
		return checkBytes(events.Bucket(name), stream, r)
	})
}

// checkBytes finds the first record of a stream that reads well and is not, byte
// for byte, what is written for it: a flipped bit can make another spelling of
// the same JSON. Where the chain is broken that says more, and is told already.
func checkBytes(b *bbolt.Bucket, stream string, r *store.Report) error {
	if slices.ContainsFunc(r.Findings, func(f store.Finding) bool { return f.In == store.InEvents && f.Stream == stream }) {
		return nil
	}
	c := b.Cursor()
	for k, raw := c.First(); k != nil; k, raw = c.Next() {
		rec, err := event.UnmarshalRecord(raw)
		if err != nil {
			return nil // behind the end: told already
		}
		again, err := event.MarshalRecord(rec)
		if err != nil {
			return err
		}
		if !bytes.Equal(raw, again) {
			r.Find(store.Finding{In: store.InEvents, Stream: stream, Seq: rec.Seq, Why: "its bytes are not as they were written"})
			return nil
		}
	}
	return nil
}

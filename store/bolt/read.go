package bolt

import (
	"bytes"
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"runtime/debug"

	"go.etcd.io/bbolt"
	berrors "go.etcd.io/bbolt/errors"

	"chargehand/flow/event"
	"chargehand/store"
)

// Limits of one read transaction; more is read in several, so that none lasts.
const (
	pageRecords = 256
	pageBytes   = 1 << 20
	pageKeys    = 1024
)

// view runs a short read transaction. Damaged pages make bbolt panic or fault;
// here that becomes an error.
func (db *DB) view(fn func(*bbolt.Tx) error) (err error) {
	defer debug.SetPanicOnFault(debug.SetPanicOnFault(true))
	defer func() {
		if p := recover(); p != nil {
			err = &store.Damaged{Path: db.path, Why: fmt.Sprint(p), Do: store.AdviceCheck}
		}
	}()
	err = db.b.View(fn)
	if errors.Is(err, berrors.ErrDatabaseNotOpen) {
		return store.ErrClosed
	}
	return err
}

func (db *DB) Head(ctx context.Context, stream string) (event.Head, error) {
	if err := ctx.Err(); err != nil {
		return event.Head{}, err
	}
	var h event.Head
	err := db.view(func(tx *bbolt.Tx) (err error) {
		h, err = headOf(tx, stream)
		return db.badKey(headsBucket, err)
	})
	return h, err
}

// badKey turns errKey into the damage that it is.
func (db *DB) badKey(bucket []byte, err error) error {
	if err == errKey {
		return &store.Damaged{Path: db.path, Why: fmt.Sprintf("in %s %v", bucket, err), Do: store.AdviceCheck, Err: err}
	}
	return err
}

func (db *DB) Read(ctx context.Context, stream string, after uint64, limit int) ([]event.Record, error) {
	var out []event.Record
	for limit > 0 {
		if err := ctx.Err(); err != nil {
			return out, err
		}
		p, err := db.readPage(stream, after, min(limit, pageRecords))
		if err != nil {
			return out, err
		}
		records, err := p.decode(db.path, stream, after)
		out = append(out, records...)
		if err != nil {
			return out, err
		}
		if len(records) == 0 || !p.more {
			return out, nil
		}
		limit -= len(records)
		after = records[len(records)-1].Seq
	}
	return out, nil
}

// page is a run of raw records, copied out of a transaction.
type page struct {
	before []byte // the record at after, when after > 0
	raw    [][]byte
	gap    bool // the number after the last one is missing
	more   bool // there are records behind the last one
}

func (db *DB) readPage(stream string, after uint64, limit int) (page, error) {
	var p page
	err := db.view(func(tx *bbolt.Tx) error {
		head, err := headOf(tx, stream)
		if err != nil {
			return db.badKey(headsBucket, err)
		}
		if after >= head.Seq {
			return nil
		}
		b := tx.Bucket(eventsBucket).Bucket([]byte(stream))
		if b == nil {
			p.gap = true
			return nil
		}
		if after > 0 {
			if p.before = bytes.Clone(b.Get(be64(after))); p.before == nil {
				return store.BadEvent(db.path, stream, after, errors.New("it is missing"))
			}
		}
		c := b.Cursor()
		want, size := after+1, 0
		for k, v := c.Seek(be64(want)); len(p.raw) < limit && size < pageBytes; k, v = c.Next() {
			if len(k) != 8 || binary.BigEndian.Uint64(k) != want {
				p.gap = true
				return nil
			}
			p.raw = append(p.raw, bytes.Clone(v))
			size += len(v)
			if want == head.Seq {
				return nil
			}
			want++
		}
		p.more = true
		return nil
	})
	return p, err
}

func (p page) decode(path, stream string, after uint64) ([]event.Record, error) {
	var prev event.Head
	if p.before != nil {
		r, err := event.UnmarshalRecord(p.before)
		if err != nil {
			return nil, store.BadEvent(path, stream, after, err)
		}
		prev = r.Head()
		if prev.Seq != after {
			return nil, store.BadEvent(path, stream, after, fmt.Errorf("number %d stands where %d belongs", prev.Seq, after))
		}
	}
	records, err := store.Decode(path, stream, prev, p.raw)
	if err == nil && p.gap {
		err = store.BadEvent(path, stream, after+uint64(len(records))+1, errors.New("it is missing"))
	}
	return records, err
}

func (db *DB) Streams(ctx context.Context) ([]event.StreamInfo, error) {
	var out []event.StreamInfo
	err := db.pages(ctx, headsBucket, nil, func(k, v []byte) (bool, error) {
		h, summary, err := valueHead(v)
		if err != nil {
			return false, err
		}
		out = append(out, event.StreamInfo{Stream: string(k), Head: h, Summary: summary})
		return true, nil
	})
	return out, err
}

// pages goes through the keys of a bucket that begin with prefix, in order, in
// as many short transactions as needed, until each says no.
func (db *DB) pages(ctx context.Context, bucket, prefix []byte, each func(k, v []byte) (bool, error)) error {
	from := prefix
	for {
		if err := ctx.Err(); err != nil {
			return err
		}
		var next []byte
		err := db.view(func(tx *bbolt.Tx) error {
			c := tx.Bucket(bucket).Cursor()
			n := 0
			for k, v := c.Seek(from); k != nil && bytes.HasPrefix(k, prefix); k, v = c.Next() {
				if n++; n > pageKeys {
					next = bytes.Clone(k)
					return nil
				}
				if more, err := each(k, v); err != nil || !more {
					return db.badKey(bucket, err)
				}
			}
			return nil
		})
		if err != nil || next == nil {
			return err
		}
		from = next
	}
}

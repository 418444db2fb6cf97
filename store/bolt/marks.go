package bolt

import (
	"context"
	"encoding/json"

	"go.etcd.io/bbolt"

	"chargehand/flow/event"
	"chargehand/store"
)

func (db *DB) Mark(ctx context.Context, stream string, r event.Reader) (event.Mark, error) {
	if err := ctx.Err(); err != nil {
		return event.Mark{}, err
	}
	var m event.Mark
	err := db.view(func(tx *bbolt.Tx) (err error) {
		if v := tx.Bucket(marksBucket).Get(pairKey(stream, string(r))); v != nil {
			m, err = valueMark(v)
		}
		return db.badKey(marksBucket, err)
	})
	return m, err
}

func (db *DB) Readers(ctx context.Context, stream string) (map[event.Reader]event.Mark, error) {
	out := map[event.Reader]event.Mark{}
	err := db.pages(ctx, marksBucket, pairKey(stream, ""), func(k, v []byte) (bool, error) {
		_, reader, err := keyPair(k)
		if err != nil {
			return false, err
		}
		m, err := valueMark(v)
		out[event.Reader(reader)] = m
		return err == nil, err
	})
	return out, err
}

func (db *DB) SetMark(ctx context.Context, stream string, r event.Reader, m event.Mark) error {
	if err := store.CheckMark(stream, r); err != nil {
		return err
	}
	m.NotBefore = store.Instant(m.NotBefore)
	v, err := json.Marshal(m)
	if err != nil {
		return &store.BadCommit{Stream: stream, Why: err.Error(), Err: err}
	}
	return db.submit(ctx, &request{
		check: func(tx *bbolt.Tx) error {
			h, err := headOf(tx, stream)
			if err == nil && m.Seq > h.Seq {
				return store.MarkBeyond(stream, m, h)
			}
			return db.badKey(headsBucket, err)
		},
		write: func(tx *bbolt.Tx) error {
			return tx.Bucket(marksBucket).Put(pairKey(stream, string(r)), v)
		},
	})
}

package bolt

import (
	"context"
	"encoding/json"
	"errors"

	"go.etcd.io/bbolt"

	"chargehand/flow/event"
	"chargehand/store"
)

// Erase reads the stream in short transactions, then writes all changes in one,
// which is refused and made anew when the stream has grown meanwhile.
func (db *DB) Erase(ctx context.Context, stream string, match func(seq uint64, pointer string, value json.RawMessage) bool) (int, error) {
	for {
		n, err := db.erase(ctx, stream, match)
		if !errors.Is(err, event.ErrConflict) {
			return n, err
		}
	}
}

func (db *DB) erase(ctx context.Context, stream string, match func(uint64, string, json.RawMessage) bool) (int, error) {
	head, err := db.Head(ctx, stream)
	if err != nil {
		return 0, err
	}
	if head.Seq == 0 {
		return 0, event.ErrUnknown
	}
	total := 0
	changed := map[uint64][]byte{}
	for after := uint64(0); after < head.Seq; {
		records, err := db.Read(ctx, stream, after, pageRecords)
		if err != nil {
			return 0, err
		}
		for _, r := range records {
			n := r.Erase(func(pointer string, value json.RawMessage) bool { return match(r.Seq, pointer, value) })
			if n == 0 {
				continue
			}
			total += n
			if changed[r.Seq], err = event.MarshalRecord(r); err != nil {
				return 0, err
			}
		}
		after += uint64(len(records))
	}
	if len(changed) == 0 {
		return 0, nil
	}
	err = db.submit(ctx, &request{
		check: func(tx *bbolt.Tx) error {
			now, err := headOf(tx, stream)
			if err == nil && now != head {
				return event.ErrConflict
			}
			return db.badKey(headsBucket, err)
		},
		write: func(tx *bbolt.Tx) error {
			b := tx.Bucket(eventsBucket).Bucket([]byte(stream))
			for seq, raw := range changed {
				if err := b.Put(be64(seq), raw); err != nil {
					return err
				}
			}
			return nil
		},
	})
	return total, err
}

func (db *DB) Forget(ctx context.Context, stream string, r event.Reader) error {
	if err := store.CheckMark(stream, r); err != nil {
		return err
	}
	return db.submit(ctx, &request{
		check: func(*bbolt.Tx) error { return nil },
		write: func(tx *bbolt.Tx) error { return tx.Bucket(marksBucket).Delete(pairKey(stream, string(r))) },
	})
}

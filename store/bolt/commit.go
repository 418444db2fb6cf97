package bolt

import (
	"context"

	"go.etcd.io/bbolt"

	"chargehand/flow/event"
	"chargehand/store"
)

// fillPercent is for buckets that are only appended to: pages that will not get
// anything in between need no room for it.
const fillPercent = 0.95

func (db *DB) Commit(ctx context.Context, c event.Commit) error {
	p, err := store.Prepare(c) // encoding and hashing happen here, in the caller's goroutine
	if err != nil {
		return err
	}
	return db.submit(ctx, &request{
		seen:  len(p.Seen),
		check: func(tx *bbolt.Tx) error { return db.checkCommit(tx, p) },
		write: func(tx *bbolt.Tx) error { return db.writeCommit(tx, p) },
	})
}

func (db *DB) checkCommit(tx *bbolt.Tx, p store.Prepared) error {
	seen := tx.Bucket(seenBucket)
	for _, k := range p.Seen {
		if seen.Get([]byte(k)) != nil {
			return event.ErrSeen
		}
	}
	for _, part := range p.Parts {
		h, err := headOf(tx, part.Stream)
		if err != nil {
			return db.badKey(headsBucket, err)
		}
		if h != part.Expect {
			return event.ErrConflict
		}
	}
	return nil
}

func (db *DB) writeCommit(tx *bbolt.Tx, p store.Prepared) error {
	if err := db.putSeen(tx, p.Seen); err != nil {
		return err
	}
	for _, part := range p.Parts {
		if part.Head.Seq == 0 {
			continue // it only expects that there is no such stream
		}
		if err := putRecords(tx, part); err != nil {
			return err
		}
		if err := putHead(tx, part); err != nil {
			return err
		}
		if part.Keep {
			continue
		}
		if err := setClocks(tx, part.Stream, part.Clocks); err != nil {
			return err
		}
	}
	return nil
}

func putRecords(tx *bbolt.Tx, p store.PreparedPart) error {
	if len(p.Records) == 0 {
		return nil
	}
	b, err := tx.Bucket(eventsBucket).CreateBucketIfNotExists([]byte(p.Stream))
	if err != nil {
		return err
	}
	b.FillPercent = fillPercent
	for i, raw := range p.Records {
		if err := b.Put(be64(p.Expect.Seq+1+uint64(i)), raw); err != nil {
			return err
		}
	}
	return nil
}

func putHead(tx *bbolt.Tx, p store.PreparedPart) error {
	heads := tx.Bucket(headsBucket)
	summary := p.Summary
	if summary == nil {
		if len(p.Records) == 0 {
			return nil
		}
		if v := heads.Get([]byte(p.Stream)); v != nil {
			_, old, err := valueHead(v)
			if err != nil {
				return err
			}
			summary = old
		}
	}
	return heads.Put([]byte(p.Stream), headValue(p.Head, summary))
}

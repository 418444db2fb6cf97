package bolt

import (
	"bytes"
	"encoding/binary"

	"go.etcd.io/bbolt"

	"chargehand/flow/event"
)

// sweepRate is how many old seen keys are looked at for each new one: more than
// one, so that the sweep gets round however fast keys come in.
const sweepRate = 4

func (db *DB) putSeen(tx *bbolt.Tx, keys []event.SeenKey) error {
	if len(keys) == 0 {
		return nil
	}
	at := be64(uint64(db.now().Unix()))
	seen := tx.Bucket(seenBucket)
	for _, k := range keys {
		if err := seen.Put([]byte(k), at); err != nil {
			return err
		}
	}
	return nil
}

// sweep forgets seen keys that are older than what is kept, a few at a time
// beside the writing of new ones: no timer, and no long transaction.
func (db *DB) sweep(tx *bbolt.Tx, added int) error {
	if added == 0 {
		return nil
	}
	oldest := db.now().Add(-db.keepSeen).Unix()
	seen := tx.Bucket(seenBucket)
	c := seen.Cursor()
	var old [][]byte
	k, v := c.Seek(db.sweepAt)
	for range sweepRate * added {
		if k == nil {
			break
		}
		if len(v) != 8 || int64(binary.BigEndian.Uint64(v)) < oldest {
			old = append(old, bytes.Clone(k))
		}
		k, v = c.Next()
	}
	db.sweepAt = bytes.Clone(k) // nil begins anew
	for _, k := range old {
		if err := seen.Delete(k); err != nil {
			return err
		}
	}
	return nil
}

package bolt

import (
	"bytes"
	"context"
	"math"
	"slices"
	"time"

	"go.etcd.io/bbolt"

	"chargehand/flow/event"
	"chargehand/store"
)

func (db *DB) Clocks(ctx context.Context, stream string) ([]event.Clock, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	var out []event.Clock
	err := db.view(func(tx *bbolt.Tx) (err error) {
		out, err = clocksOf(tx, stream)
		return db.badKey(clocksBucket, err)
	})
	slices.SortFunc(out, store.CompareClocks)
	return out, err
}

func clocksOf(tx *bbolt.Tx, stream string) ([]event.Clock, error) {
	var out []event.Clock
	prefix := pairKey(stream, "")
	c := tx.Bucket(clocksBucket).Cursor()
	for k, v := c.Seek(prefix); bytes.HasPrefix(k, prefix); k, v = c.Next() {
		due, err := keyTime(v)
		if err != nil {
			return nil, err
		}
		out = append(out, event.Clock{Name: string(k[len(prefix):]), Due: due})
	}
	return out, nil
}

func (db *DB) Due(ctx context.Context, t time.Time, limit int) ([]event.DueClock, error) {
	var out []event.DueClock
	if limit <= 0 {
		return nil, ctx.Err()
	}
	until := timeKey(t)
	err := db.pages(ctx, dueBucket, nil, func(k, _ []byte) (bool, error) {
		c, err := dueOf(k)
		if err != nil || bytes.Compare(k[:timeSize], until) > 0 {
			return false, err
		}
		out = append(out, c)
		return len(out) < limit, nil
	})
	return out, err
}

func (db *DB) NextDue(ctx context.Context) (event.DueClock, bool, error) {
	ever := time.Unix(math.MaxInt64/4, 0)
	first, err := db.Due(ctx, ever, 1)
	if err != nil || len(first) == 0 {
		return event.DueClock{}, false, err
	}
	return first[0], true, nil
}

func dueOf(k []byte) (event.DueClock, error) {
	if len(k) < timeSize {
		return event.DueClock{}, errKey
	}
	due, err := keyTime(k[:timeSize])
	if err != nil {
		return event.DueClock{}, err
	}
	stream, name, err := keyPair(k[timeSize:])
	return event.DueClock{Stream: stream, Clock: event.Clock{Name: name, Due: due}}, err
}

// setClocks replaces the clocks of a stream. Only those that differ are
// touched: most commits leave most clocks as they are.
func setClocks(tx *bbolt.Tx, stream string, clocks []event.Clock) error {
	old, err := clocksOf(tx, stream)
	if err != nil {
		return err
	}
	byTime, byStream := tx.Bucket(dueBucket), tx.Bucket(clocksBucket)
	for _, c := range old {
		if slices.Contains(clocks, c) {
			continue
		}
		pair := pairKey(stream, c.Name)
		if err := byTime.Delete(append(timeKey(c.Due), pair...)); err != nil {
			return err
		}
		if err := byStream.Delete(pair); err != nil {
			return err
		}
	}
	for _, c := range clocks {
		if slices.Contains(old, c) {
			continue
		}
		pair := pairKey(stream, c.Name)
		if err := byTime.Put(append(timeKey(c.Due), pair...), []byte{1}); err != nil {
			return err
		}
		if err := byStream.Put(pair, timeKey(c.Due)); err != nil {
			return err
		}
	}
	return nil
}

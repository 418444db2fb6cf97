package bolt

import (
	"encoding/binary"
	"encoding/json"
	"errors"
	"time"

	"go.etcd.io/bbolt"

	"chargehand/flow/event"
)

// The buckets and the marks in meta; package store tells what is in them.
var (
	metaBucket   = []byte("meta")
	eventsBucket = []byte("events")
	headsBucket  = []byte("heads")
	dueBucket    = []byte("due")
	clocksBucket = []byte("clocks")
	seenBucket   = []byte("seen")
	marksBucket  = []byte("marks")

	formatKey = []byte("format")
	hashKey   = []byte("hash")
)

const (
	formatName    = "chargehand store "
	formatVersion = 1
)

func buckets() [][]byte {
	return [][]byte{metaBucket, eventsBucket, headsBucket, dueBucket, clocksBucket, seenBucket, marksBucket}
}

var errKey = errors.New("a key or value has a form that this program does not write")

func be64(n uint64) []byte { return binary.BigEndian.AppendUint64(nil, n) }

// timeSize is the length of an instant in a key.
const timeSize = 12

// timeKey is an instant so that the order of keys is the order of instants.
func timeKey(t time.Time) []byte {
	k := binary.BigEndian.AppendUint64(make([]byte, 0, timeSize), uint64(t.Unix())^1<<63)
	return binary.BigEndian.AppendUint32(k, uint32(t.Nanosecond()))
}

func keyTime(k []byte) (time.Time, error) {
	if len(k) != timeSize {
		return time.Time{}, errKey
	}
	sec, ns := binary.BigEndian.Uint64(k), binary.BigEndian.Uint32(k[8:])
	if ns >= 1e9 {
		return time.Time{}, errKey
	}
	return time.Unix(int64(sec^1<<63), int64(ns)).UTC(), nil
}

// pairKey joins a stream with a name inside it.
func pairKey(stream, name string) []byte {
	k := make([]byte, 0, len(stream)+1+len(name))
	return append(append(append(k, stream...), 0), name...)
}

func keyPair(k []byte) (stream, name string, err error) {
	for i, c := range k {
		if c == 0 && i > 0 && i < len(k)-1 {
			return string(k[:i]), string(k[i+1:]), nil
		}
	}
	return "", "", errKey
}

func headValue(h event.Head, summary []byte) []byte {
	v := append(be64(h.Seq), h.Hash[:]...)
	return append(v, summary...)
}

func valueHead(v []byte) (h event.Head, summary []byte, err error) {
	if len(v) < 8+len(h.Hash) {
		return event.Head{}, nil, errKey
	}
	h.Seq = binary.BigEndian.Uint64(v)
	copy(h.Hash[:], v[8:])
	if s := v[8+len(h.Hash):]; len(s) > 0 {
		summary = append(summary, s...)
	}
	return h, summary, nil
}

func valueMark(v []byte) (event.Mark, error) {
	var m event.Mark
	if err := json.Unmarshal(v, &m); err != nil {
		return event.Mark{}, errKey
	}
	return m, nil
}

// headOf returns the end of a stream inside a transaction.
func headOf(tx *bbolt.Tx, stream string) (event.Head, error) {
	v := tx.Bucket(headsBucket).Get([]byte(stream))
	if v == nil {
		return event.Head{}, nil
	}
	h, _, err := valueHead(v)
	return h, err
}

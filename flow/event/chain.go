package event

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"time"
)

// Scheme names the way of hashing. Another way gets another name, and records
// of both can stand in one chain because the name is hashed too.
const Scheme = "chargehand/chain/1"

// SaltSize is the number of random bytes beside each leaf.
const SaltSize = 16

// Hash is a SHA-256 in the record, written as hex.
type Hash [sha256.Size]byte

func (h Hash) MarshalText() ([]byte, error) {
	return []byte(hex.EncodeToString(h[:])), nil
}

func (h *Hash) UnmarshalText(t []byte) error {
	if hex.DecodedLen(len(t)) != len(h) {
		return fmt.Errorf("event: hash of %d characters, want %d", len(t), hex.EncodedLen(len(h)))
	}
	_, err := hex.Decode(h[:], t)
	return err
}

func (h Hash) String() string { return hex.EncodeToString(h[:]) }

// appendField writes a length before the bytes, so that no two lists of fields
// run together into the same bytes.
func appendField[T string | []byte | json.RawMessage](b []byte, p T) []byte {
	b = binary.BigEndian.AppendUint64(b, uint64(len(p)))
	return append(b, p...)
}

func appendNumber(b []byte, n uint64) []byte {
	b = binary.BigEndian.AppendUint64(b, 8)
	return binary.BigEndian.AppendUint64(b, n)
}

// appendCommitment writes the commitment of a leaf; room is for working in.
func (l Leaf) appendCommitment(b []byte, room *[]byte) []byte {
	if l.Commit != nil {
		return appendField(b, l.Commit)
	}
	w := appendField((*room)[:0], Scheme)
	w = appendField(w, l.Salt)
	w = appendField(w, l.Pointer)
	w = appendField(w, l.Value)
	*room = w
	sum := sha256.Sum256(w)
	return appendField(b, sum[:])
}

func (l Leaf) commitment() []byte {
	if l.Commit != nil {
		return l.Commit
	}
	var room []byte
	return l.appendCommitment(nil, &room)[8:]
}

func (r Record) sum() Hash {
	const perLeaf = 100 // a guess that spares growing
	b := make([]byte, 0, 200+perLeaf*len(r.Leaves))
	b = appendField(b, Scheme)
	b = appendField(b, r.Prev[:])
	b = appendNumber(b, uint64(r.Version))
	b = appendNumber(b, r.Seq)
	b = appendField(b, r.At.UTC().Format(time.RFC3339Nano))
	b = appendField(b, r.Kind)
	room := make([]byte, 0, 256)
	for _, l := range r.Leaves {
		b = appendField(b, l.Pointer)
		b = l.appendCommitment(b, &room)
	}
	return sha256.Sum256(b)
}

// Seal turns an entry into the record that follows prev. salt fills a slice
// with random bytes; it is the caller's, since this package has no randomness.
func Seal(prev Head, e Entry, salt func([]byte)) (Record, error) {
	doc, err := json.Marshal(body{By: e.By, From: e.From, Cause: e.Cause, Data: e.Event})
	if err != nil {
		return Record{}, fmt.Errorf("event: %s does not encode: %w", e.Event.Kind(), err)
	}
	leaves, err := flatten(doc)
	if err != nil {
		return Record{}, fmt.Errorf("event: %s does not flatten: %w", e.Event.Kind(), err)
	}
	salts := make([]byte, SaltSize*len(leaves))
	salt(salts)
	for i := range leaves {
		leaves[i].Salt = salts[i*SaltSize : (i+1)*SaltSize : (i+1)*SaltSize]
	}
	r := Record{Version: Version, Seq: prev.Seq + 1, At: e.At.UTC().Round(0), Kind: e.Event.Kind(), Leaves: leaves, Prev: prev.Hash}
	r.Hash = r.sum()
	return r, nil
}

// Head is the end of a stream whose last record is r.
func (r Record) Head() Head { return Head{Seq: r.Seq, Hash: r.Hash} }

// BrokenError names the first event at which a chain does not hold.
type BrokenError struct {
	Seq uint64 // the sequence number expected there
	Why string
}

func (e *BrokenError) Error() string {
	return fmt.Sprintf("record broken at event %d: %s", e.Seq, e.Why)
}

// Verify checks that r is whole and follows prev.
func (r Record) Verify(prev Head) error {
	want := prev.Seq + 1
	switch {
	case r.Seq != want:
		return &BrokenError{want, fmt.Sprintf("number %d stands where %d belongs", r.Seq, want)}
	case r.Prev != prev.Hash:
		return &BrokenError{want, "it does not follow the event before it"}
	}
	last := ""
	for i, l := range r.Leaves {
		if i > 0 && l.Pointer <= last {
			return &BrokenError{want, "its fields are out of order"}
		}
		last = l.Pointer
		if l.Commit != nil && (l.Value != nil || l.Salt != nil) {
			return &BrokenError{want, "an erased field still has a value"}
		}
		if l.Commit != nil && len(l.Commit) != sha256.Size {
			return &BrokenError{want, "an erased field has no proper seal"}
		}
		if l.Commit == nil && l.Value == nil {
			return &BrokenError{want, "a field has lost its value"}
		}
	}
	if r.sum() != r.Hash {
		return &BrokenError{want, "its contents do not match its seal"}
	}
	return nil
}

// VerifyChain checks records from the beginning of a stream and returns its head.
func VerifyChain(records []Record) (Head, error) {
	var h Head
	for _, r := range records {
		if err := r.Verify(h); err != nil {
			return h, err
		}
		h = r.Head()
	}
	return h, nil
}

// Erase drops value and salt of every leaf for which match says yes and
// returns how many there were. The record verifies as before.
func (r *Record) Erase(match func(pointer string, value json.RawMessage) bool) int {
	n := 0
	out := make([]Leaf, len(r.Leaves))
	copy(out, r.Leaves)
	for i, l := range out {
		if !l.Erased() && match(l.Pointer, l.Value) {
			out[i] = Leaf{Pointer: l.Pointer, Commit: l.commitment()}
			n++
		}
	}
	r.Leaves = out
	return n
}

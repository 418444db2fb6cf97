package event

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"reflect"
	"sort"
	"strconv"
	"strings"
	"time"
)

// Version is the envelope's version. A reader refuses a newer one.
const Version = 1

// kinds maps the permanent names to the Go types that carry them.
var kinds = func() map[string]reflect.Type {
	m := map[string]reflect.Type{}
	for _, e := range All() {
		m[e.Kind()] = reflect.TypeOf(e)
	}
	return m
}()

// All returns a zero value of every kind, in the order of the vocabulary.
func All() []Event {
	return []Event{
		Opened{}, Answered{}, Proposed{}, Dropped{}, Heard{}, Skipped{}, PutOff{}, TakenUp{}, Moved{}, Reopened{},
		Undone{}, Paused{}, Continued{}, Tapped{}, Rang{}, Told{}, Noted{}, Snagged{}, SnagClosed{}, Ended{},
		Renamed{}, Archived{}, SetBack{}, Met{}, Chose{}, Priced{}, Recalled{}, Came{}, Solved{}, Released{},
		Calibrated{},
	}
}

// Entry is an event with who, when and why, before it is sealed into a chain.
type Entry struct {
	At    time.Time
	By    Actor
	From  Reader  // where it was said
	Cause SeenKey // the message that made it
	Event Event
}

// body is what is flattened into leaves.
type body struct {
	By    Actor   `json:"by"`
	From  Reader  `json:"from,omitempty"`
	Cause SeenKey `json:"cause,omitempty"`
	Data  any     `json:"data"`
}

// Leaf is one JSON scalar of an event. An erased leaf has lost value and salt
// and keeps its commitment.
type Leaf struct {
	Pointer string          `json:"p"`
	Salt    []byte          `json:"s,omitempty"`
	Value   json.RawMessage `json:"v,omitempty"`
	Commit  []byte          `json:"c,omitempty"`
}

// Erased says whether the leaf's value is gone.
func (l Leaf) Erased() bool { return l.Commit != nil }

// Record is one sealed event of a stream.
type Record struct {
	Version int       `json:"v"`
	Seq     uint64    `json:"seq"`
	At      time.Time `json:"at"`
	Kind    string    `json:"kind"`
	Leaves  []Leaf    `json:"leaves"`
	Prev    Hash      `json:"prev"`
	Hash    Hash      `json:"hash"`
}

// ErrNewer is returned for a record written by a later program.
var ErrNewer = errors.New("event: record was written by a newer program")

// flatten turns a JSON document into its scalars by pointer. Empty objects and
// arrays are leaves of their own, or decoding would lose them.
func flatten(doc []byte) ([]Leaf, error) {
	dec := json.NewDecoder(bytes.NewReader(doc))
	dec.UseNumber()
	var v any
	if err := dec.Decode(&v); err != nil {
		return nil, err
	}
	var out []Leaf
	var walk func(at string, v any) error
	walk = func(at string, v any) error {
		switch t := v.(type) {
		case map[string]any:
			if len(t) == 0 {
				out = append(out, Leaf{Pointer: at, Value: json.RawMessage("{}")})
				return nil
			}
			if looksLikeList(t) {
				return fmt.Errorf("event: the names at %s are 0, 1, 2 ... and would come back as a list", at)
			}
			for k, w := range t {
				if err := walk(at+"/"+escape(k), w); err != nil {
					return err
				}
			}
		case []any:
			if len(t) == 0 {
				out = append(out, Leaf{Pointer: at, Value: json.RawMessage("[]")})
				return nil
			}
			for i, w := range t {
				if err := walk(at+"/"+strconv.Itoa(i), w); err != nil {
					return err
				}
			}
		default:
			raw, err := canonical(v)
			if err != nil {
				return err
			}
			out = append(out, Leaf{Pointer: at, Value: raw})
		}
		return nil
	}
	if err := walk("", v); err != nil {
		return nil, err
	}
	sort.Slice(out, func(i, j int) bool { return out[i].Pointer < out[j].Pointer })
	return out, nil
}

func escape(k string) string {
	return strings.ReplaceAll(strings.ReplaceAll(k, "~", "~0"), "/", "~1")
}

func unescape(k string) string {
	return strings.ReplaceAll(strings.ReplaceAll(k, "~1", "/"), "~0", "~")
}

// looksLikeList says whether the names of children are exactly 0, 1, 2 ...,
// which is how a list is told from an object when pointers are put together.
func looksLikeList[T any](kids map[string]T) bool {
	for i := range len(kids) {
		if _, ok := kids[strconv.Itoa(i)]; !ok {
			return false
		}
	}
	return true
}

// node rebuilds a document from pointers. Whether a node is a list or an
// object is told by its children: flatten refuses an object that would be
// taken for a list.
type node struct {
	leaf json.RawMessage
	kids map[string]*node
}

func (n *node) put(pointer string, v json.RawMessage) {
	if pointer == "" {
		n.leaf = v
		return
	}
	for _, part := range strings.Split(pointer[1:], "/") {
		part = unescape(part)
		if n.kids == nil {
			n.kids = map[string]*node{}
		}
		next := n.kids[part]
		if next == nil {
			next = &node{}
			n.kids[part] = next
		}
		n = next
	}
	n.leaf = v
}

func (n *node) write(b *bytes.Buffer) {
	if n.kids == nil {
		if n.leaf == nil {
			b.WriteString("null")
			return
		}
		b.Write(n.leaf)
		return
	}
	if looksLikeList(n.kids) {
		b.WriteByte('[')
		for i := range len(n.kids) {
			if i > 0 {
				b.WriteByte(',')
			}
			n.kids[strconv.Itoa(i)].write(b)
		}
		b.WriteByte(']')
		return
	}
	keys := make([]string, 0, len(n.kids))
	for k := range n.kids {
		keys = append(keys, k)
	}
	sort.Strings(keys)
	b.WriteByte('{')
	for i, k := range keys {
		if i > 0 {
			b.WriteByte(',')
		}
		b.Write(canonicalString(k))
		b.WriteByte(':')
		n.kids[k].write(b)
	}
	b.WriteByte('}')
}

// Document returns the JSON of the record's body; erased leaves are null.
func (r Record) Document() []byte {
	var root node
	for _, l := range r.Leaves {
		root.put(l.Pointer, l.Value)
	}
	var b bytes.Buffer
	root.write(&b)
	return b.Bytes()
}

// Open decodes the record. An unknown kind is an error: a program must not
// fold a record it does not understand.
func (r Record) Open() (Entry, error) {
	if r.Version > Version {
		return Entry{}, fmt.Errorf("%w: envelope %d, this program knows %d", ErrNewer, r.Version, Version)
	}
	typ, ok := kinds[r.Kind]
	if !ok {
		return Entry{}, fmt.Errorf("%w: kind %q", ErrNewer, r.Kind)
	}
	data := reflect.New(typ)
	b := body{Data: data.Interface()}
	if err := json.Unmarshal(r.Document(), &b); err != nil {
		return Entry{}, fmt.Errorf("event: record %d (%s): %w", r.Seq, r.Kind, err)
	}
	return Entry{At: r.At, By: b.By, From: b.From, Cause: b.Cause, Event: data.Elem().Interface().(Event)}, nil
}

// MarshalRecord writes a record as the store keeps it, on one line. Leaf values
// keep their canonical bytes: json.Marshal would write < as \u003c inside them,
// and the seal would no longer fit what is read back.
func MarshalRecord(r Record) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	if err := enc.Encode(r); err != nil {
		return nil, fmt.Errorf("event: record %d (%s) does not encode: %w", r.Seq, r.Kind, err)
	}
	return bytes.TrimSuffix(b.Bytes(), []byte("\n")), nil
}

// UnmarshalRecord reads what MarshalRecord wrote. It does not check the hash;
// see Record.Verify.
func UnmarshalRecord(raw []byte) (Record, error) {
	var r Record
	if err := json.Unmarshal(raw, &r); err != nil {
		return Record{}, fmt.Errorf("event: record does not decode: %w", err)
	}
	for i, l := range r.Leaves { // "" and nothing at all are the same
		if len(l.Salt) == 0 {
			r.Leaves[i].Salt = nil
		}
		if len(l.Commit) == 0 {
			r.Leaves[i].Commit = nil
		}
	}
	return r, nil
}

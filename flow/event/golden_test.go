package event

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"encoding/json"
	"flag"
	"hash/fnv"
	"math/rand/v2"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// golden is a record with every kind that was ever written. Its lines are never
// changed, only added to: they must load for ever.
const golden = "../../testdata/journal/v1.jsonl"

var extend = flag.Bool("extend", false, "add a line to "+golden+" for each kind that is not in it yet")

func loadGolden(t *testing.T) []Record {
	t.Helper()
	raw, err := os.ReadFile(golden)
	if *extend && os.IsNotExist(err) {
		return nil
	}
	require.NoError(t, err)
	var out []Record
	for line := range bytes.Lines(raw) {
		r, err := UnmarshalRecord(bytes.TrimSpace(line))
		require.NoError(t, err, "line %d", len(out)+1)
		again, err := MarshalRecord(r)
		require.NoError(t, err)
		require.Equal(t, strings.TrimSpace(string(line)), string(again), "line %d is written in another way today", len(out)+1)
		out = append(out, r)
	}
	return out
}

func TestGoldenRecord(t *testing.T) {
	records := loadGolden(t)
	if *extend {
		records = extendGolden(t, records)
	}
	_, err := VerifyChain(records)
	require.NoError(t, err)
	has := map[string]bool{}
	erased := 0
	for _, r := range records {
		e, err := r.Open()
		require.NoError(t, err)
		has[r.Kind] = true
		n := 0
		for _, l := range r.Leaves {
			if l.Erased() {
				n++
			}
		}
		if erased += n; n > 0 {
			continue
		}
		// Every field still has a place, and means the same.
		now, err := json.Marshal(body{By: e.By, From: e.From, Cause: e.Cause, Data: e.Event})
		require.NoError(t, err)
		assert.JSONEq(t, string(r.Document()), string(now), "event %d (%s)", r.Seq, r.Kind)
	}
	assert.Positive(t, erased, "a record with erased fields must load too")
	for _, e := range All() {
		assert.True(t, has[e.Kind()], "no line of kind %q: run this test with -extend", e.Kind())
	}
}

// TestHashByTheDoc computes every hash of the golden record as the package's
// documentation tells it, without anything of the package: what a stranger with
// an exported record would do.
func TestHashByTheDoc(t *testing.T) {
	raw, err := os.ReadFile(golden)
	require.NoError(t, err)
	number := func(n uint64) string { return string(binary.BigEndian.AppendUint64(nil, n)) }
	sum := func(parts ...string) string {
		h := sha256.New()
		for _, p := range parts {
			h.Write([]byte(number(uint64(len(p))) + p))
		}
		return string(h.Sum(nil))
	}
	previous := strings.Repeat("\x00", 32)
	lines := 0
	for line := range bytes.Lines(raw) {
		var r struct {
			V, Seq   uint64
			At, Kind string
			Leaves   []struct {
				P    string
				S, C []byte
				V    json.RawMessage
			}
			Hash string
		}
		require.NoError(t, json.Unmarshal(line, &r))
		parts := []string{"chargehand/chain/1", previous, number(r.V), number(r.Seq), r.At, r.Kind}
		for _, l := range r.Leaves {
			c := string(l.C)
			if c == "" {
				c = sum("chargehand/chain/1", string(l.S), l.P, string(l.V))
			}
			parts = append(parts, l.P, c)
		}
		previous = sum(parts...)
		require.Equal(t, r.Hash, hex.EncodeToString([]byte(previous)), "event %d", r.Seq)
		lines++
	}
	assert.Positive(t, lines)
}

// extendGolden adds a record with all fields filled for each missing kind, and
// an erased one in the beginning.
func extendGolden(t *testing.T, records []Record) []Record {
	has := map[string]bool{}
	var head Head
	for _, r := range records {
		has[r.Kind] = true
		head = r.Head()
	}
	var out bytes.Buffer
	add := func(e Event, erase bool) {
		seed := fnv.New64a()
		seed.Write([]byte(e.Kind()))
		rng := rand.New(rand.NewPCG(seed.Sum64(), head.Seq))
		r, err := Seal(head, randomEntry(e, rng, true), salter(rng))
		require.NoError(t, err)
		if erase {
			r.Erase(func(pointer string, _ json.RawMessage) bool { return strings.HasPrefix(pointer, "/by/") })
		}
		raw, err := MarshalRecord(r)
		require.NoError(t, err)
		out.Write(append(raw, '\n'))
		records, head = append(records, r), r.Head()
	}
	if len(records) == 0 {
		add(Opened{}, false)
		has[Opened{}.Kind()] = true
		add(Noted{}, true)
	}
	for _, e := range All() {
		if !has[e.Kind()] {
			add(e, false)
		}
	}
	require.NoError(t, os.MkdirAll("../../testdata/journal", 0o755))
	f, err := os.OpenFile(golden, os.O_APPEND|os.O_CREATE|os.O_WRONLY, 0o644)
	require.NoError(t, err)
	_, err = f.Write(out.Bytes())
	require.NoError(t, err)
	require.NoError(t, f.Close())
	return records
}

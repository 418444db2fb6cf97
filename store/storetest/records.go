package storetest

import (
	"context"
	"fmt"
	"math/rand/v2"
	"time"

	"github.com/stretchr/testify/require"

	"testing"

	"chargehand/flow/event"
)

var background = context.Background()

// began is when everything in these tests begins: fixed, so that a failure can
// be repeated.
var began = time.Date(2031, 5, 12, 7, 30, 0, 0, time.UTC)

// Writer makes sealed records from a seed.
type Writer struct {
	rng *rand.Rand
	n   int
}

// NewWriter returns a Writer that makes the same records for the same seed.
func NewWriter(seed uint64) *Writer { return &Writer{rng: rand.New(rand.NewPCG(seed, 1))} }

// said are texts that a codec or a store can stumble over.
var said = []string{
	"5.4", "5,4 m", "", "a<b & c>d", "\u2028 \u2029", "日本語 ärger", "\"quoted\" \\ back", "tab\tand\nline", "\x01\x1f", "👷", "{}", "null",
}

// Records makes n records that follow prev.
func (w *Writer) Records(prev event.Head, n int) []event.Record {
	out := make([]event.Record, n)
	for i := range out {
		w.n++
		e := event.Entry{
			At:    began.Add(time.Duration(w.n) * time.Minute),
			By:    event.Actor{ID: "p1", Name: "Ada", Role: "builder"},
			From:  "term:local",
			Cause: event.SeenKey(fmt.Sprintf("cause/%d", w.n)),
			Event: w.event(),
		}
		r, err := event.Seal(prev, e, w.salt)
		if err != nil {
			panic(err) // only events of this file get here
		}
		out[i], prev = r, r.Head()
	}
	return out
}

func (w *Writer) event() event.Event {
	text := said[w.rng.IntN(len(said))]
	switch w.rng.IntN(5) {
	case 0:
		return event.Answered{Step: "survey/depth", Said: text, Value: event.Of("mm", float64(w.rng.IntN(9000)), w.rng.Float64())}
	case 1:
		return event.Heard{Said: text, Key: "why", Args: map[string]event.Value{"want": event.Word("text", text)}}
	case 2:
		return event.Reopened{Steps: []string{"deck", text}, Because: "joists"}
	case 3:
		return event.Continued{}
	default:
		return event.Noted{Text: text}
	}
}

func (w *Writer) salt(b []byte) {
	for i := range b {
		b[i] = byte(w.rng.Uint32())
	}
}

// Part makes a part with n new records for a stream that ends at head.
func (w *Writer) Part(stream string, head event.Head, n int, clocks ...event.Clock) event.Part {
	return event.Part{Stream: stream, Expect: head, Records: w.Records(head, n), Clocks: clocks}
}

// one is a commit of a single part.
func one(p event.Part, seen ...event.SeenKey) event.Commit {
	return event.Commit{Seen: seen, Parts: []event.Part{p}}
}

// headOf is the end of a part's stream once it is written.
func headOf(p event.Part) event.Head {
	if len(p.Records) == 0 {
		return p.Expect
	}
	return p.Records[len(p.Records)-1].Head()
}

// equalRecords compares records as they are written: a nil and an empty list of
// leaves are the same record.
func equalRecords(t testing.TB, want, got []event.Record) {
	t.Helper()
	require.Equal(t, encoded(t, want), encoded(t, got))
}

func encoded(t testing.TB, records []event.Record) []string {
	t.Helper()
	out := []string{}
	for _, r := range records {
		raw, err := event.MarshalRecord(r)
		require.NoError(t, err)
		out = append(out, string(raw))
	}
	return out
}

package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
)

// sealAll chains entries with salts that count.
func sealAll(t testing.TB, entries []event.Entry) []event.Record {
	t.Helper()
	var out []event.Record
	var head event.Head
	n := byte(0)
	for _, e := range entries {
		r, err := event.Seal(head, e, func(b []byte) {
			for i := range b {
				n++
				b[i] = n
			}
		})
		require.NoError(t, err)
		out, head = append(out, r), r.Head()
	}
	return out
}

func shortJob(t testing.TB) []byte {
	at := time.Date(2026, 5, 11, 8, 0, 0, 0, time.UTC)
	by := event.Actor{ID: "a1", Name: "Ottoline", Role: "builder"}
	records := sealAll(t, []event.Entry{
		{At: at, By: by, From: "term:local", Event: event.Opened{Name: "Shed <1> & \u2028", Zone: "Europe/London", Way: "full"}},
		{At: at.Add(time.Minute), By: by, Cause: "term:k1", Event: event.Answered{Step: "length", Said: "5.4", Value: event.Of("mm", 5400)}},
		{At: at.Add(2 * time.Minute), By: by, Event: event.Noted{Photo: strings.Repeat("ab", 32)}},
	})
	records[1].Erase(func(pointer string, _ json.RawMessage) bool { return pointer == "/by/name" })
	var b bytes.Buffer
	require.NoError(t, writeJob(&b, "job-1", records))
	return b.Bytes()
}

func TestJobFileRoundTrip(t *testing.T) {
	raw := shortJob(t)
	f, err := readJob(bytes.NewReader(raw), "f")
	require.NoError(t, err)
	assert.Equal(t, "job-1", f.Job)
	assert.Len(t, f.Records, 3)
	assert.Equal(t, []string{strings.Repeat("ab", 32)}, f.Photos)
	var again bytes.Buffer
	require.NoError(t, writeJob(&again, f.Job, f.Records))
	assert.Equal(t, string(raw), again.String(), "an exported job reads and writes byte for byte")
	assert.Contains(t, string(raw), "Shed <1> &", "as it was said, not escaped")
	assert.Len(t, strings.Split(strings.TrimSpace(string(raw)), "\n"), 4)
}

// No bit can be flipped and no byte lost without being noticed, and whatever is
// named as the first bad event lies at or before the damage.
func TestNoBitOfAJobFileIsIdle(t *testing.T) {
	raw := shortJob(t)
	for i := range raw {
		for bit := range 8 {
			bad := bytes.Clone(raw)
			bad[i] ^= 1 << bit
			f, err := readJob(bytes.NewReader(bad), "f")
			require.Error(t, err, "byte %d (%q), bit %d", i, raw[i], bit)
			line := bytes.Count(raw[:i], []byte("\n"))
			require.LessOrEqual(t, len(f.Records), max(line-1, 0)+1, "byte %d, bit %d", i, bit)
		}
		_, err := readJob(bytes.NewReader(raw[:i]), "f")
		require.Error(t, err, "cut at %d", i)
	}
}

func FuzzReadJob(f *testing.F) {
	raw := shortJob(f)
	f.Add(raw)
	f.Add(raw[:len(raw)-1])
	f.Add([]byte(`{"format":"chargehand job 1"}`))
	f.Add([]byte("{}\n{}\n"))
	f.Add([]byte(""))
	f.Fuzz(func(t *testing.T, raw []byte) {
		j, err := readJob(bytes.NewReader(raw), "f")
		if err != nil {
			return
		}
		head, err := event.VerifyChain(j.Records)
		require.NoError(t, err)
		require.Equal(t, j.Head, head)
		var b bytes.Buffer
		require.NoError(t, writeJob(&b, j.Job, j.Records))
	})
}

func BenchmarkReadJob(b *testing.B) {
	records := sealAll(b, manyEntries(b, 10_000))
	var file bytes.Buffer
	require.NoError(b, writeJob(&file, "job-1", records))
	b.SetBytes(int64(file.Len()))
	for b.Loop() {
		if _, err := readJob(bytes.NewReader(file.Bytes()), "f"); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(file.Len())/float64(len(records)), "B/event")
}

package store

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"time"

	"chargehand/flow/event"
)

// Limits on names. They keep keys far below what a store can hold, and a name
// that long is a mistake.
const (
	MaxName = 200  // bytes in the name of a stream or a clock
	MaxKey  = 1000 // bytes in a seen key or a reader
)

// Prepared is a commit that is right in itself, encoded and copied, so that a
// store has only to compare it with what it holds.
type Prepared struct {
	Seen  []event.SeenKey
	Parts []PreparedPart
}

// PreparedPart is what a commit writes to one stream.
type PreparedPart struct {
	Stream  string
	Expect  event.Head
	Head    event.Head // the end of the stream afterwards
	Records [][]byte   // for the numbers from Expect.Seq+1 on
	Clocks  []event.Clock
	Keep    bool
	Summary []byte // nil leaves it as it is
}

// Prepare checks what can be checked without a store: names, that every record
// is whole and follows the one before it, from Expect on. Errors are *BadCommit.
func Prepare(c event.Commit) (Prepared, error) {
	var out Prepared
	for _, k := range c.Seen {
		if why := badText(string(k), MaxKey); why != "" {
			return Prepared{}, &BadCommit{Why: "a seen key " + why}
		}
		if !slices.Contains(out.Seen, k) {
			out.Seen = append(out.Seen, k)
		}
	}
	for i, p := range c.Parts {
		for _, q := range c.Parts[:i] {
			if p.Stream == q.Stream {
				return Prepared{}, &BadCommit{Stream: p.Stream, Why: "it has two parts for one stream"}
			}
		}
		pp, err := preparePart(p)
		if err != nil {
			return Prepared{}, err
		}
		out.Parts = append(out.Parts, pp)
	}
	return out, nil
}

func preparePart(p event.Part) (PreparedPart, error) {
	bad := func(why string, err error) (PreparedPart, error) {
		return PreparedPart{}, &BadCommit{Stream: p.Stream, Why: why, Err: err}
	}
	if why := badName(p.Stream); why != "" {
		return bad("the stream's name "+why, nil)
	}
	out := PreparedPart{Stream: p.Stream, Expect: p.Expect, Head: p.Expect, Keep: p.Keep}
	for _, r := range p.Records {
		if err := r.Verify(out.Head); err != nil {
			return bad(err.Error(), err)
		}
		raw, err := event.MarshalRecord(r)
		if err != nil {
			return bad(err.Error(), err)
		}
		out.Records = append(out.Records, raw)
		out.Head = r.Head()
	}
	if !p.Keep {
		for _, c := range p.Clocks {
			if why := badName(c.Name); why != "" {
				return bad("a clock's name "+why, nil)
			}
			for _, d := range out.Clocks {
				if c.Name == d.Name {
					return bad(fmt.Sprintf("two clocks are named %q", c.Name), nil)
				}
			}
			out.Clocks = append(out.Clocks, event.Clock{Name: c.Name, Due: Instant(c.Due)})
		}
	}
	if p.Summary != nil {
		out.Summary = append([]byte{}, p.Summary...)
	}
	if out.Head.Seq == 0 && (len(out.Clocks) > 0 || len(out.Summary) > 0) {
		return bad("a stream begins with a record, not with clocks or a summary", nil)
	}
	return out, nil
}

// CheckMark checks what can be checked of a mark without a store.
func CheckMark(stream string, r event.Reader) error {
	if why := badName(stream); why != "" {
		return &BadCommit{Stream: stream, Why: "the stream's name " + why}
	}
	if why := badText(string(r), MaxKey); why != "" {
		return &BadCommit{Stream: stream, Why: "the reader " + why}
	}
	return nil
}

// MarkBeyond is the refusal of a mark past the end of its stream.
func MarkBeyond(stream string, m event.Mark, h event.Head) error {
	return &BadCommit{Stream: stream, Why: fmt.Sprintf("a mark at %d, but the stream ends at %d", m.Seq, h.Seq)}
}

// Instant is t as the store keeps it: UTC, without a monotonic part.
func Instant(t time.Time) time.Time { return t.Round(0).UTC() }

// CompareClocks orders clocks soonest first, then by name.
func CompareClocks(a, b event.Clock) int {
	if c := a.Due.Compare(b.Due); c != 0 {
		return c
	}
	return strings.Compare(a.Name, b.Name)
}

// CompareDue orders clocks of all streams: soonest first, then by stream and name.
func CompareDue(a, b event.DueClock) int {
	if c := a.Due.Compare(b.Due); c != 0 {
		return c
	}
	if c := strings.Compare(a.Stream, b.Stream); c != 0 {
		return c
	}
	return strings.Compare(a.Name, b.Name)
}

func badName(s string) string { return badText(s, MaxName) }

func badText(s string, max int) string {
	switch {
	case s == "":
		return "is empty"
	case len(s) > max:
		return fmt.Sprintf("has %d bytes, more than %d", len(s), max)
	case bytes.IndexByte([]byte(s), 0) >= 0:
		return "contains a zero byte"
	}
	return ""
}

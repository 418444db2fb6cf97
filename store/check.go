package store

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"chargehand/flow/event"
)

// Place says which part of a store a finding is about.
type Place string

const (
	InFile   Place = "file"   // the structure of the file
	InEvents Place = "events" // a record, or the chain through the records
	InHeads  Place = "heads"  // the end of a stream
	InClocks Place = "clocks"
	InMarks  Place = "marks"
	InSeen   Place = "seen"
	InPhotos Place = "photos"
)

// Finding is one thing that is not as it was written.
type Finding struct {
	In     Place
	Stream string // empty when it is about no single stream
	Seq    uint64 // the first bad event of the stream, for InEvents
	Photo  string // the name of the photo, for InPhotos
	Why    string
}

func (f Finding) String() string {
	where := string(f.In)
	if f.Stream != "" {
		where += " of " + f.Stream
	}
	if f.Seq > 0 {
		where += fmt.Sprintf(" from event %d on", f.Seq)
	}
	if f.Photo != "" {
		where += " " + f.Photo
	}
	return where + ": " + f.Why
}

// Report is what a check counted and what it found.
type Report struct {
	Streams, Events, Clocks, Marks, Seen, Photos int
	Erased                                       int // leaves whose value was dropped
	Findings                                     []Finding
}

// Sound says that nothing was found.
func (r Report) Sound() bool { return len(r.Findings) == 0 }

// Sort puts the findings in the order in which one leads to another: the file,
// its records, then what hangs on them.
func (r *Report) Sort() {
	order := []Place{InFile, InEvents, InHeads, InClocks, InMarks, InSeen, InPhotos}
	slices.SortStableFunc(r.Findings, func(a, b Finding) int {
		return slices.Index(order, a.In) - slices.Index(order, b.In)
	})
}

// Find adds a finding.
func (r *Report) Find(f Finding) { r.Findings = append(r.Findings, f) }

// Checker is a store that can check itself beyond what [Journal] shows, on a
// snapshot, so that commits go on meanwhile.
type Checker interface {
	Check(ctx context.Context) (Report, error)
}

// Check checks a whole store: every chain from its first event on, ends against
// records, clocks by time against clocks by stream, marks against ends, and what
// the implementation adds. The error is for a check that could not be made;
// what is wrong with the store is in the report.
//
// Whether the clocks are those the record asks for is for whoever can fold it:
// compare the fold's clocks with [Journal.Clocks] and, where they differ, commit
// a part without records and with the right ones.
func Check(ctx context.Context, j Journal) (Report, error) {
	if c, ok := j.(Checker); ok {
		return c.Check(ctx)
	}
	return CheckJournal(ctx, j)
}

// CheckJournal is the part of Check that any Journal can be asked. Nothing may
// be committed while it runs, or it finds differences that are none.
func CheckJournal(ctx context.Context, j Journal) (Report, error) {
	var r Report
	streams, err := j.Streams(ctx)
	if err := r.damage(InHeads, "", 0, err); err != nil {
		return r, err
	}
	var all []event.DueClock
	for _, s := range streams {
		r.Streams++
		if err := r.checkChain(ctx, j, s); err != nil {
			return r, err
		}
		clocks, err := j.Clocks(ctx, s.Stream)
		if err := r.damage(InClocks, s.Stream, 0, err); err != nil {
			return r, err
		}
		for _, c := range clocks {
			all = append(all, event.DueClock{Stream: s.Stream, Clock: c})
		}
		marks, err := j.Readers(ctx, s.Stream)
		if err := r.damage(InMarks, s.Stream, 0, err); err != nil {
			return r, err
		}
		for reader, m := range marks {
			r.Marks++
			if m.Seq > s.Head.Seq {
				r.Find(Finding{In: InMarks, Stream: s.Stream, Why: fmt.Sprintf("%s was told up to %d, but the stream ends at %d", reader, m.Seq, s.Head.Seq)})
			}
		}
	}
	r.Clocks = len(all)
	return r, r.checkDue(ctx, j, all)
}

// damage turns an error that tells of damage into a finding, so that the check
// goes on; other errors are handed back.
func (r *Report) damage(in Place, stream string, seq uint64, err error) error {
	var damaged *Damaged
	var newer *Newer
	switch {
	case errors.As(err, &damaged):
		if damaged.Seq > 0 {
			seq = damaged.Seq
		}
		r.Find(Finding{In: in, Stream: stream, Seq: seq, Why: damaged.Why})
	case errors.As(err, &newer):
		r.Find(Finding{In: in, Stream: stream, Seq: seq, Why: "written by a newer program: " + newer.Found})
	default:
		return err
	}
	return nil
}

func (r *Report) checkChain(ctx context.Context, j Journal, s event.StreamInfo) error {
	const page = 256
	var last event.Head
	for {
		records, err := j.Read(ctx, s.Stream, last.Seq, page)
		for _, rec := range records {
			r.Events++
			for _, l := range rec.Leaves {
				if l.Erased() {
					r.Erased++
				}
			}
			last = rec.Head()
		}
		if err != nil {
			return r.damage(InEvents, s.Stream, last.Seq+1, err)
		}
		if len(records) < page {
			break
		}
	}
	if last != s.Head {
		r.Find(Finding{In: InHeads, Stream: s.Stream, Why: fmt.Sprintf("it says %d (%s), but the records end at %d (%s)", s.Head.Seq, s.Head.Hash, last.Seq, last.Hash)})
	}
	return nil
}

// checkDue compares the clocks by time with those by stream.
func (r *Report) checkDue(ctx context.Context, j Journal, byStream []event.DueClock) error {
	ever := time.Unix(math.MaxInt64/4, 0)
	byTime, err := j.Due(ctx, ever, math.MaxInt)
	if err := r.damage(InClocks, "", 0, err); err != nil {
		return err
	}
	slices.SortFunc(byStream, CompareDue)
	if !slices.IsSortedFunc(byTime, CompareDue) {
		r.Find(Finding{In: InClocks, Why: "they are not in the order in which they are due"})
		slices.SortFunc(byTime, CompareDue)
	}
	for len(byStream) > 0 || len(byTime) > 0 {
		switch {
		case len(byTime) == 0 || len(byStream) > 0 && CompareDue(byStream[0], byTime[0]) < 0:
			r.Find(clockFinding(byStream[0], "it would never ring"))
			byStream = byStream[1:]
		case len(byStream) == 0 || CompareDue(byStream[0], byTime[0]) > 0:
			r.Find(clockFinding(byTime[0], "it would ring, but its stream does not have it"))
			byTime = byTime[1:]
		default:
			byStream, byTime = byStream[1:], byTime[1:]
		}
	}
	return nil
}

func clockFinding(c event.DueClock, why string) Finding {
	return Finding{In: InClocks, Stream: c.Stream, Why: fmt.Sprintf("%s, due %s: %s", c.Name, c.Due.Format(time.RFC3339Nano), why)}
}

// Package memory keeps the streams in memory, for tests and for the demo. It
// keeps the promises of store/storetest apart from outliving its process.
package memory

import (
	"context"
	"encoding/json"
	"maps"
	"slices"
	"sync"
	"time"

	"chargehand/flow/event"
	"chargehand/store"
)

// Store is a store.Journal in memory. The zero value is empty and ready.
type Store struct {
	mu      sync.RWMutex
	streams map[string]*stream
	seen    map[event.SeenKey]bool
}

type stream struct {
	head    event.Head
	records [][]byte // encoded, so that nothing is shared with a caller
	clocks  []event.Clock
	summary []byte
	marks   map[event.Reader]event.Mark
}

var (
	_ store.Journal = (*Store)(nil)
	_ store.Eraser  = (*Store)(nil)
	_ store.Checker = (*Store)(nil)
)

func (s *Store) Commit(ctx context.Context, c event.Commit) error {
	p, err := store.Prepare(c)
	if err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	for _, k := range p.Seen {
		if s.seen[k] {
			return event.ErrSeen
		}
	}
	for _, part := range p.Parts {
		if s.head(part.Stream) != part.Expect {
			return event.ErrConflict
		}
	}
	if s.seen == nil {
		s.seen = map[event.SeenKey]bool{}
	}
	for _, k := range p.Seen {
		s.seen[k] = true
	}
	for _, part := range p.Parts {
		st := s.at(part.Stream)
		st.head = part.Head
		st.records = append(st.records, part.Records...)
		if !part.Keep {
			st.clocks = part.Clocks
			slices.SortFunc(st.clocks, store.CompareClocks)
		}
		if part.Summary != nil {
			st.summary = part.Summary
		}
	}
	return nil
}

// at returns the stream of that name, made if need be.
func (s *Store) at(name string) *stream {
	if s.streams == nil {
		s.streams = map[string]*stream{}
	}
	st := s.streams[name]
	if st == nil {
		st = &stream{marks: map[event.Reader]event.Mark{}}
		s.streams[name] = st
	}
	return st
}

func (s *Store) head(name string) event.Head {
	if st := s.streams[name]; st != nil {
		return st.head
	}
	return event.Head{}
}

func (s *Store) Read(ctx context.Context, name string, after uint64, limit int) ([]event.Record, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	s.mu.RLock()
	var raw [][]byte
	if st := s.streams[name]; st != nil {
		raw = st.records
	}
	s.mu.RUnlock()
	if limit <= 0 || after >= uint64(len(raw)) {
		return nil, nil
	}
	var prev event.Head
	if after > 0 {
		r, err := event.UnmarshalRecord(raw[after-1])
		if err != nil {
			return nil, store.BadEvent("", name, after, err)
		}
		prev = r.Head()
	}
	raw = raw[after:]
	return store.Decode("", name, prev, raw[:min(limit, len(raw))])
}

func (s *Store) Head(ctx context.Context, name string) (event.Head, error) {
	s.mu.RLock()
	defer s.mu.RUnlock()
	return s.head(name), ctx.Err()
}

func (s *Store) Streams(ctx context.Context) ([]event.StreamInfo, error) {
	s.mu.RLock()
	defer s.mu.RUnlock()
	var out []event.StreamInfo
	for _, name := range slices.Sorted(maps.Keys(s.streams)) {
		if st := s.streams[name]; st.head.Seq > 0 {
			out = append(out, event.StreamInfo{Stream: name, Head: st.head, Summary: append([]byte(nil), st.summary...)})
		}
	}
	return out, ctx.Err()
}

func (s *Store) Due(ctx context.Context, t time.Time, limit int) ([]event.DueClock, error) {
	if limit <= 0 {
		return nil, ctx.Err()
	}
	out := s.due(func(c event.Clock) bool { return !c.Due.After(t) })
	return out[:min(limit, len(out))], ctx.Err()
}

func (s *Store) NextDue(ctx context.Context) (event.DueClock, bool, error) {
	all := s.due(func(event.Clock) bool { return true })
	if len(all) == 0 {
		return event.DueClock{}, false, ctx.Err()
	}
	return all[0], true, ctx.Err()
}

func (s *Store) due(want func(event.Clock) bool) []event.DueClock {
	s.mu.RLock()
	defer s.mu.RUnlock()
	var out []event.DueClock
	for name, st := range s.streams {
		for _, c := range st.clocks {
			if want(c) {
				out = append(out, event.DueClock{Stream: name, Clock: c})
			}
		}
	}
	slices.SortFunc(out, store.CompareDue)
	return out
}

func (s *Store) Clocks(ctx context.Context, name string) ([]event.Clock, error) {
	s.mu.RLock()
	defer s.mu.RUnlock()
	if st := s.streams[name]; st != nil {
		return slices.Clone(st.clocks), ctx.Err()
	}
	return nil, ctx.Err()
}

func (s *Store) Mark(ctx context.Context, name string, r event.Reader) (event.Mark, error) {
	s.mu.RLock()
	defer s.mu.RUnlock()
	if st := s.streams[name]; st != nil {
		return st.marks[r], ctx.Err()
	}
	return event.Mark{}, ctx.Err()
}

func (s *Store) SetMark(ctx context.Context, name string, r event.Reader, m event.Mark) error {
	if err := store.CheckMark(name, r); err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if h := s.head(name); m.Seq > h.Seq {
		return store.MarkBeyond(name, m, h)
	}
	m.NotBefore = store.Instant(m.NotBefore)
	s.at(name).marks[r] = m
	return nil
}

func (s *Store) Readers(ctx context.Context, name string) (map[event.Reader]event.Mark, error) {
	s.mu.RLock()
	defer s.mu.RUnlock()
	out := map[event.Reader]event.Mark{}
	if st := s.streams[name]; st != nil {
		maps.Copy(out, st.marks)
	}
	return out, ctx.Err()
}

func (s *Store) Erase(ctx context.Context, name string, match func(uint64, string, json.RawMessage) bool) (int, error) {
	if err := ctx.Err(); err != nil {
		return 0, err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.head(name).Seq == 0 {
		return 0, event.ErrUnknown
	}
	st := s.streams[name]
	total := 0
	records := slices.Clone(st.records) // readers may hold the old list
	for i, raw := range records {
		r, err := event.UnmarshalRecord(raw)
		if err != nil {
			return 0, store.BadEvent("", name, uint64(i+1), err)
		}
		n := r.Erase(func(pointer string, value json.RawMessage) bool { return match(r.Seq, pointer, value) })
		if n == 0 {
			continue
		}
		total += n
		if records[i], err = event.MarshalRecord(r); err != nil {
			return 0, err
		}
	}
	st.records = records
	return total, nil
}

func (s *Store) Forget(ctx context.Context, name string, r event.Reader) error {
	if err := store.CheckMark(name, r); err != nil {
		return err
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if st := s.streams[name]; st != nil {
		delete(st.marks, r)
	}
	return nil
}

// Check checks a copy, so that commits can go on.
func (s *Store) Check(ctx context.Context) (store.Report, error) {
	s.mu.RLock()
	frozen := &Store{streams: map[string]*stream{}}
	for name, st := range s.streams {
		c := *st
		c.marks = maps.Clone(st.marks)
		frozen.streams[name] = &c
	}
	seen := len(s.seen)
	s.mu.RUnlock()
	r, err := store.CheckJournal(ctx, frozen)
	r.Seen = seen
	return r, err
}

package storetest

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/store"
)

// EnvRuns is the number of simulations; each has a seed of its own, printed when
// it fails. EnvSeed repeats one.
const (
	EnvRuns = "STORE_SIMULATIONS"
	EnvSeed = "STORE_SEED"
)

// simulation does random things to a store and to a model of plain maps, and
// compares what both say.
func simulation(t *testing.T, h Harness) {
	runs, seed := 2, uint64(time.Now().UnixNano())
	if n, err := strconv.Atoi(os.Getenv(EnvRuns)); err == nil {
		runs = n
	}
	if n, err := strconv.ParseUint(os.Getenv(EnvSeed), 10, 64); err == nil {
		runs, seed = 1, n
	}
	for i := range runs {
		seed := seed + uint64(i)
		t.Run(fmt.Sprintf("%s=%d", EnvSeed, seed), func(t *testing.T) {
			s := &sim{t: t, h: h, j: h.Open(t), w: NewWriter(seed), rng: rand.New(rand.NewPCG(seed, 2)), m: newModel()}
			for range 300 {
				s.step()
			}
			s.compare()
			Sound(t, s.j)
		})
	}
}

// model is a store as one would explain it to a child.
type model struct {
	records map[string][]event.Record
	clocks  map[string]map[string]time.Time
	summary map[string]string
	seen    map[event.SeenKey]bool
	marks   map[string]map[event.Reader]event.Mark
}

func newModel() *model {
	return &model{map[string][]event.Record{}, map[string]map[string]time.Time{}, map[string]string{}, map[event.SeenKey]bool{}, map[string]map[event.Reader]event.Mark{}}
}

func (m *model) head(stream string) event.Head {
	if r := m.records[stream]; len(r) > 0 {
		return r[len(r)-1].Head()
	}
	return event.Head{}
}

func (m *model) commit(c event.Commit) error {
	for _, k := range c.Seen {
		if m.seen[k] {
			return event.ErrSeen
		}
	}
	for _, p := range c.Parts {
		if p.Expect != m.head(p.Stream) {
			return event.ErrConflict
		}
	}
	for _, k := range c.Seen {
		m.seen[k] = true
	}
	for _, p := range c.Parts {
		m.records[p.Stream] = append(m.records[p.Stream], p.Records...)
		if !p.Keep {
			m.clocks[p.Stream] = map[string]time.Time{}
			for _, c := range p.Clocks {
				m.clocks[p.Stream][c.Name] = c.Due
			}
		}
		if p.Summary != nil {
			m.summary[p.Stream] = string(p.Summary)
		}
	}
	return nil
}

type sim struct {
	t   *testing.T
	h   Harness
	j   store.Journal
	w   *Writer
	rng *rand.Rand
	m   *model
}

func (s *sim) stream() string { return []string{event.Book, "job/a", "job/ab", "job/b"}[s.rng.IntN(4)] }

func (s *sim) step() {
	switch n := s.rng.IntN(100); {
	case n < 70:
		s.commit()
	case n < 85:
		s.setMark()
	case n < 97 || s.h.Reopen == nil:
		s.compareOne(s.stream())
	default:
		s.j = s.h.Reopen(s.t, s.j)
	}
}

func (s *sim) commit() {
	var c event.Commit
	for range s.rng.IntN(3) {
		c.Seen = append(c.Seen, event.SeenKey(strconv.Itoa(s.rng.IntN(400))))
	}
	used := map[string]bool{}
	for range 1 + s.rng.IntN(2) {
		stream := s.stream()
		if used[stream] {
			continue
		}
		used[stream] = true
		c.Parts = append(c.Parts, s.part(stream))
	}
	want := s.m.commit(c)
	got := s.j.Commit(s.t.Context(), c)
	require.Equal(s.t, want, got, "commit %+v", c)
}

func (s *sim) part(stream string) event.Part {
	head := s.m.head(stream)
	expect := head
	switch s.rng.IntN(12) {
	case 0: // made for an older state
		if len(s.m.records[stream]) > 0 {
			expect = s.m.records[stream][s.rng.IntN(len(s.m.records[stream]))].Head()
		}
	case 1: // made for a state that never was
		expect.Seq += 3
	}
	n := s.rng.IntN(4)
	if expect.Seq == 0 {
		n = max(n, 1)
	}
	p := s.w.Part(stream, expect, n)
	p.Keep = s.rng.IntN(4) == 0
	for i := range s.rng.IntN(4) {
		p.Clocks = append(p.Clocks, event.Clock{Name: strconv.Itoa(i), Due: began.Add(time.Duration(s.rng.IntN(50)) * time.Minute)})
	}
	if s.rng.IntN(3) == 0 {
		p.Summary = []byte(said[s.rng.IntN(len(said))])
	}
	return p
}

func (s *sim) setMark() {
	stream := s.stream()
	reader := event.Reader([]string{"term:local", "bot:1", "bot:11"}[s.rng.IntN(3)])
	mark := event.Mark{Seq: uint64(s.rng.IntN(int(s.m.head(stream).Seq) + 2)), Attempts: s.rng.IntN(3)}
	err := s.j.SetMark(s.t.Context(), stream, reader, mark)
	if mark.Seq > s.m.head(stream).Seq {
		var bad *store.BadCommit
		require.ErrorAs(s.t, err, &bad)
		return
	}
	require.NoError(s.t, err)
	if s.m.marks[stream] == nil {
		s.m.marks[stream] = map[event.Reader]event.Mark{}
	}
	s.m.marks[stream][reader] = mark
}

func (s *sim) compareOne(stream string) {
	ctx := s.t.Context()
	all := s.m.records[stream]
	after, limit := s.rng.IntN(len(all)+2), s.rng.IntN(10)
	from := min(after, len(all))
	got, err := s.j.Read(ctx, stream, uint64(after), limit)
	require.NoError(s.t, err)
	equalRecords(s.t, all[from:min(from+limit, len(all))], got)

	head, err := s.j.Head(ctx, stream)
	require.NoError(s.t, err)
	require.Equal(s.t, s.m.head(stream), head)

	clocks, err := s.j.Clocks(ctx, stream)
	require.NoError(s.t, err)
	mine := map[string]time.Time{}
	for _, c := range clocks {
		mine[c.Name] = c.Due
	}
	require.Len(s.t, clocks, len(mine))
	require.True(s.t, maps.Equal(s.m.clocks[stream], mine), "%v is not %v", mine, s.m.clocks[stream])

	readers, err := s.j.Readers(ctx, stream)
	require.NoError(s.t, err)
	require.True(s.t, maps.Equal(s.m.marks[stream], readers))
}

func (s *sim) compare() {
	ctx := s.t.Context()
	var want []event.StreamInfo
	var due []event.DueClock
	for _, stream := range slices.Sorted(maps.Keys(s.m.records)) {
		s.compareOne(stream)
		got, err := s.j.Read(ctx, stream, 0, 1<<20)
		require.NoError(s.t, err)
		equalRecords(s.t, s.m.records[stream], got)
		if len(got) > 0 {
			info := event.StreamInfo{Stream: stream, Head: s.m.head(stream)}
			if text := s.m.summary[stream]; text != "" {
				info.Summary = []byte(text)
			}
			want = append(want, info)
		}
		for name, at := range s.m.clocks[stream] {
			due = append(due, event.DueClock{Stream: stream, Clock: event.Clock{Name: name, Due: at}})
		}
	}
	streams, err := s.j.Streams(ctx)
	require.NoError(s.t, err)
	require.Equal(s.t, want, streams)
	slices.SortFunc(due, store.CompareDue)
	got, err := s.j.Due(ctx, began.Add(time.Hour), 1000)
	require.NoError(s.t, err)
	require.Equal(s.t, due, got)
}

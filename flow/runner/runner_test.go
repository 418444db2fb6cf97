package runner_test

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"
	"testing/synctest"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/runner"
	"chargehand/flow/talk"
	"chargehand/store/memory"
)

// ear is a Speaker that remembers what each reader was told, and can be deaf.
type ear struct {
	mu   sync.Mutex
	told map[event.Reader][]runner.Message
	deaf bool
}

func (e *ear) Speak(_ context.Context, m runner.Message) (string, error) {
	e.mu.Lock()
	defer e.mu.Unlock()
	if e.deaf {
		return "", errors.New("no signal")
	}
	if e.told == nil {
		e.told = map[event.Reader][]runner.Message{}
	}
	e.told[m.Reader] = append(e.told[m.Reader], m)
	return fmt.Sprint(len(e.told[m.Reader])), nil
}

// keys lists the phrase keys a reader was told, in order, questions with a ?.
func (e *ear) keys(r event.Reader) []string {
	e.mu.Lock()
	defer e.mu.Unlock()
	var out []string
	for _, m := range e.told[r] {
		for _, reply := range m.Replies {
			switch reply := reply.(type) {
			case talk.Tell:
				for _, l := range reply.Lines {
					out = append(out, l.Key)
				}
			case talk.Ask:
				out = append(out, "?"+reply.Question)
			}
		}
	}
	return out
}

type stage struct {
	t   *testing.T
	ear *ear
	r   *runner.Runner
	now time.Time
	job string
}

const (
	roof    event.Reader = "test:roof"
	kitchen event.Reader = "test:kitchen"
)

var (
	ann = talk.Person{ID: "ann", Name: "Ann", Role: "builder"}
	bo  = talk.Person{ID: "bo", Name: "Bo", Role: "second"}
)

func setUp(t *testing.T) *stage {
	s := &stage{t: t, ear: &ear{}, now: time.Date(2026, 5, 11, 8, 0, 0, 0, time.UTC)}
	n := 0
	s.r = &runner.Runner{Journal: new(memory.Store), Speaker: s.ear, Now: func() time.Time { return s.now },
		NewID: func() string { n++; return fmt.Sprintf("job-%d", n) }, Salt: func(b []byte) { clear(b) }}
	s.r.Attach(roof, ann)
	s.r.Attach(kitchen, bo)
	job, err := s.r.Begin(t.Context(), talk.Input{At: s.now, By: ann, Reader: string(roof), Key: "begin", What: talk.Begun{Name: "Garage", Zone: "UTC"}})
	require.NoError(t, err)
	s.job = job
	return s
}

func (s *stage) say(who talk.Person, at event.Reader, key, text string) bool {
	s.t.Helper()
	s.now = s.now.Add(time.Minute)
	already, err := s.r.Handle(s.t.Context(), s.job, talk.Input{At: s.now, By: who, Reader: string(at), Key: key, What: talk.Said{Text: text}})
	require.NoError(s.t, err)
	return already
}

func TestAMessageActsOnceHoweverOftenItComes(t *testing.T) {
	s := setUp(t)
	assert.False(t, s.say(ann, roof, "1", "full"))
	before, err := s.r.State(t.Context(), s.job)
	require.NoError(t, err)
	assert.True(t, s.say(ann, roof, "1", "short"))
	after, err := s.r.State(t.Context(), s.job)
	require.NoError(t, err)
	assert.Equal(t, before.Seq, after.Seq)
	keys := s.ear.keys(roof)
	assert.True(t, strings.HasPrefix(keys[len(keys)-1], "?attached@"), "the open question is asked again: %v", keys)
}

func TestWhatASilentReaderMissedIsSaidLater(t *testing.T) {
	s := setUp(t)
	s.ear.deaf = true
	s.now = s.now.Add(time.Minute)
	_, err := s.r.Handle(t.Context(), s.job, talk.Input{At: s.now, By: ann, Reader: string(roof), Key: "1", What: talk.Said{Text: "full"}})
	require.Error(t, err, "the speaker failed")
	s.ear.deaf = false
	require.NoError(t, s.r.Welcome(t.Context(), s.job, roof))
	keys := s.ear.keys(roof)
	assert.Contains(t, keys, "got", "the answer that was kept is said after the signal came back: %v", keys)
	assert.True(t, strings.HasPrefix(keys[len(keys)-1], "?attached@"))
}

func TestALateReaderGetsTheStateNotTheHistory(t *testing.T) {
	s := setUp(t)
	s.say(ann, roof, "1", "full")
	s.say(ann, roof, "2", "attached")
	s.say(ann, roof, "3", "1")
	require.NoError(t, s.r.Welcome(t.Context(), s.job, kitchen))
	keys := s.ear.keys(kitchen)
	assert.Equal(t, "where.at", keys[0])
	assert.NotContains(t, keys, "got")
	s.say(ann, roof, "4", "felt")
	keys = s.ear.keys(kitchen)
	assert.Contains(t, keys, "got.by", "from now on each thing is told, with who said it: %v", keys)
}

// A clock rings through the loop when it is due, to everybody, and once.
func TestClocksRingInTheLoopAndAfterARestart(t *testing.T) {
	synctest.Test(t, func(t *testing.T) {
		e := &ear{}
		journal := new(memory.Store)
		n := 0
		start := func() *runner.Runner {
			r := &runner.Runner{Journal: journal, Speaker: e, Now: time.Now, NewID: func() string { n++; return fmt.Sprintf("job-%d", n) }, Salt: func(b []byte) { clear(b) }}
			r.Attach(roof, ann)
			return r
		}
		r := start()
		job, err := r.Begin(t.Context(), talk.Input{At: time.Now(), By: ann, Reader: string(roof), What: talk.Begun{Name: "Garage", Zone: "UTC"}})
		require.NoError(t, err)
		sheet(t, r, job)
		ctx, cancel := context.WithCancel(t.Context())
		done := make(chan error, 1)
		go func() { done <- r.Run(ctx) }()
		time.Sleep(29 * time.Minute)
		synctest.Wait()
		assert.NotContains(t, e.keys(roof), "rang.relax")
		time.Sleep(2 * time.Minute)
		synctest.Wait()
		assert.Equal(t, 1, count(e.keys(roof), "rang.relax"))
		cancel()
		<-done

		// Put off something, let the process die, and come back late.
		_, err = r.Handle(t.Context(), job, talk.Input{At: time.Now(), By: ann, Reader: string(roof), What: talk.Said{Text: "relaxed"}})
		require.NoError(t, err)
		s, err := r.State(t.Context(), job)
		require.NoError(t, err)
		require.Equal(t, "overlaps", flow.StepNow(s))
		time.Sleep(20 * 24 * time.Hour)
		r = start()
		require.NoError(t, r.Ring(t.Context(), time.Now()))
		assert.Equal(t, 1, count(e.keys(roof), "rang.relax"), "it has rung already")
	})
}

func count(keys []string, key string) int {
	n := 0
	for _, k := range keys {
		if k == key {
			n++
		}
	}
	return n
}

// sheet walks a job to the relaxing sheet.
func sheet(t *testing.T, r *runner.Runner, job string) {
	t.Helper()
	answers := map[string]string{"built": "1", "covering": "1", "guarded": "yes", "length": "4200 3000", "edges": "1 2 3 2", "clear-span": "2850", "wall-above": "2400", "site": "80",
		"anchor-size": "12 150 47", "board": "2400 1200", "deck-damp": "14", "bed-joint": "188", "dust-left": "no"}
	for range 200 {
		s, err := r.State(t.Context(), job)
		require.NoError(t, err)
		id := flow.StepNow(s)
		text, ok := answers[id]
		spec, _ := flow.Lookup(id)
		switch {
		case id == "relax":
			text = "laid"
		case ok:
		case s.Pending != nil, spec.Offer == nil:
			text = "yes"
		default:
			text = "."
		}
		_, err = r.Handle(t.Context(), job, talk.Input{At: time.Now(), By: ann, Reader: string(roof), What: talk.Said{Text: text}})
		require.NoError(t, err)
		if id == "relax" {
			return
		}
	}
	t.Fatal("never came to the sheet")
}

// Two people answering at once: every answer is in the record once, in one order.
func TestManyAnswerAtOnce(t *testing.T) {
	s := setUp(t)
	var wg sync.WaitGroup
	const each = 20
	for _, who := range []talk.Person{ann, bo} {
		wg.Go(func() {
			for i := range each {
				_, err := s.r.Handle(t.Context(), s.job, talk.Input{At: s.now, By: who, Reader: "test:" + who.ID, Key: fmt.Sprintf("%s-%d", who.ID, i), What: talk.Said{Text: fmt.Sprintf("note %d", i)}})
				assert.NoError(t, err)
			}
		})
	}
	wg.Wait()
	records, err := s.r.Journal.Read(t.Context(), s.job, 0, 1000)
	require.NoError(t, err)
	_, err = event.VerifyChain(records)
	require.NoError(t, err)
	notes := map[string]int{}
	for _, rec := range records {
		e, err := rec.Open()
		require.NoError(t, err)
		if _, ok := e.Event.(event.Noted); ok {
			notes[string(e.Cause)]++
		}
	}
	assert.Len(t, notes, 2*each)
}

// A job whose record was tampered with is not gone on with.
func TestATamperedRecordStopsTheJob(t *testing.T) {
	s := setUp(t)
	s.say(ann, roof, "1", "full")
	bad := &tampered{Journal: s.r.Journal}
	r := &runner.Runner{Journal: bad, Speaker: s.ear, Now: time.Now, NewID: func() string { return "x" }, Salt: func(b []byte) { clear(b) }}
	_, err := r.State(t.Context(), s.job)
	var broken *event.BrokenError
	require.ErrorAs(t, err, &broken)
	assert.EqualValues(t, 2, broken.Seq)
}

// tampered changes one value of the second event as it is read.
type tampered struct{ runner.Journal }

func (j *tampered) Read(ctx context.Context, stream string, after uint64, limit int) ([]event.Record, error) {
	records, err := j.Journal.Read(ctx, stream, after, limit)
	for i := range records {
		if records[i].Seq == 2 {
			records[i].Leaves[len(records[i].Leaves)-1].Value = []byte(`"changed"`)
		}
	}
	return records, err
}

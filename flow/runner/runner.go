package runner

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"log/slog"
	"sync"
	"time"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// Speaker puts a message before a reader. It returns an id of the message where
// the channel has one. An error leaves the reader's mark where it was, and the
// same words are derived again later.
type Speaker interface {
	Speak(ctx context.Context, m Message) (id string, err error)
}

// Message is what one reader is told at once.
type Message struct {
	Job     string
	Name    string // the job's name, to say which one where several are open
	Reader  event.Reader
	To      talk.Person
	Replies []talk.Reply
	Alarm   bool // overtakes whatever waits
}

// Runner is the one loop with effects. Its fields are set before first use.
type Runner struct {
	Journal Journal
	Speaker Speaker
	Now     func() time.Time
	NewID   func() string // a short word, new each time
	Salt    func([]byte)  // random bytes
	Log     *slog.Logger

	mu      sync.Mutex
	lanes   map[string]*lane
	people  map[event.Reader]talk.Person
	wake    chan struct{}
	seeking map[string]bool
	seekers sync.WaitGroup
	book    shelf
}

// lane holds one job: inputs to it are worked out one after the other.
type lane struct {
	mu    sync.Mutex
	state flow.State
	head  event.Head
	prev  flow.State // the state before the last commit, for the readers that kept up
	prevN uint64
	known bool
}

// Summary is the line the list of jobs is made of.
type Summary struct {
	Name   string    `json:"name"`
	Status string    `json:"status"`
	Phase  string    `json:"phase,omitempty"`
	Step   string    `json:"step,omitempty"`
	Away   bool      `json:"away,omitempty"`
	Last   time.Time `json:"last"`
}

// page is how many records are read at once; no read transaction is held
// between pages.
const page = 512

// lateMessage is how long a message may be on its way and still count as of now.
const lateMessage = 30 * time.Second

// retries bounds how often an input is stepped again because somebody else
// wrote to the job meanwhile.
const retries = 8

func (r *Runner) lane(job string) *lane {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.lanes == nil {
		r.lanes = map[string]*lane{}
	}
	l := r.lanes[job]
	if l == nil {
		l = &lane{}
		r.lanes[job] = l
	}
	return l
}

// Attach says who reads at a place. Without it a reader is told things as a
// builder without a name.
func (r *Runner) Attach(reader event.Reader, who talk.Person) {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.people == nil {
		r.people = map[event.Reader]talk.Person{}
	}
	r.people[reader] = who
}

func (r *Runner) person(reader event.Reader) talk.Person {
	r.mu.Lock()
	defer r.mu.Unlock()
	if p, ok := r.people[reader]; ok {
		return p
	}
	return talk.Person{Role: "builder"}
}

// fresh brings the lane up to the journal. The caller holds the lane.
func (r *Runner) fresh(ctx context.Context, job string, l *lane) error {
	head, err := r.Journal.Head(ctx, job)
	if err != nil {
		return err
	}
	if l.known && l.head == head {
		return nil
	}
	if !l.known || head.Seq < l.head.Seq {
		l.state, l.head = flow.State{}, event.Head{}
	}
	l.state, l.head, err = r.fold(ctx, job, l.state, l.head, 0)
	l.known = err == nil
	l.prev, l.prevN = l.state, l.head.Seq
	return err
}

// fold reads on from where a state stands, up to a sequence number or the end
// (0), verifying the chain as it goes: a job that was tampered with is not
// gone on with.
func (r *Runner) fold(ctx context.Context, job string, s flow.State, head event.Head, upTo uint64) (flow.State, event.Head, error) {
	for {
		records, err := r.Journal.Read(ctx, job, head.Seq, page)
		if err != nil {
			return s, head, err
		}
		for _, rec := range records {
			if upTo > 0 && rec.Seq > upTo {
				return s, head, nil
			}
			if err := rec.Verify(head); err != nil {
				return s, head, fmt.Errorf("job %s: %w", job, err)
			}
			e, err := rec.Open()
			if err != nil {
				return s, head, fmt.Errorf("job %s: %w", job, err)
			}
			s, head = flow.Apply(s, e), rec.Head()
		}
		if len(records) < page {
			return s, head, nil
		}
	}
}

// Forget drops what is remembered of a job, after its record was changed by
// erasing: it is read anew when it is needed.
func (r *Runner) Forget(job string) {
	l := r.lane(job)
	l.mu.Lock()
	defer l.mu.Unlock()
	l.state, l.head, l.prev, l.prevN, l.known = flow.State{}, event.Head{}, flow.State{}, 0, false
}

// State returns where a job stands.
func (r *Runner) State(ctx context.Context, job string) (flow.State, error) {
	l := r.lane(job)
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := r.fresh(ctx, job, l); err != nil {
		return flow.State{}, err
	}
	if l.head.Seq == 0 {
		return flow.State{}, fmt.Errorf("job %q: %w", job, event.ErrUnknown)
	}
	return l.state, nil
}

// Begin starts a job and returns its id. A message that was acted on before
// starts nothing and returns an empty id.
func (r *Runner) Begin(ctx context.Context, in talk.Input) (string, error) {
	if begun, ok := in.What.(talk.Begun); ok {
		known, err := r.Known(ctx, begun)
		if err != nil {
			return "", err
		}
		in.What = known
	}
	for range retries {
		id := r.NewID()
		head, err := r.Journal.Head(ctx, id)
		if err != nil {
			return "", err
		}
		if head.Seq != 0 || id == event.Book {
			continue // the word is taken
		}
		already, err := r.Handle(ctx, id, in)
		if already {
			return "", err
		}
		return id, err
	}
	return "", errors.New("no free name for a new job found")
}

// Handle works out one input to a job: due clocks first, then step, commit,
// deliver. A message that comes long after it was sent comes before the clocks
// that nobody could ring meanwhile: a sheet that was down in time needs no alarm.
// already says that the message had been acted on before; then nothing
// changes and the reader is shown the open question again.
func (r *Runner) Handle(ctx context.Context, job string, in talk.Input) (already bool, err error) {
	late := in.At.Sub(in.When()) > lateMessage
	if !late {
		if err := r.ringJob(ctx, job, in.At); err != nil {
			return false, err
		}
	}
	already, err = r.commit(ctx, job, in)
	if err != nil {
		return already, err
	}
	if late {
		if err := r.ringJob(ctx, job, in.At); err != nil {
			return already, err
		}
	}
	return already, r.Deliver(ctx, job, event.Reader(in.Reader), already)
}

// commit steps an input and writes what came of it.
func (r *Runner) commit(ctx context.Context, job string, in talk.Input) (already bool, err error) {
	l := r.lane(job)
	l.mu.Lock()
	defer l.mu.Unlock()
	for range retries {
		if err := r.fresh(ctx, job, l); err != nil {
			return false, err
		}
		if in.Reader != "" {
			mark, err := r.Journal.Mark(ctx, job, event.Reader(in.Reader))
			if err != nil {
				return false, err
			}
			in.Asked = mark.Asked
		}
		out := flow.Step(l.state, in)
		part := event.Part{Stream: job, Expect: l.head, Clocks: out.Clocks}
		state, head := l.state, l.head
		for _, e := range out.Events {
			rec, err := event.Seal(head, e, r.Salt)
			if err != nil {
				return false, err
			}
			part.Records = append(part.Records, rec)
			state, head = flow.Apply(state, e), rec.Head()
		}
		if part.Summary, err = json.Marshal(Summarize(state)); err != nil {
			return false, err
		}
		c := event.Commit{Parts: []event.Part{part}}
		if len(out.Book) > 0 {
			kept, err := r.book.entry(ctx, r.Journal, out.Book, r.Salt)
			if err != nil {
				return false, err
			}
			c.Parts = append(c.Parts, kept)
		}
		if in.Key != "" {
			c.Seen = []event.SeenKey{event.SeenKey(in.Key)}
		}
		err = r.Journal.Commit(ctx, c)
		switch {
		case errors.Is(err, event.ErrSeen):
			return true, nil
		case errors.Is(err, event.ErrConflict):
			l.known = false
			continue
		case err != nil:
			l.known = false
			return false, err
		}
		l.prev, l.prevN = l.state, l.head.Seq
		l.state, l.head, l.known = state, head, true
		r.nudge()
		r.seek(ctx, job, state)
		return false, nil
	}
	return false, fmt.Errorf("job %s: %w", job, event.ErrConflict)
}

// Summarize makes the line for the list of jobs.
func Summarize(s flow.State) Summary {
	return Summary{Name: s.Name, Status: s.Status, Phase: flow.PhaseNow(s), Step: flow.StepNow(s), Away: s.Away, Last: s.LastAt}
}

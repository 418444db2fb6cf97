package runner

import (
	"context"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// Deliver tells every reader of a job what it has not been told yet. at is the
// reader that has just spoken: it is told something even if nothing is new.
func (r *Runner) Deliver(ctx context.Context, job string, at event.Reader, again bool) error {
	readers, err := r.Journal.Readers(ctx, job)
	if err != nil {
		return err
	}
	var first error
	if at != "" {
		first = r.tell(ctx, job, at, telling{spoke: true, again: again})
	}
	for reader := range readers {
		if reader == at {
			continue
		}
		if err := r.tell(ctx, job, reader, telling{}); err != nil && first == nil {
			first = err
		}
	}
	return first
}

// Welcome shows a reader where the job stands: what it missed if it was here
// before, else where we are and the open question, never the history.
func (r *Runner) Welcome(ctx context.Context, job string, reader event.Reader) error {
	return r.tell(ctx, job, reader, telling{again: true, place: true})
}

// telling is how a reader is brought up to date.
type telling struct {
	spoke bool // it has just said something, and is answered whatever is new
	again bool // the question is asked even if nothing is new
	place bool // where we are comes first
}

// tell brings one reader up to date.
func (r *Runner) tell(ctx context.Context, job string, reader event.Reader, how telling) error {
	l := r.lane(job)
	l.mu.Lock()
	defer l.mu.Unlock()
	if err := r.fresh(ctx, job, l); err != nil {
		return err
	}
	mark, err := r.Journal.Mark(ctx, job, reader) // another hand may have told it meanwhile
	if err != nil {
		return err
	}
	if mark.Seq == l.head.Seq && !how.again {
		return nil
	}
	to := r.person(reader)
	m := Message{Job: job, Name: l.state.Name, Reader: reader, To: to}
	late := mark.Seq == 0 && l.prevN > 1 // not here when the job began
	if late || (how.place && mark.Seq == l.head.Seq) {
		m.Replies = flow.Whereabouts(l.state)
	} else if err := r.since(ctx, job, l, mark.Seq, &m); err != nil {
		return err
	}
	// Who has nothing new to hear and stands before the same question is left in
	// peace: there may be wet glue in those hands. Who has just spoken is answered.
	quiet := len(m.Replies) == 0 && !how.spoke && !how.again && mark.Seq > 0 && mark.Asked == flow.Question(l.state)
	if !quiet {
		m.Replies = append(m.Replies, flow.Prompt(l.state, to)...)
	}
	if len(m.Replies) > 0 {
		id, err := r.Speaker.Speak(ctx, m)
		if err != nil {
			return err
		}
		mark.MessageID = id
	}
	r.seek(ctx, job, l.state) // after a restart nobody is searching yet
	mark.Seq, mark.Asked, mark.Attempts = l.head.Seq, flow.Question(l.state), 0
	return r.Journal.SetMark(ctx, job, reader, mark)
}

// since adds what has happened after a sequence number.
func (r *Runner) since(ctx context.Context, job string, l *lane, seq uint64, m *Message) error {
	state := flow.State{}
	switch {
	case seq == l.head.Seq:
		return nil
	case seq == l.prevN:
		state = l.prev
	case seq > 0:
		s, _, err := r.fold(ctx, job, flow.State{}, event.Head{}, seq)
		if err != nil {
			return err
		}
		state = s
	}
	for {
		records, err := r.Journal.Read(ctx, job, seq, page)
		if err != nil {
			return err
		}
		for _, rec := range records {
			e, err := rec.Open()
			if err != nil {
				return err
			}
			if said := flow.Say(state, e, m.To); len(said) > 0 {
				m.Replies = append(m.Replies, said...)
				m.Alarm = m.Alarm || alarming(said)
			}
			state, seq = flow.Apply(state, e), rec.Seq
		}
		if len(records) < page {
			return nil
		}
	}
}

func alarming(replies []talk.Reply) bool {
	for _, reply := range replies {
		if t, ok := reply.(talk.Tell); ok && t.Level == talk.Alarm {
			return true
		}
	}
	return false
}

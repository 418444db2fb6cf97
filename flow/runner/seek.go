package runner

import (
	"context"

	"chargehand/flow"
	"chargehand/flow/talk"
)

// seek begins the long search a job wants, off its lane: whoever talks to the job
// meanwhile is answered as ever. What it finds comes back as an input. A process
// that dies in between loses nothing: the job still wants it.
func (r *Runner) seek(ctx context.Context, job string, s flow.State) {
	want, ok := flow.Wanted(s)
	if !ok {
		return
	}
	key := job + "/" + want.Of
	r.mu.Lock()
	if r.seeking == nil {
		r.seeking = map[string]bool{}
	}
	busy := r.seeking[key]
	r.seeking[key] = true
	r.mu.Unlock()
	if busy {
		return
	}
	ctx = context.WithoutCancel(ctx) // the search outlives the message that made it wanted
	r.seekers.Go(func() {
		found := want.Run()
		if err := r.found(ctx, job, found); err != nil && r.Log != nil {
			r.Log.Warn("a search could not be kept", "job", job, "err", err)
		}
		r.mu.Lock()
		delete(r.seeking, key)
		r.mu.Unlock()
	})
}

// found hands in what a search found and tells the job's readers.
func (r *Runner) found(ctx context.Context, job string, found talk.Solved) error {
	s, err := r.State(ctx, job)
	if err != nil {
		return err
	}
	at := r.Now()
	if s.LastAt.After(at) {
		at = s.LastAt // a script names times of its own
	}
	if _, err := r.commit(ctx, job, talk.Input{At: at, By: system, What: found}); err != nil {
		return err
	}
	return r.Deliver(ctx, job, "", false)
}

// Idle waits until no long search is under way: before a journal is closed, and
// where what is said must not hang on how fast a machine is.
func (r *Runner) Idle() { r.seekers.Wait() }

package runner

import (
	"context"
	"slices"
	"time"

	"chargehand/flow/event"
	"chargehand/flow/talk"
)

// nap is the longest the clock loop sleeps before it looks at the wall clock
// again: a machine that was asleep, or whose clock was set, is noticed then.
const nap = 15 * time.Second

// ringLimit bounds how many due clocks are taken at once.
const ringLimit = 256

var system = talk.Person{ID: "system", Role: "system"}

// Run rings clocks as they fall due until ctx ends. Clocks that fell due while
// no process ran ring at once, and say how late they are.
func (r *Runner) Run(ctx context.Context) error {
	for {
		if err := r.Ring(ctx, r.Now()); err != nil {
			return err
		}
		wait := nap
		next, ok, err := r.Journal.NextDue(ctx)
		if err != nil {
			return err
		}
		if ok {
			// Round strips the monotonic reading: due times are wall-clock times.
			wait = min(nap, max(0, next.Due.Sub(r.Now().Round(0))))
		}
		timer := time.NewTimer(wait)
		select {
		case <-ctx.Done():
			timer.Stop()
			return ctx.Err()
		case <-timer.C:
		case <-r.woken():
			timer.Stop()
		}
	}
}

func (r *Runner) woken() chan struct{} {
	r.mu.Lock()
	defer r.mu.Unlock()
	if r.wake == nil {
		r.wake = make(chan struct{}, 1)
	}
	return r.wake
}

// nudge lets the clock loop look again, because the set of clocks has changed.
func (r *Runner) nudge() {
	select {
	case r.woken() <- struct{}{}:
	default:
	}
}

// Ring takes every clock due at or before now, of all jobs, and then tells each
// job's readers at once.
func (r *Runner) Ring(ctx context.Context, now time.Time) error {
	for {
		due, err := r.Journal.Due(ctx, now, ringLimit)
		if err != nil || len(due) == 0 {
			return err
		}
		var jobs []string
		for _, c := range due {
			if err := r.ring(ctx, c, now); err != nil {
				return err
			}
			if !slices.Contains(jobs, c.Stream) {
				jobs = append(jobs, c.Stream)
			}
		}
		for _, job := range jobs {
			r.announce(ctx, job)
		}
	}
}

// ringJob takes the due clocks of one job, so that they come before an input
// that is later than they are.
func (r *Runner) ringJob(ctx context.Context, job string, now time.Time) error {
	clocks, err := r.Journal.Clocks(ctx, job)
	if err != nil {
		return err
	}
	rang := false
	for _, c := range clocks {
		if c.Due.After(now) {
			break
		}
		rang = true
		if err := r.ring(ctx, event.DueClock{Stream: job, Clock: c}, now); err != nil {
			return err
		}
	}
	if rang {
		r.announce(ctx, job)
	}
	return nil
}

func (r *Runner) ring(ctx context.Context, c event.DueClock, now time.Time) error {
	_, err := r.commit(ctx, c.Stream, talk.Input{At: now, By: system, What: talk.Rang{Clock: c.Name, Due: c.Due}})
	return err
}

// announce tells what has rung. A reader that can't be told now is told with the
// next thing: the clock has rung for good once it is in the record.
func (r *Runner) announce(ctx context.Context, job string) {
	if err := r.Deliver(ctx, job, "", false); err != nil && r.Log != nil {
		r.Log.Warn("alarm not delivered", "job", job, "err", err)
	}
}

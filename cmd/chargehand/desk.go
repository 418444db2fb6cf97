package main

import (
	"context"
	"errors"

	"chargehand/flow/runner"
	"chargehand/flow/talk"
	"chargehand/store/bolt"
)

// desk is a store that this process has open, with the runner that works on it.
type desk struct {
	w    world
	db   *bolt.DB
	feed *feed
	r    *runner.Runner
}

// atDesk puts a runner on an open store. A desk without a speaker is that of a
// command which is over in a moment: what it writes is told to the job's readers
// when somebody talks to them again.
func atDesk(w world, db *bolt.DB, speaker runner.Speaker) *desk {
	d := &desk{w: w, db: db, feed: newFeed(db)}
	if speaker != nil {
		d.r = newRunner(w, d.feed, speaker)
		return d
	}
	d.r = newRunner(w, d.feed, nobody{})
	d.r.Log = nil // that nobody could be told is no news here
	return d
}

// errNobody leaves a reader's mark where it was.
var errNobody = errors.New("nobody is talked to here")

type nobody struct{}

func (nobody) Speak(context.Context, runner.Message) (string, error) { return "", errNobody }

// operator is who works on the store by command: the person of this machine.
var operator = talk.Person{ID: "local", Role: "builder"}

// handle works out what the operator does to a job.
func (d *desk) handle(ctx context.Context, job string, what talk.What) error {
	_, err := d.r.Handle(ctx, job, talk.Input{At: d.w.Now(), By: operator, What: what})
	if errors.Is(err, errNobody) {
		return nil // it is in the record; only the telling waits
	}
	return err
}

func (d *desk) Close() error {
	d.r.Idle()
	return d.db.Close()
}

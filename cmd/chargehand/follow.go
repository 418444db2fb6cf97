package main

import (
	"context"
	"errors"
	"os"
	"time"

	"github.com/spf13/cobra"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
	"chargehand/messages/term"
	"chargehand/store"
)

// follower is who follows here: told, not asked.
var follower = talk.Person{ID: "follower", Role: "follower"}

// lookEvery is how often a store that nobody has open is looked at.
const lookEvery = time.Second

func followCommand(w world, o *options) *cobra.Command {
	var lang string
	c := &cobra.Command{
		Use:   "follow JOB",
		Short: "Be told live what happens on a job, until Ctrl-C",
		Long: `follow says where the job stands and then whatever is said on it, as it comes:
beside a running chat or server, or of a job that is taken up later. It asks
nothing and changes nothing.`,
		Args: exactly(1),
		RunE: func(c *cobra.Command, args []string) error {
			f := following{w: w, o: *o, to: follower}
			f.to.Lang = lang
			f.bell = term.IsTerminal(w.In, w.Out)
			return f.run(c.Context(), args[0])
		},
	}
	c.Flags().StringVar(&lang, "lang", "", "language: "+languages())
	return c
}

// following is one reader keeping up with a job.
type following struct {
	w    world
	o    options
	to   talk.Person
	bell bool

	job   string
	state flow.State
	head  event.Head
	seen  os.FileInfo // the file as it was when it was last read
}

func (f *following) run(ctx context.Context, want string) error {
	k, err := enter(ctx, f.w, f.o, toRead)
	if err != nil {
		return err
	}
	j, err := theJob(ctx, k, want)
	if err == nil {
		f.job = j.ID
		err = f.catchUp(ctx, k)
	}
	if err == nil && k.there != nil {
		err = f.stay(ctx, k)
	}
	if err := errors.Join(err, k.Close()); err != nil {
		return err
	}
	for {
		if err := f.w.Sleep(ctx, lookEvery); err != nil {
			return err
		}
		if err := f.look(ctx); err != nil {
			return err
		}
	}
}

// catchUp folds what has been, and says where the job stands, not how it came.
func (f *following) catchUp(ctx context.Context, k *keeper) error {
	records, err := history(ctx, k, f.job)
	if err != nil {
		return err
	}
	if _, f.state, err = openAll(records); err != nil {
		return err
	}
	f.head = records[len(records)-1].Head()
	return f.tell(flow.Whereabouts(f.state))
}

// stay is told by the running process, until that ends.
func (f *following) stay(ctx context.Context, k *keeper) error {
	for {
		if _, err := f.news(ctx, k, true); errors.Is(err, errEnded) {
			return nil // the store is looked at from here on
		} else if err != nil {
			return err
		}
	}
}

// look reads a store that has changed since the last look; whoever has it open
// now is stayed with.
func (f *following) look(ctx context.Context) error {
	_, listening := os.Lstat(socketOf(f.o.db))
	now, err := os.Stat(f.o.db)
	if err == nil && listening != nil && f.seen != nil && now.ModTime().Equal(f.seen.ModTime()) && now.Size() == f.seen.Size() {
		return nil
	}
	k, err := enter(ctx, f.w, f.o, toRead)
	var locked *store.Locked
	if errors.As(err, &locked) {
		return nil // somebody has it for a moment
	}
	if err != nil {
		return err
	}
	if k.there != nil {
		err = f.stay(ctx, k)
	} else {
		for n := 1; n > 0 && err == nil; {
			n, err = f.news(ctx, k, false)
		}
		f.seen = now
	}
	return errors.Join(err, k.Close())
}

// errEnded means that the running process does not answer any more.
var errEnded = errors.New("the running chargehand has ended")

// news says what has happened since, and returns how many events that were.
func (f *following) news(ctx context.Context, k *keeper, wait bool) (int, error) {
	records, err := readOn(ctx, k, f.job, f.head, wait)
	var b *broken
	if err != nil && !errors.As(err, &b) && ctx.Err() == nil && k.there != nil {
		return 0, errEnded
	}
	var said []talk.Reply
	for _, r := range records {
		e, err := r.Open()
		if err != nil {
			return 0, err
		}
		said = append(said, flow.Say(f.state, e, f.to)...)
		f.state, f.head = flow.Apply(f.state, e), r.Head()
	}
	return len(records), errors.Join(f.tell(said), err)
}

func (f *following) tell(said []talk.Reply) error {
	return term.Print(f.w.Out, f.to.Lang, said, f.bell)
}

package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"

	"chargehand/store"
	"chargehand/store/bolt"
)

// keeper is who has a store: this process, or a running one that is asked.
type keeper struct {
	here  *desk
	there *caller
}

// ask has an operation done where the store is open.
func ask[In, Out any](ctx context.Context, k *keeper, op operation[In, Out], in In) (Out, error) {
	if k.there == nil {
		return op.do(ctx, k.here, in)
	}
	var out Out
	raw, err := encode(in)
	if err != nil {
		return out, err
	}
	req, err := http.NewRequestWithContext(ctx, http.MethodPost, fmt.Sprintf("http://chargehand/%d/%s", protocol, op.name), bytes.NewReader(raw))
	if err != nil {
		return out, err
	}
	err = k.there.do(req, &out)
	if ctx.Err() != nil {
		return out, ctx.Err()
	}
	return out, err
}

func (k *keeper) Close() error {
	if k.there != nil {
		k.there.Close()
		return nil
	}
	return k.here.Close()
}

// access is what a command wants of a store that nobody has open.
type access int

const (
	toRead  access = iota // beside others that read
	toWrite               // alone
)

// enter finds who has the store: the process that answers at its socket, or
// this one, which then opens it.
func enter(ctx context.Context, w world, o options, a access) (*keeper, error) {
	if _, err := os.Lstat(socketOf(o.db)); err == nil {
		if k, err := overSocket(ctx, o); k != nil || err != nil {
			return k, err
		}
	}
	db, err := openAs(o.db, a)
	var locked *store.Locked
	if errors.As(err, &locked) { // somebody has begun meanwhile
		k, err := overSocket(ctx, o)
		if k == nil && err == nil {
			err = locked
		}
		return k, err
	}
	if err != nil {
		return nil, err
	}
	for _, f := range db.Warnings() {
		fmt.Fprintln(w.Err, "chargehand:", f)
	}
	return &keeper{here: atDesk(w, db, nil)}, nil
}

func openAs(path string, a access) (*bolt.DB, error) {
	if a == toRead {
		return bolt.OpenToRead(path, bolt.Options{})
	}
	return bolt.Open(path, bolt.Options{Existing: true})
}

// overSocket is the running process, if there is one that can be asked; neither
// it nor an error means that nobody answers.
func overSocket(ctx context.Context, o options) (*keeper, error) {
	c, err := call(ctx, o.db)
	var other *otherProtocol
	switch {
	case err == nil:
		return &keeper{there: c}, nil
	case errors.As(err, &other):
		return nil, err
	}
	return nil, ctx.Err()
}

// inUse says who has a store that can't be opened, if it says so itself.
func inUse(ctx context.Context, o options, err error) error {
	var locked *store.Locked
	if !errors.As(err, &locked) {
		return err
	}
	if held := heldBy(ctx, o); held != nil {
		return held
	}
	return err
}

// heldBy is the error that names the process which answers at the store's
// socket; nil where none does.
func heldBy(ctx context.Context, o options) error {
	c, err := call(ctx, o.db)
	if err != nil {
		return nil
	}
	defer c.Close()
	return fmt.Errorf("the store %s is in use by %s: go on there; chargehand follow JOB shows here what is said", o.db, c.hello)
}

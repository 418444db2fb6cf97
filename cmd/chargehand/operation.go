package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// operation is something that is done where the store is open: in this process,
// or in the running one that has it. Both do the same; only the way differs.
type operation[In, Out any] struct {
	name string
	do   func(context.Context, *desk, In) (Out, error)
}

// nothing is no argument, or no answer.
type nothing struct{}

// served is an operation as a running process offers it.
type served interface {
	title() string
	serve(ctx context.Context, d *desk, in io.Reader) (any, error)
}

func (o operation[In, Out]) title() string { return o.name }

func (o operation[In, Out]) serve(ctx context.Context, d *desk, r io.Reader) (any, error) {
	var in In
	dec := json.NewDecoder(r)
	dec.DisallowUnknownFields() // a newer caller may ask for what is not known here
	if err := dec.Decode(&in); err != nil {
		return nil, usage{fmt.Errorf("%s: what was asked does not read: %w", o.name, err)}
	}
	return o.do(ctx, d, in)
}

// operations is everything a running process does for others.
func operations() []served {
	return []served{opJobs, opRecords, opRename, opArchive, opCheck, opBackup, opImport, opErase}
}

// encode writes JSON that keeps the bytes of records: the usual escaping of
// < > & would change them, and their seals would no longer fit.
func encode(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(v)
	return b.Bytes(), err
}

// failure is an error on its way to another process.
type failure struct {
	Text  string `json:"error"`
	Usage bool   `json:"usage,omitempty"`
}

func asFailure(err error) failure {
	var u usage
	return failure{Text: err.Error(), Usage: errors.As(err, &u)}
}

func (f failure) err() error {
	if f.Usage {
		return usage{errors.New(f.Text)}
	}
	return errors.New(f.Text)
}

package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/runner"
	"chargehand/store"
)

type importIn struct {
	Job     string            `json:"job"`
	Records []json.RawMessage `json:"records"`
}

// importOut says how many events were here before, and are now.
type importOut struct {
	Before uint64 `json:"before"`
	Now    uint64 `json:"now"`
}

var opImport = operation[importIn, importOut]{"import", func(ctx context.Context, d *desk, in importIn) (importOut, error) {
	var records []event.Record
	for _, raw := range in.Records {
		r, err := event.UnmarshalRecord(raw)
		if err != nil {
			return importOut{}, err
		}
		records = append(records, r)
	}
	if _, err := event.VerifyChain(records); err != nil {
		return importOut{}, err
	}
	for {
		out, err := d.takeIn(ctx, in.Job, records)
		if !errors.Is(err, event.ErrConflict) {
			return out, err
		}
	}
}}

// takeIn appends what a job's record here does not have yet. A record that
// goes another way than the one here is refused: nobody can say which is true.
func (d *desk) takeIn(ctx context.Context, job string, records []event.Record) (importOut, error) {
	here, err := history(ctx, &keeper{here: d}, job)
	if err != nil {
		return importOut{}, err
	}
	for i := range min(len(here), len(records)) {
		if here[i].Hash == records[i].Hash {
			continue
		}
		if i == 0 {
			return importOut{}, fmt.Errorf("there is another job with the id %s here; nothing was changed", job)
		}
		return importOut{}, fmt.Errorf("job %s was gone on with here and there: from event %d on the two differ; nothing was changed", job, i+1)
	}
	out := importOut{Before: uint64(len(here)), Now: uint64(len(here))}
	if len(records) <= len(here) {
		return out, nil
	}
	rest := records[len(here):]
	_, s, err := openAll(append(here, rest...))
	if err != nil {
		return out, err
	}
	part := event.Part{Stream: job, Records: rest, Clocks: flow.Clocks(s)}
	if len(here) > 0 {
		part.Expect = here[len(here)-1].Head()
	}
	if part.Summary, err = json.Marshal(runner.Summarize(s)); err != nil {
		return out, err
	}
	if err := d.feed.Commit(ctx, event.Commit{Parts: []event.Part{part}}); err != nil {
		return out, err
	}
	out.Now += uint64(len(rest))
	if err := d.r.Deliver(ctx, job, "", false); err != nil && !errors.Is(err, errNobody) {
		return out, fmt.Errorf("it is in the store, but its readers could not be told: %w", err)
	}
	return out, nil
}

func importCommand(w world, o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "import FILE",
		Short: "Take in an exported job, or what has come to it since",
		Long: `import verifies an exported job and takes it in. If the job is here already, what
has come to it since is added; if it was gone on with both here and there, nothing
is changed.`,
		Args: exactly(1),
		RunE: func(c *cobra.Command, args []string) error {
			f, err := openJob(args[0])
			if err != nil {
				return err
			}
			in := importIn{Job: f.Job}
			for _, r := range f.Records {
				raw, err := event.MarshalRecord(r)
				if err != nil {
					return err
				}
				in.Records = append(in.Records, raw)
			}
			k, err := enterOrMake(c.Context(), w, *o)
			if err != nil {
				return err
			}
			out, err := ask(c.Context(), k, opImport, in)
			if err := errors.Join(err, k.Close()); err != nil {
				return err
			}
			switch {
			case out.Now == out.Before:
				fmt.Fprintf(w.Out, "%s: nothing new; it is here up to event %d.\n", f.Job, out.Now)
			case out.Before == 0:
				fmt.Fprintf(w.Out, "%s: %d events taken in.\n", f.Job, out.Now)
			default:
				fmt.Fprintf(w.Out, "%s: %d events added behind %d.\n", f.Job, out.Now-out.Before, out.Before)
			}
			return nil
		},
	}
}

// openJob reads an exported job from a file.
func openJob(path string) (jobFile, error) {
	f, err := os.Open(path)
	if err != nil {
		return jobFile{}, err
	}
	defer f.Close()
	j, err := readJob(f, path)
	if errors.Is(err, errNoJobFile) {
		err = fmt.Errorf("%s: %w", path, err)
	}
	return j, err
}

// enterOrMake finds who has the store; where there is none yet it is made.
func enterOrMake(ctx context.Context, w world, o options) (*keeper, error) {
	k, err := enter(ctx, w, o, toWrite)
	var missing *store.Missing
	if !errors.As(err, &missing) {
		return k, err
	}
	db, err := open(w, o)
	if err != nil {
		return nil, err
	}
	return &keeper{here: atDesk(w, db, nil)}, nil
}

package main

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/cobra"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/runner"
	"chargehand/store"
	"chargehand/store/bolt"
)

// refold folds a job from its record and compares the clocks that follow from
// it with those the store holds.
func refold(ctx context.Context, j runner.Journal, job string) (flow.State, error) {
	var s flow.State
	var after uint64
	for {
		records, err := j.Read(ctx, job, after, 512)
		if err != nil {
			return s, err
		}
		for _, r := range records {
			e, err := r.Open()
			if err != nil {
				return s, err
			}
			s, after = flow.Apply(s, e), r.Seq
		}
		if len(records) == 0 {
			break
		}
	}
	kept, err := j.Clocks(ctx, job)
	if err != nil {
		return s, err
	}
	same := func(a, b event.Clock) bool { return a.Name == b.Name && a.Due.Equal(b.Due) }
	if want := flow.Clocks(s); !slices.EqualFunc(want, kept, same) {
		return s, fmt.Errorf("its clocks are not those of its record: the record gives %d, the store holds %d", len(want), len(kept))
	}
	return s, nil
}

func checkCommand(w world, o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "check",
		Short: "Check the file, every job's record and its clocks",
		Args:  cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			ctx := c.Context()
			db, err := bolt.Open(o.db, bolt.Options{Existing: true})
			if err != nil {
				return err
			}
			defer db.Close()
			report, err := db.Check(ctx)
			if err != nil {
				return err
			}
			return checked(ctx, w, db, report)
		},
	}
}

// checked prints a report and what folding every job adds to it.
func checked(ctx context.Context, w world, j runner.Journal, report store.Report) error {
	jobs, err := listJobs(ctx, j)
	if err != nil {
		return err
	}
	bad := len(report.Findings)
	for _, f := range report.Findings {
		fmt.Fprintln(w.Out, f)
	}
	for _, job := range jobs {
		if _, err := refold(ctx, j, job.ID); err != nil {
			bad++
			fmt.Fprintf(w.Out, "job %s: %v\n", job.ID, err)
		}
	}
	if bad > 0 {
		return quiet{errors.New("the store is not sound")}
	}
	events := uint64(0)
	for _, job := range jobs {
		events += job.Events
	}
	fmt.Fprintf(w.Out, "Sound: %d jobs, %d events, every record verifies, clocks agree.\n", len(jobs), events)
	return nil
}

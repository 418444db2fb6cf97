package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sort"
	"strings"
	"text/tabwriter"
	"time"
	"unicode"

	"github.com/spf13/cobra"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/runner"
	"chargehand/store"
)

// jobInfo is a job in the list of jobs.
type jobInfo struct {
	ID string `json:"id"`
	runner.Summary
	Events uint64 `json:"events"`
}

// live says whether the job is one to go on with.
func (j jobInfo) live() bool { return !j.Away && j.Status != flow.JobEnded }

// listJobs reads the list of jobs, the last used first.
func listJobs(ctx context.Context, j runner.Journal) ([]jobInfo, error) {
	streams, err := j.Streams(ctx)
	if err != nil {
		return nil, err
	}
	var out []jobInfo
	for _, s := range streams {
		if s.Stream == event.Book {
			continue
		}
		info := jobInfo{ID: s.Stream, Events: s.Head.Seq}
		if err := json.Unmarshal(s.Summary, &info.Summary); err != nil {
			return nil, fmt.Errorf("job %s: its line in the list does not read: %w", s.Stream, err)
		}
		out = append(out, info)
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].Last.After(out[b].Last) })
	return out, nil
}

// findJob finds a job by id or by name.
func findJob(jobs []jobInfo, want string) (jobInfo, error) {
	var named []jobInfo
	for _, j := range jobs {
		if j.ID == want {
			return j, nil
		}
		if strings.EqualFold(j.Name, want) {
			named = append(named, j)
		}
	}
	switch len(named) {
	case 1:
		return named[0], nil
	case 0:
		return jobInfo{}, usage{fmt.Errorf("there is no job %q; chargehand jobs lists them", want)}
	}
	return jobInfo{}, usage{fmt.Errorf("%d jobs are called %q; say which by its id:\n%s", len(named), want, table(named))}
}

// table lists jobs for people.
func table(jobs []jobInfo) string {
	var b strings.Builder
	t := tabwriter.NewWriter(&b, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "id\tname\tstate\tphase\tlast used")
	for _, j := range jobs {
		state := j.Status
		if j.Away {
			state += ", put away"
		}
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\n", j.ID, printable(j.Name), state, j.Phase, j.Last.Local().Format(time.DateTime))
	}
	_ = t.Flush() // a strings.Builder takes everything
	return strings.TrimRight(b.String(), "\n")
}

// printable keeps a name, which can come from another machine, from moving the
// cursor or the colours.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsPrint(r) {
			return r
		}
		return -1
	}, s)
}

var opJobs = operation[nothing, []jobInfo]{"jobs", func(ctx context.Context, d *desk, _ nothing) ([]jobInfo, error) {
	return listJobs(ctx, d.feed)
}}

// theJob finds a job by id or name where the store is kept.
func theJob(ctx context.Context, k *keeper, want string) (jobInfo, error) {
	jobs, err := ask(ctx, k, opJobs, nothing{})
	if err != nil {
		return jobInfo{}, err
	}
	return findJob(jobs, want)
}

// allJobs lists the jobs; none where there is no store yet.
func allJobs(ctx context.Context, w world, o options) ([]jobInfo, error) {
	k, err := enter(ctx, w, o, toRead)
	var missing *store.Missing
	if errors.As(err, &missing) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	defer k.Close()
	return ask(ctx, k, opJobs, nothing{})
}

func jobsCommand(w world, o *options) *cobra.Command {
	var asJSON, all bool
	c := &cobra.Command{
		Use:   "jobs",
		Short: "List the jobs",
		Args:  cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			jobs, err := allJobs(c.Context(), w, *o)
			if err != nil {
				return err
			}
			var shown []jobInfo
			for _, j := range jobs {
				if all || !j.Away {
					shown = append(shown, j)
				}
			}
			if asJSON {
				return json.NewEncoder(w.Out).Encode(shown)
			}
			if len(shown) == 0 {
				fmt.Fprintln(w.Out, "No jobs yet.")
				return nil
			}
			fmt.Fprintln(w.Out, table(shown))
			return nil
		},
	}
	c.Flags().BoolVar(&asJSON, "json", false, "as JSON")
	c.Flags().BoolVar(&all, "all", false, "also the jobs put away")
	return c
}

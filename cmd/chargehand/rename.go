package main

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"chargehand/flow/talk"
)

type renameIn struct {
	Job  string `json:"job"`
	Name string `json:"name"`
}

var opRename = operation[renameIn, nothing]{"rename", func(ctx context.Context, d *desk, in renameIn) (nothing, error) {
	return nothing{}, d.handle(ctx, in.Job, talk.Renamed{Name: in.Name})
}}

func renameCommand(w world, o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "rename JOB NAME",
		Short: "Give a job another name",
		Args:  exactly(2),
		RunE: func(c *cobra.Command, args []string) error {
			name := strings.TrimSpace(args[1])
			if name == "" || name != printable(name) {
				return usage{errors.New("a name wants at least one letter, and none that can't be printed")}
			}
			return onJob(c.Context(), w, *o, args[0], func(k *keeper, j jobInfo) error {
				if _, err := ask(c.Context(), k, opRename, renameIn{j.ID, name}); err != nil {
					return err
				}
				fmt.Fprintf(w.Out, "%s is now called %s.\n", j.ID, name)
				return nil
			})
		},
	}
}

type archiveIn struct {
	Job  string `json:"job"`
	Away bool   `json:"away"`
}

var opArchive = operation[archiveIn, nothing]{"archive", func(ctx context.Context, d *desk, in archiveIn) (nothing, error) {
	return nothing{}, d.handle(ctx, in.Job, talk.Archived{Away: in.Away})
}}

func archiveCommand(w world, o *options) *cobra.Command {
	var back bool
	c := &cobra.Command{
		Use:   "archive JOB",
		Short: "Put a job away, out of the list; its record stays",
		Args:  exactly(1),
		RunE: func(c *cobra.Command, args []string) error {
			return onJob(c.Context(), w, *o, args[0], func(k *keeper, j jobInfo) error {
				done := "put away"
				if back {
					done = "back in the list"
				}
				if j.Away != back {
					fmt.Fprintf(w.Out, "%s (%s) is %s already.\n", j.ID, printable(j.Name), done)
					return nil
				}
				if _, err := ask(c.Context(), k, opArchive, archiveIn{j.ID, !back}); err != nil {
					return err
				}
				fmt.Fprintf(w.Out, "%s (%s) is %s.\n", j.ID, printable(j.Name), done)
				return nil
			})
		},
	}
	c.Flags().BoolVar(&back, "back", false, "bring it back into the list")
	return c
}

// onJob does something to a job, where the store is kept.
func onJob(ctx context.Context, w world, o options, want string, do func(*keeper, jobInfo) error) error {
	k, err := enter(ctx, w, o, toWrite)
	if err != nil {
		return err
	}
	j, err := theJob(ctx, k, want)
	if err == nil {
		err = do(k, j)
	}
	return errors.Join(err, k.Close())
}

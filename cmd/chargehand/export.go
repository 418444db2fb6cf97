package main

import (
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"

	"chargehand/store"
)

func exportCommand(w world, o *options) *cobra.Command {
	var out string
	c := &cobra.Command{
		Use:   "export JOB",
		Short: "Write a job's whole record as JSON Lines, for another machine to go on with",
		Args:  exactly(1),
		RunE: func(c *cobra.Command, args []string) error {
			t, err := takeRecord(c.Context(), w, *o, args[0])
			if err == nil {
				err = t.broken
			}
			if err != nil {
				return err
			}
			if out == "" {
				return writeJob(w.Out, t.job.ID, t.records)
			}
			if err := writeNew(out, func(f *os.File) error { return writeJob(f, t.job.ID, t.records) }); err != nil {
				return err
			}
			fmt.Fprintf(w.Out, "%s (%s): %d events written to %s. Photos are named in it, not carried.\n", t.job.ID, printable(t.job.Name), len(t.records), out)
			return nil
		},
	}
	c.Flags().StringVar(&out, "out", "", "write to this file, which must not exist yet")
	return c
}

// writeNew writes a file that must not exist, durably. One that could not be
// written whole is taken away again.
func writeNew(path string, write func(*os.File) error) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if errors.Is(err, os.ErrExist) {
		return &store.Exists{Path: path}
	}
	if err != nil {
		return err
	}
	if err := errors.Join(write(f), f.Sync(), f.Close()); err != nil {
		return errors.Join(err, os.Remove(path))
	}
	return nil
}

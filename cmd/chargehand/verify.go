package main

import (
	"errors"
	"fmt"
	"os"

	"github.com/spf13/cobra"
)

func verifyCommand(w world) *cobra.Command {
	return &cobra.Command{
		Use:   "verify FILE",
		Short: "Verify an exported job, a backup or a store: names the first bad event",
		Args:  exactly(1),
		RunE: func(c *cobra.Command, args []string) error {
			isJob, err := beginsLikeJob(args[0])
			if err != nil {
				return err
			}
			if isJob {
				return verifyJob(w, args[0])
			}
			s, err := examineStore(c.Context(), w, args[0], false)
			if err != nil {
				return err
			}
			return s.print(w)
		},
	}
}

// beginsLikeJob tells an exported job, which is text, from a store.
func beginsLikeJob(path string) (bool, error) {
	f, err := os.Open(path)
	if err != nil {
		return false, err
	}
	defer f.Close()
	first := make([]byte, 1)
	n, _ := f.Read(first) // an empty file is no job, and the store says what it is
	return n == 1 && first[0] == '{', nil
}

// verifyJob verifies an exported job, and that this program understands it.
func verifyJob(w world, path string) error {
	f, err := openJob(path)
	var bad *badFile
	if errors.As(err, &bad) {
		fmt.Fprintf(w.Out, "job %s: event %d does not hold: %s\n", bad.Job, bad.Seq, bad.Why)
		return quiet{err}
	}
	if err != nil {
		return err
	}
	_, s, err := openAll(f.Records)
	if err != nil {
		return err
	}
	erased := 0
	for _, r := range f.Records {
		for _, l := range r.Leaves {
			if l.Erased() {
				erased++
			}
		}
	}
	fmt.Fprintf(w.Out, "Sound: job %s (%s), %d events, every one verifies, ends in %s.\n", f.Job, printable(s.Name), len(f.Records), f.Head.Hash)
	if erased > 0 {
		fmt.Fprintf(w.Out, "%d values in it were erased.\n", erased)
	}
	if len(f.Photos) > 0 {
		fmt.Fprintf(w.Out, "It speaks of %d photos, which it does not carry.\n", len(f.Photos))
	}
	return nil
}

package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"chargehand/store/bolt"
)

func compactCommand(w world, o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "compact",
		Short: "Rewrite the file without its free pages and what was erased from it",
		Args:  exactly(0),
		RunE: func(c *cobra.Command, _ []string) error {
			if err := heldBy(c.Context(), *o); err != nil {
				return err
			}
			before, after, err := bolt.Compact(c.Context(), o.db)
			if err != nil {
				return inUse(c.Context(), *o, err)
			}
			fmt.Fprintf(w.Out, "%d kB before, %d kB now.\n", before/1024, after/1024)
			return nil
		},
	}
}

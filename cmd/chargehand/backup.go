package main

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"chargehand/store/bolt"
)

// backupIn names the file by its whole path: the process that makes it may have
// been started in another folder.
type backupIn struct {
	To string `json:"to"`
}

var opBackup = operation[backupIn, nothing]{"backup", func(ctx context.Context, d *desk, in backupIn) (nothing, error) {
	return nothing{}, d.db.BackupTo(ctx, in.To)
}}

func backupCommand(w world, o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "backup FILE",
		Short: "Copy the store and its photos to FILE, also while a chat runs",
		Long: `backup copies the store as it is at one moment, checks the copy, and only then
gives it its name. Photos go to FILE.photos. Nothing is overwritten.`,
		Args: exactly(1),
		RunE: func(c *cobra.Command, args []string) error {
			to, err := filepath.Abs(args[0])
			if err != nil {
				return err
			}
			k, err := enter(c.Context(), w, *o, toRead)
			if err != nil {
				return err
			}
			_, err = ask(c.Context(), k, opBackup, backupIn{to})
			if err := errors.Join(err, k.Close()); err != nil {
				return err
			}
			fmt.Fprintf(w.Out, "Copied to %s.\n", to)
			return nil
		},
	}
}

func restoreCommand(w world, o *options) *cobra.Command {
	return &cobra.Command{
		Use:   "restore FILE",
		Short: "Put a backup in the place of a store that is gone",
		Long: `restore checks the backup FILE and puts a copy of it, with its photos, where jobs
are kept (--db). If there is a store already it is not touched: move it away first.`,
		Args: exactly(1),
		RunE: func(c *cobra.Command, args []string) error {
			if err := os.MkdirAll(filepath.Dir(o.db), 0o700); err != nil {
				return err
			}
			if err := bolt.Restore(c.Context(), args[0], o.db); err != nil {
				return err
			}
			fmt.Fprintf(w.Out, "Restored to %s.\n", o.db)
			return nil
		},
	}
}

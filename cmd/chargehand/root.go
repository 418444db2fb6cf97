package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"runtime/debug"

	"github.com/spf13/cobra"

	"chargehand/flow/runner"
	"chargehand/store/bolt"
)

// Exit codes.
const (
	exitOK    = 0
	exitError = 1 // something failed
	exitUsage = 2 // the call can't be acted on as it stands
)

// usage is an error of the call, not of the machine.
type usage struct{ error }

// quiet is an error that has been told already.
type quiet struct{ error }

// quietUsage is an error of the call that has been told already.
type quietUsage struct{ error }

// run is the whole program in a world.
func run(args []string, w world) int {
	ctx, stop := w.Signal(context.Background())
	defer stop()
	root := newRoot(w)
	root.SetArgs(args)
	root.SetIn(w.In)
	root.SetOut(w.Out)
	root.SetErr(w.Err)
	err := root.ExecuteContext(ctx)
	var u usage
	var q quiet
	var qu quietUsage
	switch {
	case err == nil, errors.Is(err, context.Canceled):
		return exitOK
	case errors.As(err, &u):
		fmt.Fprintln(w.Err, "chargehand:", u.error)
		return exitUsage
	case errors.As(err, &qu):
		return exitUsage
	case errors.As(err, &q):
		return exitError
	}
	fmt.Fprintln(w.Err, "chargehand:", err)
	return exitError
}

// options are the flags every command knows.
type options struct {
	db   string
	job  string
	new  bool
	lang string
}

func newRoot(w world) *cobra.Command {
	var o options
	root := &cobra.Command{
		Use:   "chargehand",
		Short: "A site assistant for renewing a small flat roof",
		Long: `chargehand talks one roof through, from survey to aftercare: it asks one short
question at a time, works out the next thing to mark, cut, order or spread, stops
the work where something must be right before it is covered, and keeps a record.

Alone it starts or goes on with a job on this terminal; with answers piped in it
is a script, one answer a line.`,
		Args:          cobra.NoArgs,
		Version:       version(),
		SilenceUsage:  true,
		SilenceErrors: true,
		RunE:          func(c *cobra.Command, _ []string) error { return chat(c.Context(), w, o) },
	}
	root.SetFlagErrorFunc(func(_ *cobra.Command, err error) error { return usage{err} })
	root.PersistentFlags().StringVar(&o.db, "db", w.dataFile(), "the file jobs are kept in")
	root.Flags().StringVar(&o.job, "job", "", "the job to go on with, by id or name")
	root.Flags().BoolVar(&o.new, "new", false, "start another job; --job gives its name")
	root.Flags().StringVar(&o.lang, "lang", "", "language of the talk: "+languages())
	root.AddCommand(jobsCommand(w, &o), checkCommand(w, &o), reckonCommand(w))
	root.AddCommand(
		replayCommand(w, &o), followCommand(w, &o), renameCommand(w, &o), archiveCommand(w, &o),
		backupCommand(w, &o), restoreCommand(w, &o), exportCommand(w, &o), importCommand(w, &o), verifyCommand(w),
		eraseCommand(w, &o), compactCommand(w, &o), demoCommand(w), drawCommand(w, &o),
	)
	return root
}

// version is the module's, or the commit the binary was built from.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	v := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && (v == "" || v == "(devel)") {
			v = s.Value
		}
	}
	return v
}

// open opens the store, and makes a new one where there is none.
func open(w world, o options) (*bolt.DB, error) {
	if err := os.MkdirAll(filepath.Dir(o.db), 0o700); err != nil {
		return nil, err
	}
	db, err := bolt.Open(o.db, bolt.Options{})
	if err != nil {
		return nil, err
	}
	for _, f := range db.Warnings() {
		fmt.Fprintln(w.Err, "chargehand:", f)
	}
	return db, nil
}

func newRunner(w world, j runner.Journal, speaker runner.Speaker) *runner.Runner {
	return &runner.Runner{Journal: j, Speaker: speaker, Now: w.Now, NewID: w.NewID, Salt: w.Salt, Log: slog.New(slog.NewTextHandler(w.Err, nil))}
}

var (
	_ runner.Journal = (*bolt.DB)(nil)
	_ io.Closer      = (*bolt.DB)(nil)
)

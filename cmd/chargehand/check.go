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

// otherClocks means that a job's clocks in the store are not those that follow
// from its record.
type otherClocks struct {
	want, kept []event.Clock
}

func (e *otherClocks) Error() string {
	return fmt.Sprintf("its clocks are not those of its record: the record gives %d, the store holds %d", len(e.want), len(e.kept))
}

// refold folds a job from its record and compares the clocks that follow from
// it with those the store holds (*otherClocks).
func refold(ctx context.Context, j runner.Journal, job string) (flow.State, error) {
	var s flow.State
	var after uint64
	for {
		records, err := j.Read(ctx, job, after, pageRecords)
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
		return s, &otherClocks{want, kept}
	}
	return s, nil
}

// soundness is what a check came to.
type soundness struct {
	Findings []string `json:"findings,omitempty"`
	Mended   []string `json:"mended,omitempty"`
	Notes    []string `json:"notes,omitempty"`
	Jobs     int      `json:"jobs"`
	Events   uint64   `json:"events"`
}

type checkIn struct {
	Mend bool `json:"mend,omitempty"`
}

var opCheck = operation[checkIn, soundness]{"check", func(ctx context.Context, d *desk, in checkIn) (soundness, error) {
	report, err := d.db.Check(ctx)
	if err != nil {
		return soundness{}, err
	}
	return d.examine(ctx, report, in.Mend)
}}

// examine adds to a store's report what folding every job shows, and mends the
// clocks where that is asked for: they follow from the record, so nothing is
// lost.
func (d *desk) examine(ctx context.Context, report store.Report, mend bool) (soundness, error) {
	var out soundness
	jobs, err := listJobs(ctx, d.feed)
	if err != nil {
		return out, err
	}
	clocksBad := map[string]bool{}
	for _, f := range report.Findings {
		if mend && f.In == store.InClocks && slices.ContainsFunc(jobs, func(j jobInfo) bool { return j.ID == f.Stream }) {
			clocksBad[f.Stream] = true
			continue
		}
		out.Findings = append(out.Findings, f.String())
	}
	out.Jobs = len(jobs)
	for _, job := range jobs {
		out.Events += job.Events
		if slices.ContainsFunc(report.Findings, func(f store.Finding) bool { return f.In == store.InEvents && f.Stream == job.ID }) {
			continue // it can't be folded, and the report says from where on
		}
		_, err := refold(ctx, d.feed, job.ID)
		var other *otherClocks
		switch {
		case mend && (errors.As(err, &other) || err == nil && clocksBad[job.ID]):
			if err := d.mendClocks(ctx, job.ID); err != nil {
				return out, err
			}
			out.Mended = append(out.Mended, fmt.Sprintf("job %s: its clocks are set anew from its record", job.ID))
		case err != nil:
			out.Findings = append(out.Findings, fmt.Sprintf("job %s: %v", job.ID, err))
		}
		missing, err := d.photosMissing(ctx, job.ID)
		if err != nil {
			return out, err
		}
		if len(missing) > 0 {
			out.Notes = append(out.Notes, fmt.Sprintf("job %s: %d of its photos are not here, the first is %s", job.ID, len(missing), missing[0]))
		}
	}
	return out, nil
}

// photosMissing names the photos that a job's record speaks of and that are not
// kept here: it may have come from another machine.
func (d *desk) photosMissing(ctx context.Context, job string) ([]string, error) {
	var out []string
	var after uint64
	for {
		records, err := d.feed.Read(ctx, job, after, pageRecords)
		if err != nil || len(records) == 0 {
			return out, nil // what is wrong with the record has been told
		}
		for _, r := range records {
			after = r.Seq
			name := photoIn(r)
			if name == "" {
				continue
			}
			var damaged *store.Damaged
			_, err := d.db.Photos().Get(ctx, name)
			switch {
			case errors.Is(err, event.ErrUnknown):
				out = append(out, name)
			case err != nil && !errors.As(err, &damaged): // damage is in the report
				return out, err
			}
		}
	}
}

// photoIn is the photo a record speaks of; "" where there is none, or where it
// was erased.
func photoIn(r event.Record) string {
	e, err := r.Open()
	if err != nil {
		return ""
	}
	n, _ := e.Event.(event.Noted)
	return n.Photo
}

func checkCommand(w world, o *options) *cobra.Command {
	var mend bool
	c := &cobra.Command{
		Use:   "check",
		Short: "Check the file, every job's record and its clocks",
		Args:  exactly(0),
		RunE: func(c *cobra.Command, _ []string) error {
			s, err := examineStore(c.Context(), w, o.db, mend)
			if err != nil {
				return err
			}
			return s.print(w)
		},
	}
	c.Flags().BoolVar(&mend, "mend", false, "set clocks anew that are not those of the record")
	return c
}

// examineStore checks a store wherever it is kept.
func examineStore(ctx context.Context, w world, path string, mend bool) (soundness, error) {
	o := options{db: path}
	for range 2 {
		if k, err := overSocket(ctx, o); err != nil {
			return soundness{}, err
		} else if k != nil {
			out, err := ask(ctx, k, opCheck, checkIn{mend})
			return out, errors.Join(err, k.Close())
		}
		out, err := examineHere(ctx, w, path, mend)
		var locked *store.Locked
		if !errors.As(err, &locked) {
			return out, err
		}
	}
	return soundness{}, &store.Locked{Path: path}
}

// examineHere checks a store that nobody has open. It is read without being
// opened for writing first: opening refuses a damaged file, and then says less
// about it.
func examineHere(ctx context.Context, w world, path string, mend bool) (soundness, error) {
	a := toRead
	if mend {
		a = toWrite
	}
	report, err := bolt.CheckFile(ctx, path)
	db, openErr := openAs(path, a)
	switch {
	case openErr == nil && err == nil:
		d := atDesk(w, db, nil)
		out, err := d.examine(ctx, report, mend)
		return out, errors.Join(err, d.Close())
	case openErr == nil:
		return soundness{}, errors.Join(err, db.Close())
	case err == nil && !report.Sound():
		var s soundness
		for _, f := range report.Findings {
			s.Findings = append(s.Findings, f.String())
		}
		return s, nil
	}
	return soundness{}, openErr
}

// print tells what a check came to; what is not sound is an error of its own.
func (s soundness) print(w world) error {
	for _, lines := range [][]string{s.Findings, s.Mended, s.Notes} {
		for _, l := range lines {
			fmt.Fprintln(w.Out, l)
		}
	}
	if len(s.Findings) > 0 {
		return quiet{errors.New("the store is not sound")}
	}
	fmt.Fprintf(w.Out, "Sound: %d jobs, %d events, every record verifies, clocks agree.\n", s.Jobs, s.Events)
	return nil
}

package main

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"chargehand/flow/event"
	"chargehand/flow/runner"
	"chargehand/store"
	"chargehand/store/bolt"
)

type eraseIn struct {
	Job    string `json:"job"`
	Person string `json:"person,omitempty"`
	Photo  string `json:"photo,omitempty"`
}

// eraseOut is what was dropped.
type eraseOut struct {
	Values  int    `json:"values"`
	Marks   int    `json:"marks,omitempty"`
	Name    string `json:"name"`              // the job's name now; it can have gone with the person's
	Removed bool   `json:"removed,omitempty"` // the photo is off the disk
}

var opErase = operation[eraseIn, eraseOut]{"erase", func(ctx context.Context, d *desk, in eraseIn) (eraseOut, error) {
	if in.Photo != "" {
		return d.erasePhoto(ctx, in.Job, in.Photo)
	}
	return d.erasePerson(ctx, in.Job, in.Person)
}}

// erasePerson drops a person's data from a job. It looks again until nothing is
// found, since the person may be writing.
func (d *desk) erasePerson(ctx context.Context, job, who string) (eraseOut, error) {
	var out eraseOut
	readers := map[event.Reader]bool{}
	for {
		records, err := history(ctx, &keeper{here: d}, job)
		if err != nil || len(records) == 0 {
			return out, err
		}
		t := tracesOf(records, who)
		maps.Copy(readers, t.readers)
		n, err := d.db.Erase(ctx, job, t.match)
		if err != nil {
			return out, err
		}
		if out.Values += n; n == 0 {
			break
		}
	}
	marks, err := d.feed.Readers(ctx, job)
	if err != nil {
		return out, err
	}
	for r := range readers {
		if _, told := marks[r]; !told {
			continue
		}
		if err := d.db.Forget(ctx, job, r); err != nil {
			return out, err
		}
		out.Marks++
	}
	out.Name, err = d.summarise(ctx, job)
	return out, err
}

// summarise makes the job's line in the list anew, and has the runner read the
// job anew: both may still hold what was erased.
func (d *desk) summarise(ctx context.Context, job string) (string, error) {
	d.r.Forget(job)
	for {
		head, err := d.feed.Head(ctx, job)
		if err != nil {
			return "", err
		}
		if head.Seq == 0 || job == event.Book {
			return "", nil
		}
		s, err := d.r.State(ctx, job)
		if err != nil {
			return "", err
		}
		line, err := json.Marshal(runner.Summarize(s))
		if err != nil {
			return "", err
		}
		err = d.feed.Commit(ctx, event.Commit{Parts: []event.Part{{Stream: job, Expect: head, Keep: true, Summary: line}}})
		if !errors.Is(err, event.ErrConflict) {
			return s.Name, err
		}
	}
}

// erasePhoto drops a photo's name from a job and the picture from the disk,
// unless another job shows it too.
func (d *desk) erasePhoto(ctx context.Context, job, photo string) (eraseOut, error) {
	var out eraseOut
	records, err := history(ctx, &keeper{here: d}, job)
	if err != nil {
		return out, err
	}
	name, err := wholeName(records, photo)
	if err != nil {
		return out, err
	}
	out.Values, err = d.db.Erase(ctx, job, func(_ uint64, pointer string, value json.RawMessage) bool {
		return pointer == "/data/photo" && string(value) == `"`+name+`"`
	})
	if err != nil {
		return out, err
	}
	d.r.Forget(job)
	streams, err := d.feed.Streams(ctx)
	if err != nil {
		return out, err
	}
	for _, s := range streams {
		records, err := history(ctx, &keeper{here: d}, s.Stream)
		if err != nil {
			return out, err
		}
		if slices.ContainsFunc(records, func(r event.Record) bool { return photoIn(r) == name }) {
			return out, nil
		}
	}
	remover, ok := d.db.Photos().(interface {
		Remove(context.Context, string) error
	})
	if !ok {
		return out, errors.New("this store can't remove photos")
	}
	if err := remover.Remove(ctx, name); err != nil && !errors.Is(err, event.ErrUnknown) {
		return out, err
	}
	out.Removed = true
	return out, nil
}

// wholeName finds the photo of a record whose name begins so.
func wholeName(records []event.Record, begin string) (string, error) {
	const least = 6
	begin = strings.ToLower(begin)
	if store.IsPhotoName(begin) {
		return begin, nil
	}
	var found []string
	for _, r := range records {
		if name := photoIn(r); len(begin) >= least && strings.HasPrefix(name, begin) && !slices.Contains(found, name) {
			found = append(found, name)
		}
	}
	if len(found) != 1 {
		return "", usage{fmt.Errorf("%d photos of this job have a name that begins with %q; replay shows their names, %d letters are enough", len(found), begin, least)}
	}
	return found[0], nil
}

func eraseCommand(w world, o *options) *cobra.Command {
	var job, photo string
	var everywhere bool
	c := &cobra.Command{
		Use:   "erase PERSON",
		Short: "Drop a person's data, or a wrong photo, from a record that goes on verifying",
		Long: `erase drops from a job's record who a person was: name, id, where from, and the
words of others in which the person is named. What was measured, decided and done
stays, with its place, time and seal, and the record verifies as before. PERSON is
a name or an id, as replay and export show them.

With --photo it drops a photo instead: its name from the record, the picture from
the disk.

This can't be undone. Backups and exports made before still hold what was erased.`,
		RunE: func(c *cobra.Command, args []string) error {
			in := eraseIn{Photo: photo}
			switch {
			case (len(args) == 1) == (photo != "") || len(args) > 1 || len(args) == 1 && strings.TrimSpace(args[0]) == "":
				return usage{errors.New("say whom to erase, or which --photo")}
			case (job != "") == everywhere:
				return usage{errors.New("say of which --job, or --everywhere")}
			case everywhere && photo != "" && !store.IsPhotoName(photo):
				return usage{errors.New("with --everywhere a photo wants its whole name")}
			case len(args) == 1:
				in.Person = strings.TrimSpace(args[0])
			}
			return eraseAndCompact(c.Context(), w, *o, in, job)
		},
	}
	c.Flags().StringVar(&job, "job", "", "of this job, by id or name")
	c.Flags().BoolVar(&everywhere, "everywhere", false, "of every job")
	c.Flags().StringVar(&photo, "photo", "", "the photo with this name, or one that begins so")
	return c
}

func eraseAndCompact(ctx context.Context, w world, o options, in eraseIn, job string) error {
	k, err := enter(ctx, w, o, toWrite)
	if err != nil {
		return err
	}
	n, err := eraseIt(ctx, w, k, in, job)
	elsewhere := k.there != nil
	if err := errors.Join(err, k.Close()); err != nil {
		return err
	}
	switch {
	case n == 0:
		return nil
	case elsewhere:
		fmt.Fprintln(w.Out, "The file still holds the dropped bytes in pages that are free; when nothing uses it: chargehand compact")
		return nil
	}
	_, _, err = bolt.Compact(ctx, o.db)
	return err
}

// eraseIt erases from one job, or from all and the book, and returns how many
// values went.
func eraseIt(ctx context.Context, w world, k *keeper, in eraseIn, job string) (int, error) {
	jobs, err := ask(ctx, k, opJobs, nothing{})
	if err != nil {
		return 0, err
	}
	if job != "" {
		j, err := findJob(jobs, job)
		if err != nil {
			return 0, err
		}
		jobs = []jobInfo{j}
	}
	if job == "" && in.Person != "" {
		jobs = append(jobs, jobInfo{ID: event.Book})
	}
	n := 0
	for _, j := range jobs {
		in.Job = j.ID
		out, err := ask(ctx, k, opErase, in)
		if err != nil {
			return n, err
		}
		n += out.Values
		if j.ID == event.Book && out.Values == 0 {
			continue
		}
		fmt.Fprintf(w.Out, "%s: %d values erased.\n", j.ID, out.Values)
		switch {
		case out.Removed:
			fmt.Fprintln(w.Out, "The picture is off the disk.")
		case in.Photo != "":
			fmt.Fprintln(w.Out, "The picture stays: another job shows it.")
		case out.Name == "" && j.Name != "":
			fmt.Fprintf(w.Out, "The job's name went with it; give it another: chargehand rename %s NAME\n", j.ID)
		}
	}
	return n, nil
}

package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/talk"
	"chargehand/messages/record"
	"chargehand/messages/term"
)

// pace is how a replay goes on from one event to the next.
type pace struct {
	step  bool
	speed float64 // times as fast as it happened; 0 is at once
}

func replayCommand(w world, o *options) *cobra.Command {
	var p pace
	var until, lang string
	var diff bool
	c := &cobra.Command{
		Use:   "replay JOB",
		Short: "Show a job's record again: who said what, and what was shown",
		Long: `replay shows a job's record from its first event on: what was asked and answered,
by whom and when on the site's clock, what was shown, where nothing was said for
a while, what was changed from what to what. The numbers are those of then; only
what a change moves along with it is worked out anew.

With --diff it shows instead where today's formulas would say something else.`,
		Args: exactly(1),
		RunE: func(c *cobra.Command, args []string) error {
			if c.Flags().Changed("speed") && !(p.speed > 0) {
				return usage{errors.New("--speed wants a number above 0: 60 is a minute a second")}
			}
			if p.step && p.speed > 0 {
				return usage{errors.New("--step and --speed do not go together")}
			}
			ctx := c.Context()
			t, err := takeRecord(ctx, w, *o, args[0])
			if err != nil {
				return err
			}
			stop, err := t.until(until)
			if err != nil {
				return err
			}
			show := record.NewPrinter(w.Out, lang, setLines)
			if diff {
				err = t.differ(show, stop)
			} else {
				err = t.play(ctx, w, show, p, stop)
			}
			return errors.Join(err, t.broken)
		},
	}
	c.Flags().BoolVar(&p.step, "step", false, "wait for Enter after each event; q stops")
	c.Flags().Float64Var(&p.speed, "speed", 0, "as it happened, that many times as fast")
	c.Flags().StringVar(&until, "until", "", "stop behind an event's number, or a time: 120, 2026-05-12, \"2026-05-12 10:42\"")
	c.Flags().BoolVar(&diff, "diff", false, "show where today's formulas would say something else")
	c.Flags().StringVar(&lang, "lang", "", "language: "+languages())
	return c
}

// setLines puts replies into lines as the chat shows them.
func setLines(w io.Writer, lang string, replies []talk.Reply) error {
	return term.Print(w, lang, replies, false)
}

// reader is whom a replay speaks to: somebody who was not there.
var reader = talk.Person{Role: "builder"}

// play shows the events one after the other.
func (t taken) play(ctx context.Context, w world, show *record.Printer, p pace, stop func(int) bool) error {
	title := record.Title{Name: t.state.Name, Job: t.job.ID, Zone: t.state.Zone, Events: len(t.entries)}
	if n := len(t.entries); n > 0 {
		title.From, title.To = t.entries[0].At, t.entries[n-1].At
	}
	if err := show.Title(title); err != nil {
		return err
	}
	if p.step {
		fmt.Fprintln(w.Err, "Enter goes on, q stops.")
	}
	enter := bufio.NewScanner(w.In)
	begins := record.Begins(t.entries)
	var s flow.State
	for i, e := range t.entries {
		if err := ctx.Err(); err != nil {
			return err
		}
		if stop(i) {
			return show.Stopped()
		}
		if i > 0 {
			if on, err := p.wait(ctx, w, enter, e.At.Sub(t.entries[i-1].At)); err != nil || !on {
				return err
			}
		}
		item := record.Item{Seq: t.records[i].Seq, Entry: e, Begins: begins[i], Shown: flow.Say(s, e, reader)}
		s = flow.Apply(s, e)
		item.Zone = s.Zone
		for _, l := range t.records[i].Leaves {
			if l.Erased() {
				item.Erased = append(item.Erased, l.Pointer)
			}
		}
		if i+1 == len(t.entries) || begins[i+1] {
			item.Asked = flow.Prompt(s, reader)
		}
		if err := show.Event(item); err != nil {
			return err
		}
	}
	return nil
}

// wait lets the time between two events pass, or waits for Enter; on says
// whether to go on.
func (p pace) wait(ctx context.Context, w world, enter *bufio.Scanner, gap time.Duration) (on bool, err error) {
	switch {
	case p.step:
		if !enter.Scan() {
			return false, enter.Err()
		}
		return !strings.EqualFold(strings.TrimSpace(enter.Text()), "q"), nil
	case p.speed > 0 && gap > 0:
		return true, w.Sleep(ctx, time.Duration(float64(gap)/p.speed))
	}
	return true, nil
}

// until makes a stop of a number or a time: it says whether the event at an
// index comes behind it.
func (t taken) until(s string) (func(int) bool, error) {
	if s == "" {
		return func(int) bool { return false }, nil
	}
	if seq, err := strconv.ParseUint(s, 10, 64); err == nil {
		return func(i int) bool { return t.records[i].Seq > seq }, nil
	}
	zone, err := time.LoadLocation(t.state.Zone)
	if err != nil {
		zone = time.UTC
	}
	for _, form := range []struct {
		layout string
		then   func(time.Time) time.Time // the first moment behind it
	}{
		{time.RFC3339, func(t time.Time) time.Time { return t.Add(time.Second) }},
		{"2006-01-02", func(t time.Time) time.Time { return t.AddDate(0, 0, 1) }},
		{"2006-01-02 15:04", func(t time.Time) time.Time { return t.Add(time.Minute) }},
	} {
		if at, err := time.ParseInLocation(form.layout, s, zone); err == nil {
			end := form.then(at)
			return func(i int) bool { return !t.entries[i].At.Before(end) }, nil
		}
	}
	return nil, usage{fmt.Errorf("--until %q: a number, a day like 2026-05-12, or a time like \"2026-05-12 10:42\" on the site's clock", s)}
}

// differ compares every telling with what would be told today.
func (t taken) differ(show *record.Printer, stop func(int) bool) error {
	var s flow.State
	var ds []record.Difference
	compared := 0
	for i, e := range t.entries {
		if stop(i) {
			break
		}
		if was, ok := e.Event.(event.Told); ok {
			compared++
			now, still := flow.Retell(s, was)
			if !still || flow.Differ(was, now) {
				d := record.Difference{Seq: t.records[i].Seq, At: e.At, Zone: s.Zone, What: was.What, OldBy: was.Formulas, NewBy: now.Formulas, Old: flow.Say(s, e, reader)}
				if still {
					again := e
					again.Event = now
					d.New = flow.Say(s, again, reader)
				}
				ds = append(ds, d)
			}
		}
		s = flow.Apply(s, e)
	}
	return show.Differ(compared, ds)
}

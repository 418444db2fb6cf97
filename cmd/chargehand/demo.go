package main

import (
	"context"
	_ "embed"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/spf13/cobra"

	"chargehand/flow/talk"
	"chargehand/messages/term"
	"chargehand/messages/text"
	"chargehand/store/bolt"
)

//go:embed demo.txtar
var demoFile []byte

// The job of the demo and where it is.
const (
	demoName = "Orchard garage"
	demoZone = "Europe/London"
)

func demoCommand(w world) *cobra.Command {
	var keep, lang string
	c := &cobra.Command{
		Use:   "demo",
		Short: "Play an invented job from survey to hand-over",
		Long: `demo plays an invented job in a few seconds: what was typed stands behind >, the
days are those of the story. It works in a store of its own that is thrown away.`,
		Args: exactly(0),
		RunE: func(c *cobra.Command, _ []string) error {
			path := keep
			if path == "" {
				dir, err := os.MkdirTemp("", "chargehand-demo")
				if err != nil {
					return err
				}
				defer os.RemoveAll(dir)
				path = filepath.Join(dir, "jobs.db")
			} else if _, err := os.Lstat(path); err == nil {
				return usage{fmt.Errorf("%s exists already; the demo wants a file of its own", path)}
			}
			return demo(c.Context(), w, path, lang, keep != "")
		},
	}
	c.Flags().StringVar(&keep, "keep", "", "keep the store in this file, to replay and look at")
	c.Flags().StringVar(&lang, "lang", "", "language: "+languages())
	return c
}

// demo plays the script into a store at path, on the script's own clock.
func demo(ctx context.Context, w world, path, lang string, kept bool) error {
	a := txtar.Parse(demoFile)
	if len(a.Files) != 1 {
		return errors.New("the demo has no script")
	}
	lines, err := demoLines(string(a.Files[0].Data))
	if err != nil {
		return err
	}
	now := lines[0].Sent.Add(-time.Minute)
	w.Now = func() time.Time { return now }
	w.NewID = func() string { return "demo" }
	db, err := bolt.Open(path, bolt.Options{NoSync: !kept, Now: w.Now})
	if err != nil {
		return err
	}
	defer db.Close()
	s := &screen{out: w.Out}
	d := atDesk(w, db, s)
	who := operator
	who.Lang = lang
	d.r.Attach(local, who)
	c := &talker{w: w, r: d.r, photos: db.Photos(), screen: s, who: who}

	s.line("%s", strings.TrimSpace(string(a.Comment)))
	day := ""
	turn := func(t time.Time) { // a new day has a heading
		now = t
		if on := text.For(lang).Say(talk.P("record.day", "day", talk.Moment{At: t, Zone: demoZone, Date: true})); on != day {
			day = on
			s.line("\n%s", day)
		}
	}
	turn(now)
	s.line("")
	if _, err := c.r.Begin(ctx, c.input("", talk.Begun{Name: demoName, Zone: demoZone}, time.Time{})); err != nil {
		return err
	}
	c.job = "demo"
	for _, l := range lines {
		if err := ringUntil(ctx, d, l.Sent, turn); err != nil {
			return err
		}
		turn(l.Sent)
		s.line("\n> %s", l.Text)
		if err := c.say(ctx, term.Line{Text: l.Text}); err != nil {
			return err
		}
		c.r.Idle()
	}
	s.line("")
	report, err := db.Check(ctx)
	if err != nil {
		return err
	}
	sound, err := d.examine(ctx, report, false)
	if err != nil {
		return err
	}
	return sound.print(w)
}

// ringUntil rings what falls due up to a time, each when it is due.
func ringUntil(ctx context.Context, d *desk, t time.Time, turn func(time.Time)) error {
	for {
		next, ok, err := d.feed.NextDue(ctx)
		if err != nil || !ok || next.Due.After(t) {
			return err
		}
		turn(next.Due)
		d.r.Speaker.(*screen).line("")
		if err := d.r.Ring(ctx, next.Due); err != nil {
			return err
		}
	}
}

// demoLines reads the script; every line has its time.
func demoLines(script string) ([]term.Line, error) {
	var out []term.Line
	in := term.NewLines(strings.NewReader(script))
	for {
		s, err := in.Next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, err
		}
		l, err := term.ParseLine(s)
		if err != nil {
			return nil, err
		}
		if l.Sent.IsZero() {
			return nil, fmt.Errorf("the demo's line %q has no time", s)
		}
		out = append(out, l)
	}
	if len(out) == 0 {
		return nil, errors.New("the demo's script is empty")
	}
	return out, nil
}

package main

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"time"

	"chargehand/flow"
	"chargehand/flow/event"
	"chargehand/flow/runner"
	"chargehand/flow/talk"
	"chargehand/messages/term"
	"chargehand/messages/text"
	"chargehand/store"
)

// local is the reader this machine's terminal is.
const local event.Reader = "term:local"

func languages() string { return strings.Join(text.Languages(), ", ") }

// screen speaks to the one reader of a terminal or a pipe.
type screen struct {
	mu   sync.Mutex
	out  io.Writer
	bell bool
	job  string // the job talked about here
	mute bool
	keep func(job string) term.Keep
}

func (s *screen) Speak(_ context.Context, m runner.Message) (string, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if m.Reader != local || s.mute {
		return "", nil
	}
	if s.job != "" && m.Job != s.job {
		m.Replies = elsewhere(m)
	}
	return "", s.print(m.To, m.Job, m.Replies)
}

// print writes replies and keeps the pictures among them.
func (s *screen) print(to talk.Person, job string, replies []talk.Reply) error {
	var keep term.Keep
	if s.keep != nil {
		keep = s.keep(job)
	}
	return term.PrintKeeping(s.out, to.Lang, replies, s.bell, keep)
}

// elsewhere is what another job has to say here: its name first, and no question,
// since what is typed next belongs to the job on this screen.
func elsewhere(m runner.Message) []talk.Reply {
	out := []talk.Reply{talk.Say(talk.P("other-job", "name", m.Name))}
	for _, r := range m.Replies {
		if t, ok := r.(talk.Tell); ok {
			out = append(out, t)
		}
	}
	if len(out) == 1 {
		return nil
	}
	return out
}

func (s *screen) silent(on bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.mute = on
}

func (s *screen) show(to talk.Person, replies []talk.Reply) error {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.print(to, s.job, replies)
}

func (s *screen) line(format string, args ...any) {
	s.mu.Lock()
	defer s.mu.Unlock()
	fmt.Fprintf(s.out, format+"\n", args...)
}

// chat is one person talking on this machine.
type talker struct {
	w      world
	r      *runner.Runner
	photos store.Photos
	screen *screen
	who    talk.Person
	job    string
	begun  bool      // the job began here, so its first question has been shown
	last   time.Time // the latest time a script has named

	scripted bool   // a script has named a time
	coming   string // the job that begins with the first line of a script
}

// chat starts or goes on with a job, on a terminal or from a pipe.
func chat(ctx context.Context, w world, o options) error {
	s := &screen{out: w.Out}
	if err := heldBy(ctx, o); err != nil {
		return err // at once, without waiting for the lock
	}
	db, err := open(w, o)
	if err != nil {
		return inUse(ctx, o, err)
	}
	defer db.Close()
	d := atDesk(w, db, s)
	onTerminal := term.IsTerminal(w.In, w.Out)
	doing := "a chat on a pipe"
	if onTerminal {
		doing = "a chat on a terminal"
	}
	if l, err := d.listen(doing); err != nil {
		fmt.Fprintln(w.Err, "chargehand:", err)
	} else {
		defer l.Close()
	}
	pictures := albumOf(o, o.lang)
	if !onTerminal { // a script is read again elsewhere: names from where it ran
		if dir, err := os.Getwd(); err == nil {
			pictures.from = dir
		}
	}
	s.keep = pictures.keep
	who := operator
	who.Lang = o.lang
	c := &talker{w: w, r: d.r, photos: db.Photos(), screen: s, who: who}
	d.r.Attach(local, c.who)
	defer d.r.Idle()
	if onTerminal {
		return c.onTerminal(ctx, o, w.In.(*os.File), w.Out.(*os.File))
	}
	return c.onPipe(ctx, o)
}

// now is the world's time; once a script has named a time it is the script's.
func (c *talker) now() time.Time {
	if c.scripted {
		return c.last
	}
	return c.w.Now()
}

// plays takes the time a line was sent at as the time it is now: a script that
// names times plays the clock. Time does not run backwards in a record.
func (c *talker) plays(ctx context.Context, sent time.Time) error {
	if sent.IsZero() {
		return nil
	}
	if !c.scripted {
		c.scripted, c.last = true, sent
		if c.job != "" {
			s, err := c.r.State(ctx, c.job)
			if err != nil {
				return err
			}
			if s.LastAt.After(sent) {
				c.last = s.LastAt
			}
		}
	}
	if sent.After(c.last) {
		c.last = sent
	}
	return nil
}

// begin starts a job by name.
func (c *talker) begin(ctx context.Context, name string) error {
	job, err := c.r.Begin(ctx, c.input("", talk.Begun{Name: name, Zone: c.w.zone()}, time.Time{}))
	if err != nil {
		return err
	}
	c.job, c.begun, c.screen.job = job, true, job
	return nil
}

// welcome rings what fell due meanwhile and shows where the job stands.
func (c *talker) welcome(ctx context.Context) error {
	c.screen.job = c.job
	if err := c.r.Ring(ctx, c.now()); err != nil {
		return err
	}
	if c.begun {
		return nil
	}
	return c.r.Welcome(ctx, c.job, local)
}

func (c *talker) input(key string, what talk.What, sent time.Time) talk.Input {
	if key != "" {
		key = "term:" + key
	}
	return talk.Input{At: c.now(), Sent: sent, By: c.who, Reader: string(local), Key: key, What: what}
}

// say handles one line.
func (c *talker) say(ctx context.Context, l term.Line) error {
	what, err := c.what(ctx, l.Text)
	if err != nil {
		c.screen.line("%v", err)
		return nil
	}
	_, err = c.r.Handle(ctx, c.job, c.input(l.Key, what, l.Sent))
	return err
}

// what makes an input of a line; "photo FILE words" brings a picture.
func (c *talker) what(ctx context.Context, line string) (talk.What, error) {
	rest, ok := strings.CutPrefix(strings.TrimSpace(line), "photo ")
	if !ok {
		return talk.Said{Text: line}, nil
	}
	name, caption, _ := strings.Cut(strings.TrimSpace(rest), " ")
	content, err := os.ReadFile(name)
	if err != nil {
		return nil, fmt.Errorf("no photo there: %w", err)
	}
	hash, err := c.photos.Put(ctx, content)
	if err != nil {
		return nil, err
	}
	return talk.Pictured{Hash: hash, Caption: caption}, nil
}

// choose finds the job to talk about: an open one, or the name of one to begin.
// ask is called with the open ones where several are and none was named.
func (c *talker) choose(ctx context.Context, o options, ask func([]jobInfo) (jobInfo, bool, error)) (begin string, err error) {
	const usual = "Garage"
	jobs, err := listJobs(ctx, c.r.Journal)
	if err != nil {
		return "", err
	}
	if o.new {
		return cmp.Or(o.job, usual), nil
	}
	if o.job != "" {
		j, err := findJob(jobs, o.job)
		c.job = j.ID
		return "", err
	}
	var openJobs []jobInfo
	for _, j := range jobs {
		if j.live() {
			openJobs = append(openJobs, j)
		}
	}
	switch len(openJobs) {
	case 0:
		return usual, nil
	case 1:
		c.job = openJobs[0].ID
		return "", nil
	}
	j, another, err := ask(openJobs)
	if err != nil {
		return "", err
	}
	if another {
		return usual, nil
	}
	c.job = j.ID
	return "", nil
}

// onPipe reads a script: a line an answer, an empty line after each reply. What
// a time on the first line decides, when the job began and what has rung since,
// waits for that line; the first question does not.
func (c *talker) onPipe(ctx context.Context, o options) error {
	begin, err := c.choose(ctx, o, func(jobs []jobInfo) (jobInfo, bool, error) {
		return jobInfo{}, false, usage{fmt.Errorf("several jobs are open; name one with --job:\n%s", table(jobs))}
	})
	if err != nil {
		return err
	}
	c.coming, c.screen.job = begin, c.job
	if begin != "" {
		begun, known := c.r.Known(ctx, talk.Begun{Name: begin, Zone: c.w.zone()})
		if known != nil {
			return known
		}
		err = c.screen.show(c.who, flow.Opening(c.input("", begun, time.Time{})))
	} else {
		err = c.r.Welcome(ctx, c.job, local)
	}
	if err != nil {
		return err
	}
	c.screen.line("")
	lines := term.NewLines(c.w.In)
	for ctx.Err() == nil {
		s, err := lines.Next()
		if errors.Is(err, io.EOF) {
			return c.settle(ctx)
		}
		if err != nil {
			return err
		}
		l, err := term.ParseLine(s)
		if err != nil {
			c.screen.line("%v\n", err)
			continue
		}
		if err := c.plays(ctx, l.Sent); err != nil {
			return err
		}
		if err := c.settle(ctx); err != nil {
			return err
		}
		if err := c.say(ctx, l); err != nil {
			return err
		}
		c.r.Idle() // a reply is whole: what a search finds belongs to it
		c.screen.line("")
	}
	return nil
}

// settle begins the job whose first question has been shown, and rings what has
// fallen due.
func (c *talker) settle(ctx context.Context) error {
	if c.coming != "" {
		c.screen.silent(true) // its first question stands on the screen already
		err := c.begin(ctx, c.coming)
		c.screen.silent(false)
		if err != nil {
			return err
		}
		c.coming = ""
	}
	return c.r.Ring(ctx, c.now())
}

// onTerminal talks with line editing; clocks ring while one types.
func (c *talker) onTerminal(ctx context.Context, o options, in, out *os.File) error {
	t, err := term.Open(in, out)
	if err != nil {
		return err
	}
	defer t.Close()
	c.screen.out, c.screen.bell = t, true
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	begin, err := c.choose(ctx, o, func(jobs []jobInfo) (jobInfo, bool, error) {
		c.screen.line("%s\nWhich job? Its id, or new.", table(jobs))
		for {
			s, err := t.ReadLine()
			if err != nil {
				return jobInfo{}, false, err
			}
			if s = strings.TrimSpace(s); s == "new" {
				return jobInfo{}, true, nil
			}
			j, err := findJob(jobs, s)
			if err == nil {
				return j, false, nil
			}
			c.screen.line("%v", err)
		}
	})
	if errors.Is(err, io.EOF) {
		return nil
	}
	if err != nil {
		return err
	}
	if begin != "" {
		if err := c.begin(ctx, begin); err != nil {
			return err
		}
	}
	if err := c.welcome(ctx); err != nil {
		return err
	}
	rings := make(chan error, 1)
	go func() { rings <- c.r.Run(ctx) }()
	err = c.typed(ctx, t)
	cancel()
	if ring := <-rings; err == nil && ring != nil && !errors.Is(ring, context.Canceled) {
		err = ring
	}
	return err
}

func (c *talker) typed(ctx context.Context, t *term.Terminal) error {
	for ctx.Err() == nil {
		s, err := t.ReadLine()
		if errors.Is(err, io.EOF) {
			c.screen.line("Kept. Go on any time with: chargehand")
			return nil
		}
		if err != nil {
			return err
		}
		switch strings.ToLower(strings.TrimSpace(s)) {
		case "":
			continue
		case "quit", "exit":
			c.screen.line("Kept. Go on any time with: chargehand")
			return nil
		}
		if err := c.say(ctx, term.Line{Text: s}); err != nil {
			return err
		}
	}
	return nil
}

package flow

import (
	"slices"
	"strings"
	"time"

	"chargehand/flow/event"
	"chargehand/flow/hear"
	"chargehand/flow/talk"
)

// Outcome is what one input does: the events to append and the job's whole set
// of clocks afterwards. Replies are not part of it; they are derived from the
// record by Say and Prompt.
type Outcome struct {
	Events []event.Entry
	Clocks []event.Clock
	Book   []event.Entry // what outlives the job, to be written into the book beside them
}

// Step works out what an input does to a job. It is pure and total: no clock
// but the input's, no identifier, no error for what a person typed.
func Step(s State, in talk.Input) Outcome {
	t := turn{s: s, in: in}
	t.run()
	return Outcome{Events: t.events, Clocks: Clocks(t.s), Book: t.book(s)}
}

// setBackLimit is how far the machine's clock may lie behind the record before
// it is said: less than this is jitter between two messages.
const setBackLimit = 2 * time.Minute

// turn is one input being worked out.
type turn struct {
	s      State
	in     talk.Input
	events []event.Entry
	late   bool // it answers a question that somebody else has answered meanwhile
}

// entry is an event with who said it, where and when.
func (t *turn) entry(e event.Event) event.Entry {
	return event.Entry{
		At:    t.in.At.UTC(),
		By:    event.Actor{ID: t.in.By.ID, Name: t.in.By.Name, Role: t.in.By.Role},
		From:  event.Reader(t.in.Reader),
		Cause: event.SeenKey(t.in.Key),
		Event: e,
	}
}

func (t *turn) emit(e event.Event) {
	entry := t.entry(e)
	t.events = append(t.events, entry)
	t.s = Apply(t.s, entry)
}

// heard answers without settling anything.
func (t *turn) heard(said, key string, args map[string]event.Value) {
	t.emit(event.Heard{Step: t.openStep(), Said: cut(said), Key: key, Args: args})
}

func (t *turn) openStep() string {
	_, spec, ok := open(t.s)
	if !ok {
		return ""
	}
	return spec.ID
}

func (t *turn) view() View { return View{t.s} }

func (t *turn) run() {
	if behind := t.s.LastAt.Sub(t.in.At); t.s.Seq > 0 && behind > setBackLimit {
		t.emit(event.SetBack{Behind: behind})
	}
	switch what := t.in.What.(type) {
	case talk.Begun:
		if to, err := jobMachine.next(status(t.s), "begin", nil); err != nil || to != JobActive {
			t.heard("", "already.begun", nil)
			break
		}
		t.emit(event.Opened{Name: cut(what.Name), Zone: what.Zone, Way: "full"})
		t.recall(what)
	case talk.Said:
		if t.in.By.Role == "follower" {
			t.follower(what.Text)
			break
		}
		t.said(what.Text)
	case talk.Pressed:
		if t.in.By.Role == "follower" {
			t.heard(what.Action, "refuse.follower", nil)
			break
		}
		t.pressed(what)
	case talk.Pictured:
		t.emit(event.Noted{Photo: what.Hash, Text: cut(what.Caption), Step: t.openStep()})
	case talk.Rang:
		t.rang(what)
		t.release()
		return // a clock opens no question
	case talk.Solved:
		t.solved(what)
	case talk.Renamed:
		t.emit(event.Renamed{Name: cut(what.Name)})
	case talk.Archived:
		t.emit(event.Archived{Away: what.Away})
	}
	t.settleDown()
	t.release()
}

// follower hears one who follows: what is no question about the job is a note,
// which waits until hands are free. Nothing that is said moves the work.
func (t *turn) follower(text string) {
	if status(t.s) == JobDraft {
		t.heard(text, "refuse.no-job", nil)
		return
	}
	want := hear.Want{Kind: hear.YesNo, Lang: t.in.By.Lang}
	cmd, rest, ok := hear.Command(text, want)
	switch {
	case ok && slices.Contains([]hear.Cmd{hear.List, hear.Where, hear.Timers, hear.Help, hear.Why}, cmd):
		_, spec, isStep := open(t.s)
		t.command(cmd, rest, text, spec, isStep)
	case ok && cmd == hear.Note && strings.TrimSpace(rest) != "":
		t.emit(event.Noted{Text: cut(rest), Step: t.openStep()})
	default:
		t.emit(event.Noted{Text: cut(text), Step: t.openStep()})
	}
}

func status(s State) string {
	if s.Status == "" {
		return JobDraft
	}
	return s.Status
}

// settleDown brings the job to its next question: it takes the usual value
// where the short way leaves the question out, and tells what the next step
// needs told, once.
func (t *turn) settleDown() {
	// Each round settles a step or ends; the script is finite.
	for range len(script()) {
		_, spec, ok := open(t.s)
		if !ok || t.s.Pending != nil {
			return
		}
		v := t.view()
		if spec.Short && t.s.Way == "short" && t.s.At != spec.ID && t.s.Settled[spec.ID].Version == 0 && spec.Offer != nil {
			if val, ok := spec.Offer(v); ok {
				t.emit(event.Answered{Step: spec.ID, Said: ".", Value: val, Offered: true})
				continue
			}
		}
		for _, c := range spec.Cautions {
			if _, told := t.s.Told["caution."+c]; !told {
				t.emit(event.Told{What: "caution." + c})
			}
		}
		for _, tell := range []func(View) *event.Told{spec.Tell, spec.Also} {
			if tell == nil {
				continue
			}
			if told := tell(v); told != nil && !sameTold(t.s.Told[told.What], *told) {
				t.emit(*told)
			}
		}
		return
	}
}

func sameTold(a, b event.Told) bool {
	if a.What != b.What || len(a.Lines) != len(b.Lines) {
		return false
	}
	for i, l := range b.Lines {
		if l.Key != a.Lines[i].Key || len(l.Args) != len(a.Lines[i].Args) {
			return false
		}
		for k, v := range l.Args {
			if !v.Equal(a.Lines[i].Args[k]) {
				return false
			}
		}
	}
	return true
}

func (t *turn) rang(r talk.Rang) {
	for _, c := range Clocks(t.s) {
		if c.Name == r.Clock && !c.Due.After(t.in.At) {
			t.emit(event.Rang{Clock: c.Name, Due: c.Due})
			return
		}
	}
	// The clock was settled before it could ring: nothing to say.
}

// cut shortens what was said to what the record keeps, on a rune boundary.
func cut(s string) string {
	const most = 500
	if len(s) <= most {
		return s
	}
	n := most
	for n > 0 && s[n]&0xC0 == 0x80 { // inside a rune
		n--
	}
	return s[:n]
}

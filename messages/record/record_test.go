package record_test

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"chargehand/flow/event"
	"chargehand/flow/talk"
	"chargehand/messages/record"
	"chargehand/messages/text"
)

var (
	monday = time.Date(2026, 5, 11, 7, 0, 0, 0, time.UTC)
	ann    = event.Actor{ID: "a", Name: "Ann", Role: "builder"}
	bell   = event.Actor{ID: "system", Role: "system"}
)

// set is a way out that puts every phrase on a line of its own.
func set(w io.Writer, lang string, replies []talk.Reply) error {
	for _, r := range replies {
		switch r := r.(type) {
		case talk.Tell:
			for _, l := range r.Lines {
				fmt.Fprintln(w, text.For(lang).Say(l))
			}
		case talk.Ask:
			fmt.Fprintln(w, "? "+text.For(lang).Say(r.Phrase))
		}
	}
	return nil
}

func say(key string, pairs ...any) []talk.Reply { return []talk.Reply{talk.Say(talk.P(key, pairs...))} }

func TestRecordIsSetAgain(t *testing.T) {
	var out bytes.Buffer
	p := record.NewPrinter(&out, "en", set)
	require.NoError(t, p.Title(record.Title{Name: "Shed", Job: "j", Zone: "Europe/London", Events: 7, From: monday, To: monday.AddDate(0, 0, 1)}))
	entries := []event.Entry{
		{At: monday, By: ann, Event: event.Opened{Name: "Shed"}},
		{At: monday.Add(time.Minute), By: ann, Event: event.Answered{Step: "length", Said: "5.4\nm"}},
		{At: monday.Add(time.Minute), By: ann, Event: event.Told{What: "roof"}},
		{At: monday.Add(3 * time.Hour), By: bell, Event: event.Rang{Clock: "relax/done"}},
		{At: monday.Add(2 * time.Hour), By: ann, Event: event.Noted{Photo: strings.Repeat("0123456789", 6) + "abcd", Text: "north side"}},
		{At: monday.AddDate(0, 0, 1), By: event.Actor{}, Event: event.Heard{}},
		{At: monday.AddDate(0, 0, 1), By: event.Actor{}, Event: event.Moved{Phase: "deck"}},
	}
	begins := record.Begins(entries)
	for i, e := range entries {
		item := record.Item{Seq: uint64(i + 1), Entry: e, Zone: "Europe/London", Begins: begins[i]}
		switch i {
		case 1:
			item.Shown = say("noted")
		case 2:
			item.Shown, item.Asked = say("archived"), []talk.Reply{talk.Ask{Phrase: talk.P("ask.resume")}}
		case 5:
			item.Erased = []string{"/by/name", "/data/said"}
		}
		require.NoError(t, p.Event(item))
	}
	require.NoError(t, p.Stopped())
	assert.Equal(t, `Shed (j): 7 events, 11 May 2026 to 12 May 2026, Europe/London.

11 May 2026
    1  08:00  Ann  begins the job
    2  08:01  Ann  > 5.4 m
       Noted.
    3  Put away.
       ? Go on with this job?
       ... 2 h 59 min ...
    4  11:00  clock  rings
       ... back by 60 min ...
    5  10:00  Ann  photo 012345678901  > north side
       ... 22 h 00 min ...

12 May 2026
    6  08:00  (erased)  > (erased)
    7  08:00  (erased)  moves
Up to here; the record goes on.
`, out.String())
}

// What the program made of one message follows it; the next message begins anew,
// even in the same moment.
func TestBegins(t *testing.T) {
	at := func(e event.Event) event.Entry { return event.Entry{At: monday, By: ann, Event: e} }
	assert.Equal(t, []bool{true, false, false, true, false, true, false}, record.Begins([]event.Entry{
		at(event.Answered{Step: "length", Said: "5400 2900"}),
		at(event.Answered{Step: "depth", Said: "5400 2900"}),
		at(event.Answered{Step: "diagonals", Said: ".", Offered: true}), // taken as usual
		at(event.Heard{Said: "?"}),
		at(event.Told{}),
		{At: monday.Add(time.Second), By: ann, Event: event.Undone{}},
		{At: monday.Add(time.Second), By: ann, Event: event.Reopened{}},
	}))
}

func TestDifferencesAreOldAgainstNew(t *testing.T) {
	line := func(words ...string) []talk.Reply {
		var out talk.Tell
		for _, w := range words {
			out.Lines = append(out.Lines, talk.P("value", "value", w))
		}
		return []talk.Reply{out}
	}
	table := func(cells ...string) []talk.Reply {
		row := []talk.Phrase{}
		for _, c := range cells {
			row = append(row, talk.P("value", "value", c))
		}
		return []talk.Reply{talk.Show{Rows: [][]talk.Phrase{{talk.P("where.timber")}, row}}}
	}
	for name, c := range map[string]struct {
		old, new []talk.Reply
		want     string
	}{
		"changed":          {line("a", "b", "c"), line("a", "x", "c"), "  b -> x\n"},
		"come":             {line("a"), line("a", "b"), "  nothing -> b\n"},
		"gone":             {line("a", "b"), line("b"), "  a -> nothing\n"},
		"all":              {line("a", "b"), nil, "  a -> nothing\n  b -> nothing\n"},
		"more for fewer":   {line("a", "b", "c", "z"), line("x", "z"), "  a -> x\n  b -> nothing\n  c -> nothing\n"},
		"a row of a table": {table("joists", "9"), table("joists", "10"), "  joists, 9 -> joists, 10\n"},
		"only the level":   {line("a"), line("a"), ""},
	} {
		var out bytes.Buffer
		p := record.NewPrinter(&out, "en", set)
		require.NoError(t, p.Differ(3, []record.Difference{{Seq: 7, At: monday, Zone: "Europe/London", What: "marks", OldBy: []string{"f/1"}, NewBy: []string{"f/2"}, Old: c.old, New: c.new}}))
		assert.Equal(t, "Today's formulas say something else at 1 event of 3:\n7  11 May 2026 08:00  marks (f/1 -> f/2)\n"+c.want, out.String(), name)
	}
	var out bytes.Buffer
	require.NoError(t, record.NewPrinter(&out, "en", set).Differ(12, nil))
	assert.Equal(t, "Today's formulas say the same (12 tellings compared).\n", out.String())
}

// Every kind of event has a word for what was done, and every role one for who.
func TestEveryKindHasAWord(t *testing.T) {
	for _, e := range event.All() {
		assert.True(t, text.For("en").Has("record."+e.Kind()), e.Kind())
	}
	for _, role := range []string{"builder", "second", "follower", "system"} {
		assert.True(t, text.For("en").Has("record."+role), role)
	}
}

// Ways out that fail are said to.
func TestErrorsOfTheOutput(t *testing.T) {
	p := record.NewPrinter(broken{}, "en", set)
	require.ErrorIs(t, p.Title(record.Title{}), io.ErrClosedPipe)
	require.ErrorIs(t, p.Event(record.Item{Begins: true, Entry: event.Entry{At: monday, Event: event.Dropped{}}}), io.ErrClosedPipe)
	require.ErrorIs(t, p.Differ(1, []record.Difference{{}}), io.ErrClosedPipe)
}

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, io.ErrClosedPipe }
